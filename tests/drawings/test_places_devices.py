"""Labels for supplies, devices and feed holes: what they say, that it is legible, and on which board they are."""

from typing import Any

from drawings.drawn_extents import assert_all_inside, assert_within, cap_height, extent, texts
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring.wiring_builder import described, wired

from labelgen.drawings.places.places import place_drawings
from labelgen.model.drawing import Box, Drawing, Line
from labelgen.model.look import CellSize, Look
from labelgen.problems import Problem

A4 = CellSize(width=99.1, height=67.7)
RAILWAY = """
boards: {West: {size: [1200, 600], at: [0, 0]}, East: {size: [1200, 600], right_of: West}}
supplies:
  PULSE: {kind: pulse, board: West, volts: 22, terminals: {feed: "+"}, name: In the cupboard}
  CAB: {kind: track, board: West, volts: 12, amps: 1, fuse: 1.6}
  STALL: {kind: dc, board: East}
strips: {S1: {board: West, ways: 24}, S2: {board: East, ways: 24}}
panels: {QUAY: {board: West}}
points:
  P5: {board: West, name: Long siding, swapped: yes, supply: PULSE}
  P6: {board: East, not_in_use: burnt coil, supply: PULSE, shown: Pt6, terminals: {N: red}}
  P7: {board: East, kind: stall-motor, supplies: {drive: STALL, rails: CAB}}
devices:
  YARD: {kind: section, name: Goods yard, lever: 11, board: East, supply: CAB}
  SHED: {kind: track-feed, board: West, supply: CAB, not_in_use: gap open}
  SHOW: {kind: panel-lamps, panel: QUAY, lever: 9, supply: STALL}
"""


def drawn(
    railway: str | dict[str, Any] = RAILWAY, cell: CellSize = A4, **look: Any
) -> tuple[list[Drawing], list[Problem]]:
    netlist, problems = wired(railway)
    assert problems == []
    return place_drawings(described(railway), netlist, Look(**look), cell)


def labels(railway: str | dict[str, Any] = RAILWAY, **look: Any) -> dict[str, Drawing]:
    drawings, problems = drawn(railway, **look)
    assert problems == []
    assert len({drawing.name for drawing in drawings}) == len(drawings)
    return {drawing.name: drawing for drawing in drawings}


def said(drawing: Drawing) -> list[str]:
    return [text.text for text in texts(drawing)]


def comes_from(drawing: Drawing) -> dict[str, str]:
    """Terminal: where its wire comes from, on one line with it."""
    far = [text for text in texts(drawing) if "." in text.text]
    return {
        text.text: end.text
        for end in far
        for text in texts(drawing)
        if text.y == end.y and text.x < end.x and text.text in ("N", "R", "C", "red")
    }


def test_one_for_each_supply_device_and_rail_and_none_for_what_is_in_the_panel() -> None:
    found = labels()
    assert {name: drawing.board for name, drawing in found.items()} == {
        "label of supply CAB": "West",
        "label of supply PULSE": "West",
        "label of supply STALL": "East",
        "tag of P5": "West",
        "tag of Pt6": "East",
        "tag of P7": "East",
        "feed of SHED, rail A": "West",
        "feed of SHED, rail B": "West",
        "feed of YARD, rail A": "East",
        "feed of YARD, rail B": "East",
    }
    assert {drawing.label for drawing in found.values()} == {"CAB", "PULSE", "STALL", "P5", "P6", "P7", "SHED", "YARD"}


def test_equal_sizes_follow_one_another_so_that_they_share_cells() -> None:
    sizes = [(drawing.height, drawing.width) for drawing in drawn()[0]]
    assert sizes == sorted(sizes, reverse=True)


def test_a_tag_says_lever_terminals_heads_and_where_the_wires_come_from() -> None:
    words = said(labels()["tag of P5"])
    assert {"P5", "lever 5, swapped", "Long siding"} <= set(words)
    # Swapped: the wire of normal, from the group's first way, lands on the terminal that is called R.
    assert comes_from(labels()["tag of P5"]) | {"C": ""} == {"R": "S1.1", "N": "S1.3", "C": ""}


def test_painted_terminals_and_what_is_out_of_use() -> None:
    words = said(labels()["tag of Pt6"])
    assert {"Pt6", "red", "OUT OF USE: burnt coil"} <= set(words)
    assert "OUT OF USE" in said(labels()["feed of SHED, rail A"])


def test_the_swap_pair_of_a_stall_motor_is_marked() -> None:
    words = said(labels()["tag of P7"])
    assert sum(word.endswith(" ⇄") for word in words) == 2
    assert " ".join(word for word in words if "shorts" in word or "swap" in word) == "two if it shorts ⇄ swap these"
    assert not any("⇄" in word for word in said(labels()["label of supply CAB"]))


def test_a_supply_says_its_figures_what_it_feeds_and_what_to_beware_of() -> None:
    pulse, cab, stall = (said(labels()[f"label of supply {id_}"]) for id_ in ("PULSE", "CAB", "STALL"))
    always = "EXTRA-LOW VOLTAGE ONLY · NO MAINS ON THE LAYOUT"
    assert {"PULSE", "22 V DC pulse", "In the cupboard", "+", always, "DISCHARGE THE BANK BEFORE WORKING"} <= set(pulse)
    assert "feeds P5, Pt6" in pulse
    assert pulse.count("PULSE") == 1
    assert {"12 V track, 1 A", "fuse 1.6 A", always} <= set(cab)
    assert "DC" in stall
    assert not any("DISCHARGE" in word for word in (*cab, *stall))
    american = said(labels(f"words: american\n{RAILWAY}", words="american")["label of supply CAB"])
    assert "EXTRA-LOW VOLTAGE ONLY · NO LINE VOLTAGE ON THE LAYOUT" in american


def test_a_supply_of_many_devices_says_how_many() -> None:
    points = {f"P{n}": {"board": "West"} for n in range(1, 70)}
    railway = {
        "boards": {"West": {}},
        "supplies": {"PULSE": {"kind": "pulse", "board": "West"}},
        "strips": {"S1": {"ways": "200"}, "S2": {"ways": "200"}},
        "points": points,
    }
    assert "feeds 69 devices" in said(labels(railway)["label of supply PULSE"])


def test_the_two_rails_of_a_section_are_told_apart_without_colour() -> None:
    for mono in (False, True):
        found = labels(mono=mono)
        fills = []
        for rail in ("A", "B"):
            drawing = found[f"feed of YARD, rail {rail}"]
            letter = next(text for text in texts(drawing) if text.text == rail)
            square = next(
                shape for shape in drawing.shapes
                if isinstance(shape, Box) and shape.stroke_width == 0.4 and shape.x < letter.x < shape.x + shape.width
            )  # fmt: skip
            assert letter.colour != square.fill
            fills.append(square.fill)
        assert fills == ["#000000", "#ffffff"]


def test_a_feed_says_its_wire_and_where_it_comes_from() -> None:
    words = said(labels()["feed of YARD, rail A"])
    assert {"YARD", "Goods yard", "A", "11Ts"} <= set(words)
    assert any(word.startswith("S2.") for word in words)


def test_many_terminals_on_a_low_label_stand_in_two_columns() -> None:
    drawings, problems = drawn(cell=CellSize(width=66.7, height=25.4))
    assert problems == []
    tag = next(drawing for drawing in drawings if drawing.name == "tag of P7")
    assert "P7 · lever 7" in said(tag)
    starts = {round(text.x, 1) for text in texts(tag) if text.text in ("1", "8", "2", "3", "4", "vee")}
    assert len(starts) == 2


def test_a_sheet_too_small_for_any() -> None:
    drawings, problems = drawn(cell=CellSize(width=20, height=10))
    assert drawings == []
    assert [problem.code for problem in problems] == ["label-too-large"]


def test_what_fits_on_no_label_is_said() -> None:
    railway = RAILWAY.replace("shown: Pt6", f"shown: {'Point six of the harbour branch ' * 8}")
    drawings, problems = drawn(railway)
    assert drawings
    assert {problem.code for problem in problems} == {"text-does-not-fit"}
    assert {problem.place.source for problem in problems} <= {"points.P6", "supplies.PULSE"}


NAMES = st.text("ABgjÄÑç WQim-/.()&0189", min_size=0, max_size=40).map(str.strip)


@settings(max_examples=10)
@given(name=NAMES, shown=st.text("AWg89/", min_size=1, max_size=12), reason=NAMES, cap=st.floats(1.31, 2.6))
def test_whatever_it_is_called_nothing_is_clipped_or_too_small(name: str, shown: str, reason: str, cap: float) -> None:
    railway = {
        "boards": {"West": {}},
        "supplies": {"PULSE": {"kind": "pulse", "volts": "22", "name": name}, "CAB": {"kind": "track", "amps": "1"}},
        "strips": {"S1": {"ways": "24"}},
        "points": {"P5": {"name": name, "shown": f"x{shown}", "not_in_use": reason, "supply": "PULSE"}},
        "devices": {"YARD": {"kind": "section", "lever": "11", "name": name, "shown": f"y{shown}", "supply": "CAB"}},
    }
    drawings, problems = drawn(railway, smallest_cap=cap)
    assert {problem.code for problem in problems} <= {"text-does-not-fit"}
    for drawing in drawings:
        assert_all_inside(drawing)
        for text in texts(drawing):
            assert_within(text, (1, 1, drawing.width - 1, drawing.height - 1))
            assert cap_height(text) >= cap * 0.995
        if not problems:
            _assert_no_texts_meet(drawing)


def _assert_no_texts_meet(drawing: Drawing) -> None:
    found = [(text.text, extent(text)) for text in texts(drawing)]
    for number, (one, a) in enumerate(found):
        for other, b in found[number + 1 :]:
            apart = a[2] <= b[0] + 0.05 or b[2] <= a[0] + 0.05 or a[3] <= b[1] + 0.05 or b[3] <= a[1] + 0.05
            assert apart, (drawing.name, one, other)


def test_on_a_low_label_too_what_is_out_of_use_says_so() -> None:
    railway = RAILWAY.replace("P7: {board: East,", "P7: {board: East, not_in_use: arm bent,")
    drawings, problems = drawn(railway, cell=CellSize(width=66.7, height=25.4))
    assert problems == []
    words = said(next(drawing for drawing in drawings if drawing.name == "tag of P7"))
    assert {"OUT OF USE", "P7 · lever 7"} <= set(words)


def test_a_supply_that_finds_no_room_is_said() -> None:
    drawings, problems = drawn(cell=CellSize(width=40.0, height=16.0))
    assert "text-does-not-fit" in {problem.code for problem in problems}
    assert "supplies.PULSE" in {problem.place.source for problem in problems}
    assert all(drawing.width <= 40 for drawing in drawings)


def test_ids_that_read_otherwise_upside_down_are_underlined() -> None:
    railway = RAILWAY.replace("shown: Pt6", "shown: 66").replace("YARD: {kind", "YARD: {shown: 99, kind")
    railway = railway.replace("CAB: {kind", "CAB: {shown: 68, kind").replace("N: red", "N: 6")
    found = labels(railway)
    for name, word in (
        ("tag of 66", "66"),
        ("tag of 66", "6"),
        ("feed of 99, rail A", "99"),
        ("label of supply 68", "68"),
    ):
        text = next(text for text in texts(found[name]) if text.text == word)
        a, _, b, _ = extent(text)
        lines = [
            s for s in found[name].shapes if isinstance(s, Line) and s.y1 == s.y2 and a - 0.5 < s.x1 < s.x2 < b + 0.5
        ]
        assert any(text.y < line.y1 < text.y + 0.6 * text.size for line in lines), name


def test_heads_are_whole_where_far_ends_are_short_and_far_ends_of_one_size() -> None:
    """On the tag of a device with long supplies' names the heads are as large as its terminals are."""
    railway = """
supplies: {LIGHT: {kind: dc}}
strips: {S1: {ways: 24}}
devices: {SIG3: {kind: signal-3-aspect, lever: 15, supply: LIGHT}, SIG4: {kind: signal-3-aspect, lever: 16}}
"""
    tag = labels(railway)["tag of SIG3"]
    heads = [text for text in texts(tag) if text.text in ("15", "LIGHT")]
    terminals = [text for text in texts(tag) if text.text in ("R", "Y", "G")]
    assert {round(cap_height(text), 6) for text in heads} == {round(cap_height(text), 6) for text in terminals[:1]}
    assert all(text.stretch == 1 for text in heads)
    far = [text for text in texts(tag) if text.text.startswith("S1.")]
    assert len(far) == 3
    assert len({text.size for text in far}) == 1
    assert_all_inside(tag)


def test_ids_on_tags_are_condensed_before_they_are_lower_than_can_be_read_from_half_a_metre() -> None:
    railway = RAILWAY.replace("P7: {", 'P7: {shown: "HARBOUR P7", ')
    tag = labels(railway)["tag of HARBOUR P7"]
    title = next(text for text in texts(tag) if text.text == "HARBOUR P7")
    assert title.stretch < 1
    assert cap_height(title) >= 2.18
