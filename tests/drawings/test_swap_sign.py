"""The sign at a pair that may have to be exchanged, on the marker and by itself."""

from dataclasses import replace

import pytest
from drawn_extents import assert_all_inside, cap_height, extent, texts
from small_railway import description, plain_ways, points_railway, strip_plan

from labelgen.drawings.markers.markers import marker_drawings
from labelgen.drawings.markers.swap_sign import swap_sign
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Drawing, Line, Outline, Text
from labelgen.model.look import Look


def sign(number: str, width: float, *, smallest: float = 1.5, scale: float = 1.0) -> list[object]:
    return list(swap_sign(number, Rectangle(20, 7.5, width, 2.5 * scale), smallest=smallest, scale=scale))


def heads(shapes: list[object]) -> list[Outline]:
    return [shape for shape in shapes if isinstance(shape, Outline)]


def test_two_arrows_that_point_against_each_other() -> None:
    upper, lower = heads(sign("5", 10))
    (tip, *back), (other_tip, *other_back) = upper.runs[0], lower.runs[0]
    assert all(tip[0] > x for x, _ in back)
    assert all(other_tip[0] < x for x, _ in other_back)
    assert tip[1] < other_tip[1]
    assert max(y for _, y in upper.runs[0]) < min(y for _, y in lower.runs[0]), "they do not touch"


@pytest.mark.parametrize("width", [5.0, 8.0, 10.0, 13.2])
@pytest.mark.parametrize("number", ["3", "12", "128"])
def test_it_stays_in_its_band(number: str, width: float) -> None:
    shapes = tuple(sign(number, width))
    (field,) = [shape for shape in shapes if isinstance(shape, Box)]
    assert 20 <= field.x < field.x + field.width <= 20 + width
    assert 7.5 <= field.y < field.y + field.height <= 10
    for shape in shapes:
        left, top, right, bottom = extent(shape)
        assert field.x - 1e-9 <= left <= right <= field.x + field.width + 1e-9
        assert field.y - 1e-9 <= top <= bottom <= field.y + field.height + 1e-9


def test_where_there_is_no_room_the_arrows_stand_alone() -> None:
    assert [s.text for s in sign("12", 8.0) if isinstance(s, Text)] == ["12"]
    assert [s.text for s in sign("12", 5.0) if isinstance(s, Text)] == []
    assert len(heads(sign("12", 5.0))) == 2
    assert len(heads(sign("12", 1.8))) == 2


def test_its_number_is_never_lower_than_what_is_asked_for() -> None:
    (text,) = [s for s in sign("5", 20, smallest=2.0, scale=4 / 3) if isinstance(s, Text)]
    assert cap_height(text) == pytest.approx(2.0)
    assert [s for s in sign("5", 20, smallest=2.4) if isinstance(s, Text)] == []


def test_a_number_that_could_be_read_upside_down_has_its_line() -> None:
    assert len([s for s in sign("6", 10) if isinstance(s, Line)]) == 3
    assert len([s for s in sign("5", 10) if isinstance(s, Line)]) == 2


def marked(look: Look) -> list[Drawing]:
    plan = strip_plan("A1", plain_ways(6))
    ways = [replace(way, swap_with={3: 5, 5: 3}.get(way.number, 0)) for way in plan.ways]
    netlist = replace(points_railway(("1",)).netlist(), strips=(replace(plan, ways=tuple(ways)),))
    drawings, problems = marker_drawings(description(strips={"A1": {}}), netlist, look)
    assert problems == []
    return drawings


@pytest.mark.parametrize("look", [Look(), Look(mono=True), Look(smallest_cap=2.5)])
def test_the_marker_shows_it_at_both_ways_and_says_what_it_means(look: Look) -> None:
    for drawing in marked(look):
        assert_all_inside(drawing)
        assert sum("swap if it shorts" in text.text for text in texts(drawing)) == 1
        rounded = [s for s in drawing.shapes if isinstance(s, Box) and s.fill == "#ffffff" and s.radius]
        assert len(rounded) == 2


def test_a_marker_without_a_pair_says_nothing_of_it() -> None:
    netlist = replace(points_railway(("1",)).netlist(), strips=(strip_plan("A1", plain_ways(6)),))
    drawings, _ = marker_drawings(description(strips={"A1": {}}), netlist, Look())
    assert not any("swap" in text.text for drawing in drawings for text in texts(drawing))
