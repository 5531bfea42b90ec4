"""Nets and the ways within them, against networkx on the whole wire list."""

from itertools import combinations, pairwise
from math import isclose

import networkx as nx
import pytest
from generated_railways import railway

from labelgen.model.copper import Copper, wire_ohms
from labelgen.model.netlist import Netlist
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand


@pytest.fixture(scope="module")
def netlist() -> Netlist:
    description, _ = read_description_text(railway(60))
    assert description is not None
    return expand(description, built_in_kinds())[0]


@pytest.fixture(scope="module")
def judge(netlist: Netlist) -> nx.Graph:
    graph = nx.Graph()
    for wire in netlist.wires:
        graph.add_edge(wire.start.point, wire.finish.point, ohms=wire_ohms(wire), number=wire.number)
    return graph


def test_nets_are_the_connected_pieces(netlist: Netlist, judge: nx.Graph) -> None:
    copper = Copper(netlist)
    pieces = list(nx.connected_components(judge))
    assert copper.nets == len(pieces)
    for piece in pieces:
        assert len({copper.net(joint) for joint in piece}) == 1
    assert copper.net(("lever", "nowhere", "F")) is None  # type: ignore[arg-type]


def test_the_way_between_two_ends(netlist: Netlist, judge: nx.Graph) -> None:
    copper = Copper(netlist)
    net = max(copper.joints.values(), key=len)
    some = net[:: max(1, len(net) // 12)]
    for one, other in combinations(some, 2):
        path = nx.shortest_path(judge, one, other)
        numbers = [judge.edges[pair]["number"] for pair in pairwise(path)]
        assert [wire.number for wire in copper.wires_between(one, other)] == numbers
        (*stretches,) = copper.stretches([one, other])
        ohms = sum(judge.edges[pair]["ohms"] for pair in pairwise(path))
        assert isclose(sum(stretch.ohms for stretch in stretches), ohms, rel_tol=1e-9, abs_tol=1e-12)


def test_stretches_hold_all_joints_as_one_tree(netlist: Netlist, judge: nx.Graph) -> None:
    copper = Copper(netlist)
    for net in copper.joints.values():
        some = net[::5]
        tree = nx.Graph()
        tree.add_nodes_from(some)
        tree.add_weighted_edges_from((s.start, s.finish, s.ohms) for s in copper.stretches(some))
        assert nx.is_tree(tree)
        for one, other in combinations(some[:6], 2):
            ours = nx.shortest_path_length(tree, one, other, weight="weight")
            theirs = nx.shortest_path_length(judge, one, other, weight="ohms")
            assert isclose(ours, theirs, rel_tol=1e-9, abs_tol=1e-12)
