"""Strips in tiers, fixing holes, test points, heads in two lines, and the pins of plugs, as their markers show them."""

from dataclasses import replace

import pytest
from drawings.drawn_extents import assert_all_inside, cap_height, extent, texts
from drawings.small_railway import description, plain_ways, points_railway, strip_plan
from hypothesis import given
from hypothesis import strategies as st
from wiring.wiring_builder import described, netlist_of

from labelgen.drawings.markers.markers import marker_drawings
from labelgen.model.drawing import Box, Circle, Drawing, Line, Text
from labelgen.model.look import Look
from labelgen.model.netlist import StripPlan, WayPlan
from labelgen.standards.legibility import HEADS_CAP_MM


def drawn(*strips: StripPlan, look: Look | None = None) -> list[Drawing]:
    netlist = replace(points_railway(("1",)).netlist(), strips=strips)
    keys: dict[str, object] = {strip.id: {} for strip in strips}
    drawings, problems = marker_drawings(description(strips=keys), netlist, look or Look())
    assert problems == []
    return drawings


def ways_box(drawing: Drawing) -> Box:
    return next(s for s in drawing.shapes if isinstance(s, Box) and s.fill == "#ffffff" and s.height == drawing.height)


def middles(drawing: Drawing) -> dict[str, float]:
    """Way number: the middle of its text, from the left end of the ways."""
    box = ways_box(drawing)
    cells = [text for text in texts(drawing) if box.x < text.x < box.x + box.width and text.text.isdigit()]
    return {text.text: (extent(text)[0] + extent(text)[2]) / 2 - box.x for text in cells}


def crosses(drawing: Drawing) -> list[float]:
    """x of the fixing holes: the upright arm of each cross, as short as the level one."""
    return [
        shape.x1 for shape in drawing.shapes
        if isinstance(shape, Line) and shape.x1 == shape.x2 and 1.8 < shape.y2 - shape.y1 < 2.0
    ]  # fmt: skip


def test_each_row_of_a_strip_in_tiers_has_its_two_markers() -> None:
    plan = strip_plan("A1", plain_ways(12), tiers=2, pitch=10.0)
    found = drawn(plan)
    assert [drawing.name for drawing in found] == [
        "marker A1 to panel, row 1", "marker A1 to layout, row 1",
        "marker A1 to panel, row 2", "marker A1 to layout, row 2",
    ]  # fmt: skip
    for drawing, first in zip(found, (1, 1, 7, 7), strict=True):
        assert ways_box(drawing).width == pytest.approx(60)
        assert sorted(middles(drawing), key=int) == [str(number) for number in range(first, first + 6)]
        assert_all_inside(drawing)
    upper, lower = middles(found[2]), middles(found[0])
    assert [upper[str(n + 6)] for n in range(1, 7)] == pytest.approx([lower[str(n)] for n in range(1, 7)], abs=0.2)
    said = [[text.text for text in texts(drawing)] for drawing in found]
    assert ["PULSE" in words for words in said] == [True, True, False, False]


def test_a_bridge_within_a_row_is_a_bar_and_one_between_rows_is_said() -> None:
    plan = strip_plan("A1", plain_ways(12), tiers=2, pitch=10.0, bridges=((2, 4), (1, 7)))
    first, _, second, _ = drawn(plan)
    dots = [[shape for shape in drawing.shapes if isinstance(shape, Circle)] for drawing in (first, second)]
    assert [len(each) for each in dots] == [3, 1]
    for drawing in (first, second):
        assert "bridge 1 + 7" in [text.text for text in texts(drawing)]


@given(count=st.integers(2, 12), pitch=st.floats(6, 14), gap=st.floats(0.1, 30))
def test_fixing_holes_beyond_the_ways_are_as_far_apart_as_measured(count: int, pitch: float, gap: float) -> None:
    fixing = count * pitch + 2 * gap
    for drawing in drawn(strip_plan("A1", plain_ways(count), pitch=pitch, fixing=fixing)):
        left, right = sorted(crosses(drawing))
        assert right - left == pytest.approx(fixing)
        box = ways_box(drawing)
        assert (left + right) / 2 == pytest.approx(box.x + box.width / 2)
        assert_all_inside(drawing)


@pytest.mark.parametrize("share", [0.3, 0.5, 0.62])
def test_fixing_holes_among_the_ways_are_crosses_beside_the_numbers(share: float) -> None:
    plan = strip_plan("A1", plain_ways(10), pitch=8.0, fixing=80 * share)
    for drawing in drawn(plan):
        left, right = sorted(crosses(drawing))
        assert right - left == pytest.approx(80 * share)
        for text in texts(drawing):
            a, top, b, _ = extent(text)
            if ways_box(drawing).x < text.x and text.text.isdigit() and top < 12:
                assert all(b < x - 0.9 or a > x + 0.9 for x in (left, right)), text.text
        assert len(middles(drawing)) == 10


def test_a_hole_over_a_way_moves_its_number_aside_and_no_other() -> None:
    plan = strip_plan("A1", plain_ways(10), pitch=8.0, fixing=56.0)  # over the middles of ways 2 and 9
    drawing = drawn(plan)[1]
    found = middles(drawing)
    aside = {number for number, x in found.items() if abs(x - (int(number) - 0.5) * 8.0) > 0.5}
    assert aside == {"2", "9"}


@pytest.mark.parametrize("pitch", [4.5, 8.0, 12.0])
def test_a_test_point_has_a_ring_with_a_dot_that_meets_no_text(pitch: float) -> None:
    ways = [replace(way, test=way.number == 3) for way in plain_ways(6)]
    for drawing in drawn(strip_plan("A1", ways, pitch=pitch)):
        ring, dot = (shape for shape in drawing.shapes if isinstance(shape, Circle))
        assert (ring.x, ring.y) == (dot.x, dot.y)
        assert dot.radius < ring.radius
        box = ways_box(drawing)
        index = (ring.x - box.x) // pitch
        assert index == (2 if middles(drawing)["1"] < middles(drawing)["6"] else 3)
        for text in texts(drawing):
            a, top, b, foot = extent(text)
            clear = (b, ring.x - ring.radius), (ring.x + ring.radius, a), (foot, ring.y - ring.radius)
            assert any(one <= other + 1e-6 for one, other in (*clear, (ring.y + ring.radius, top))), text.text
        assert "◉ test point" in [text.text for text in texts(drawing)]


def test_a_head_too_long_for_one_line_stands_in_two() -> None:
    way = WayPlan(number=1, state="used", function="lamp", head="SIGNAL12Lg", stem="SIGNAL12", code="L", mark="g")
    for drawing in drawn(strip_plan("A1", [way, *plain_ways(2, first=2)], pitch=8.0)):
        first, second = (next(t for t in texts(drawing) if t.text == word) for word in ("SIGNAL12", "Lg"))
        assert first.y < second.y
        assert cap_height(first) >= 1.3
        assert_all_inside(drawing)


PLUGGED = """
boards: {West: {at: [0, 0]}, East: {at: [1200, 0], shown: Throat}}
plugs: {J1: {boards: [West, East], pins: 9, keep_empty: [4]}}
supplies: {PULSE: {kind: pulse, board: West, pins: 2}}
strips: {S1: {board: West}, S3: {board: East}}
panels: {QUAY: {board: West}}
points: {P5: {board: West}, P6: {board: East}}
"""


def pin_markers(railway: str = PLUGGED) -> list[Drawing]:
    drawings, problems = marker_drawings(described(railway), netlist_of(railway), Look())
    assert problems == []
    return [drawing for drawing in drawings if drawing.name.startswith("pin marker")]


def in_order(drawing: Drawing) -> list[str]:
    box = ways_box(drawing)
    words = [t for t in texts(drawing) if t.x > box.x and not t.text.isdigit() and isinstance(t, Text)]
    return [text.text for text in sorted(words, key=lambda text: (round(text.x), text.y))]


def test_a_plug_has_a_pin_marker_on_each_of_its_boards() -> None:
    west, east = pin_markers()
    assert [(drawing.name, drawing.board) for drawing in (west, east)] == [
        ("pin marker J1 on West", "West"), ("pin marker J1 on Throat", "East"),
    ]  # fmt: skip
    for drawing, there in ((west, "to Throat"), (east, "to West")):
        assert there in [text.text for text in texts(drawing)]
        assert in_order(drawing) == ["6N", "6F", "6R", "kept", "free", "F", "F", "C", "C"]
        assert sorted(middles(drawing).values()) == list(middles(drawing).values())
        assert len(middles(drawing)) == 9
        # F takes pins 5 and 6, C 7 and 8: joined by a bar with two dots each.
        assert sum(isinstance(shape, Circle) for shape in drawing.shapes) == 4


def test_a_long_pin_marker_is_cut_into_pieces_of_pins() -> None:
    found = pin_markers(PLUGGED.replace("pins: 9", "pins: 60"))
    assert len(found) == 4
    assert found[0].name == "pin marker J1 on West, pins 1–30"


def with_heads(*heads: str, **more: object) -> StripPlan:
    ways = [
        WayPlan(number=n, state="used", function="normal", head=head, stem=head[:-1], code=head[-1:])
        for n, head in enumerate(heads, 1)
    ]
    return strip_plan("A1", ways, **more)


def heads_of(drawing: Drawing, plan: StripPlan) -> dict[str, Text]:
    wanted = {way.head for way in plan.ways}
    return {text.text: text for text in texts(drawing) if text.text in wanted and text.face.endswith("Bold")}


@pytest.mark.parametrize("pitch", [3.8, 5.0, 6.0, 8.0, 10.0, 12.0])
@pytest.mark.parametrize("heads", [("1N", "1R", "2N", "2R"), ("12N", "112R", "16R", "11N"), ("107Lg", "F", "1N", "1R")])
def test_heads_are_read_from_half_a_metre_where_the_pitch_leaves_room(pitch: float, heads: tuple[str, ...]) -> None:
    """NUREG-0700: 15 minutes of arc at 500 mm are 2.18 mm. One long head among short ones may be a little lower."""
    plan = with_heads(*heads, pitch=pitch)
    for drawing in drawn(plan):
        assert_all_inside(drawing)
        found = heads_of(drawing, plan)
        assert found.keys() == set(heads)
        lower = {head for head, text in found.items() if cap_height(text) < HEADS_CAP_MM - 1e-6}
        assert lower <= {max(heads, key=len)}
        assert drawing.height <= 14
        assert (drawing.height > 10) <= (found[heads[0]].turn == -90), "only what runs upwards makes it higher"


def test_all_pieces_and_both_sides_of_a_strip_are_of_one_height() -> None:
    heads = [f"{n}{code}" for n in range(101, 131) for code in "NR"]
    found = drawn(with_heads(*heads, pitch=5.0))
    assert len(found) > 2
    assert len({drawing.height for drawing in found}) == 1
    assert found[0].height > 10


def test_what_the_builder_asks_for_is_the_measure_of_heads_too() -> None:
    plan = with_heads("112N", "112R", "113N", "113R", pitch=5.0)
    for drawing in drawn(plan, look=Look(smallest_cap=1.0)):
        assert drawing.height == 10
        assert all(cap_height(text) < HEADS_CAP_MM for text in heads_of(drawing, plan).values())


def test_many_supplies_stand_on_several_lines_of_the_tab() -> None:
    supplies = ("AC", "CAB1", "CAB2", "CAB3", "CAB4", "DC", "PULSE")
    for drawing in drawn(strip_plan("A1", plain_ways(6), supplies=supplies, measured=False)):
        assert_all_inside(drawing)
        said = [text for text in texts(drawing) if any(one in text.text for one in supplies)]
        assert " ".join(text.text for text in said) == ", ".join(supplies)
        assert len(said) > 1
        boxes = [extent(text) for text in texts(drawing)]
        for n, (left, top, right, bottom) in enumerate(boxes):
            for other in boxes[:n]:
                assert left >= other[2] or other[0] >= right or top >= other[3] or other[1] >= bottom


def test_what_is_said_besides_takes_another_column_when_it_is_much() -> None:
    supplies = tuple(f"SUPPLY-{n}" for n in range(1, 12))
    (drawing, _) = drawn(strip_plan("A1", plain_ways(6), supplies=supplies))
    columns = {round(text.x, 3) for text in texts(drawing) if "SUPPLY" in text.text}
    assert len(columns) == 2
    assert_all_inside(drawing)


@pytest.mark.parametrize(("way", "pitch"), [(4, 5.0), (5, 5.0), (4, 8.0), (5, 8.0), (12, 10.0), (13, 10.0)])
def test_a_test_points_sign_keeps_clear_of_a_fixing_hole_and_of_its_ways_number(way: int, pitch: float) -> None:
    """A hole between two ways, and a test point at either side of it."""
    count, low = (10, 4) if way < 10 else (16, 12)
    ways = [replace(plain, test=plain.number == way) for plain in plain_ways(count)]
    for drawing in drawn(strip_plan("A1", ways, pitch=pitch, fixing=abs(count - 2 * low) * pitch)):
        box = ways_box(drawing)
        rings = [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.stroke]
        (ring,) = [shape for shape in rings if box.x < shape.x < box.x + box.width]
        for x in crosses(drawing):
            assert abs(x - ring.x) >= 0.95 + ring.radius
        number = next(text for text in texts(drawing) if text.text == str(way) and text.x > box.x)
        left, _, right, _ = extent(number)
        assert right <= ring.x - ring.radius or left >= ring.x + ring.radius
