"""Which edges of a track graph are drawn in one go: through corners, crossings and the normal roads of points."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.model.tracks.forms import Junction
from labelgen.model.tracks.graph import TrackGraph
from labelgen.model.tracks.roads import Way, straight_ways


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Edges that are drawn in one go, from node to node."""

    nodes: tuple[int, ...]
    edges: tuple[int, ...]


def drawn_chains(graph: TrackGraph, forms: Mapping[int, Junction]) -> list[Chain]:
    """Every edge once, in chains that are as long as they can be; ends come before rings."""
    joined = _joints(graph, forms)
    starts = [(node, edge) for edge, e in enumerate(graph.edges) for node in e.ends if (node, edge) not in joined]
    rings = [(e.ends[0], edge) for edge, e in enumerate(graph.edges)]
    done: set[int] = set()
    chains = []
    for node, edge in [*starts, *rings]:
        if edge not in done:
            chain = _follow(graph, joined, node, edge)
            done.update(chain.edges)
            chains.append(chain)
    return chains


def _follow(graph: TrackGraph, joined: Mapping[tuple[int, int], int], node: int, edge: int) -> Chain:
    nodes, edges = [node], []
    following: int | None = edge
    while following is not None and following not in edges:
        edges.append(following)
        nodes.append(graph.edges[following].other(nodes[-1]))
        following = joined.get((nodes[-1], following))
    return Chain(nodes=tuple(nodes), edges=tuple(edges))


def _joints(graph: TrackGraph, forms: Mapping[int, Junction]) -> dict[tuple[int, int], int]:
    """(node, edge): the edge in which it goes on without a seam."""
    parted = {
        *graph.breaks.values(),
        *graph.fans.values(),
        *(lower for lower, _ in graph.bridges.values()),
        *(node for nodes in graph.turntables.values() for node in nodes),
    }
    joined: dict[tuple[int, int], int] = {}
    for node, edges in enumerate(graph.edges_at):
        pairs: tuple[Way, ...] = ()
        if node in forms:
            pairs = forms[node].straight
        elif node not in parted:
            pairs = ((edges[0], edges[1]),) if len(edges) == 2 else straight_ways(graph, node)
        for a, b in pairs:
            joined[node, a], joined[node, b] = b, a
    return joined
