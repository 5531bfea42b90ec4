"""CIEDE2000 against the pairs published with the formula, and against coloraide, which was written without ours."""

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.colour_difference import ciede2000, lab, linear

# Sharma, Wu and Dalal 2005, table 1.
PUBLISHED = """
50 2.6772 -79.7751 50 0 -82.7485 2.0425
50 3.1571 -77.2803 50 0 -82.7485 2.8615
50 2.8361 -74.02 50 0 -82.7485 3.4412
50 -1.3802 -84.2814 50 0 -82.7485 1
50 -1.1848 -84.8006 50 0 -82.7485 1
50 -0.9009 -85.5211 50 0 -82.7485 1
50 0 0 50 -1 2 2.3669
50 -1 2 50 0 0 2.3669
50 2.49 -0.001 50 -2.49 0.0009 7.1792
50 2.49 -0.001 50 -2.49 0.001 7.1792
50 2.49 -0.001 50 -2.49 0.0011 7.2195
50 2.49 -0.001 50 -2.49 0.0012 7.2195
50 -0.001 2.49 50 0.0009 -2.49 4.8045
50 -0.001 2.49 50 0.001 -2.49 4.8045
50 -0.001 2.49 50 0.0011 -2.49 4.7461
50 2.5 0 50 0 -2.5 4.3065
50 2.5 0 73 25 -18 27.1492
50 2.5 0 61 -5 29 22.8977
50 2.5 0 56 -27 -3 31.9030
50 2.5 0 58 24 15 19.4535
50 2.5 0 50 3.1736 0.5854 1
50 2.5 0 50 3.2972 0 1
50 2.5 0 50 1.8634 0.5757 1
50 2.5 0 50 3.2592 0.335 1
60.2574 -34.0099 36.2677 60.4626 -34.1751 39.4387 1.2644
63.0109 -31.0961 -5.8663 62.8187 -29.7946 -4.0864 1.2630
61.2901 3.7196 -5.3901 61.4292 2.248 -4.962 1.8731
35.0831 -44.1164 3.7933 35.0232 -40.0716 1.5901 1.8645
22.7233 20.0904 -46.694 23.0331 14.973 -42.5619 2.0373
36.4612 47.858 18.3852 36.2715 50.5065 21.2231 1.4146
90.8027 -2.0831 1.441 91.1528 -1.6435 0.0447 1.4441
90.9257 -0.5406 -0.9208 88.6381 -0.8985 -0.7239 1.5381
6.7747 -0.2908 -2.4247 5.8714 -0.0985 -2.2286 0.6377
2.0776 0.0795 -1.135 0.9033 -0.0636 -0.5514 0.9082
"""
ROWS = [tuple(map(float, line.split())) for line in PUBLISHED.split("\n") if line]
LABS = st.tuples(st.floats(0, 100), st.floats(-100, 100), st.floats(-100, 100))
PAINTS = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#{:02X}{:02X}{:02X}".format(*rgb))


def test_all_published_pairs_are_here() -> None:
    assert len(ROWS) == 34


@pytest.mark.parametrize("row", ROWS)
def test_the_published_pairs(row: tuple[float, ...]) -> None:
    l1, a1, b1, l2, a2, b2, difference = row
    assert ciede2000((l1, a1, b1), (l2, a2, b2)) == pytest.approx(difference, abs=5e-5)


@given(LABS, LABS)
def test_it_is_the_same_both_ways_and_nothing_only_for_equals(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    assert ciede2000(one, other) == pytest.approx(ciede2000(other, one), abs=1e-9)
    assert ciede2000(one, one) == 0


@given(LABS, LABS)
def test_as_another_library_has_it(one: tuple[float, float, float], other: tuple[float, float, float]) -> None:
    judged = Color("lab-d65", one).delta_e(Color("lab-d65", other), method="2000")
    assert ciede2000(one, other) == pytest.approx(judged, abs=1e-6)


@given(PAINTS)
def test_paints_are_seen_as_another_library_sees_them(paint: str) -> None:
    """To 0.03: ours has the rounded matrix of IEC 61966-2-1."""
    assert lab(linear(paint)) == pytest.approx(tuple(Color(paint).convert("lab-d65").coords()), abs=0.03)


def test_black_and_white_are_the_ends_of_lightness() -> None:
    assert lab(linear("#000000")) == pytest.approx((0, 0, 0), abs=1e-9)
    assert lab(linear("#FFFFFF")) == pytest.approx((100, 0, 0), abs=1e-9)
