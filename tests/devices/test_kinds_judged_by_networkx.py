"""Every device kind, throw by throw, once more: with networkx as the judge in place of our own search.

The table of what is fed was written by hand from the trade page (the cases of this folder). Here only networkx says
what hangs together: connected components for metal, descendants and ancestors where diodes let current one way only.
"""

from collections.abc import Mapping

import networkx as nx
import pytest
from devices.copper_proof import copper, ends, sources
from devices.kind_cases import Case, table
from devices.point_cases import POINT_CASES
from devices.signal_cases import SIGNAL_CASES
from devices.track_cases import TRACK_CASES
from wiring.wiring_builder import netlist_of

from labelgen.model.netlist import Netlist

CASES = [*POINT_CASES, *TRACK_CASES, *SIGNAL_CASES]
each_case = pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)


def metal(netlist: Netlist, positions: Mapping[str, str]) -> "nx.Graph[str]":
    """All that conducts both ways: wires, bridges, closed contacts."""
    graph: nx.Graph[str] = nx.Graph(copper(netlist, positions).joints)
    graph.add_nodes_from(_watched(netlist))
    return graph


def one_way(netlist: Netlist, positions: Mapping[str, str]) -> "nx.DiGraph[str]":
    """The same with the diodes, from anode to cathode."""
    graph: nx.DiGraph[str] = nx.DiGraph(metal(netlist, positions))
    graph.add_edges_from(copper(netlist, positions).diodes)
    return graph


def _watched(netlist: Netlist) -> list[str]:
    terminals = [f"{d}.{t}" for circuit in netlist.circuits for d in circuit.devices for t in circuit.kind.terminals]
    return terminals + sorted({end.name for end in ends(netlist) if end.terminal.startswith("lamp-")})


def fed(case: Case, netlist: Netlist, throw: str) -> dict[str, str]:
    """`>` before a supply's terminal: current can only come from there; `<`: only go there."""
    joined, current = metal(netlist, case.positions(throw)), one_way(netlist, case.positions(throw))
    found: dict[str, list[str]] = {}
    for source in [*sources(netlist), *case.signals]:
        piece = nx.node_connected_component(joined, source)
        out, back = nx.descendants(current, source), nx.ancestors(current, source)
        for end in _watched(netlist):
            if end == source:
                continue
            if end in piece or end in out & back:
                found.setdefault(end, []).append(source)
            elif end in out:
                found.setdefault(end, []).append(f">{source}")
            elif end in back:
                found.setdefault(end, []).append(f"<{source}")
    return {end: " ".join(by) for end, by in found.items()}


@each_case
def test_what_a_throw_feeds(case: Case) -> None:
    netlist = netlist_of(case.railway)
    assert case.throws
    for throw, expected in case.throws.items():
        assert fed(case, netlist, throw) == table(expected), throw


@each_case
def test_no_two_supplies_meet_except_where_that_is_declared(case: Case) -> None:
    netlist = netlist_of(case.railway)
    for throw in case.throws:
        current = one_way(netlist, case.positions(throw))
        for one in sources(netlist):
            reached = nx.descendants(current, one) & {*sources(netlist)} - {one}
            assert all(" ".join(sorted((one, other))) in case.meet for other in reached), (throw, one, reached)


@each_case
def test_every_net_is_one_piece_of_copper_and_no_ring(case: Case) -> None:
    netlist = netlist_of(case.railway)
    wires: nx.MultiGraph[tuple[str, str, str]] = nx.MultiGraph()
    wires.add_edges_from((wire.start.point, wire.finish.point) for wire in netlist.wires)
    assert nx.is_forest(wires)


def test_the_judge_finds_a_sneak_path() -> None:
    """A piece of wire beside a diode of the three-way, from its button's way to a coil's, lets every button through."""
    case = next(case for case in CASES if case.id == "three-way")
    netlist = netlist_of(case.railway + "\nwires: [{from: A1.2, to: A1.6}]")
    assert fed(case, netlist, "centre") != table(case.throws["centre"])
