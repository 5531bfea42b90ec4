"""Bridges, slips, three-ways, turntables, fans, exits and section lines as they are drawn, judged by shapely."""

from itertools import pairwise
from math import atan2, degrees, pi
from typing import Any

import pytest
from panel_railway import drawn
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from labelgen.drawings.fascia.section_paints import CORES, ON_DARK, ON_LIGHT
from labelgen.drawings.fascia.style import DARK, LIGHT
from labelgen.drawings.fascia.tracks import exit_marks
from labelgen.lengths import Point
from labelgen.model.drawing import Circle, Drawing, Outline
from labelgen.model.look import Look
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.graph import track_graph

SIZE = [200, 120]
WIDTH = 4.2
"""Of a track on squares of 10 mm."""


def lines(drawing: Drawing) -> list[Outline]:
    return [shape for shape in drawing.shapes if isinstance(shape, Outline) and shape.stroke and not shape.fill]


def ink(outline: Outline) -> BaseGeometry:
    return unary_union([LineString(run).buffer(outline.stroke_width / 2) for run in outline.runs])


def track_ink(drawing: Drawing) -> BaseGeometry:
    (outline,) = lines(drawing)
    return unary_union([LineString(run).buffer(outline.stroke_width / 2, quad_segs=32) for run in outline.runs])


def test_the_lower_track_of_a_bridge_stops_on_both_sides_of_the_upper_one() -> None:
    for over in ([[10, 1], [10, 9]], [[7, 2], [13, 8]], [[10, 1], [10, 5], [14, 9]]):
        panel = {"size": SIZE, "tracks": {"main": [[2, 5], [18, 5]], "over": over}, "bridges": [[10, 5]]}
        parts = list(track_ink(drawn(**panel)).geoms)
        upper = LineString([(10 * x, 10 * y) for x, y in over])
        (whole,) = (part for part in parts if part.covers(upper))
        left, right = (part for part in parts if part is not whole)
        assert whole.distance(left) == pytest.approx(1.3, abs=0.02)
        assert whole.distance(right) >= 1.3 - 0.02
        assert (left.bounds[0], right.bounds[2]) == pytest.approx((20 - WIDTH / 2, 180 + WIDTH / 2))


def test_a_diamond_is_two_lines_that_cross() -> None:
    panel = {"size": SIZE, "tracks": {"a": [[2, 5], [18, 5]], "b": [[7, 2], [13, 8]]}, "crossings": [[10, 5]]}
    assert isinstance(track_ink(drawn(**panel)), Polygon)


@pytest.mark.parametrize(("points", "curves"), [({"P1": [10, 5]}, 1), ({"P1": [10, 5], "P2": [10, 5]}, 2)])
def test_a_slip_is_a_lighter_line_across_each_corner_that_a_train_cuts(points: dict[str, Any], curves: int) -> None:
    drawing = drawn(size=SIZE, tracks={"a": [[2, 5], [18, 5]], "b": [[6, 1], [14, 9]]}, points=points)
    tracks, slips = lines(drawing)
    assert slips.stroke_width < 0.6 * tracks.stroke_width
    assert len(slips.runs) == curves
    for start, end in slips.runs:
        assert ink(tracks).covers(Dot(start))
        assert ink(tracks).covers(Dot(end))
        assert ink(slips).distance(Dot(100, 50)) >= WIDTH / 2 + 1.3 - 0.01
        ends = sorted(degrees(atan2(y - 50, x - 100)) % 360 for x, y in (start, end))
        assert ends in (pytest.approx([45, 180]), pytest.approx([0, 225]))


def test_both_side_roads_of_a_three_way_are_set_off() -> None:
    tracks = {"main": [[2, 5], [18, 5]], "up": ["P1", [9, 2], [18, 2]], "down": ["P1", [9, 8], [18, 8]]}
    up, main, down = sorted(
        track_ink(drawn(size=SIZE, tracks=tracks, points={"P1": [6, 5]})).geoms, key=lambda part: part.centroid.y
    )
    assert main.covers(LineString([(20, 50), (180, 50)]))
    assert main.distance(up) == pytest.approx(1.3, abs=0.08)
    assert main.distance(down) == pytest.approx(1.3, abs=0.08)


def test_roads_end_clear_of_a_turntables_ring_and_the_deck_lies_in_line_with_the_first() -> None:
    tracks = {"a": [[2, 6], [8, 6]], "b": [[10, 6], [15, 1]], "c": [[10, 6], [10, 11]]}
    drawing = drawn(size=SIZE, tracks=tracks, turntables={"TABLE": {"at": [10, 6], "radius": 2}})
    (ring,) = (shape for shape in drawing.shapes if isinstance(shape, Circle))
    assert (ring.x, ring.y, ring.radius) == (100, 60, 20)
    rim = Dot(100, 60).buffer(20, quad_segs=64).exterior.buffer(0.35)
    parts = list(track_ink(drawing).geoms)
    assert len(parts) == 4
    assert all(part.distance(rim) == pytest.approx(0.9, abs=0.03) for part in parts)
    (deck,) = (part for part in parts if part.distance(Dot(100, 60)) == 0)
    assert deck.bounds[3] - deck.bounds[1] == pytest.approx(WIDTH)


def test_a_turntable_on_which_no_track_ends_is_not_drawn() -> None:
    drawing = drawn(size=SIZE, tracks={"a": [[2, 6], [8, 6]]}, turntables={"TABLE": {"at": [15, 6]}})
    assert not any(isinstance(shape, Circle) for shape in drawing.shapes)


FAN = {
    "in": [[2, 6], [8, 6]],
    "a": [[8, 6], [12, 3], [17, 3]],
    "b": [[8, 6], [17, 6]],
    "c": [[8, 6], [12, 9], [17, 9]],
}


def sector(drawing: Drawing) -> Polygon:
    (outline,) = (shape for shape in drawing.shapes if isinstance(shape, Outline) and shape.fill == LIGHT.platform)
    return Polygon(outline.runs[0])


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_fan_is_a_sector_that_opens_to_its_roads_with_a_piece_of_track_that_moves(mirrored: bool) -> None:
    tracks = {name: [[20 - x if mirrored else x, y] for x, y in corners] for name, corners in FAN.items()}
    drawing = drawn(size=SIZE, tracks=tracks, fans={"PLATE": [12 if mirrored else 8, 6]})
    parts, plate = list(track_ink(drawing).geoms), sector(drawing)
    assert len(parts) == 4
    (moving,) = (part for part in parts if part.intersects(plate))
    assert moving.covers(LineString([(180, 60), (120, 60)] if mirrored else [(20, 60), (80, 60)]))
    assert all(part.distance(plate) > 0.8 for part in parts if part is not moving)


def test_a_fan_without_a_road_to_its_point() -> None:
    roads = {name: FAN[name] for name in ("a", "b", "c")}
    drawing = drawn(size=SIZE, tracks=roads, fans={"PLATE": [8, 6]})
    assert len(list(track_ink(drawing).geoms)) == 4
    assert sector(drawing).area > 100


def test_a_fan_of_two_roads_opens_between_them_and_of_one_is_not_drawn() -> None:
    two = {name: FAN[name] for name in ("a", "c")}
    plate = sector(drawn(size=SIZE, tracks=two, fans={"PLATE": [8, 6]}))
    assert plate.covers(Dot(90, 60))
    drawing = drawn(size=SIZE, tracks={"b": FAN["b"]}, fans={"PLATE": [8, 6]})
    assert not any(isinstance(shape, Outline) and shape.fill for shape in drawing.shapes)


def test_an_exit_has_an_arrow_that_points_away() -> None:
    panel = {"size": SIZE, "tracks": {"a": [[2, 5], [17, 5]]}, "exits": {"to the sea": [17, 5]}}
    (outline,) = lines(drawn(**panel))
    line, arrow = outline.runs
    assert arrow[1] == line[-1] == (170, 50)
    assert arrow[0][0] == arrow[2][0] < 170
    assert (arrow[0][1] + arrow[2][1]) / 2 == pytest.approx(50)
    (mark,) = exit_marks(Panel.model_validate(panel), track_graph(Panel.model_validate(panel))).values()
    assert (mark.tip, mark.way) == (Point(170, 50), Point(1, 0))


def test_an_exit_that_is_at_no_end_or_runs_off_the_panel_has_none() -> None:
    for at, end in (([10, 5], 17), ([30, 5], 30)):
        panel = {"size": SIZE, "tracks": {"a": [[2, 5], [end, 5]]}, "exits": {"sea": at}}
        (outline,) = lines(drawn(**panel))
        assert len(outline.runs) == 1


CUT: dict[str, Any] = {
    "size": SIZE,
    "tracks": {"a": [[2, 5], [18, 5]], "b": [[2, 8], [18, 8]]},
    "breaks": [[10, 5], [6, 8], [12, 8], [15, 8]],
    "section_colours": "yes",
}


@pytest.mark.parametrize(("style", "paints"), [("light", ON_LIGHT), ("dark", ON_DARK)])
def test_sections_in_colours_of_their_own(style: str, paints: tuple[str, ...]) -> None:
    outlines = lines(drawn(**CUT, style=style))
    assert {outline.stroke for outline in outlines} == set(paints)
    assert [len(outline.runs) for outline in outlines] == [1] * 6


def test_without_being_asked_all_tracks_are_one_path() -> None:
    (outline,) = lines(drawn(**{**CUT, "section_colours": "no"}))
    assert outline.stroke == LIGHT.track
    assert len(outline.runs) == 6


@pytest.mark.parametrize(("style", "ground"), [("light", "#FFFFFF"), ("dark", None)])
def test_in_black_and_white_sections_differ_by_the_form_of_their_lines(style: str, ground: str | None) -> None:
    drawing = drawn(**CUT, style=style, look=Look(mono=True))
    assert len({outline.stroke for outline in lines(drawing)}) == 1
    cores = [shape for shape in drawing.shapes if isinstance(shape, Outline) and shape.fill]
    assert len(cores) == len(CORES) - 1
    tracks = unary_union([ink(outline) for outline in lines(drawing)])
    for core in cores:
        assert ground is None or core.fill == ground
        assert core.fill != DARK.track
        for run in core.runs:
            assert tracks.covers(Polygon(run).buffer(-0.01))
    areas = sorted(round(sum(Polygon(run).area for run in core.runs) / _length(core), 2) for core in cores)
    assert len(set(areas)) == len(cores)


def _length(core: Outline) -> float:
    xs = [x for run in core.runs for x, _ in run]
    return max(xs) - min(xs)


def test_a_dashed_core_has_pieces_of_one_length_also_round_a_corner() -> None:
    tracks = {f"t{n}": [[2, 2 + 2 * n], [10, 2 + 2 * n], [12, 3 + 2 * n], [18, 3 + 2 * n]] for n in range(5)}
    drawing = drawn(size=SIZE, tracks=tracks, section_colours="yes", look=Look(mono=True))
    cores = [shape for shape in drawing.shapes if isinstance(shape, Outline) and shape.fill]
    several = [core for core in cores if len(core.runs) > 3]
    assert len(several) >= 2
    for core in several:
        areas = [Polygon(run).area for run in core.runs]
        assert max(areas) - min(areas) < 0.25 * max(areas)
        starts = [min(x for x, _ in run) for run in core.runs]
        steps = [b - a for a, b in pairwise(sorted(starts))]
        assert max(steps) < 1.6 * min(steps)


def test_a_dot_is_a_disc() -> None:
    tracks = {f"t{n}": [[2, 2 + 2 * n], [18, 2 + 2 * n]] for n in range(5)}
    drawing = drawn(size=SIZE, tracks=tracks, section_colours="yes", look=Look(mono=True))
    cores = [shape for shape in drawing.shapes if isinstance(shape, Outline) and shape.fill]
    dots = [Polygon(run) for core in cores for run in core.runs if Polygon(run).length < 10]
    assert dots
    assert any(dot.area == pytest.approx(pi * (0.55 * WIDTH / 2) ** 2, rel=0.03) for dot in dots)
