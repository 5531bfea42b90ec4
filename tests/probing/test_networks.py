"""Readings between nets, against networkx's resistance distance (which gives 5/6 Ω across a cube of 1 Ω edges)."""

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.probing.network import Expected, Network

NETS = 8
EDGES = st.lists(
    st.tuples(st.integers(0, NETS - 1), st.integers(0, NETS - 1), st.sampled_from([2.0, 4.5, 9.0, 600.0])), max_size=14
)


@given(EDGES, st.lists(st.tuples(st.integers(0, NETS - 1), st.integers(0, NETS - 1)), max_size=3))
def test_ohms_are_the_resistance_distance(edges: list[tuple[int, int, float]], made: list[tuple[int, int]]) -> None:
    network = Network(made, edges, [])
    graph = nx.Graph()
    graph.add_nodes_from(network.region.first(net) for net in range(NETS))
    for one, other, ohms in edges:
        a, b = network.region.first(one), network.region.first(other)
        if a != b:
            before = graph.edges[a, b]["mhos"] if graph.has_edge(a, b) else 0.0
            graph.add_edge(a, b, mhos=before + 1 / ohms)
    for one in range(NETS):
        for other in range(one):
            a, b = network.region.first(one), network.region.first(other)
            if a == b:
                continue
            if not nx.has_path(graph, a, b):
                assert network.expected(one, other) == Expected("nothing")
                continue
            part = graph.subgraph(nx.node_connected_component(graph, a))
            right = nx.resistance_distance(part, a, b, weight="mhos", invert_weight=False)
            assert network.expected(one, other).ohms == pytest.approx(right)


def test_a_cube() -> None:
    cube = nx.convert_node_labels_to_integers(nx.hypercube_graph(3), ordering="sorted")
    network = Network([], [(a, b, 1.0) for a, b in cube.edges], [])
    assert network.ohms(0, 7) == pytest.approx(5 / 6)


def test_what_is_not_known_is_not_said() -> None:
    """A lamp beside a coil, alone, and in a ring."""
    network = Network([], [(0, 1, 4.5), (0, 1, None), (1, 2, 4.5), (3, 4, 4.5), (4, 5, 4.5), (5, 3, None)], [])
    assert network.expected(0, 1) == Expected("no-short")
    assert network.expected(0, 2) == Expected("no-short")
    assert network.expected(1, 2) == Expected("through", 4.5)
    assert network.expected(3, 4) == Expected("no-short")
    assert network.expected(0, 3) == Expected("nothing")


def test_a_diode_says_where_the_red_lead_goes() -> None:
    network = Network([], [(2, 3, 4.5)], [(0, 1), (1, 2), (3, 1)])
    assert network.expected(0, 1) == Expected("nothing", red_second=True)
    assert network.expected(1, 0) == Expected("nothing", red_first=True)
    assert network.expected(0, 3) == Expected("nothing", red_second=True)
    assert network.expected(1, 2) == Expected("no-short")


def test_groups_are_joined_by_few_ohms_alone() -> None:
    network = Network([(2, 3)], [(0, 1, 4.5), (1, 2, 600.0)], [])
    assert network.group.first(0) == network.group.first(1)
    assert network.group.first(1) != network.group.first(2)
    assert network.group.first(2) == network.group.first(3)
