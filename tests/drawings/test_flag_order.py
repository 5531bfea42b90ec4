"""Flags, cut list and hole labels in one order of work: what is cut first is tagged first and threaded first."""

import csv
from collections.abc import Iterator
from dataclasses import replace
from io import StringIO
from itertools import groupby, pairwise
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from wiring.wiring_builder import described, wired

from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.model.cut_list import cut_list
from labelgen.model.netlist import End, EndKind, Netlist
from labelgen.model.threaded_holes import threaded_holes
from labelgen.rendering.cut_list import cut_list_csv

BOARDS = {
    "WEST": {"holes": {"H1": {"at": ["9", "9"]}, "H2": {"at": ["8", "8"]}}},
    "EAST": {"holes": {"H3": {"at": ["7", "7"]}}},
}
HOLES = st.sampled_from([(), ("H1",), ("H2",), ("H1", "H2"), ("H2", "H3"), ("H3",)])


@st.composite
def netlists(draw: st.DrawFn) -> Netlist:
    """Points and lamps on two boards, with a plug or fixed together, whose wires go through any holes."""
    board = st.sampled_from(list(BOARDS))
    points = {
        f"P{number}": {"board": draw(board)} for number in draw(st.lists(st.integers(1, 20), unique=True, max_size=7))
    }
    railway: dict[str, Any] = {
        "boards": {id_: {} for id_ in BOARDS},
        "supplies": {"PULSE": {"kind": "pulse", "board": draw(board)}, "LIGHT": {"kind": "dc", "board": draw(board)}},
        "strips": {id_: {"board": at} for id_, at in (("A1", "WEST"), ("A2", "WEST"), ("B1", "EAST"), ("B2", "EAST"))},
        "plugs": {"J1": {"boards": list(BOARDS), "pins": "40"}} if draw(st.booleans()) else {},
        "points": points,
        "devices": {"LAMPS": {"kind": "lamps", "board": draw(board)}},
    }
    netlist, problems = wired(railway)
    assert problems == []
    wires = {wire.number: wire if wire.link else replace(wire, holes=draw(HOLES)) for wire in netlist.wires}
    return replace(netlist, wires=tuple(wires.values()))


def ways_of(flag: FlagEnd, strip: str) -> list[int]:
    return [int(end.terminal) for end in flag.wire.ends if (end.kind, end.thing) == (EndKind.WAY, strip)]


@given(netlists())
def test_flags_come_in_pairs_in_the_order_of_the_cut_list(netlist: Netlist) -> None:
    flags = in_order_of_work(netlist)
    pairs = list(zip(flags[::2], flags[1::2], strict=True))
    assert all(one.wire is other.wire for one, other in pairs)
    assert all({one.index, other.index} == {0, 1} for one, other in pairs)
    assert [one.wire for one, _ in pairs] == [row.wire for row in cut_list(netlist).rows if not row.wire.link]


@given(netlists())
def test_every_wire_that_is_no_link_is_flagged_once_at_each_end(netlist: Netlist) -> None:
    found = sorted((flag.wire.number, flag.index) for flag in in_order_of_work(netlist))
    assert found == sorted((wire.number, index) for wire in netlist.wires if not wire.link for index in (0, 1))


@given(netlists())
def test_the_printed_cut_list_has_the_same_numbers_as_the_flags(netlist: Netlist) -> None:
    """Read back by the csv module of the standard library."""
    lines = csv.DictReader(StringIO(cut_list_csv(netlist).decode("utf-8-sig")))
    to_tag = [line["number"] for line in lines if line["flags"] == "2"]
    assert to_tag == [str(flag.wire.number) for flag in in_order_of_work(netlist)[::2]]


@given(netlists())
def test_what_goes_through_a_hole_is_threaded_in_the_order_of_the_flags(netlist: Netlist) -> None:
    order = [flag.wire.number for flag in in_order_of_work(netlist)[::2]]
    for hole in threaded_holes(described({"boards": BOARDS}), netlist):
        assert [wire.number for wire in hole.wires] == [
            number for number in order if hole.id in next(w for w in netlist.wires if w.number == number).holes
        ]


def at_strip(flags: list[FlagEnd], strips: list[str]) -> Iterator[tuple[str, list[FlagEnd]]]:
    """The flags at ways, by the strip to which their wire belongs: the first on which it lands."""
    for strip in strips:
        earlier = strips[: strips.index(strip)]
        own = [f for f in flags if ways_of(f, strip) and not any(ways_of(f, other) for other in earlier)]
        if own:
            yield strip, own


@given(netlists())
def test_strip_by_strip_and_there_hole_by_hole_and_there_way_by_way(netlist: Netlist) -> None:
    flags = in_order_of_work(netlist)[::2]
    places = []
    for strip, own in at_strip(flags, [strip.id for strip in netlist.strips]):
        positions = [flags.index(flag) for flag in own]
        places.append((min(positions), max(positions)))
        runs = [(holes, list(run)) for holes, run in groupby(own, key=lambda flag: flag.wire.holes)]
        assert len({holes for holes, _ in runs}) == len(runs), "a hole is not threaded twice over"
        first = next((hole for holes, _ in runs for hole in holes), None)
        through_first = [index for index, flag in enumerate(own) if first in flag.wire.holes]
        if runs[0][0]:
            assert through_first == list(range(len(through_first))), "all wires of the first hole together"
        for _, run in runs:
            lowest = [min(ways_of(flag, strip)) for flag in run]
            assert lowest == sorted(lowest)
    assert all(last < start for (_, last), (start, _) in pairwise(places))


@given(netlists())
def test_the_end_at_the_strip_where_the_work_is_comes_first(netlist: Netlist) -> None:
    strips = [strip.id for strip in netlist.strips]
    for flag in in_order_of_work(netlist)[::2]:
        ways = [end.thing for end in flag.wire.ends if end.kind is EndKind.WAY]
        if ways:
            assert flag.end.thing == min(ways, key=strips.index)
            assert other(flag.wire.ends, flag.end) == flag.far


def other(ends: tuple[End, End], this: End) -> End:
    return ends[1] if ends[0] == this else ends[0]
