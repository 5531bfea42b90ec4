"""IEC 60063 by the eseries library, and traps that were met in print."""

from fractions import Fraction

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.preferred_values import IEC_60063, next_value_up, rating_for


@pytest.mark.parametrize("name", ["E3", "E6", "E12", "E24"])
def test_the_series_are_those_of_an_independent_library(name: str) -> None:
    assert IEC_60063[name] == tuple(eseries.series(eseries.ESeries[name]))  # type: ignore[index]


@given(st.integers(1, 10**9), st.sampled_from(["E3", "E6", "E12", "E24"]))
def test_the_next_value_up_is_the_least_that_is_no_smaller(milliohms: int, name: str) -> None:
    ohms = Fraction(milliohms, 1000)
    found = next_value_up(ohms, name)  # type: ignore[arg-type]
    tenths = [Fraction(tenth, 10) * Fraction(10) ** power for power in range(-5, 9) for tenth in IEC_60063[name]]  # type: ignore[index]
    assert found == min(value for value in tenths if value >= ohms)


def test_no_resistor_of_nothing() -> None:
    with pytest.raises(ValueError, match="no resistor"):
        next_value_up(Fraction(0))


@pytest.mark.parametrize(
    ("watts", "rating"),
    [(Fraction(346, 10_000), Fraction(1, 8)), (Fraction(22, 100), Fraction(1, 2)), (Fraction(144, 100), Fraction(5))],
)
def test_a_rating_is_at_least_twice_what_is_burnt(watts: Fraction, rating: Fraction) -> None:
    # Common practice on four teaching pages; 1.44 W wants 2.88 W at least, so 5 W.
    assert rating_for(watts) == rating


def test_beyond_the_largest_there_is_none() -> None:
    assert rating_for(Fraction(6)) is None
