"""The mimic diagram of a panel, judged by shapely: what touches what, what is continuous and what is set off."""

from itertools import combinations
from math import atan2, degrees, hypot
from typing import Any

import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st
from panel_railway import (
    HARBOUR,
    drawn,
    fascia,
    harbour_levers,
    ink_of,
    lever,
    text_ink,
    text_of,
    texts,
    track_ink,
    track_lines,
)
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot

from labelgen.drawings.fascia.style import DARK, LIGHT, MONO, MONO_DARK, Style
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline
from labelgen.model.look import Look
from labelgen.typefaces import BOLD, FACES

TURNOUT: dict[str, Any] = {
    "size": [200, 100],
    "tracks": {"main": [[2, 5], [18, 5]], "loop": ["P1", [10, 8], [18, 8]]},
    "points": {"P1": [7, 5]},
}


@pytest.fixture(scope="module")
def harbour() -> Drawing:
    return drawn(harbour_levers(), **HARBOUR)


def test_it_is_as_large_as_the_panel_and_nothing_leaves_it(harbour: Drawing) -> None:
    assert (harbour.width, harbour.height) == (360, 160)
    edge = box(0, 0, 360, 160).buffer(1e-6)
    assert all(edge.covers(ink_of(shape)) for shape in harbour.shapes)


def test_the_trim_line_is_the_edge(harbour: Drawing) -> None:
    trim = harbour.shapes[-1]
    assert isinstance(trim, Box)
    assert ink_of(trim).bounds == pytest.approx((0, 0, 360, 160))


def test_no_text_touches_a_track_a_nut_a_platform_or_another_text(harbour: Drawing) -> None:
    tracks = track_ink(harbour)
    nuts = [Dot(s.x, s.y).buffer(5) for s in harbour.shapes if isinstance(s, Circle)]
    platforms = [ink_of(s) for s in harbour.shapes if isinstance(s, Box) and s.fill and s.width < 360]
    written = {text: text_ink(text) for text in texts(harbour)}
    for text, ink in written.items():
        assert tracks.distance(ink) > 0.5, text
        assert all(nut.distance(ink) > 0.5 for nut in nuts), text
        if not text.text.startswith("Platform"):
            assert all(platform.distance(ink) > 0.5 for platform in platforms), text
    assert all(one.distance(other) > 0.5 for one, other in combinations(written.values(), 2))


def test_every_lever_has_its_number_at_its_hole_and_a_crossover_a_smaller_one_at_its_other_end(
    harbour: Drawing,
) -> None:
    bold = [text for text in texts(harbour) if text.face == BOLD and text.text != "Marram Quay"]
    said = sorted(text.text for text in bold)
    assert said == sorted(["1", "2", "3", "4", "5", "5", "6", "7", "8", "9", "11", "12"])
    squares = {**HARBOUR["points"], **HARBOUR["sections"]}
    holes = {plan.id: squares[plan.devices[0]] for plan in harbour_levers()}
    large = {text.text: text for text in sorted(bold, key=lambda text: text.size)}
    assert len({text.size for text in large.values()}) == 1
    for id_, (x, y) in holes.items():
        others = [Dot(10 * a, 10 * b) for other, (a, b) in holes.items() if other != id_]
        own = text_ink(large[id_]).distance(Dot(10 * x, 10 * y))
        assert 5 <= own < 9
        assert all(text_ink(large[id_]).distance(other) > own for other in others)
    (small,) = (text for text in bold if text.size < large["5"].size)
    assert text_ink(small).distance(Dot(220, 80)) < 5


def test_numbers_that_turn_into_others_upside_down_are_underlined_and_all_stand_on_one_height(harbour: Drawing) -> None:
    lines = [shape for shape in harbour.shapes if isinstance(shape, Line)]

    def has_line(number: str) -> bool:
        text = text_of(harbour, number)
        return any(line.y1 == line.y2 and 0 < line.y1 - text.y < 2 and line.x1 < text.x < line.x2 for line in lines)

    assert [number for number in "123456789" if has_line(number)] == ["6", "9"]
    assert text_of(harbour, "9").y == pytest.approx(text_of(harbour, "8").y)


def test_sections_and_names_and_title_are_written(harbour: Drawing) -> None:
    said = {text.text for text in texts(harbour)}
    assert said >= {"Marram Quay", "Harbour panel", "Yard", "Quay", "Platform 1", "to Sandhaven", "Goods crossover"}
    number, name = text_of(harbour, "5"), text_of(harbour, "Goods crossover")
    assert name.y == pytest.approx(number.y)


def test_holes_are_drilled_through_the_middle_of_a_cross(harbour: Drawing) -> None:
    holes = [s for s in harbour.shapes if isinstance(s, Circle) and s.stroke]
    assert len(holes) == 11
    assert {hole.radius for hole in holes} == {3.25}
    lines = [s for s in harbour.shapes if isinstance(s, Line)]
    for hole in holes:
        middles = [ln for ln in lines if (ln.x1 + ln.x2) / 2 == hole.x and (ln.y1 + ln.y2) / 2 == hole.y]
        assert sorted((ln.x1 == ln.x2, ln.y1 == ln.y2) for ln in middles) == [(False, True), (True, False)]
        rings = [s for s in harbour.shapes if isinstance(s, Circle) and (s.x, s.y) == (hole.x, hole.y)]
        assert max(ring.radius for ring in rings) > hole.radius


def test_breaks_leave_a_clear_gap_with_a_mark_square_to_it(harbour: Drawing) -> None:
    ink = track_ink(harbour)
    marks = [s for s in harbour.shapes if isinstance(s, Line) and s.colour == LIGHT.accent]
    for (x, y), along in (((195, 80), 0), ((240, 100), 135)):
        assert ink.distance(Dot(x, y)) == pytest.approx(1.3, abs=0.02)
        (mark,) = (m for m in marks if ((m.x1 + m.x2) / 2, (m.y1 + m.y2) / 2) == pytest.approx((x, y)))
        direction = degrees(atan2(mark.y2 - mark.y1, mark.x2 - mark.x1)) % 180
        assert (direction - along) % 180 == pytest.approx(90)
        assert hypot(mark.x2 - mark.x1, mark.y2 - mark.y1) > 6


def test_the_same_description_gives_the_same_drawing(harbour: Drawing) -> None:
    assert drawn(harbour_levers(), **HARBOUR) == harbour


@pytest.mark.parametrize("levers", [(), (lever("1", "P1"),)])
def test_the_normal_road_is_continuous_and_the_reverse_road_set_off(levers: tuple[Any, ...]) -> None:
    ink = track_ink(drawn(levers, **TURNOUT))
    assert ink.covers(LineString([(20, 50), (180, 50)]))
    straight, branch = sorted(ink.geoms, key=lambda part: part.bounds[1])
    if not levers:
        assert straight.distance(branch) == pytest.approx(1.3, abs=0.08)
    else:
        assert straight.distance(branch) > 1.3
        assert branch.distance(Dot(70, 50)) >= 5 + 1.3 - 0.01


def test_a_named_normal_road_is_the_continuous_one() -> None:
    panel = {**TURNOUT, "points": {"P1": {"at": [7, 5], "normal": "loop"}}}
    ink = track_ink(drawn(**panel))
    assert ink.covers(LineString([(20, 50), (70, 50), (100, 80), (180, 80)]))
    assert not ink.covers(Dot(75, 50))


def test_a_road_that_is_reverse_at_both_ends_is_set_off_at_both() -> None:
    panel = {
        "size": [200, 100],
        "tracks": {"up": [[2, 3], [18, 3]], "down": [[2, 6], [18, 6]], "link": ["P1A", "P1B"]},
        "points": {"P1A": [6, 3], "P1B": [9, 6]},
    }
    up, link, down = sorted(track_ink(drawn(**panel)).geoms, key=lambda part: part.centroid.y)
    assert link.distance(up) == pytest.approx(1.3, abs=0.08)
    assert link.distance(down) == pytest.approx(1.3, abs=0.08)


def test_a_very_short_road_is_still_seen() -> None:
    panel = {
        "size": [200, 100],
        "tracks": {"up": [[2, 3], [18, 3]], "down": [[2, 3.5], [18, 3.5]], "link": ["P1A", "P1B"]},
        "points": {"P1A": [6, 3], "P1B": [6.5, 3.5]},
    }
    lines = track_lines(drawn(**panel))
    assert min(line.length for line in lines.geoms) == pytest.approx(0.2 * 5 * 2**0.5)


def test_a_crossing_is_two_lines_and_a_ring_is_one() -> None:
    crossing = {"size": [100, 100], "tracks": {"a": [[1, 1], [9, 9]], "b": [[1, 9], [9, 1]]}}
    assert len(track_lines(drawn(**crossing)).geoms) == 2
    ring = {"size": [100, 100], "tracks": {"a": [[3, 3], [8, 3], [8, 8], [3, 8], [3, 3]]}}
    (line,) = track_lines(drawn(**ring)).geoms
    assert line.is_ring


def test_a_break_at_a_corner_and_one_at_an_end() -> None:
    panel = {"size": [100, 100], "tracks": {"a": [[1, 2], [8, 2], [8, 9]]}, "breaks": [[8, 2], [1, 2]]}
    drawing = drawn(**panel)
    marks = [s for s in drawing.shapes if isinstance(s, Line)]
    slopes = sorted((m.y2 - m.y1) / (m.x2 - m.x1) if m.x1 != m.x2 else 99.0 for m in marks)
    assert slopes == pytest.approx([-1, 99])
    assert track_ink(drawing).distance(Dot(80, 20)) > 0.8


def test_tracks_that_run_off_the_panel_end_inside_it() -> None:
    panel = {
        "size": [100, 60],
        "tracks": {"a": [[-5, 3], [15, 3]], "gone": [[12, 1], [20, 5]], "v": [[8, 5], [12, 3.5], [8, 2]]},
    }
    ink = track_ink(drawn(**panel))
    assert box(2, 2, 98, 58).covers(ink)
    assert ink.distance(Dot(3, 30)) < 1


def test_a_platform_beyond_the_edge_is_cut_off_or_left_out() -> None:
    drawing = drawn(
        size=[100, 60], tracks={"a": [[1, 3], [9, 3]]}, platforms={"Bay": [[5, 4], [14, 5]], "X": [[11, 1], [12, 2]]}
    )
    boxes = [s for s in drawing.shapes if isinstance(s, Box) and s.fill]
    assert len(boxes) == 1
    assert ink_of(boxes[0]).bounds[2] <= 97.5 + 1e-6


def test_only_panels_with_a_size_and_something_on_them_have_a_fascia() -> None:
    assert fascia(tracks=TURNOUT["tracks"], points=TURNOUT["points"])[0] is None
    assert fascia(size=[100, 50])[0] is None
    assert fascia([lever("1")], size=[100, 50])[0] is None


def test_a_row_of_levers_without_any_track() -> None:
    drawing = drawn([lever("2", name="Loop"), lever("10", name="Yard")], size=[100, 50], levers={"row": "3"})
    assert not any(isinstance(shape, Outline) for shape in drawing.shapes)
    assert {text.text for text in texts(drawing)} == {"2", "10", "Loop", "Yard", "Marram Quay"}
    assert sorted(s.x for s in drawing.shapes if isinstance(s, Circle) and s.stroke) == [25, 75]


def test_levers_in_a_row_have_small_numbers_at_their_points_and_sections_too() -> None:
    drawing = drawn(harbour_levers(), **{**HARBOUR, "size": [360, 180]}, levers={"row": "16.5"})
    said = [text.text for text in texts(drawing)]
    assert {n: said.count(n) for n in ("1", "5", "11")} == {"1": 2, "5": 3, "11": 2}


def test_a_hole_at_the_very_edge_is_left_out() -> None:
    drawing, problems = fascia([lever("1")], size=[100, 50], tracks={"a": [[1, 1], [9, 1]]}, levers={"1": [9.8, 3]})
    assert drawing is not None
    assert problems == []  # the check has said off-panel
    assert not any(isinstance(shape, Circle) for shape in drawing.shapes)


def test_a_number_without_a_place_names_what_is_too_close() -> None:
    roads = {f"road {n}": [[0, 2 + 0.9 * n], [20, 2 + 0.9 * n]] for n in range(8)}
    _, (problem,) = fascia([lever("5")], size=[200, 100], tracks=roads, levers={"5": [10, 5]})
    assert problem.code == "text-does-not-fit"
    assert "the number of lever 5 finds no place" in problem.message
    assert "track road " in problem.message


def test_a_section_name_without_a_place_is_a_problem_and_a_lever_name_is_not() -> None:
    roads = {f"road {n}": [[0, 2 + 0.7 * n], [10, 2 + 0.7 * n]] for n in range(8)}
    walls = {"A": [[11, 1], [14.4, 9]], "B": [[15.6, 1], [19, 9]]}
    drawing, problems = fascia(
        [lever("5", name="Engine shed road")],
        size=[200, 100],
        tracks=roads,
        levers={"5": [15, 5]},
        sections={"LONGSECTIONNAME": [5, 4.1]},
        platforms=walls,
    )
    assert [p.message.split(" finds")[0] for p in problems] == ["the name of section LONGSECTIONNAME"]
    assert drawing is not None
    assert "Engine shed road" not in {text.text for text in texts(drawing)}


def test_a_section_beyond_the_edge_is_left_to_the_checks() -> None:
    drawing = drawn(size=[100, 50], tracks={"a": [[1, 3], [9, 3]]}, sections={"YARD": [20, 3]})
    assert "Yard" not in {text.text for text in texts(drawing)}


def test_texts_shrink_where_room_is_small_and_are_a_problem_on_a_track() -> None:
    roads = {"a": [[1, 2], [9, 2]], "b": [[1, 2.77], [9, 2.77]]}
    small = drawn(size=[100, 60], tracks=roads, texts={"SEA": [5, 2.385]})
    free = drawn(size=[100, 60], tracks=roads, texts={"SEA": [5, 4.5]})
    assert text_of(small, "SEA").size < text_of(free, "SEA").size
    _, (problem,) = fascia(size=[100, 60], tracks=roads, texts={"SEA": [5, 2]})
    assert (problem.code, "the text 'SEA'" in problem.message) == ("text-does-not-fit", True)
    _, (problem,) = fascia(size=[100, 60], tracks=roads, texts={"SEA": [0.2, 4.5]})
    assert problem.code == "text-does-not-fit"
    assert fascia(size=[100, 60], tracks=roads, texts={"SEA": [20, 4.5]})[1] == []  # the check has said off-panel


def test_a_text_may_stand_on_a_platform() -> None:
    platform = {"Quay": [[1, 4], [9, 5.6]]}
    drawing = drawn(size=[100, 60], tracks={"a": [[1, 2], [9, 2]]}, platforms=platform, texts={"crane": [5, 4.8]})
    assert text_ink(text_of(drawing, "Quay")).distance(text_ink(text_of(drawing, "crane"))) > 0.3


def test_a_platform_name_runs_upwards_in_a_narrow_box_and_moves_off_a_track() -> None:
    roads = {"a": [[1, 2], [9, 2]]}
    upright = drawn(size=[100, 100], tracks=roads, platforms={"Platform 3": [[4, 3], [4.7, 9]]})
    assert text_of(upright, "Platform 3").turn == -90
    assert box(40, 30, 47, 90).covers(text_ink(text_of(upright, "Platform 3")))
    crossed = {**roads, "b": [[5, 2], [5, 9]]}
    moved = drawn(size=[100, 100], tracks=crossed, points={"P1": [5, 2]}, platforms={"Quay": [[1, 5], [9, 6]]})
    assert track_ink(moved).distance(text_ink(text_of(moved, "Quay"))) > 0.3
    _, (problem,) = fascia(size=[100, 100], tracks=roads, platforms={"Platform 3": [[4, 3], [4.7, 4]]})
    assert "the name of platform 'Platform 3'" in problem.message
    _, (problem,) = fascia(size=[100, 100], tracks=roads, platforms={"Quay": [[1, 1.5], [9, 2.5]]})
    assert problem.code == "text-does-not-fit"


def test_the_title_takes_the_corner_that_is_free_or_is_left_out() -> None:
    low = drawn(size=[200, 80], tracks={"a": [[1, 1.5], [19, 1.5]]})
    assert text_of(low, "Marram Quay").y > 50
    right = drawn(size=[200, 80], tracks={"a": [[1, 1.5], [9, 1.5]], "b": [[1, 7], [19, 7]]})
    assert text_of(right, "Marram Quay").anchor == "end"
    full = drawn(size=[100, 40], tracks={str(n): [[0, 0.4 + n * 0.8], [10, 0.4 + n * 0.8]] for n in range(5)})
    assert texts(full) == []


def test_a_panel_named_like_the_railway_is_named_once() -> None:
    assert [t.text for t in texts(drawn(size=[200, 80], name="Marram Quay", tracks={"a": [[1, 6], [19, 6]]}))] == [
        "Marram Quay"
    ]


def test_what_no_typeface_has_is_said_and_left_out() -> None:
    drawing, problems = fascia(size=[200, 80], tracks={"a": [[1, 6], [19, 6]]}, texts={"quay\U0001f682": [10, 4]})
    assert [p.code for p in problems] == ["character-missing"]
    assert drawing is not None
    assert "quay" in {text.text for text in texts(drawing)}
    _, problems = fascia(size=[200, 80], tracks={"a": [[1, 6], [19, 6]]}, platforms={"\U0001f682": [[1, 3], [5, 4]]})
    assert {p.code for p in problems} == {"character-missing", "text-does-not-fit"}


def test_no_text_is_smaller_than_the_builder_wants() -> None:
    drawing = drawn((lever("1", "P1"),), look=Look(smallest_cap=5), **{**TURNOUT, "texts": {"sea": [10, 2]}})
    assert {text.text for text in texts(drawing)} >= {"1", "sea"}
    assert all(FACES[text.face].cap * text.size >= 5 - 1e-9 for text in texts(drawing))


def test_the_smallest_text_can_be_read_by_leaning_in() -> None:
    drawing = drawn(harbour_levers(), **HARBOUR)
    assert min(FACES[text.face].cap * text.size for text in texts(drawing)) >= 2.18  # 15 minutes of arc at 500 mm


@pytest.mark.parametrize("style", [LIGHT, DARK, MONO, MONO_DARK])
def test_everything_stands_out_from_its_ground(style: Style) -> None:
    """WCAG 2: 4.5 for text (1.4.3), 3 for graphics (1.4.11)."""
    paper = Color(style.paper or "#FFFFFF")
    for ink in (style.ink, style.soft, style.accent):
        assert paper.contrast(ink, method="wcag21") >= 4.5
    assert paper.contrast(style.track, method="wcag21") >= 7
    assert Color(style.platform).contrast(style.soft, method="wcag21") >= 4.5
    assert Color(style.hole).contrast(style.cross, method="wcag21") >= 3


def colours(drawing: Drawing) -> set[str]:
    named = ("colour", "fill", "stroke")
    return {value for shape in drawing.shapes for name in named if (value := getattr(shape, name, None))}


@pytest.mark.parametrize("style", ["light", "dark"])
def test_a_black_and_white_printer_gets_greys_only(style: str) -> None:
    drawing = drawn(harbour_levers(), look=Look(mono=True), **{**HARBOUR, "style": style})
    assert all(c[1:3] == c[3:5] == c[5:7] for c in colours(drawing))


def test_the_dark_style_covers_the_panel_and_the_light_one_spares_the_ink(harbour: Drawing) -> None:
    dark = drawn(harbour_levers(), **{**HARBOUR, "style": "dark"})
    ground = dark.shapes[0]
    assert isinstance(ground, Box)
    assert (ground.width, ground.height, ground.fill) == (360, 160, DARK.paper)
    assert track_ink(harbour).area < 0.15 * 360 * 160


columns, rows = st.integers(1, 23), st.integers(1, 11)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(columns, rows, columns, rows), min_size=1, max_size=6),
    st.lists(st.tuples(columns, rows), max_size=6, unique=True),
    st.sampled_from([8, 10, 15]),
)
def test_no_number_ever_touches_a_track_or_leaves_the_panel(
    lines: list[tuple[int, int, int, int]], holes: list[tuple[int, int]], grid: int
) -> None:
    roads = {f"t{n}": [[a, b], [c, d]] for n, (a, b, c, d) in enumerate(lines)}
    levers = [lever(str(n), name="Loop") for n, _ in enumerate(holes, 1)]
    drawing, problems = fascia(
        levers,
        size=[24 * grid, 12 * grid],
        grid=grid,
        tracks=roads,
        levers={str(n): list(hole) for n, hole in enumerate(holes, 1)},
    )
    assert drawing is not None
    assert {problem.code for problem in problems} <= {"text-does-not-fit"}
    edge = box(0, 0, drawing.width, drawing.height).buffer(1e-6)
    assert all(edge.covers(ink_of(shape)) for shape in drawing.shapes)
    ink = [ink_of(shape) for shape in drawing.shapes if isinstance(shape, Outline)]
    nuts = [Dot(s.x, s.y).buffer(4.99) for s in drawing.shapes if isinstance(s, Circle)]
    written = [text_ink(text) for text in texts(drawing)]
    for text in written:
        assert all(other.distance(text) > 0.5 for other in [*ink, *nuts])
    assert all(one.distance(other) > 0.5 for one, other in combinations(written, 2))
