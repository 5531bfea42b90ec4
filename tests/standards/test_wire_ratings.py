"""What wire carries: never more than printed tables allow, growing with its copper; and the adiabatic rule."""

from math import isclose

import pytest

from labelgen.standards.conductors import copper_area_mm2
from labelgen.standards.wire_ratings import careful_amps, withstand_amps2_seconds

CHASSIS = {16: 22, 18: 16, 20: 11, 22: 7, 24: 3.5, 26: 2.2, 28: 1.4, 30: 0.86}
"""AWG: amps of chassis wiring, the handbook column of a university's physics department."""
EQUIPMENT = {"7/0.1": 0.5, "7/0.2": 1.4, "16/0.2": 3, "24/0.2": 4.5, "32/0.2": 6}
"""British equipment wire, from memory."""


@pytest.mark.parametrize(("gauge", "amps"), CHASSIS.items())
def test_no_more_than_a_handbook_allows(gauge: int, amps: float) -> None:
    assert careful_amps(copper_area_mm2(f"{gauge} AWG")) <= amps


@pytest.mark.parametrize(("size", "amps"), EQUIPMENT.items())
def test_about_what_equipment_wire_is_sold_for(size: str, amps: float) -> None:
    assert 0.65 * amps <= careful_amps(copper_area_mm2(size)) <= 1.01 * amps


def test_more_copper_carries_more() -> None:
    areas = sorted(copper_area_mm2(size) for size in (*EQUIPMENT, *(f"{gauge} AWG" for gauge in CHASSIS)))
    ratings = [careful_amps(area) for area in areas]
    assert ratings == sorted(ratings)
    assert len(set(ratings)) == len(ratings)


def test_one_pulse_through_thin_wire() -> None:
    # k = 115, 0.22 mm²: 640 A²s; a pulse of 0.234 A²s is far below that.
    assert isclose(withstand_amps2_seconds(0.22), 640, rel_tol=1e-3)
