"""Distances from rectangles to strokes and areas. Judge: shapely."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from labelgen.drawings.clearances import (
    Area,
    Around,
    Sieve,
    Spots,
    Stroke,
    clearance,
    clipped,
    disc,
    is_clear,
    point_to_segment,
    to_point,
)
from labelgen.lengths import Point, Rectangle

coordinate = st.floats(-50, 50).map(lambda x: round(x, 3))
points = st.builds(Point, coordinate, coordinate)
lengths = st.floats(0.1, 40).map(lambda x: round(x, 3))
rectangles = st.builds(Rectangle, coordinate, coordinate, lengths, lengths)


def shape(rectangle: Rectangle) -> BaseGeometry:
    return box(rectangle.x, rectangle.y, rectangle.right, rectangle.bottom)


def segment(a: Point, b: Point) -> BaseGeometry:
    return Dot(a.x, a.y) if a == b else LineString([(a.x, a.y), (b.x, b.y)])


@given(rectangles, points, points, st.floats(0, 5))
def test_from_a_stroke(rectangle: Rectangle, a: Point, b: Point, reach: float) -> None:
    expected = shape(rectangle).distance(segment(a, b)) - reach
    assert clearance(rectangle, Stroke(start=a, end=b, reach=reach, what="")) == pytest.approx(expected, abs=1e-6)


@given(rectangles, points, st.floats(0, 5))
def test_from_a_disc(rectangle: Rectangle, a: Point, reach: float) -> None:
    expected = shape(rectangle).distance(Dot(a.x, a.y)) - reach
    assert clearance(rectangle, disc(a, reach, "")) == pytest.approx(expected, abs=1e-9)
    assert to_point(rectangle, a) == pytest.approx(expected + reach, abs=1e-9)


@given(rectangles, rectangles)
def test_from_an_area(one: Rectangle, other: Rectangle) -> None:
    expected = shape(one).distance(shape(other))
    assert clearance(one, Area(rectangle=other, what="")) == pytest.approx(expected, abs=1e-9)


@given(points, points, points)
def test_from_a_point_to_a_segment(point: Point, a: Point, b: Point) -> None:
    assert point_to_segment(point, a, b) == pytest.approx(segment(a, b).distance(Dot(point.x, point.y)), abs=1e-6)


@given(points, points, rectangles)
def test_what_is_left_of_a_segment_in_a_window(a: Point, b: Point, window: Rectangle) -> None:
    expected = segment(a, b).intersection(shape(window))
    left = clipped(a, b, window)
    if left is None:
        assert expected.length < 1e-6
    else:
        assert segment(*left).hausdorff_distance(expected) < 1e-6 if not expected.is_empty else True
        assert segment(*left).length == pytest.approx(expected.length, abs=1e-6)


obstacles = st.one_of(
    st.builds(Stroke, start=points, end=points, reach=st.just(2.0), what=st.just("")),
    st.builds(Area, rectangle=rectangles, what=st.just("")),
)


@given(rectangles, st.lists(obstacles))
def test_a_sieve_says_the_same_as_looking_at_each(rectangle: Rectangle, all_of_them: list[Stroke | Area]) -> None:
    sieve = Sieve(rectangle, all_of_them, 0.8)
    assert list(sieve.too_close(rectangle)) == [o for o in all_of_them if clearance(rectangle, o) < 0.8 - 1e-9]
    assert sieve.passes(rectangle) == is_clear(rectangle, all_of_them, 0.8)


def test_clear_by_just_so_much() -> None:
    rail = Stroke(start=Point(0, 10), end=Point(50, 10), reach=2, what="track main")
    assert is_clear(Rectangle(5, 0, 4, 7), [rail], 1)
    assert not is_clear(Rectangle(5, 0, 4, 7.01), [rail], 1)
    assert is_clear(Rectangle(5, 0, 4, 100), [], 1)


@given(rectangles, st.lists(obstacles, max_size=12), st.floats(0.1, 9), st.sampled_from([1.0, 8.0, 50.0]))
def test_in_cells_it_is_the_same_as_looking_at_each(
    rectangle: Rectangle, all_of_them: list[Stroke | Area], by: float, cell_mm: float
) -> None:
    around = Around(all_of_them[:5], cell_mm=cell_mm)
    for one in all_of_them[5:]:
        around.add(one)
    near = {id(one) for one in all_of_them if clearance(rectangle, one) < by - 1e-9}
    assert {id(one) for one in around.too_close(rectangle, by)} == near
    assert around.clear(rectangle, by) is not bool(near)


@given(rectangles, st.lists(points, min_size=1, max_size=9), st.floats(0, 3))
def test_which_spot_is_nearest(rectangle: Rectangle, spots: list[Point], by: float) -> None:
    own = spots[0]
    others = [shape(rectangle).distance(Dot(spot.x, spot.y)) for spot in spots if spot != own]
    margin = min(others, default=999.0) - shape(rectangle).distance(Dot(own.x, own.y)) - by
    assume(abs(margin) > 1e-6)
    assert Spots(spots).nearest_is(own, rectangle, by) is (margin > 0)
