"""Against IEC 60228:2004 tables 1 to 3 and the gauge table of a university's physics department (solid, 20 °C)."""

from math import isclose

import pytest

from labelgen.standards.conductors import copper_area_mm2
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
    ("mm2", "stiff", "flexible"),
    [(0.5, 36.0, 39.0), (0.75, 24.5, 26.0), (1.0, 18.1, 19.5), (1.5, 12.1, 13.3), (2.5, 7.41, 7.98), (4, 4.61, 4.95)],
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
    ("size", "per_km"),
    [
        ("7/0.2", 78.40),
        ("16/0.2", 34.30),
        ("24/0.2", 22.87),
        ("32/0.2", 17.15),
        ("1/0.6", 60.98),
        ("30/0.25", 11.71),
        ("50/0.25", 7.02),
    ],
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
    ("celsius", "factor"),
    [
        (5, 1.064),
        (10, 1.042),
        (15, 1.020),
        (25, 0.980),
        (30, 0.962),
        (40, 0.926),
        (50, 0.893),
        (60, 0.862),
        (75, 0.820),
        (90, 0.781),
        (100, 0.758),
    ],
)
def test_factors_printed_with_iec_60228_follow_another_law(celsius: float, factor: float) -> None:
    assert round(1 / (1 + PER_KELVIN_IEC_60228 * (celsius - 20)), 3) == factor
    assert isclose(1 / at_celsius(1, celsius), factor, rel_tol=6e-3)


@pytest.mark.parametrize(
    ("gauge", "mm2", "per_km"),
    [
        (16, 1.3087, 13.174),
        (18, 0.8230, 20.948),
        (20, 0.5176, 33.309),
        (22, 0.3255, 52.963),
        (24, 0.2047, 84.215),
        (26, 0.1288, 133.907),
        (28, 0.0810, 212.921),
        (30, 0.0509, 338.557),
    ],
)
def test_gauges_in_metric(gauge: int, mm2: float, per_km: float) -> None:
    # ASTM B258 and 1/58, worked out by hand: a short metric column in print says 52.7 and 33.2 for 22 and 20, wrongly.
    assert isclose(copper_area_mm2(f"{gauge} AWG"), mm2, abs_tol=6e-5)
    assert isclose(ohms_per_metre(f"{gauge} AWG") * 1000, per_km, rel_tol=5e-5)


@pytest.mark.parametrize(("more", "times"), [(3, 2.0050), (10, 10.164)])
def test_steps_of_gauges(more: int, times: float) -> None:
    # ASTM B258: each step is 92^(1/39) in diameter.
    for thick in range(16, 30 - more):
        ratio = ohms_per_metre(f"{thick + more} AWG") / ohms_per_metre(f"{thick} AWG")
        assert isclose(ratio, times, rel_tol=1e-4)


@pytest.mark.parametrize(
    ("size", "ohms"), [("7/0.2", 0.78401), ("16/0.2", 0.3430), ("0.5 mm2", 0.390), ("1.5 mm2", 0.133)]
)
def test_ten_metres_of_loop(size: str, ohms: float) -> None:
    # 5 m out and 5 m back: 1 A drops as many volts.
    assert isclose(10 * ohms_per_metre(size), ohms, rel_tol=1e-4)


def test_geometry_understates_flexible_cores() -> None:
    # The limit of 0.5 mm² is 13.7 % above 16/0.2.
    assert isclose(ohms_per_metre("0.5 mm2") / ohms_per_metre("16/0.2"), 1.137, abs_tol=1e-3)


def test_the_older_definition_by_weight_agrees() -> None:
    # NBS Circular 31 (1914): 0.15328 ohm g/m², at 8.89 g/cm³.
    assert isclose(0.15328 / 8.89, OHM_MM2_PER_METRE, rel_tol=3e-5)


def test_a_text_that_is_no_size() -> None:
    with pytest.raises(ValueError, match="no wire size"):
        ohms_per_metre("thick")
