"""Markers, against a strip in three dimensions: cards are turned, stuck under the board, and must lie on their ways."""

from dataclasses import dataclass, replace
from itertools import pairwise

import networkx as nx
import numpy as np
import pytest
from drawn_extents import assert_all_inside, cap_height, extent, texts
from hypothesis import given, settings
from hypothesis import strategies as st
from small_railway import (
    FUNCTIONS,
    Railway,
    description,
    lever_end,
    plain_ways,
    points_railway,
    strip_plan,
    way_end,
)

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.markers.markers import LONGEST, marker_drawings
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Shape, Text
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, Side, StripPlan, WayPlan
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
    assert len(dashes(panel)) == 1
    bands = [s for s in panel.shapes if isinstance(s, Box) and s.fill and s.height < panel.height]
    assert len(bands) == 3
    assert panel.board == "A"
    assert panel.name == "marker TB1/A to panel"


def dashes(marker: Drawing) -> list[Line]:
    """Of spare ways: faint and level."""
    return [s for s in marker.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.colour == "#9a9a9a"]


def in_cell(marker: Drawing, index: int, pitch: float) -> list[Shape]:
    """The shapes that lie within one cell; 0 is at the left."""
    left = ways_box(marker).x + index * pitch
    return [s for s in marker.shapes if left - 0.1 <= extent(s)[0] and extent(s)[2] <= left + pitch + 0.1]


def said_in(marker: Drawing, index: int, pitch: float) -> str:
    found = [s for s in in_cell(marker, index, pitch) if isinstance(s, Text)]
    return " ".join(text.text for text in sorted(found, key=lambda text: text.y))


def crosses(marker: Drawing, index: int, pitch: float) -> int:
    """Slanting lines in a cell: two make the crossed box of a way that is to be left free."""
    return sum(isinstance(s, Line) and s.x1 != s.x2 and s.y1 != s.y2 for s in in_cell(marker, index, pitch))


@pytest.mark.parametrize(
    ("pitch", "kept"), [(12, "1 kept free"), (10, "1 kept free"), (8, "1 kept free"), (3, "1 kept")]
)
def test_a_kept_way_has_a_crossed_box_and_no_dash(pitch: float, kept: str) -> None:
    """Not like a spare way, on which one may write, and take it."""
    ways = [WayPlan(number=1, state="kept"), WayPlan(number=2, state="spare")]
    for look in (LOOK, Look(mono=True)):
        (_, layout), problems = drawn(strip_plan("A1", ways, pitch=pitch), look=look)
        assert problems == []
        assert said_in(layout, 0, pitch) == kept
        assert [crosses(layout, index, pitch) for index in (0, 1)] == [2, 0]
        (dash,) = dashes(layout)
        assert dash.x1 > ways_box(layout).x + pitch
        assert_all_inside(layout)


def test_a_kept_way_that_is_too_narrow_for_words_has_its_crossed_box_alone() -> None:
    ways = [WayPlan(number=1, state="kept")]
    (_, layout), problems = drawn(strip_plan("A1", ways, pitch=3), look=Look(smallest_cap=2.5))
    assert problems == []
    assert (said_in(layout, 0, 3), crosses(layout, 0, 3)) == ("1", 2)


def test_a_way_that_is_kept_says_what_it_was() -> None:
    (_, layout), _ = drawn(strip_plan("A1", [WayPlan(number=1, state="kept", was="12Ts")], pitch=10))
    assert said_in(layout, 0, 10) == "1 kept, was 12Ts"


@pytest.mark.parametrize(
    ("pitch", "was", "said", "dashed"),
    [
        (10, "5N", "1 was 5N", True),
        (10, "109Ts", "1 was 109Ts", True),
        (8, "109Ts", "1 109Ts", True),
        (3, "109Ts", "1 109Ts", False),
        (3, "A_VERY_LONG_SIGNALS_NAME_12L", "1", True),
        (10, "港", "1", True),
    ],
)
def test_a_freed_way_is_spare_with_its_old_head(pitch: float, was: str, said: str, dashed: bool) -> None:
    """Grey, so that it is not taken for a wire that is there; what could not be read is left out without an error."""
    (_, layout), problems = drawn(strip_plan("A1", [WayPlan(number=1, state="spare", was=was)], pitch=pitch))
    assert problems == []
    assert said_in(layout, 0, pitch) == said
    assert bool(dashes(layout)) == dashed
    old = [text for text in texts(layout) if was in text.text]
    assert {text.colour for text in old} <= {"#4d4d4d"}
    assert all(cap_height(text) >= LOOK.smallest_cap * 0.995 for text in old)
    assert_all_inside(layout)


def bars(marker: Drawing) -> list[tuple[float, float, float]]:
    """Of bridges: y, and from where to where, from the left end of the ways."""
    left = ways_box(marker).x
    lines = [s for s in marker.shapes if isinstance(s, Line) and s.y1 == s.y2 and s.width > 0.35]
    return sorted((s.y1, *sorted((s.x1 - left, s.x2 - left))) for s in lines if s.x1 >= left - 1e-9)


def dots(marker: Drawing) -> list[tuple[float, float]]:
    left = ways_box(marker).x
    return sorted((s.y, s.x - left) for s in marker.shapes if isinstance(s, Circle))


def test_a_bridge_is_a_bar_with_a_dot_at_each_way_that_it_joins() -> None:
    plain = strip_plan("A1", plain_ways(12), pitch=8)
    bridged = replace(plain, bridges=((9, 3, 5),))
    (without, _), _ = drawn(plain)
    assert (bars(without), dots(without)) == ([], [])
    for look in (LOOK, Look(mono=True)):
        (panel, layout), problems = drawn(bridged, look=look)
        assert problems == []
        ((y, start, end),) = bars(layout)
        assert (start, end) == pytest.approx((2.5 * 8, 8.5 * 8))
        assert [x for _, x in dots(layout)] == pytest.approx([2.5 * 8, 4.5 * 8, 8.5 * 8])
        assert {dot_y for dot_y, _ in dots(layout)} == {y}
        assert [x for _, x in dots(panel)] == pytest.approx([3.5 * 8, 7.5 * 8, 9.5 * 8])
        assert {s.fill for s in layout.shapes if isinstance(s, Circle)} == {"#000000"}
        for marker in (panel, layout):
            assert marker.height > without.height
            _check_bars_are_clear_of_texts(marker)
        heads = [[cap_height(t) for t in texts(m) if t.text == "4N"] for m in (without, panel)]
        assert heads[0] == pytest.approx(heads[1]), "heads are as large as on other markers"


def _check_bars_are_clear_of_texts(marker: Drawing) -> None:
    box = ways_box(marker)
    for shape in marker.shapes:
        if isinstance(shape, Circle) or (isinstance(shape, Line) and shape.width > 0.35 and shape.y1 == shape.y2):
            left, top, right, bottom = extent(shape)
            if left < box.x or right > box.x + box.width:
                continue
            for text in texts(marker):
                a, b, c, d = extent(text)
                assert c <= left or right <= a or d <= top or bottom <= b, text.text


def test_bridges_that_share_a_way_are_one_bar() -> None:
    (_, layout), _ = drawn(strip_plan("A1", plain_ways(9), pitch=8, bridges=((1, 4), (6, 7), (4, 9), (6, 7))))
    assert [(start, end) for _, start, end in bars(layout)] == [
        pytest.approx((4, 68)), pytest.approx((44, 52)),
    ]  # fmt: skip
    assert len(dots(layout)) == 5


@given(
    st.lists(st.lists(st.integers(1, 24), min_size=2, max_size=4, unique=True), max_size=6),
    st.sampled_from(["front", "back"]),
    st.booleans(),
)
def test_bars_of_different_bridges_never_touch(bridges: list[list[int]], panel_side: str, same: bool) -> None:
    """What is one piece of metal is read from the bars alone, and is that of the description (networkx the judge)."""
    plan = strip_plan("A1", plain_ways(24), pitch=8, panel_side=panel_side, bridges=tuple(map(tuple, bridges)))
    metal = nx.Graph()
    for ways in bridges:
        metal.add_edges_from(pairwise(ways))
    wanted = {frozenset(piece) for piece in nx.connected_components(metal)}
    for marker in drawn(plan, look=Look(same_way_up=same))[0]:
        where = numbers(marker, plan)
        left = ways_box(marker).x
        joined = []
        for y, start, end in bars(marker):
            on_bar = [x for dot_y, x in dots(marker) if dot_y == y and start - 1e-6 <= x <= end + 1e-6]
            joined.append(frozenset(way for way, at in where.items() if any(abs(at - left - x) < 0.3 for x in on_bar)))
        assert set(joined) == wanted
        assert len(joined) == len(wanted)
        assert_all_inside(marker)
        _check_bars_are_clear_of_texts(marker)


def test_a_bridge_goes_on_from_piece_to_piece_of_a_long_marker() -> None:
    plan = strip_plan("A1", plain_ways(60), pitch=10, bridges=((15, 50), (16, 17)))
    markers, problems = drawn(plan)
    assert problems == []
    for side in ("to panel", "to layout"):
        first, middle, last = [marker for marker in markers if side in marker.name]
        counts = [len(numbers(piece, plan)) for piece in (first, middle, last)]
        spans = [[end - start for _, start, end in bars(piece)] for piece in (first, middle, last)]
        assert sum(counts) == 60
        assert max(spans[0]) == pytest.approx(10 * (counts[0] - 14.5))
        assert spans[1] == pytest.approx([10 * counts[1]])
        assert spans[2] == pytest.approx([10 * (50 - counts[0] - counts[1] - 0.5)])
        assert [len(dots(piece)) for piece in (first, middle, last)] == [3, 0, 1]
        assert len({piece.height for piece in (first, middle, last)}) == 1
    ends = [numbers(markers[0], plan)[n] < numbers(markers[0], plan)[n + 1] for n in (1,)]
    assert ends == [False], "the panel side's marker is read from its high end: its bar leaves at the left"
    ((_, start, _), *_) = bars(markers[0])
    assert start == pytest.approx(0)


def test_a_swap_pair_stays_on_bridged_ways() -> None:
    ways = [
        WayPlan(number=1, state="used", function="track", head="T", code="T", swap="rails", swap_with=2),
        WayPlan(number=2, state="used", function="track-return", head="U", code="U", swap="rails", swap_with=1),
        *plain_ways(4, first=3),
    ]
    (_, layout), problems = drawn(strip_plan("A1", ways, pitch=10, bridges=((1, 3), (2, 5))))
    assert problems == []
    assert (said_in(layout, 0, 10), said_in(layout, 1, 10)) == ("1 T 2", "2 U 1")
    cells = [in_cell(layout, index, 10) for index in (0, 1)]
    tips = [[s for s in cell if isinstance(s, Outline) and len(s.runs) == 1 and len(s.runs[0]) == 3] for cell in cells]
    assert [len(two) for two in tips] == [2, 2], "two arrows in each sign"
    assert [len(bars(layout)), len(dots(layout))] == [2, 4]


@pytest.mark.parametrize("heads", [("11Ts", "12Ts"), ("109Tlg", "66N"), ("5N", "6N")])
@pytest.mark.parametrize("pitch", [8, 9.2, 10, 13.2])
def test_heads_keep_clear_of_the_edges_of_their_cells(pitch: float, heads: tuple[str, str]) -> None:
    """0.6 mm at each side: neighbours' heads are more than a letter's space apart (common practice, no source)."""
    ways = [WayPlan(number=n, state="used", function="track", head=head, code="T") for n, head in enumerate(heads, 1)]
    for marker in drawn(strip_plan("A1", ways, pitch=pitch))[0]:
        box = ways_box(marker)
        for text in texts(marker):
            if text.text in heads:
                left, _, right, _ = extent(text)
                inside = (left - box.x) % pitch, (box.x - right) % pitch
                assert min(inside) >= 0.6
                assert cap_height(text) >= LOOK.smallest_cap


def test_one_head_that_is_too_long_does_not_spoil_the_others() -> None:
    ways = [
        WayPlan(number=1, state="used", function="lamp", head="HARBOURLIGHT-12L", code="L"),
        *plain_ways(12, first=31),
    ]
    (panel, _), problems = drawn(strip_plan("A1", ways, pitch=3))
    assert {problem.message.split("'")[1] for problem in problems} == {"HARBOURLIGHT-12L"}
    assert [text.text for text in texts(panel)].count("11N") == 1


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


def band_fills(marker: Drawing) -> list[str | None]:
    """From left to right, with both halves of a two-coloured band."""
    found = [s for s in marker.shapes if isinstance(s, Box) and s.fill not in (None, "#ffffff")]
    return [s.fill for s in sorted(found, key=lambda s: (s.x, s.y))]


def test_a_wire_of_its_own_colour_has_that_on_the_side_on_which_it_lands() -> None:
    """Yellow is the function's; where wires of several colours land, there is no saying which: the function's again."""
    railway = Railway()
    lever, ways = lever_end("1", "N"), [way_end("A1", number, Side.PANEL) for number in (1, 2, 3)]
    railway.wire("normal", lever, ways[0], stem="1", colour="PK")
    for colour in ("PK", "GN"):
        railway.wire("normal", lever, ways[1], stem="1", colour=colour)
    railway.wire("normal", lever, ways[2], stem="1", colour="")
    plans = [railway.way(number, "normal", stem=str(number), strip="A1") for number in (1, 2, 3)]
    (panel, layout), _ = drawn(strip_plan("A1", plans, pitch=8))
    yellow = "#FDE60E"
    assert band_fills(panel) == [yellow, yellow, "#C892AF"], "way 1 is the last one on the panel side"
    assert band_fills(layout) == [yellow] * 3
    patterns = [
        [s.runs for s in marker.shapes if isinstance(s, Outline) and len(s.runs) > 1] for marker in (panel, layout)
    ]
    assert len(patterns[0]) == len(patterns[1]) == 3


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
