"""Laws of wires through plugs, whatever the boards and plugs: sections 5.3, 5.6 and 5.7 of the format."""

import random
from collections import Counter
from typing import Any

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st
from wiring.wiring_builder import built_in_kinds, described, netlist_of, wire_texts, wired

from labelgen.model.built.built_record import BuiltPins, BuiltRecord
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.wiring.expansion import expand

BOARDS = ("West", "Mid", "East", "North", "South")
POINTS = ("P1", "P2", "P3", "P4", "P5A", "P5B", "P6")


@st.composite
def railways(draw: st.DrawFn) -> dict[str, Any]:
    """Up to five boards, joined by plugs to one piece and some more, with room for everything."""
    boards = BOARDS[: draw(st.integers(2, 5))]
    pairs = [(board, draw(st.sampled_from(boards[:number]))) for number, board in enumerate(boards) if number]
    pairs += draw(
        st.lists(st.tuples(*[st.sampled_from(boards)] * 2).filter(lambda pair: pair[0] != pair[1]), max_size=4)
    )
    places = st.lists(st.integers(0, 1000).map(str), min_size=2, max_size=2)
    plugs: dict[str, Any] = {
        f"J{number}": {"boards": list(pair), "pins": "150", "at": {b: draw(places) for b in draw(some(pair))}}
        for number, pair in enumerate(pairs, 1)
    }
    for plug in plugs.values():
        plug["keep_empty"] = list(map(str, draw(st.lists(st.integers(1, 9), unique=True, max_size=3))))
    where = st.sampled_from(boards)
    return {
        "boards": {board: {} for board in boards},
        "plugs": plugs,
        "supplies": {"PULSE": {"kind": "pulse", "board": draw(where)}, "D": {"kind": "dc", "board": draw(where)}},
        "strips": {f"{board[0]}S": {"board": board, "ways": "60"} for board in boards},
        "panels": {"QUAY": {"board": draw(where)}},
        "points": {name: {"board": draw(where)} for name in draw(some(POINTS))},
        "devices": {f"H{n}": {"kind": "lamps", "board": draw(where)} for n in range(draw(st.integers(0, 3)))},
        "functions": {"return": {"pins": draw(st.sampled_from(["1", "2", "3"]))}},
    }


def some(of: tuple[str, ...]) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(of), unique=True)


def copper(wires: tuple[Wire, ...]) -> "nx.MultiGraph[Any]":
    graph: nx.MultiGraph[Any] = nx.MultiGraph()
    graph.add_edges_from((wire.start.point, wire.finish.point) for wire in wires)
    return graph


def without_plugs(railway: dict[str, Any]) -> Netlist:
    return netlist_of({**railway, "plugs": {}})


@given(railways())
def test_every_net_is_a_tree(railway: dict[str, Any]) -> None:
    wires = netlist_of(railway).wires
    assert not wires or nx.is_forest(copper(wires))


@given(railways())
def test_the_same_things_are_joined_as_without_plugs(railway: dict[str, Any]) -> None:
    """Chains may run otherwise, yet each net holds what it held."""

    def nets(netlist: Netlist) -> set[frozenset[Any]]:
        found = nx.connected_components(copper(netlist.wires))
        return {frozenset(point for point in net if point[0] is not EndKind.PIN) for net in found}

    assert nets(netlist_of(railway)) == nets(without_plugs(railway))


@given(railways())
def test_no_wire_leaves_its_board(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    boards = {strip: given["board"] for strip, given in railway["strips"].items()}
    boards |= {
        thing: one["board"] for table in ("points", "devices", "supplies") for thing, one in railway[table].items()
    }
    for wire in netlist.wires:
        for end in wire.ends:
            on = railway["panels"]["QUAY"]["board"] if end.kind is EndKind.LEVER else boards.get(end.thing)
            assert (end.board if end.kind is EndKind.PIN else on) == wire.board


@given(railways())
def test_no_pin_is_given_twice_or_though_it_is_kept_empty(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    taken = Counter(pin for passage in netlist.passages for pin in passage.pins)
    assert set(taken.values()) <= {1}
    assert not {f"{plug}.{pin}" for plug, one in railway["plugs"].items() for pin in one["keep_empty"]} & taken.keys()
    for plug in netlist.plugs:
        used = {f"{plug.id}.{pin.number}" for pin in plug.pins if pin.state == "used"}
        assert used == {pin for pin in taken if pin.startswith(f"{plug.id}.")}
        for pin in plug.pins:
            assert [len(pin.on(board)) for board in plug.boards] == [int(pin.state == "used")] * 2


@given(railways())
def test_always_by_the_fewest_plugs(railway: dict[str, Any]) -> None:
    """Networkx is the judge of the shortest way."""
    netlist = netlist_of(railway)
    boards: nx.Graph[str] = nx.Graph([tuple(plug["boards"]) for plug in railway["plugs"].values()])
    stretches: dict[str, list[str | None]] = {}
    for wire in netlist.wires:
        for end in wire.ends:
            stretches.setdefault(end.name, []).append(wire.board)
    for passage in netlist.passages:
        plugs = list(dict.fromkeys(pin.partition(".")[0] for pin in passage.pins))
        first, last = passage.pins[0], next(pin for pin in passage.pins if pin.startswith(f"{plugs[-1]}."))
        ends = [set(stretches[pin]) for pin in (first, last)]
        crossed = [set(railway["plugs"][plug]["boards"]) for plug in plugs]
        assert ends[0] == crossed[0]
        assert ends[1] == crossed[-1]
        chain = nx.shortest_path_length
        least = min(chain(boards, a, b) for a in crossed[0] for b in crossed[-1] if a != b or len(plugs) == 1)
        assert len(plugs) >= least
        if len(plugs) > 1:
            (start,), (finish,) = crossed[0] - crossed[1], crossed[-1] - crossed[-2]
            assert len(plugs) == chain(boards, start, finish)


@given(railways(), st.randoms(use_true_random=False))
def test_the_order_of_keys_changes_nothing(railway: dict[str, Any], chance: random.Random) -> None:
    def shuffled(table: dict[str, Any]) -> dict[str, Any]:
        keys = list(table)
        chance.shuffle(keys)
        return {key: table[key] for key in keys}

    other = shuffled({key: shuffled(table) for key, table in railway.items()})
    assert wire_texts(netlist_of(other)) == wire_texts(netlist_of(railway))


@given(railways(), railways())
def test_recorded_pins_are_kept(railway: dict[str, Any], other: dict[str, Any]) -> None:
    """Pins stay where they are, whatever points are added."""
    before = netlist_of(railway)
    pins = tuple(
        BuiltPins(start=one.start, finish=one.finish, circuit=one.circuit, pins=one.pins) for one in before.passages
    )
    more = {name: {"board": min(railway["boards"])} for name in other["points"] if name not in railway["points"]}
    grown = {**railway, "points": {**railway["points"], **more}}
    netlist, problems = expand(described(grown), built_in_kinds(), BuiltRecord(railway="Marram Quay", pins=pins))
    assert problems == []
    now = {(one.start, one.finish, one.circuit): one.pins for one in netlist.passages}
    for one in before.passages:
        assert now.get((one.start, one.finish, one.circuit), one.pins) == one.pins
    taken = Counter(pin for one in netlist.passages for pin in one.pins)
    assert set(taken.values()) <= {1}


def test_a_recorded_pin_of_a_wire_that_is_gone_stays_spare() -> None:
    railway = {
        "boards": {"A": {}, "B": {}},
        "plugs": {"J1": {"boards": ["A", "B"], "pins": "9"}},
        "supplies": {"D": {"kind": "dc", "board": "A"}},
        "strips": {"S": {"board": "B"}},
        "devices": {"H1": {"kind": "lamps", "board": "B"}},
    }

    def pins(*recorded: BuiltPins) -> dict[str, tuple[str, ...]]:
        netlist, problems = expand(
            described(railway), built_in_kinds(), BuiltRecord(railway="Marram Quay", pins=recorded)
        )
        assert problems == []
        return {passage.start: passage.pins for passage in netlist.passages}

    gone = BuiltPins(start="D.feed", finish="S.9", circuit="D", pins=("J1.1",))
    kept = BuiltPins(start="H1.C", finish="D.return", circuit="D", pins=("J1.7", "J1.4"))
    assert pins(gone) == {"D.feed": ("J1.2",), "D.return": ("J1.3",)}
    # recorded from its other end, and on two pins: the wire still lands on the first of them
    assert pins(gone, kept) == {"D.feed": ("J1.2",), "D.return": ("J1.7", "J1.4")}
    # what no longer leads there is not followed
    assert pins(BuiltPins(start="D.feed", finish="S.1", circuit="D", pins=("J2.1",)))["D.feed"] == ("J1.1",)
    assert pins(BuiltPins(start="D.feed", finish="S.1", circuit="D", pins=("J1.12",)))["D.feed"] == ("J1.1",)
    assert pins(BuiltPins(start="D.feed", finish="S.1", circuit="D", pins=()))["D.feed"] == ("J1.1",)


def test_without_problems_or_with_them_nothing_breaks() -> None:
    """A railway whose plugs have far too few pins is still wired as far as it can be."""
    netlist, problems = wired(
        {
            "boards": {"A": {}, "B": {}},
            "plugs": {"J1": {"boards": ["A", "B"], "pins": "1"}},
            "supplies": {"D": {"kind": "dc", "board": "A"}},
            "strips": {"S": {"board": "B"}},
            "devices": {"H1": {"kind": "lamps", "board": "B"}},
        }
    )
    assert [problem.code for problem in problems] == ["plug-full"]
    assert wire_texts(netlist)[1:] == [
        "2 L D.feed > J1.1",
        "3 L J1.1 > S.1/layout",
        "4 C D.return > H1.C",
    ]
