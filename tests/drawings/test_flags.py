"""Flags: two a wire, in order of work, folded around it, legible, within their margins."""

from dataclasses import replace
from math import pi

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

from labelgen.drawings.flag_order import in_order_of_work
from labelgen.drawings.flags import flag_drawings, flag_size
from labelgen.model.drawing import Drawing, Line
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
    assert places(points_railway(("1", "2")).netlist()) == [
        *("1N@A1.1", "1N@A1.1", "1N@P1.N"),
        *("1F@A1.2", "F@A1.2", "F@PULSE.feed"),
        *("1R@A1.3", "1R@A1.3", "1R@P1.R"),
        *("2N@A1.4", "2N@A1.4", "2N@P2.N", "2F@A1.5", "2R@A1.6", "2R@A1.6", "2R@P2.R"),
        *("C@PULSE.return", "C@P1.C", "C@P1.C", "C@P2.C"),
        *("1N@L1.N", "1F@L1.F", "1R@L1.R", "2N@L2.N", "2F@L2.F", "2R@L2.R"),
    ]


def test_levers_come_panel_by_panel_in_natural_order_with_contacts_in_their_own_order() -> None:
    railway = Railway()
    railway.lever("10", panel="A")
    railway.lever("9", panel="A")
    railway.lever("1", panel="B", type="stud")
    for lever, contact in (("10", "R"), ("10", "N"), ("9", "F"), ("1", "b"), ("1", "a"), ("77", "N")):
        railway.wire("normal", lever_end(lever, contact), device_end("P", "N"), stem=lever)
    ends = [place.split("@")[1] for place in places(railway.netlist()) if "@L" in place]
    assert ends == ["L77.N", "L9.F", "L10.N", "L10.R", "L1.a", "L1.b"]


def test_a_wire_between_strips_is_flagged_at_each_and_one_between_panels_too() -> None:
    railway = Railway()
    railway.wire("track", way_end("A1", 1, LAYOUT), way_end("B1", 2, LAYOUT), stem="T")
    railway.wire("feed", lever_end("1", "F"), lever_end("2", "F"), stem="1")
    railway.wire("lamp", supply_end("DC", "feed"), device_end("LAMP", "a"))
    railway.wire("lamp", lever_end("3", "1"), device_end("P1", "a"), stem="3")
    first = points_railway(("1",))
    for strip, number in (("A1", 1), ("B1", 2)):
        railway.strip(strip, [WayPlan(number=1, state="spare"), railway.way(number, "track", stem="T", strip=strip)])
    wayless = replace(first.circuits[0], groups=(replace(first.circuits[0].groups[0], ways={}),))
    railway.circuits += [wayless, *first.circuits]
    assert places(railway.netlist()) == [
        *("TT@A1.1", "3L@P1.a", "TT@B1.2", "L@DC.feed", "L@LAMP.a"),
        *("1F@L1.F", "1F@L2.F", "3L@L3.1"),
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
                assert cap_height(text) >= (2.0 if len(text.text) < 11 else 1.6) * 0.995


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
    assert "W-1204" in said[2]
    assert "W-1204" in said[3]


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
        ("text-does-not-fit", "A_VERY_LONG_NUMBER_INDEED"),
        ("text-does-not-fit", "q" * 40),
    }
    for drawing in drawings:
        assert_all_inside(drawing)
        assert not any("港" in text.text for text in texts(drawing))
