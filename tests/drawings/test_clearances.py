"""Distances from rectangles to strokes and areas. Judge: shapely."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from labelgen.drawings.clearances import (
    Area,
    Sieve,
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
