"""Markers, against a strip in three dimensions: cards are turned, stuck under the board, and must lie on their ways."""

from dataclasses import dataclass, replace

import numpy as np
import pytest
from drawn_extents import assert_all_inside, cap_height, extent, texts
from hypothesis import given, settings
from hypothesis import strategies as st
from small_railway import FUNCTIONS, description, plain_ways, points_railway, strip_plan

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.markers import LONGEST, marker_drawings
from labelgen.model.drawing import Box, Drawing, Line, Outline, Text
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, StripPlan, WayPlan
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, REGULAR

LOOK = Look()
GEOMETRIES = [
    (way_1, panel_side)
    for way_1, sides in (
        (("left", "right"), ("front", "back")),
        (("front", "back"), ("left", "right")),
    )
    for way_1, panel_side in ((a, b) for a in way_1 for b in sides)
]


def netlist(*strips: StripPlan) -> Netlist:
    return replace(points_railway(("1",)).netlist(), strips=strips)


def drawn(*strips: StripPlan, look: Look = LOOK, **more: object) -> tuple[list[Drawing], list[Problem]]:
    keys: dict[str, object] = {strip.id: {} for strip in strips}
    return marker_drawings(description(strips=keys, **more), netlist(*strips), look)


def ways_box(drawing: Drawing) -> Box:
    """The white box that is the ways part."""
    (box,) = [s for s in drawing.shapes if isinstance(s, Box) and s.fill == "#ffffff" and s.height == drawing.height]
    return box


def numbers(drawing: Drawing, plan: StripPlan) -> dict[int, float]:
    """Way number: the middle of its text along the marker."""
    box = ways_box(drawing)
    wanted = {str(way.number) for way in plan.ways}
    found = [
        (text.text, (extent(text)[0] + extent(text)[2]) / 2)
        for text in texts(drawing)
        if text.face == REGULAR and text.text in wanted and box.x < text.x < box.x + box.width
    ]
    assert len({text for text, _ in found}) == len(found)
    return {int(text): x for text, x in found}


# --- the strip in three dimensions: x to the right, y to the back, z up; the board's plan is seen from above ---
AXES = {
    "left": np.array([-1.0, 0, 0]),
    "right": np.array([1.0, 0, 0]),
    "front": np.array([0, -1.0, 0]),
    "back": np.array([0, 1.0, 0]),
}
FACING_DOWN = np.array([0, 0, -1.0])


@dataclass
class Card:
    """A printed card, stuck to the board's underside, printed face down, so that its foot points to `foot`."""

    middle: np.ndarray
    foot: np.ndarray

    def place(self, u: float, v: float) -> np.ndarray:
        """Where a point of the print, u to the right and v down from the card's middle, comes to lie.

        A card's right hand, its head and the side it faces make a right-handed frame.
        """
        head = -self.foot
        right = np.cross(head, FACING_DOWN)
        return self.middle + u * right + v * self.foot


def way_places(plan: StripPlan) -> dict[int, np.ndarray]:
    """The middle of each way, the strip's own middle at the origin."""
    towards_1 = AXES[plan.way_1]
    half = (len(plan.ways) - 1) / 2
    return {way.number: towards_1 * plan.pitch * (half - index) for index, way in enumerate(plan.ways)}


@pytest.mark.parametrize(("way_1", "panel_side"), GEOMETRIES)
@pytest.mark.parametrize("same_way_up", [False, True])
@settings(max_examples=25)
@given(count=st.integers(2, 12), pitch=st.floats(4, 15))
def test_stuck_on_every_cell_lies_on_its_way(
    same_way_up: bool, way_1: str, panel_side: str, count: int, pitch: float
) -> None:
    plan = strip_plan("A1", plain_ways(count), pitch=pitch, way_1=way_1, panel_side=panel_side)
    markers, problems = drawn(plan, look=Look(same_way_up=same_way_up))
    assert not problems
    assert len(markers) == 2
    panel_out = AXES[panel_side]
    for marker, out in zip(markers, (panel_out, -panel_out), strict=True):
        foot = panel_out if same_way_up else out
        box = ways_box(marker)
        card = Card(middle=out * 20, foot=foot)  # beside the block, 20 mm from its middle line
        centre_u, centre_v = box.x + box.width / 2, marker.height / 2
        places = way_places(plan)
        found = numbers(marker, plan)
        assert set(found) == set(places)
        for number, u in found.items():
            stuck = card.place(u - centre_u, 0)
            along = AXES[way_1]
            assert abs(np.dot(stuck, along) - np.dot(places[number], along)) < 0.15  # a 1 is not drawn in its middle
        _check_arrow(marker, card)
        _check_band(marker, card, out, centre_v)


def _check_arrow(marker: Drawing, card: Card) -> None:
    """The arrow points to the front of the board."""
    heads = [s for s in marker.shapes if isinstance(s, Outline) and len(s.runs) == 1 and len(s.runs[0]) == 3]
    (head,) = [s for s in heads if s.fill == "#000000"]
    tip, left, right = head.runs[0]
    tail = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)
    pointing = card.place(*tip) - card.place(*tail)
    assert np.allclose(pointing / np.linalg.norm(pointing), AXES["front"])


def _check_band(marker: Drawing, card: Card, out: np.ndarray, centre_v: float) -> None:
    """Colours are at the wires' side, numbers at the block's."""
    (band,) = {(s.y + s.height / 2) for s in marker.shapes if isinstance(s, Box) and s.fill not in (None, "#ffffff")}
    assert np.dot(card.place(0, band - centre_v), out) > 20 + 2
    number = next(text for text in texts(marker) if text.text == "1")
    assert np.dot(card.place(0, number.y - centre_v), out) < 20


@pytest.mark.parametrize("panel_side", ["front", "back"])
def test_the_two_markers_read_opposite_ways_up_unless_asked(panel_side: str) -> None:
    plan = strip_plan("A1", plain_ways(6), panel_side=panel_side)
    (panel, layout), _ = drawn(plan)
    order = [sorted(found, key=found.__getitem__) for found in (numbers(panel, plan), numbers(layout, plan))]
    assert order[0] == order[1][::-1]
    (panel, layout), _ = drawn(plan, look=Look(same_way_up=True))
    order = [sorted(found, key=found.__getitem__) for found in (numbers(panel, plan), numbers(layout, plan))]
    assert order[0] == order[1]


@given(count=st.integers(1, 16), pitch=st.floats(3, 15), mono=st.booleans(), same=st.booleans(), cap=st.floats(1.3, 3))
def test_a_marker_is_ways_times_pitch_long_with_dividers_at_the_pitch(
    count: int, pitch: float, mono: bool, same: bool, cap: float
) -> None:
    plan = strip_plan("A1", plain_ways(count), pitch=pitch)
    markers, problems = drawn(plan, look=Look(mono=mono, same_way_up=same, smallest_cap=cap))
    assert len(markers) == 2
    for marker in markers:
        assert_all_inside(marker)
        box = ways_box(marker)
        assert box.width == pytest.approx(count * pitch)
        assert box.x == 0 or box.x + box.width == pytest.approx(marker.width)
        upright = sorted(s.x1 for s in marker.shapes if isinstance(s, Line) and s.y1 == 0 and s.y2 == marker.height)
        inner = [x for x in upright if box.x < x < box.x + box.width - 1e-6]
        assert inner == pytest.approx([box.x + pitch * index for index in range(1, count)])
        assert marker.width <= LONGEST["a4"]
        if not problems:
            assert len(numbers(marker, plan)) == count
            assert all(cap_height(text) >= cap * 0.995 for text in texts(marker))


@pytest.mark.parametrize("pitch", [3, 3.5, 5, 8, 10, 12, 15])
def test_usual_pitches_hold_usual_heads(pitch: float) -> None:
    ways = [*plain_ways(3), *plain_ways(3, first=97), WayPlan(number=200, state="spare")]
    markers, problems = drawn(strip_plan("A1", ways, pitch=pitch))
    assert problems == []
    for marker in markers:
        heads = [cap_height(text) for text in texts(marker) if text.face == BOLD and text.text.endswith(("N", "R"))]
        ways_drawn = [cap_height(t) for t in texts(marker) if t.text in ("1", "2", "3", "98", "99", "97")]
        assert pitch < 8 or min(heads) > max(ways_drawn)


def test_what_stands_in_the_cells() -> None:
    ways = [
        *plain_ways(2),
        WayPlan(number=3, state="used", function="lamp", head="7Lg", stem="7", code="L", mark="g"),
        WayPlan(number=4, state="taken", head="doorbell"),
        WayPlan(number=5, state="spare"),
        WayPlan(number=6, state="kept"),
        WayPlan(number=7, state="used", function="", head="W3", stem="W3"),
    ]
    (panel, _), problems = drawn(strip_plan("A1", ways, shown="TB1/A", supplies=("PULSE", "DC")))
    said = [text.text for text in texts(panel)]
    assert problems == []
    for word in ("1N", "F", "7Lg", "doorbell", "W3", "TB1/A", "PULSE, DC", "to panel", "FRONT"):
        assert said.count(word) == 1
    dashes = [s for s in panel.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.colour == "#9a9a9a"]
    assert len(dashes) == 2
    bands = [s for s in panel.shapes if isinstance(s, Box) and s.fill and s.height < panel.height]
    assert len(bands) == 3
    assert panel.board == "A"
    assert panel.name == "marker TB1/A to panel"


def test_each_cell_has_its_functions_colour() -> None:
    plan = strip_plan("A1", plain_ways(3), pitch=8)
    (_, layout), _ = drawn(plan)
    box = ways_box(layout)
    fills = {
        round((s.x - box.x) / 8) + 1: s.fill
        for s in layout.shapes
        if isinstance(s, Box) and s.fill and s.height < layout.height
    }
    assert fills == {1: "#FDE60E", 2: "#B52E44", 3: "#31397F"}
    assert [FUNCTIONS[name].colour for name in ("normal", "feed", "reverse")] == ["YE", "RD", "BU"]


def test_ambiguous_numbers_have_a_line_below_them() -> None:
    plan = strip_plan("A1", plain_ways(30), pitch=8)
    (panel, layout), _ = drawn(plan)
    for marker in (panel, layout):
        box = ways_box(marker)
        lines = [s for s in marker.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.colour == "#000000"]
        lines = [s for s in lines if box.x < s.x1 < box.x + box.width]
        heads = [way.stem for way in plan.ways if needs_underline(way.stem)]
        ways = [way.number for way in plan.ways if needs_underline(str(way.number))]
        assert len(lines) == len(heads) + len(ways)
        for number, x in numbers(marker, plan).items():
            text = next(t for t in texts(marker) if t.text == str(number) and t.face == REGULAR)
            under = [s for s in lines if s.x1 < x < s.x2 and 0 < s.y1 - text.y < 0.8]
            assert bool(under) == needs_underline(str(number))


def test_a_guessed_pitch_is_noted_on_the_tab_and_a_measured_one_is_not() -> None:
    (guessed, _), _ = drawn(strip_plan("A1", plain_ways(3), pitch=10, measured=False))
    (measured, _), _ = drawn(strip_plan("A1", plain_ways(3), pitch=10, measured=True))
    assert "check pitch 10" in [text.text for text in texts(guessed)]
    assert not any("check" in text.text for text in texts(measured))


@settings(max_examples=30)
@given(
    count=st.integers(20, 200), pitch=st.floats(3, 15), measured=st.booleans(),
    words=st.sampled_from(["british", "american"]), panel_side=st.sampled_from(["front", "back"]),
)  # fmt: skip
def test_long_markers_are_cut_between_ways_into_pieces_that_fit_the_paper(
    count: int, pitch: float, measured: bool, words: str, panel_side: str
) -> None:
    plan = strip_plan("A1", plain_ways(count), pitch=pitch, measured=measured, panel_side=panel_side)
    markers, problems = drawn(plan, words=words)
    assert not problems
    longest = LONGEST["a4" if words == "british" else "letter"]
    for words_of_side in ("to panel", "to layout"):
        pieces = [marker for marker in markers if words_of_side in marker.name]
        held = [sorted(numbers(piece, plan)) for piece in pieces]
        assert [number for piece in held for number in piece] == list(range(1, count + 1))
        for index, (piece, ways) in enumerate(zip(pieces, held, strict=True)):
            assert piece.width <= longest + 1e-9
            said = [text.text for text in texts(piece)]
            assert (f"ways {ways[0]}–{ways[-1]}" in said) == (len(pieces) > 1)
            assert "A1" in said
            _check_tab_end(piece, plan, last=0 < index == len(pieces) - 1)


def _check_tab_end(piece: Drawing, plan: StripPlan, *, last: bool) -> None:
    """The tab is at the low end; that of a last piece at the high end, so that the pieces' ways can meet."""
    found = numbers(piece, plan)
    box = ways_box(piece)
    tab_at_left = box.x > 0
    low_at_left = found[min(found)] <= found[max(found)]
    if len(found) > 1:
        assert tab_at_left == (low_at_left != last)


def test_one_way_alone_is_called_a_way() -> None:
    markers, _ = drawn(strip_plan("A1", plain_ways(2), pitch=200))
    assert [m.name for m in markers[:2]] == ["marker A1 to panel, way 1", "marker A1 to panel, way 2"]


def test_the_paper_that_the_builder_names_counts() -> None:
    plan = strip_plan("A1", plain_ways(30), pitch=8)
    on_a4, _ = drawn(plan, words="american", printing={"paper": "a4"})
    on_letter, _ = drawn(plan, words="american")
    assert len(on_a4) == 2
    assert len(on_letter) == 4


def test_a_pitch_longer_than_the_paper_is_a_problem() -> None:
    markers, problems = drawn(strip_plan("A1", plain_ways(2), pitch=400))
    assert markers == []
    assert [problem.code for problem in problems] == ["label-too-large"]
    assert "400 mm" in problems[0].message


def test_what_cannot_be_read_is_a_problem_and_what_has_no_letters_too() -> None:
    ways = [
        WayPlan(number=1, state="taken", head="loudspeaker of the harbour office"),
        WayPlan(number=2, state="taken", head="港"),
        WayPlan(number=3, state="used", function="lamp", head="HARBOURLIGHT-12L", stem="HARBOURLIGHT-12", code="L"),
    ]
    markers, problems = drawn(strip_plan("A1", ways, pitch=3))
    assert len(markers) == 2
    said = {(problem.code, problem.message.split("'")[1]) for problem in problems}
    assert said == {
        ("text-does-not-fit", "loudspeaker of the harbour office"),
        ("character-missing", "港"),
        ("text-does-not-fit", "HARBOURLIGHT-12L"),
    }
    for marker in markers:
        assert_all_inside(marker)


def test_words_run_upwards_where_they_are_clearly_larger_so() -> None:
    turns = {}
    for pitch in (4, 15):
        (panel, _), problems = drawn(
            strip_plan("A1", [*plain_ways(2), WayPlan(number=3, state="taken", head="doorbell")], pitch=pitch)
        )
        assert problems == []
        turns[pitch] = next(text.turn for text in texts(panel) if text.text == "doorbell")
    assert turns == {4: -90, 15: 0}


def test_a_row_of_heads_is_of_one_size_and_one_way_round() -> None:
    (panel, _), _ = drawn(strip_plan("A1", plain_ways(40), pitch=4))
    heads = [text for text in texts(panel) if text.face == BOLD and text.text.endswith(("N", "R"))]
    assert len({text.turn for text in heads}) == 1
    assert isinstance(heads[0], Text)
    sizes = [cap_height(text) for text in heads]
    assert max(sizes) < 1.35 * min(sizes)
