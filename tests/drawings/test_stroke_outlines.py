"""The edges of thick lines, judged by shapely's buffers."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from labelgen.drawings.fascia.stroke_outlines import stroke_outline

PLACES = st.tuples(st.integers(0, 12), st.integers(0, 12)).map(lambda at: (at[0] * 10.0, at[1] * 10.0))


def zigzags() -> st.SearchStrategy[list[tuple[float, float]]]:
    """Lines that never cross themselves: always further to the right."""
    steps = st.lists(st.tuples(st.sampled_from([10.0, 15.0, 40.0]), st.integers(-3, 3)), min_size=1, max_size=6)

    def line(moves: list[tuple[float, int]]) -> list[tuple[float, float]]:
        found = [(0.0, 0.0)]
        for across, down in moves:
            found.append((found[-1][0] + across, found[-1][1] + 10.0 * down))
        return found

    return steps.map(line)


@given(zigzags(), st.sampled_from([0.5, 2.0, 4.2]))
def test_the_outline_encloses_what_a_round_pen_covers(run: list[tuple[float, float]], width: float) -> None:
    outline = Polygon(stroke_outline(run, width))
    covered = LineString(run).buffer(width / 2, quad_segs=64)
    assert outline.is_valid
    assert outline.symmetric_difference(covered).area <= 0.02 * (covered.length)


def test_a_dot_is_a_disc() -> None:
    disc = Polygon(stroke_outline([(3, 4), (3, 4)], 2))
    assert disc.area == pytest.approx(pi, rel=0.02)
    assert disc.centroid.distance(Point(3, 4)) == pytest.approx(0, abs=1e-9)


def test_corners_on_short_pieces_stay_within_the_pen() -> None:
    run = [(0.0, 0.0), (10.0, 0.0), (10.5, 0.5), (10.5, 8.0)]
    outline = Polygon(stroke_outline(run, 4)).buffer(0)
    assert LineString(run).buffer(2.05).contains(outline)


def test_a_corner_twice_is_one() -> None:
    assert stroke_outline([(0, 0), (5, 0), (5, 0), (9, 0)], 1) == stroke_outline([(0, 0), (5, 0), (9, 0)], 1)
