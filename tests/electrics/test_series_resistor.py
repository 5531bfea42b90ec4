"""Worked examples of resistors before lamps, and a float trap."""

from fractions import Fraction
from math import isclose

import pytest

from labelgen.electrics.series_resistor import SeriesResistor, series_resistor


def resistor(volts: str, lamp: str, milliamps: str, **more: object) -> SeriesResistor:
    return series_resistor(Fraction(volts), Fraction(lamp), Fraction(milliamps) / 1000, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("volts", "lamp", "milliamps", "series", "expected"),
    [
        ("9", "1.8", "5", "E12", (1500, 4.80, 34.56)),  # an encyclopedia's article on such circuits: 1.44 k, 1.5 k
        ("9", "2", "15", "E12", (470, 14.89, 104.3)),  # a course of hobby electronics, chapter on diodes
        ("6", "3", "20", "E24", (150, 20.0, 60.0)),  # a school's page on systems and control
        ("12", "2", "20", "E12", (560, 17.86, 178.6)),
        ("12", "2", "20", "E24", (510, 19.61, 196.1)),
        ("6", "2", "20", "E12", (220, 18.18, 72.7)),
        ("6", "2", "20", "E24", (200, 20.0, 80.0)),  # a hobby page on electronics
        ("9", "1.8", "5", "E24", (1500, 4.80, 34.56)),
        ("12", "1.8", "5", "E24", (2200, 4.636, 47.3)),
        ("24", "2", "10", "E12", (2200, 10.0, 220.0)),
    ],
)
def test_worked_examples(
    volts: str, lamp: str, milliamps: str, series: str, expected: tuple[int, float, float]
) -> None:
    """Expected: ohms chosen, milliamps that they give, milliwatts that they burn."""
    ohms, really, milliwatts = expected
    found = resistor(volts, lamp, milliamps, series=series)
    assert found.ohms == ohms
    assert isclose(found.amps * 1000, really, rel_tol=1e-3)
    assert isclose(found.watts * 1000, milliwatts, rel_tol=1e-3)


@pytest.mark.parametrize(
    ("volts", "lamp", "milliamps", "ohms"),
    [("5", "1.4", "15", 240), ("5", "2.3", "9", 300), ("5", "2.3", "15", 180), ("3", "2.4", "4", 150)],
)
def test_what_plain_floats_get_wrong(volts: str, lamp: str, milliamps: str, ohms: int) -> None:
    assert resistor(volts, lamp, milliamps).ohms == resistor(volts, lamp, milliamps).wanted_ohms == ohms


def test_two_lamps_in_a_row() -> None:
    assert resistor("12", "2", "20", lamps=2).wanted_ohms == 400


def test_a_rating_of_twice_the_power() -> None:
    # 220 mW needs half a watt.
    assert resistor("24", "2", "10", series="E12").rating_watts == Fraction(1, 2)


@pytest.mark.parametrize(("lamps", "milliamps"), [(6, "10"), (1, "0")])
def test_no_voltage_left(lamps: int, milliamps: str) -> None:
    with pytest.raises(ValueError, match="no voltage"):
        resistor("12", "2", milliamps, lamps=lamps)
