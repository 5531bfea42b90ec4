"""Routes as a circuit: a small model of copper, one-way diodes and coils, which knows nothing of rows and columns.

Common practice (trade page, section 4 and rule 10): a pressed button pulses exactly the coils of its route; no current
finds a way back through a diode; no wire of a net can be left out without breaking it, and none is there twice.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring_builder import netlist_of

from labelgen.model.netlist import Diode, EndKind, Netlist

Metal = tuple[EndKind, str, str]
Coil = tuple[str, str]
"""Point, and the coil's own terminal."""
FEED: Metal = (EndKind.SUPPLY, "PULSE", "feed")
RETURN: Metal = (EndKind.SUPPLY, "PULSE", "return")


def copper(netlist: Netlist) -> "nx.Graph[Metal]":
    """Wires, and the strips' ways, which are one piece of metal from side to side."""
    graph: nx.Graph[Metal] = nx.Graph()
    graph.add_edges_from((wire.start.point, wire.finish.point) for wire in netlist.wires)
    return graph


def pulsed(netlist: Netlist, closed: Iterable[tuple[Metal, Metal]], diodes: Iterable[Diode]) -> set[Coil]:
    """The coils through which current flows when these contacts are closed.

    A node is live when current can reach it from the feed; no coil needs to be passed, for behind each is the return.
    """
    wires = copper(netlist)
    graph: nx.DiGraph[Metal] = nx.DiGraph(wires)
    for a, b in closed:
        graph.add_edges_from([(a, b), (b, a)])
    graph.add_edges_from((diode.anode.point, diode.cathode.point) for diode in diodes)
    live = {FEED, *nx.descendants(graph, FEED)}
    assert RETURN not in live, "a short circuit"
    back = nx.node_connected_component(wires, RETURN)
    points = {device for circuit in netlist.circuits for device in circuit.devices}
    assert all((EndKind.DEVICE, point, "C") in back for point in points)
    return {(point, coil) for point in points for coil in "NR" if (EndKind.DEVICE, point, coil) in live}


def button(number: str) -> tuple[Metal, Metal]:
    return ((EndKind.ROUTE, number, "F"), (EndKind.ROUTE, number, "M"))


def lever(id_: str, contact: str) -> tuple[Metal, Metal]:
    return ((EndKind.LEVER, id_, "F"), (EndKind.LEVER, id_, contact))


def named(railway: dict[str, Any], lies: dict[str, str]) -> set[Coil]:
    """The coils that a route names, read off the description: point P5A works from lever 5, swapped or not."""
    found = set()
    for id_, point in railway["points"].items():
        lie = lies.get(id_[1:].rstrip("AB"))
        if lie is not None:
            straight = (lie == "normal") != (point.get("swapped") == "yes")
            found.add((id_, "N" if straight else "R"))
    return found


LEVERS = ("1", "2", "3", "4", "5")


@st.composite
def railways(draw: st.DrawFn) -> dict[str, Any]:
    points: dict[str, Any] = {}
    levers = draw(st.lists(st.sampled_from(LEVERS), min_size=1, unique=True))
    for id_ in levers:
        ends = draw(st.sampled_from([("",), ("A", "B")]))
        for end in ends:
            points[f"P{id_}{end}"] = {
                "swapped": draw(st.sampled_from(["yes", "no"])),
                "board": draw(st.sampled_from(["E", "W"])),
            }
    lies = st.dictionaries(st.sampled_from(levers), st.sampled_from(["normal", "reverse"]), min_size=1)
    routes = draw(st.lists(lies, min_size=1, max_size=6))
    panels = {"PE": {"board": "E"}, "PW": {"board": "W"}}
    return {
        "boards": {"E": {}, "W": {}},
        "supplies": {"PULSE": {"kind": "pulse", "board": "E", "feed_at": draw(st.sampled_from(["strip", "panel"]))}},
        "strips": {"E1": {"board": "E", "ways": "60"}, "W1": {"board": "W", "ways": "60"}},
        "panels": panels,
        "levers": {id_: {"panel": draw(st.sampled_from(["PE", "PW"]))} for id_ in levers},
        "plugs": draw(st.sampled_from([{}, {"J1": {"boards": ["E", "W"], "pins": "99"}}])),
        "points": points,
        "routes": {
            f"route {n}": {"levers": lies, "panel": draw(st.sampled_from([*panels]))}
            for n, lies in enumerate(routes, 1)
        },
    }


@settings(max_examples=40)
@given(railway=railways())
def test_each_route_pulses_exactly_the_coils_that_it_names(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    for number, route in enumerate(railway["routes"].values(), 1):
        assert pulsed(netlist, [button(str(number))], netlist.diodes) == named(railway, route["levers"])


@settings(max_examples=40)
@given(railway=railways())
def test_a_lever_still_pulses_its_own_points_alone(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    assert pulsed(netlist, [], netlist.diodes) == set()
    for id_ in railway["levers"]:
        for contact, lie in (("N", "normal"), ("R", "reverse")):
            assert pulsed(netlist, [lever(id_, contact)], netlist.diodes) == named(railway, {id_: lie})


@settings(max_examples=40)
@given(railway=railways(), data=st.data())
def test_a_diode_that_is_turned_round_shows(railway: dict[str, Any], data: st.DataObject) -> None:
    """The model can fail: with any one diode the wrong way round, its own route lacks a coil."""
    netlist = netlist_of(railway)
    turned = data.draw(st.sampled_from(range(len(netlist.diodes))))
    diodes = [
        replace(diode, anode=diode.cathode, cathode=diode.anode) if index == turned else diode
        for index, diode in enumerate(netlist.diodes)
    ]
    wrong = [
        number
        for number, route in enumerate(railway["routes"].values(), 1)
        if pulsed(netlist, [button(str(number))], diodes) != named(railway, route["levers"])
    ]
    assert wrong


@settings(max_examples=40)
@given(railway=railways())
def test_every_net_is_a_tree(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    graph = copper(netlist)
    assert graph.number_of_edges() == len(netlist.wires)
    assert nx.is_forest(graph)
    ends = {end.point for diode in netlist.diodes for end in (diode.anode, diode.cathode)}
    assert ends <= set(graph)


@settings(max_examples=40)
@given(railway=railways())
def test_a_diode_for_each_route_and_coil_all_one_way(railway: dict[str, Any]) -> None:
    netlist = netlist_of(railway)
    assert len(netlist.diodes) == sum(len(route["levers"]) for route in railway["routes"].values())
    for matrix in netlist.matrices:
        rows, columns = {row.letter for row in matrix.rows}, {str(column.number) for column in matrix.columns}
        diodes = [diode for diode in netlist.diodes if diode.circuit == matrix.id]
        assert all(diode.anode.terminal in rows and diode.cathode.terminal in columns for diode in diodes)
        assert max(Counter((diode.anode, diode.cathode) for diode in diodes).values()) == 1


@pytest.mark.parametrize("turned", range(4))
def test_a_turned_diode_lets_a_route_reach_the_coils_of_another(turned: int) -> None:
    """Two routes that share 1N: worked out by hand, route 1 (1N 2N) would also throw 3R through route 2's row."""
    railway = {
        "supplies": {"PULSE": {"kind": "pulse"}},
        "strips": {"A1": {"ways": "12"}},
        "points": {"P1": {}, "P2": {}, "P3": {}},
        "routes": {"a": {"1": "normal", "2": "normal"}, "b": {"1": "normal", "3": "reverse"}},
    }
    netlist = netlist_of(railway)
    assert [f"{d.anode.terminal}{d.cathode.terminal}" for d in netlist.diodes] == ["A1", "A2", "B1", "B3"]
    diodes = list(netlist.diodes)
    diodes[turned] = replace(diodes[turned], anode=diodes[turned].cathode, cathode=diodes[turned].anode)
    first, second = ({"P1": "N", "P2": "N"}, {"P1": "N", "P3": "R"})
    expected = {
        0: ({"P2": "N"}, {**second, "P2": "N"}),
        1: ({"P1": "N"}, second),
        2: ({**first, "P3": "R"}, {"P3": "R"}),
        3: (first, {"P1": "N"}),
    }[turned]
    for number, coils in zip("12", expected, strict=True):
        assert pulsed(netlist, [button(number)], diodes) == set(coils.items())
