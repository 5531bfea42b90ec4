"""Laws of the wiring, whatever the railway: sections 3 to 6 of the format."""

import random
from collections import Counter, defaultdict
from collections.abc import Iterable
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from wiring.wiring_builder import wired

from labelgen.model.netlist import EndKind, Netlist, Side, Wire

BOARDS = ("West", "East", "North")

KINDS = {
    "signal": {
        "terminals": {"g": "", "r": "", "c": ""},
        "supply": "dc",
        "lever_type": "rotary",
        "group": [
            {"function": "lamp", "mark": "g", "contact": "green", "terminal": "g"},
            {"function": "feed", "contact": "F", "chain": "feed"},
            {"function": "lamp", "mark": "r", "contact": "red", "terminal": "r"},
        ],
        "chain": [{"function": "return", "terminal": "c", "supply": "return"}],
    },
    "clock": {
        "terminals": {"p": "", "m": ""},
        "supply": "dc",
        "chain": [
            {"function": "feed", "terminal": "p", "supply": "feed"},
            {"function": "return", "terminal": "m", "supply": "return"},
        ],
    },
}


def places() -> st.SearchStrategy[list[str] | None]:
    return st.none() | st.lists(st.integers(0, 2000).map(str), min_size=2, max_size=2)


def without_none(**values: Any) -> dict[str, Any]:
    return {key: value for key, value in values.items() if value is not None}


@st.composite
def railways(draw: st.DrawFn, *, feed_at: str | None = None) -> dict[str, Any]:
    """A railway that is rightly described: up to three boards, two strips on each with room for everything."""
    boards = BOARDS[: draw(st.integers(1, 3))]
    where = st.sampled_from(boards)
    feed = st.sampled_from(["strip", "panel"]) if feed_at is None else st.just(feed_at)
    supplies = {
        name: without_none(kind=kind, board=draw(where), feed_at=draw(feed), at=draw(places()))
        for name, kind in (("PULSE", "pulse"), ("CAB", "track"), ("LIGHTS", "dc"))
    }
    strips = {
        f"{board[0]}{number}": without_none(board=board, ways="100", at=draw(places()), way_1=draw(WAY_1))
        for board in boards
        for number in draw(st.sampled_from([(1,), (1, 2), (2, 10)]))
    }
    points = {}
    for number in draw(st.lists(st.integers(1, 40), unique=True, max_size=7)):
        for end in draw(st.sampled_from([("",), ("A",), ("A", "B")])):
            swapped = draw(st.sampled_from(["yes", "no"]))
            points[f"P{number}{end}"] = without_none(board=draw(where), at=draw(places()), swapped=swapped)
    devices = {}
    for number, kind in enumerate(draw(st.lists(st.sampled_from(["section", "lamps", "signal", "clock"]), max_size=6))):
        lever = f"S{number}" if kind in ("section", "signal") else None
        devices[f"D{number}"] = without_none(kind=kind, board=draw(where), at=draw(places()), lever=lever)
    panels = draw(st.sampled_from([{}, {"QUAY": {"board": boards[0], "at": ["5", "9"], "size": ["300", "100"]}}]))
    tables = {"supplies": supplies, "strips": strips, "points": points, "devices": devices, "panels": panels}
    return {"boards": {board: {} for board in boards}, "kinds": KINDS, **tables}


WAY_1 = st.sampled_from(["left", "right", "front", "back"])


def netlist_of(railway: dict[str, Any]) -> Netlist:
    netlist, problems = wired(railway)
    assert problems == []
    return netlist


@given(railways())
def test_every_wire_has_two_different_ends(railway: dict[str, Any]) -> None:
    for wire in netlist_of(railway).wires:
        assert wire.start.point != wire.finish.point
        for end in wire.ends:
            assert (end.side is not None) == (end.kind is EndKind.WAY)


@given(railways())
def test_no_way_is_given_twice(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    given_ways = Counter(
        (group.strip, way) for circuit in netlist.circuits for group in circuit.groups for way in group.ways.values()
    )
    assert set(given_ways.values()) <= {1}
    assert all(1 <= way <= len(netlist.strip_by_id[strip].ways) for strip, way in given_ways)


Metal = tuple[EndKind, str, str]


def neighbours(wires: Iterable[Wire]) -> dict[Metal, list[Metal]]:
    beside: dict[Metal, list[Metal]] = defaultdict(list)
    for wire in wires:
        beside[wire.start.point].append(wire.finish.point)
        beside[wire.finish.point].append(wire.start.point)
    return dict(beside)


def parts(beside: dict[Metal, list[Metal]]) -> list[set[Metal]]:
    """What hangs together, by a depth-first search of our own."""
    found: list[set[Metal]] = []
    for start in beside:
        if any(start in part for part in found):
            continue
        part: set[Metal] = set()
        waiting = [start]
        while waiting:
            metal = waiting.pop()
            if metal not in part:
                part.add(metal)
                waiting += beside[metal]
        found.append(part)
    return found


@given(railways())
def test_every_net_is_a_tree(railway: dict[str, Any]) -> None:
    """A graph is a forest when it has as many edges as nodes less parts: a ring of wires hides a broken link."""
    wires = netlist_of(railway).wires
    beside = neighbours(wires)
    assert len(wires) == len(beside) - len(parts(beside))


def shuffled(value: Any, chance: random.Random) -> Any:
    """The same, with the keys of every mapping in another order. Rows and places keep theirs."""
    if not isinstance(value, dict):
        return value
    keys = list(value)
    chance.shuffle(keys)
    return {key: shuffled(value[key], chance) for key in keys}


@given(railways(), st.randoms(use_true_random=False))
def test_nothing_depends_on_the_order_of_keys_in_the_file(railway: dict[str, Any], chance: random.Random) -> None:
    one, other = netlist_of(railway), netlist_of(shuffled(railway, chance))
    assert (one.wires, one.strips, one.levers) == (other.wires, other.strips, other.levers)
    assert one.circuits == other.circuits


@given(railways())
def test_our_numbers_run_from_one_without_a_gap(railway: dict[str, Any]) -> None:
    wires = netlist_of(railway).wires
    assert [wire.number for wire in wires] == list(range(1, len(wires) + 1))


@given(railways())
def test_every_terminal_is_reached_by_the_wires_that_its_kind_asks_for(railway: dict[str, Any]) -> None:
    """One wire for each row of the group that names it; at most two where a chain passes, and never none."""
    netlist = netlist_of(railway)
    reached: Counter[tuple[str, str]] = Counter()
    chained: Counter[tuple[str, str]] = Counter()
    supplies = set(railway["supplies"])
    for wire in netlist.wires:
        for end in wire.ends:
            if end.kind is EndKind.DEVICE:
                (chained if wire.circuit in supplies else reached)[end.thing, end.terminal] += 1
    asked: Counter[tuple[str, str]] = Counter()
    for circuit in netlist.circuits:
        for device in circuit.devices:
            asked.update((device, row.terminal) for row in circuit.kind.group if row.terminal is not None)
            passes = {(device, row.terminal) for row in circuit.kind.chain}
            assert all(1 <= chained[end] <= 2 for end in passes)
            assert {end for end in chained if end[0] == device} == passes
    assert reached == asked


@given(railways())
def test_every_contact_is_reached_once_or_passed_by_the_chain(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    landed: Counter[tuple[str, str]] = Counter()
    for wire in netlist.wires:
        landed.update((end.thing, end.terminal) for end in wire.ends if end.kind is EndKind.LEVER)
    for circuit in netlist.circuits:
        for row in circuit.kind.group:
            if circuit.lever is None or row.contact is None:
                continue
            behind = row.chain is not None and railway["supplies"][circuit.supply]["feed_at"] == "panel"
            count = landed.pop((circuit.lever, row.contact))
            assert count in ((1, 2) if behind else (1,))
    assert not landed


@given(railways())
def test_a_chain_is_a_line_from_its_supply(railway: dict[str, Any]) -> None:
    """Each stop has one or two wires of its chain, and from each stop the chain leads back to one supply's terminal."""
    chains = [wire for wire in netlist_of(railway).wires if wire.circuit in railway["supplies"]]
    beside = neighbours(chains)
    for metal, others in beside.items():
        assert len(others) <= 2 or metal[0] is EndKind.SUPPLY
    for part in parts(beside):
        (source,) = [metal for metal in part if metal[0] is EndKind.SUPPLY]
        assert {wire.circuit for wire in chains if wire.start.point in part} == {source[1]}


@given(railways(feed_at="strip"))
def test_entries_hold_the_wires_that_land_in_them(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    landing = Counter(
        (end.thing, int(end.terminal), end.side, wire.number)
        for wire in netlist.wires
        for end in wire.ends
        if end.kind is EndKind.WAY
    )
    held = Counter(
        (strip.id, way.number, side, wire.number)
        for strip in netlist.strips
        for way in strip.ways
        for side in Side
        for wire in way.entry(side)
    )
    assert landing == held


@given(railways())
def test_a_way_says_what_lands_on_it(railway: dict[str, Any]) -> None:
    """Its marker is the head of its lever's or device's wires, or the code alone of the chain that passes."""
    for strip in netlist_of(railway).strips:
        for way in strip.ways:
            wires = (*way.panel, *way.layout)
            assert (way.state == "used") == bool(wires)
            passing = [wire for wire in wires if wire.circuit in railway["supplies"]]
            assert {wire.code for wire in passing or wires} == {way.code} - {""}
            assert all(way.head in (wire.head, wire.code) for wire in passing or wires)


@given(railways(), st.sampled_from(BOARDS))
def test_a_lever_of_a_later_order_moves_no_earlier_group(railway: dict[str, Any], board: str) -> None:
    """The devices without a lever come after it, so they are left out here."""
    with_levers = {
        **railway,
        "devices": {id_: device for id_, device in railway["devices"].items() if "lever" in device},
    }
    board = board if board in railway["boards"] else "West"
    more = {**with_levers, "points": {**railway["points"], "ZZ99": {"board": board}}}
    before, after = netlist_of(with_levers), netlist_of(more)
    assert after.circuits[: len(before.circuits)] == before.circuits
    assert [circuit.id for circuit in after.circuits[len(before.circuits) :]] == ["ZZ99"]


@given(st.integers(1, 33))
def test_n_points_on_one_strip_make_seven_n_wires(n: int) -> None:
    """Common practice, no source: three wires on the panel side, two on the layout side, feed and return one each."""
    points = {f"P{number}": {} for number in range(1, n + 1)}
    railway = {"supplies": {"PULSE": {"kind": "pulse"}}, "strips": {"A1": {"ways": "100"}}, "points": points}
    wires = netlist_of(railway).wires
    assert len(wires) == 7 * n
    assert Counter(wire.link for wire in wires) == Counter({False: 6 * n + 1, True: n - 1})


@given(railways())
@settings(max_examples=25)
def test_the_same_description_gives_the_same_netlist(railway: dict[str, Any]) -> None:
    assert wired(railway) == wired(railway)
