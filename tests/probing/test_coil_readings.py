"""Shorts and the readings that show them, by the Laplacian of what is left when two regions are one.

The fewest readings: by trying all choices.
"""

from itertools import combinations

import networkx as nx
import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from labelgen.probing import coil_readings
from labelgen.probing.coil_readings import through_coils
from labelgen.probing.network import Network

NETS = 5
COILS = st.lists(
    st.tuples(st.integers(0, NETS - 1), st.integers(0, NETS - 1), st.sampled_from([2.0, 4.5, 9.0])), max_size=7
)
SHORTS = st.lists(st.tuples(st.integers(0, NETS - 1), st.integers(0, NETS - 1)), min_size=1, max_size=5, unique=True)
Pair = tuple[int, int]


def graph_of(coils: list[tuple[int, int, float]]) -> nx.Graph:
    graph = nx.Graph()
    for one, other, ohms in coils:
        if one != other:
            before = graph.edges[one, other]["mhos"] if graph.has_edge(one, other) else 0.0
            graph.add_edge(one, other, mhos=before + 1 / ohms)
    return graph


def resistances(graph: nx.Graph) -> dict[Pair, float]:
    """Between any two that are joined, by the pseudo-inverse of the Laplacian (D. J. Klein and M. Randić, 1993)."""
    found: dict[Pair, float] = {}
    for piece in nx.connected_components(graph):
        nodes = sorted(piece)
        laplacian = np.diag([float(graph.degree(node, weight="mhos")) for node in nodes])
        laplacian -= nx.to_numpy_array(graph.subgraph(nodes), nodelist=nodes, weight="mhos")
        inverse = np.linalg.pinv(laplacian)
        for i, one in enumerate(nodes):
            for j, other in enumerate(nodes):
                found[one, other] = float(inverse[i, i] + inverse[j, j] - 2 * inverse[i, j])
    return found


def shorted(graph: nx.Graph, short: Pair) -> nx.Graph:
    """Both ends of the short are its lower one."""
    low, high = sorted(short)
    joined = nx.Graph()
    for one, other, mhos in graph.edges(data="mhos"):
        a, b = (low if end == high else end for end in (one, other))
        if a != b:
            before = joined.edges[a, b]["mhos"] if joined.has_edge(a, b) else 0.0
            joined.add_edge(a, b, mhos=before + mhos)
    return joined


def shown_by(graph: nx.Graph, shorts: list[Pair]) -> dict[Pair, set[Pair]]:
    """Of all readings, which shorts make them fall by four tenths: nearly half."""
    before = resistances(graph)
    found: dict[Pair, set[Pair]] = {(a, b): set() for a, b in before if a < b}
    for low, high in shorts:
        after = resistances(shorted(graph, (low, high)))
        for (a, b), shown in found.items():
            ends = (low if a == high else a, low if b == high else b)
            if (0.0 if ends[0] == ends[1] else after[ends]) <= 0.6 * before[a, b] + 1e-6:
                shown.add((low, high))
    return found


def joined_shorts(graph: nx.Graph, shorts: list[Pair]) -> list[Pair]:
    """Those between different regions that coils join, each once, as the chart asks for them."""
    found = dict.fromkeys((min(s), max(s)) for s in shorts if s[0] != s[1])
    return [(a, b) for a, b in found if a in graph and b in graph and nx.has_path(graph, a, b)]


def least_by_trying(shown: list[set[Pair]], shorts: list[Pair]) -> int:
    return next(
        n for n in range(len(shorts) + 1) if any(set().union(*c) == set(shorts) for c in combinations(shown, n))
    )


@given(COILS, SHORTS)
def test_every_short_is_proved_by_as_few_as_can_be(coils: list[tuple[int, int, float]], wanted: list[Pair]) -> None:
    """Of readings across a short the fewest; and some choice of all readings that there are meets the bound."""
    graph = graph_of(coils)
    shorts = joined_shorts(graph, wanted)
    assume(shorts)
    shown = shown_by(graph, shorts)
    proved, least = through_coils(shorts, Network([], coils, []))
    assert sorted(place for places in proved.values() for place in places) == list(range(len(shorts)))
    for reading, places in proved.items():
        assert reading in places
        assert {shorts[place] for place in places} <= shown[shorts[reading]]
    assert len(proved) == least_by_trying([shown[short] for short in shorts], shorts)
    assert least == least_by_trying(list(shown.values()), shorts)


@given(COILS, SHORTS)
def test_the_bound_of_large_groups_holds(coils: list[tuple[int, int, float]], wanted: list[Pair]) -> None:
    graph = graph_of(coils)
    shorts = joined_shorts(graph, wanted)
    assume(shorts)
    few, coil_readings.FEW = coil_readings.FEW, 0
    try:
        _, least = through_coils(shorts, Network([], coils, []))
    finally:
        coil_readings.FEW = few
    assert 1 <= least <= least_by_trying(list(shown_by(graph, shorts).values()), shorts)


def test_a_common_of_three_motors() -> None:
    """Six coils of 4.5 ohms on one common (0), neighbours side by side: 1-2, 2-3, ... 5-6, and each beside the common.

    By hand: a reading to the common shows all that touches its coil (4.5 ohms fall to 2.25), one between neighbours
    what touches both (9 ohms fall to 4.5); in turn they serve three coils with two readings, so that four are enough.
    """
    coils = [(0, coil, 4.5) for coil in range(1, 7)]
    shorts = [(0, coil) for coil in range(1, 7)] + [(coil, coil + 1) for coil in range(1, 6)]
    proved, least = through_coils(shorts, Network([], coils, []))
    assert len(proved) == least == 4


def test_a_short_is_shown_by_a_reading_that_touches_neither_of_its_ends() -> None:
    """A row 2-0-1-3 of 2, 4.5 and 2 ohms: either short takes more than half from a reading across the other one."""
    proved, least = through_coils([(0, 1), (2, 3)], Network([], [(0, 1, 4.5), (0, 2, 2.0), (1, 3, 2.0)], []))
    assert len(proved) == least == 1


@pytest.mark.parametrize("ohms", [None, 4.5])
def test_what_is_not_known_shows_nothing_else(ohms: float | None) -> None:
    """A lamp between two of four coils: what lies beyond it is not shown by a reading on this side."""
    network = Network([], [(0, 1, 4.5), (1, 2, ohms), (2, 3, 4.5)], [])
    proved, least = through_coils([(0, 1), (2, 3)], network)
    assert sorted(proved) == [0, 1]
    assert least == 2
