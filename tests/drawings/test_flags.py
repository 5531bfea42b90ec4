"""Flags: two a wire, in order of work, folded around it, legible, within their margins."""

from dataclasses import replace
from itertools import combinations, product
from math import pi, radians, tan

import pytest
from drawn_extents import assert_all_inside, assert_within, cap_height, extent, texts
from hypothesis import given
from hypothesis import strategies as st
from small_railway import (
    Railway,
    description,
    device_end,
    lever_end,
    points_railway,
    supply_end,
    way_end,
)

from labelgen.drawings.flags.flags import flag_drawings, flag_size
from labelgen.drawings.flags.order import in_order_of_work
from labelgen.model.drawing import Box, Drawing, Line, Outline
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist, Side, WayPlan

LOOK = Look()
CELL = CellSize(width=38.1, height=21.2)
LEVERS = st.lists(st.integers(1, 99).map(str), min_size=1, max_size=6, unique=True)
LAYOUT, PANEL = Side.LAYOUT, Side.PANEL


def flags(netlist: Netlist, cell: CellSize = CELL, look: Look = LOOK) -> list[Drawing]:
    drawings, problems = flag_drawings(description(), netlist, look, cell)
    assert problems == []
    return drawings


def places(netlist: Netlist) -> list[str]:
    return [f"{flag.wire.head}@{flag.end.name}" for flag in in_order_of_work(netlist)]


@given(LEVERS)
def test_every_wire_that_is_no_link_has_two_flags_one_for_each_end(levers: list[str]) -> None:
    netlist = points_railway(levers).netlist()
    found = [(flag.wire.number, flag.index) for flag in in_order_of_work(netlist)]
    wanted = [(wire.number, index) for wire in netlist.wires if not wire.link for index in (0, 1)]
    assert sorted(found) == sorted(wanted)
    n = len(levers)
    assert len(netlist.wires) == 7 * n  # the core pattern of trade practice: n points make 7n wires
    assert len(flags(netlist)) == 2 * (7 * n - (n - 1))


def test_the_order_is_the_order_of_work() -> None:
    """Way by way, panel side before layout side, and the feed where it lands; both ends of a wire side by side."""
    assert places(points_railway(("1", "2")).netlist()) == [
        *("1N@A1.1", "1N@L1.N", "1N@A1.1", "1N@P1.N"),
        *("1F@A1.2", "1F@L1.F", "F@A1.2", "F@PULSE.feed"),
        *("1R@A1.3", "1R@L1.R", "1R@A1.3", "1R@P1.R"),
        *("2N@A1.4", "2N@L2.N", "2N@A1.4", "2N@P2.N"),
        *("2F@A1.5", "2F@L2.F"),
        *("2R@A1.6", "2R@L2.R", "2R@A1.6", "2R@P2.R"),
        *("C@PULSE.return", "C@P1.C", "C@P1.C", "C@P2.C"),
    ]


def test_a_wire_between_strips_is_flagged_at_the_first_and_one_of_no_strip_last() -> None:
    railway = Railway()
    railway.wire("feed", lever_end("1", "F"), lever_end("2", "F"), stem="1")
    railway.wire("lamp", supply_end("DC", "feed"), device_end("LAMP", "a"))
    railway.wire("track", way_end("B1", 2, LAYOUT), way_end("A1", 1, LAYOUT), stem="T")
    railway.wire("lamp", lever_end("3", "1"), device_end("P1", "a"), stem="3")
    first = points_railway(("1",))
    for strip, number in (("A1", 1), ("B1", 2)):
        railway.strip(strip, [WayPlan(number=1, state="spare"), railway.way(number, "track", stem="T", strip=strip)])
    wayless = replace(first.circuits[0], groups=(replace(first.circuits[0].groups[0], ways={}),))
    railway.circuits += [wayless, *first.circuits]
    assert places(railway.netlist()) == [
        *("TT@A1.1", "TT@B1.2", "3L@L3.1", "3L@P1.a"),
        *("1F@L1.F", "1F@L2.F", "L@DC.feed", "L@LAMP.a"),
    ]


def test_a_flag_says_head_far_end_near_end_and_number() -> None:
    first = flags(points_railway(("9",)).netlist())[0]
    said = texts(first)
    middle = first.width / 2
    left = [text.text for text in said if text.x < middle]
    right = [text.text for text in said if text.x > middle]
    assert sorted(left) == sorted(["9", "N", "L9.N", "YE"])
    assert sorted(right) == sorted(["9", "N", "A1.1", "#1"])
    assert first.folds == (middle,)
    assert (first.board, first.name) == ("A", "flag 9N at A1.1")
    assert all(text.turn == 0 for text in said)


def test_a_head_comes_first_and_is_large_and_ends_are_not_small() -> None:
    for flag in flags(points_railway(("5", "12")).netlist()):
        for text in texts(flag):
            if text.text in ("5", "12", "N", "F", "R", "C"):
                assert cap_height(text) >= 3.0
            elif "." in text.text:
                # 20 minutes of arc at 300 mm: preferred by NUREG-0700 rev. 3, 1.3.1-4
                preferred = 2 * 300 * tan(radians(20 / 60) / 2)
                assert cap_height(text) >= (preferred if len(text.text) < 11 else 1.6) * 0.995


def test_the_painted_name_is_what_is_printed() -> None:
    railway = Railway()
    end = replace(device_end("P5", "C"), painted="5/common")
    railway.wire("return", supply_end("PULSE", "return"), end)
    said = [text.text for flag in flags(railway.netlist()) for text in texts(flag)]
    assert said.count("5/common") == 2
    assert "P5.C" not in said


IDS = st.text("ABCDEFGHPS0123456789_-", min_size=1, max_size=9)
CELLS = st.builds(CellSize, width=st.floats(33, 110), height=st.floats(9, 40))


@given(
    stem=st.one_of(st.just(""), IDS), mark=st.sampled_from(["", "g", "lg"]), device=IDS, terminal=IDS,
    size=st.sampled_from(["7/0.2", "16/0.2", "24/0.2", "32/0.2", "", "20 AWG"]), cell=CELLS, mono=st.booleans(),
    function=st.sampled_from(["normal", "feed", "lamp", "spare"]), number=st.one_of(st.integers(1, 9999), IDS),
)  # fmt: skip
def test_print_stays_off_the_edges_and_off_the_neck(
    *, stem: str, mark: str, device: str, terminal: str, size: str, cell: CellSize, mono: bool, function: str,
    number: int | str,
) -> None:  # fmt: skip
    railway = Railway()
    end = device_end(device, terminal)
    railway.wire(function, way_end("A1", 1, LAYOUT), end, stem=stem, mark=mark, size=size, number=number)
    drawings, problems = flag_drawings(description(), railway.netlist(), Look(mono=mono), cell)
    assert {problem.code for problem in problems} <= {"text-does-not-fit", "label-too-large"}
    # outside diameters: trade practice, the reference's table; 16/0.2 where no size is given
    outside = {"7/0.2": 1.2, "24/0.2": 2.05, "32/0.2": 2.6}.get(size, 1.6)
    for drawing in drawings:
        assert_all_inside(drawing)
        half, neck = drawing.width / 2, pi * outside * 0.99
        for shape in drawing.shapes:
            if isinstance(shape, Line) and shape.dash:
                assert (shape.x1, shape.x2) == (half, half)
                continue
            left = extent(shape)[2] < half
            face = (
                (1, 1, half - neck / 2, drawing.height - 1)
                if left
                else (half + neck / 2, 1, drawing.width - 1, drawing.height - 1)
            )
            assert_within(shape, face, slack=0.06)
        for text in texts(drawing):
            assert cap_height(text) >= LOOK.smallest_cap * 0.995
        if not problems:
            said = [text.text for text in texts(drawing)]
            assert said.count(f"{device}.{terminal}") == 1
            assert said.count("A1.1") == 1


@pytest.mark.parametrize(
    ("cell", "size"),
    [
        ((38.1, 21.2), (38.1, 10.6)),
        ((63.5, 33.9), (63.5, 33.9 / 3)),
        ((99.1, 38.1), (49.55, 12.7)),
        ((35.6, 16.9), (35.6, 16.9)),
        ((72, 10), (36, 10)),
    ],
)
def test_a_cell_holds_as_many_flags_as_it_can(cell: tuple[float, float], size: tuple[float, float]) -> None:
    found = flag_size(CellSize(width=cell[0], height=cell[1]))
    assert (found.width, found.height) == pytest.approx(size)


@pytest.mark.parametrize("cell", [CellSize(width=17.8, height=10), CellSize(width=38.1, height=7)])
def test_a_cell_that_is_too_small_is_one_problem_a_wire_size(cell: CellSize) -> None:
    drawings, problems = flag_drawings(description(), points_railway(("1", "2")).netlist(), LOOK, cell)
    assert drawings == []
    assert [problem.code for problem in problems] == ["label-too-large"] * 2
    assert "16/0.2" in problems[0].message
    assert "sheets" in problems[0].hint


def test_a_wire_of_a_size_unknown_is_not_named_by_it() -> None:
    railway = Railway()
    railway.wire("feed", supply_end("PULSE", "feed"), device_end("P1", "F"), size="")
    _, problems = flag_drawings(description(), railway.netlist(), LOOK, CellSize(width=17.8, height=10))
    assert "a flag around a wire takes" in problems[0].message


def test_long_heads_stand_above_their_block_and_stay_legible() -> None:
    railway = Railway()
    railway.wire("lamp", way_end("A1", 1, LAYOUT), device_end("SIGNAL_12", "red"), stem="SIGNAL_12", mark="g")
    railway.wire("return", supply_end("PULSE", "return"), device_end("P12A", "C"), number="W-1204")
    said = [[text.text for text in texts(flag)] for flag in flags(railway.netlist())]
    assert said[0].count("SIGNAL_12") == said[0].count("L") == said[0].count("g") == 2
    assert "#W-1204" in said[2]
    assert "#W-1204" in said[3]


def test_a_listed_wire_without_a_function_has_its_head_and_no_block() -> None:
    railway = Railway()
    railway.wire("feed", device_end("X1", "a"), device_end("X2", "b"), stem="")
    bare = replace(railway.wires[0], function="", code="", head="W7", stem="W7", colour="", size="")
    netlist = replace(railway.netlist(), wires=(bare,))
    for flag in flags(netlist):
        assert [text.text for text in texts(flag)].count("W7") == 2
        assert len(texts(flag)) == 5


def test_a_bare_wire_with_a_long_head_has_it_in_the_full_width() -> None:
    railway = Railway()
    railway.wire("feed", device_end("X1", "a"), device_end("X2", "b"), stem="")
    bare = replace(railway.wires[0], function="", code="", head="YARDLAMPS-17", stem="YARDLAMPS-17", colour="")
    for flag in flags(replace(railway.netlist(), wires=(replace(bare, number="OLD-BOARD-12"),))):
        assert [text.text for text in texts(flag)].count("YARDLAMPS-17") == 2


def test_boards_are_those_of_strip_or_wire_or_of_the_levers_panel() -> None:
    netlist = points_railway(("1",)).netlist()
    strip = replace(netlist.strips[0], board="B")
    drawings = flags(replace(netlist, strips=(strip,)))
    boards = {drawing.name.split(" at ")[1]: drawing.board for drawing in drawings}
    assert (boards["A1.1"], boards["P1.N"], boards["L1.N"]) == ("B", "A", netlist.levers[0].board)
    unknown = replace(netlist, strips=())
    assert {d.board for d in flags(unknown) if d.name.endswith("A1.1")} == {"A"}


def test_what_cannot_be_read_or_printed_is_a_problem_once() -> None:
    railway = Railway()
    far = replace(device_end("P1", "N"), painted="港.N")
    railway.wire("normal", way_end("A1", 1, LAYOUT), far, stem="A_VERY_LONG_LEVER_NAME_INDEED")
    long_end = device_end("A_VERY_LONG_DEVICE_NAME_INDEED", "N")
    long_number, long_mark = "A_VERY_LONG_NUMBER_INDEED", "q" * 40
    railway.wire("normal", way_end("A1", 1, LAYOUT), long_end, number=long_number, stem="2", mark=long_mark)
    drawings, problems = flag_drawings(description(), railway.netlist(), LOOK, CELL)
    found = {(problem.code, problem.message.split("'")[1]) for problem in problems}
    assert found == {
        ("character-missing", "港.N"),
        ("text-does-not-fit", "A_VERY_LONG_LEVER_NAME_INDEED"),
        ("text-does-not-fit", "A_VERY_LONG_DEVICE_NAME_INDEED.N"),
        ("text-does-not-fit", "#A_VERY_LONG_NUMBER_INDEED"),
        ("text-does-not-fit", "q" * 40),
    }
    for drawing in drawings:
        assert_all_inside(drawing)
        assert not any("港" in text.text for text in texts(drawing))


@pytest.mark.parametrize(
    ("number", "said"), [(17, "#17"), ("17", "#17"), ("37N bis", "#37N bis"), ("W-1204", "#W-1204"), ("#9", "#9")]
)
def test_every_number_has_its_sign_once(number: int | str, said: str) -> None:
    railway = Railway()
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("P1", "N"), stem="1", number=number)
    for flag in flags(railway.netlist()):
        assert [text.text for text in texts(flag)].count(said) == 1


def fills(flag: Drawing) -> set[str]:
    return {shape.fill for shape in flag.shapes if isinstance(shape, Box) and shape.fill}


def test_a_wire_of_its_own_colour_has_that_on_its_flags_and_the_functions_pattern() -> None:
    """Yellow is what `normal` has by the contract, section 6; what lies on the bench is a blue one."""
    railway = Railway()
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("P1", "N"), stem="1")
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("P1", "N"), stem="1", colour="BU")
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("P1", "N"), stem="1", colour="")
    own, blue, none = (flags(replace(railway.netlist(), wires=(wire,)))[0] for wire in railway.wires)
    assert (fills(own), fills(blue), fills(none)) == ({"#FDE60E"}, {"#31397F"}, {"#FDE60E"})
    assert [text.text for text in texts(blue)].count("BU") == 1
    outlines = [[s.runs for s in flag.shapes if isinstance(s, Outline)] for flag in (own, blue)]
    assert outlines[0] == outlines[1]


def baselines(flag: Drawing, *said: str) -> set[float]:
    found = [text for text in texts(flag) if text.text in said]
    assert len(found) == len(said)
    return {round(text.y, 6) for text in found}


@pytest.mark.parametrize("terminal", ["N", "j", "Q/g"])
def test_end_and_details_stand_on_one_line_whatever_letters_they_have(terminal: str) -> None:
    railway = Railway()
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("P1", terminal), stem="1")
    here, there = flags(railway.netlist())
    lines = baselines(here, f"P1.{terminal}", "YE") | baselines(here, "A1.1", "#1")
    assert len(lines) == 1
    assert lines == baselines(there, f"P1.{terminal}", "#1")


def test_a_long_end_has_its_row_to_itself_and_the_number_the_corner_above() -> None:
    railway = Railway()
    railway.wire("normal", way_end("A1", 1, LAYOUT), device_end("SIGNAL_12", "N"), stem="66")
    _, there = flags(railway.netlist())
    (number,) = [text for text in texts(there) if text.text == "#1"]
    (end,) = [text for text in texts(there) if text.text == "SIGNAL_12.N"]
    assert number.y < end.y - cap_height(end)
    assert extent(number)[2] <= there.width - 1 + 1e-6
    assert not any(overlap(extent(number), extent(shape)) for shape in there.shapes if shape is not number)


def overlap(one: tuple[float, ...], other: tuple[float, ...]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def test_a_long_far_end_keeps_its_arrow_and_its_colours_letters_beside_a_large_head() -> None:
    railway = Railway()
    end = device_end("P66", "common")
    railway.wire("return", supply_end("PULSE", "return"), end, stem="PULSE")
    first, second = flags(railway.netlist())
    assert {"P66.common", "BK"} <= {text.text for text in texts(first)}
    for flag in (first, second):
        left = [s for s in flag.shapes if isinstance(s, Outline) and s.fill == "#000000" and len(s.runs[0]) == 3]
        assert len(left) == 1


def test_texts_of_a_flag_never_lie_on_each_other() -> None:
    railway = Railway()
    ends = ("N", "common", "throw_winding")
    for stem, terminal, number in product(("", "6", "66", "109", "PULSE", "MOTORS"), ends, (7, 1204, "37N bis")):
        mark = "s" if stem.isdigit() else ""
        far = device_end("P66", terminal)
        railway.wire("normal", way_end("A1", 1, LAYOUT), far, stem=stem, mark=mark, number=number)
    for flag in flags(railway.netlist()):
        for one, other in combinations(texts(flag), 2):
            assert not overlap(extent(one), extent(other)), (one.text, other.text)


@pytest.mark.parametrize(
    ("smallest", "terminal", "fits"),
    [(1.31, "g", True), (2.2, "g", True), (2.8, "N", True), (2.8, "g", False), (3.4, "N", False)],
)
def test_large_texts_stay_below_the_head_and_too_large_ones_are_a_problem(
    smallest: float, terminal: str, fits: bool
) -> None:
    railway = Railway()
    railway.wire("feed", way_end("A1", 1, LAYOUT), device_end("P1", terminal), stem="1", number=2, colour="")
    drawings, problems = flag_drawings(description(), railway.netlist(), Look(smallest_cap=smallest), CELL)
    assert (problems == []) == fits
    for flag in drawings if fits else ():
        assert_all_inside(flag)
        for one, other in combinations(texts(flag), 2):
            assert not overlap(extent(one), extent(other)), (one.text, other.text)
        blocks = [s for s in flag.shapes if isinstance(s, Box) and s.stroke]
        ends = [text for text in texts(flag) if "." in text.text]
        assert all(text.y - cap_height(text) >= block.y + block.height - 0.1 for text in ends for block in blocks)


def _pair(stem: str, terminals: tuple[str, str]) -> list[Drawing]:
    (first, one), (second, two) = (end.split(".") for end in terminals)
    railway = Railway()
    railway.wire("feed", supply_end(first, one), device_end(second, two), stem=stem)
    return flags(railway.netlist())


@pytest.mark.parametrize("ends", [("AC16.feed", "PULSE.in-feed"), ("LS2.yellow", "J1.21"), ("A1.1", "P1.N")])
@pytest.mark.parametrize("stem", ["AC16", "LAMP12", "4"])
def test_a_head_has_one_size_on_all_four_faces_of_a_wire(ends: tuple[str, str], stem: str) -> None:
    heads = [text for drawing in _pair(stem, ends) for text in texts(drawing) if text.text == stem]
    assert len(heads) == 4
    assert len({(head.size, head.stretch) for head in heads}) == 1


@pytest.mark.parametrize("stem", ["AC16", "LAMP12"])
def test_a_code_stands_beside_its_stem_and_is_no_speck(stem: str) -> None:
    """Read together: on one height, the letter no lower than two thirds of the stem."""
    for drawing in _pair(stem, ("AC16.return", "PULSE.in-return")):
        heads, codes = ([text for text in texts(drawing) if text.text == said] for said in (stem, "F"))
        for head, code in zip(heads, codes, strict=True):
            assert head.y - cap_height(head) < code.y - cap_height(code) / 2 < head.y
            assert cap_height(code) >= 0.66 * cap_height(head)
