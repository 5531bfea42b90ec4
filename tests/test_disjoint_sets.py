"""Sets joined step by step, against the connected components of networkx."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from labelgen.disjoint_sets import DisjointSets

pairs = st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12)), max_size=30)


@given(pairs)
def test_they_are_the_components_of_the_graph(joined: list[tuple[int, int]]) -> None:
    sets, graph = DisjointSets[int](), nx.Graph()
    graph.add_nodes_from(range(13))
    for one, other in joined:
        apart = not nx.has_path(graph, one, other)
        first = sets.first(one)
        assert sets.join(one, other) == apart
        assert sets.first(other) == first
        graph.add_edge(one, other)
    found = {frozenset(n for n in range(13) if sets.first(n) == sets.first(m)) for m in range(13)}
    assert found == set(map(frozenset, nx.connected_components(graph)))


def test_what_was_never_joined_is_by_itself() -> None:
    assert DisjointSets[str]().first("A1.5") == "A1.5"
