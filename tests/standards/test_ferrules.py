"""Truth: the trade page's table for the usual layout wires; the rest are laws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.conductors import LEAST_MM2, MOST_MM2
from labelgen.standards.ferrules import Ferrule, ferrule_for


@pytest.mark.parametrize(
    ("size", "mm2", "bare"), [("7/0.2", 0.25, 6), ("16/0.2", 0.5, 8), ("24/0.2", 0.75, 8), ("32/0.2", 1.0, 8)]
)
def test_the_usual_wires(size: str, mm2: float, bare: int) -> None:
    assert ferrule_for(size) == Ferrule(mm2=mm2, bare_mm=bare)


# Common practice, no source: what is sold for American gauges.
@pytest.mark.parametrize(
    ("size", "mm2"),
    [("24 AWG", 0.25), ("22 AWG", 0.34), ("20 AWG", 0.5), ("18 AWG", 1), ("16 AWG", 1.5), ("14 AWG", 2.5)],
)
def test_american_gauges(size: str, mm2: float) -> None:
    ferrule = ferrule_for(size)
    assert ferrule is not None
    assert ferrule.mm2 == mm2


def test_large_ones_take_10_mm_of_bare_wire() -> None:
    assert ferrule_for("2.5 mm2") == Ferrule(mm2=2.5, bare_mm=10)


def test_a_solid_wire_takes_none() -> None:
    assert ferrule_for("1/0.6") is None


@pytest.mark.parametrize("size", ["", "thick", "99 mm2"])
def test_what_is_no_size_takes_none(size: str) -> None:
    assert ferrule_for(size) is None


def test_as_it_is_printed() -> None:
    assert Ferrule(mm2=1.0, bare_mm=8).notation == "1 mm²"
    assert Ferrule(mm2=0.75, bare_mm=8).notation == "0.75 mm²"


@given(st.floats(LEAST_MM2, MOST_MM2))
def test_every_layout_wire_has_a_ferrule_that_holds_it(mm2: float) -> None:
    ferrule = ferrule_for(f"{mm2:.6f} mm2")
    assert ferrule is not None
    assert mm2 <= ferrule.mm2 * 1.0501
    assert 6 <= ferrule.bare_mm <= 10
