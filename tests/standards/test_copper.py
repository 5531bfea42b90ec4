"""Against IEC 60228:2004 tables 1 to 3 and the gauge table of a university's physics department (solid, 20 °C)."""

from math import isclose

import pytest

from labelgen.standards.copper import (
    IEC_60228_OHMS_PER_KM,
    OHM_MM2_PER_METRE,
    PER_KELVIN_IEC_60228,
    at_celsius,
    iec_60228_ohms_per_metre,
    ohms_per_metre,
)

FEET_A_METRE = 1 / 0.3048
GAUGES = {16: 4.016, 18: 6.385, 20: 10.15, 22: 16.14, 24: 25.67, 26: 40.81, 28: 64.9, 30: 103.2}
"""AWG: ohms per 1000 ft."""


def test_resistivity_of_annealed_copper() -> None:
    # IEC 60028:1925.
    assert round(OHM_MM2_PER_METRE, 7) == 0.0172414


@pytest.mark.parametrize(
    ("mm2", "stiff", "flexible"), [(0.5, 36.0, 39.0), (0.75, 24.5, 26.0), (1.0, 18.1, 19.5), (2.5, 7.41, 7.98)]
)
def test_limits_of_cables(mm2: float, stiff: float, flexible: float) -> None:
    # IEC 60228:2004, tables 1, 2 and 3; classes 1 and 2, and 5 and 6, have equal limits at these sizes.
    assert iec_60228_ohms_per_metre(mm2, 1) == iec_60228_ohms_per_metre(mm2, 2) == stiff / 1000
    assert iec_60228_ohms_per_metre(mm2, 5) == iec_60228_ohms_per_metre(mm2, 6) == flexible / 1000


def test_geometry_is_below_every_limit_by_sixteen_parts_in_a_hundred_at_most() -> None:
    for mm2, limits in IEC_60228_OHMS_PER_KM.items():
        for limit in limits:
            assert 1 <= limit / 1000 / (OHM_MM2_PER_METRE / mm2) <= 1.16


@pytest.mark.parametrize("size", [0.14, 0.2, 0.22, 0.25, 0.34])
def test_what_the_standard_does_not_have_is_not_looked_up(size: float) -> None:
    # IEC 60228 begins at 0.5 mm².
    with pytest.raises(ValueError, match="has no"):
        iec_60228_ohms_per_metre(size)
    assert isclose(ohms_per_metre(f"{size} mm2"), OHM_MM2_PER_METRE / size)


def test_there_is_no_class_three() -> None:
    with pytest.raises(ValueError, match="class 3"):
        iec_60228_ohms_per_metre(0.5, 3)  # type: ignore[arg-type]


@pytest.mark.parametrize(("gauge", "per_thousand_feet"), GAUGES.items())
def test_gauges(gauge: int, per_thousand_feet: float) -> None:
    ours = ohms_per_metre(f"{gauge} AWG") * 1000 / FEET_A_METRE
    assert isclose(ours, per_thousand_feet, rel_tol=1e-3 if gauge == 16 else 5e-4)


@pytest.mark.parametrize(
    ("size", "per_km"), [("7/0.2", 78.40), ("16/0.2", 34.30), ("24/0.2", 22.87), ("32/0.2", 17.15), ("1/0.6", 60.98)]
)
def test_strands_by_geometry(size: str, per_km: float) -> None:
    assert isclose(ohms_per_metre(size) * 1000, per_km, abs_tol=0.006)


def test_a_size_in_mm2_takes_the_limit_of_flexible_cores() -> None:
    assert ohms_per_metre("0.5 mm2") == 0.039
    assert isclose(ohms_per_metre("1.5"), 0.0133)


def test_warm_copper_resists_more() -> None:
    # IEC 60028 with 0.00393 per kelvin: 1.2751 at 90 °C, 1.0786 at 40 °C.
    assert isclose(at_celsius(1, 90), 1.2751, abs_tol=1e-4)
    assert isclose(at_celsius(1, 40), 1.0786, abs_tol=1e-4)


@pytest.mark.parametrize(
    ("celsius", "factor"), [(5, 1.064), (10, 1.042), (15, 1.020), (25, 0.980), (40, 0.926), (60, 0.862), (90, 0.781)]
)
def test_factors_printed_with_iec_60228_follow_another_law(celsius: float, factor: float) -> None:
    assert round(1 / (1 + PER_KELVIN_IEC_60228 * (celsius - 20)), 3) == factor
    assert isclose(1 / at_celsius(1, celsius), factor, rel_tol=6e-3)


def test_a_text_that_is_no_size() -> None:
    with pytest.raises(ValueError, match="no wire size"):
        ohms_per_metre("thick")
