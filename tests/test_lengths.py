"""Lengths are rounded up, never down."""

from hypothesis import given
from hypothesis import strategies as st

from labelgen.lengths import POINTS_PER_MM, Point, Rectangle, rectilinear, rounded_up


def test_a_point_of_a_pdf_is_a_72nd_of_an_inch() -> None:
    """ISO 32000-1, 8.3.2.3; an inch is 25.4 mm."""
    assert POINTS_PER_MM * 25.4 == 72


@given(st.floats(0, 100_000), st.floats(0.5, 500))
def test_rounding_goes_up_by_less_than_a_step_and_a_millimetre(length: float, step: float) -> None:
    rounded = rounded_up(length, step)
    assert length - 1e-6 * max(1, length) <= rounded < length + step + 1


def test_a_multiple_stays() -> None:
    assert [rounded_up(x, 50) for x in (0, 50, 50.0000000001, 50.1, 649.9999999999)] == [0, 50, 50, 100, 650]
    assert rounded_up(3 * 0.1 * 10, 0.3) == 3


def test_wires_run_along_the_frame() -> None:
    assert rectilinear(Point(1, 2), Point(4, -2)) == 7


def test_touching_rectangles_do_not_overlap() -> None:
    left = Rectangle(0, 0, 10, 10)
    assert not left.overlaps(Rectangle(10, 0, 10, 10))
    assert left.overlaps(Rectangle(9.9, 9.9, 10, 10))
    assert left.contains(left.inset(1))
    assert not left.inset(1).contains(left)
