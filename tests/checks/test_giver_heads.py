"""A device that is a circuit and a supply at once: what comes to it and what it feeds are called apart."""

import networkx as nx
import pytest
from wiring.wiring_builder import built_in_kinds, described, netlist_of

from labelgen.checks.giver_heads import heads_of_givers
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem

BEHIND = "supplies: {BUS: {kind: digital}}\nstrips: {A1: }\ndevices: {%s: {kind: %s}, D3: {kind: dropper, supply: %s}}"
UNMARKED = """
kinds:
  sensor:
    terminals: {in: , out: , A: , B: }
    supply: track
    group:
      - {function: track, terminal: in, chain: A}
      - {function: track, mark: s, terminal: out, across: A}
    chain: [{function: track-return, terminal: B, supply: B}]
    gives: {A: out, B: }
"""


def problems(text: str) -> list[Problem]:
    return heads_of_givers(described(text), netlist_of(text))


def nets_of_heads(netlist: Netlist) -> dict[str, int]:
    graph: nx.Graph[str] = nx.Graph([(wire.start.name, wire.finish.name) for wire in netlist.wires])
    nets: dict[str, set[frozenset[str]]] = {}
    for wire in netlist.wires:
        nets.setdefault(wire.head, set()).add(frozenset(nx.node_connected_component(graph, wire.start.name)))
    return {head: len(found) for head, found in nets.items()}


@pytest.mark.parametrize("kind", [name for name, kind in built_in_kinds().items() if kind.gives])
def test_no_built_in_kind_calls_two_nets_alike(kind: str) -> None:
    text = BEHIND % ("DET", kind, "DET")
    assert set(nets_of_heads(netlist_of(text)).values()) == {1}
    assert problems(text) == []


def test_a_kind_that_does_is_told() -> None:
    text = UNMARKED + BEHIND % ("DET", "sensor", "DET")
    assert nets_of_heads(netlist_of(text))["DETT"] == 2
    (problem,) = problems(text)
    assert problem.code == "equal-heads"
    assert problem.message == "wires before and behind DET would both be called DETT"
    assert problem.place.source == "devices.DET"


def test_with_nothing_behind_it_there_is_nothing_to_tell() -> None:
    assert problems(UNMARKED + BEHIND % ("DET", "sensor", "BUS")) == []


def test_a_bridge_makes_them_one_net() -> None:
    """The detector is bridged for now: what is joined may be called alike."""
    text = UNMARKED + BEHIND % ("DET", "sensor, way: 1", "DET")
    assert len(problems(text)) == 1
    assert problems(text.replace("A1: }", "A1: {bridges: [[1, 2]]}}")) == []
