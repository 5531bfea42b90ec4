"""Which edges of a track graph are drawn in one go: through corners, crossings and the normal roads of points."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi

from labelgen.model.roads import Roads, angle_between
from labelgen.model.track_graph import TrackGraph


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """Edges that are drawn in one go, from node to node."""

    nodes: tuple[int, ...]
    edges: tuple[int, ...]


def drawn_chains(graph: TrackGraph, roads: Mapping[str, Roads]) -> list[Chain]:
    """Every edge once, in chains that are as long as they can be; ends come before rings."""
    joined = _joints(graph, roads)
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


def _joints(graph: TrackGraph, roads: Mapping[str, Roads]) -> dict[tuple[int, int], int]:
    """(node, edge): the edge in which it goes on without a seam."""
    at_points = {r.node: (r.toe, r.normal) for r in roads.values()}
    broken = set(graph.breaks.values())
    joined: dict[tuple[int, int], int] = {}
    for node, edges in enumerate(graph.edges_at):
        pairs: list[tuple[int, int]] = []
        if node in at_points:
            pairs = [at_points[node]]
        elif node not in broken:
            pairs = [(edges[0], edges[1])] if len(edges) == 2 else _straight_pairs(graph, node)
        for a, b in pairs:
            joined[node, a], joined[node, b] = b, a
    return joined


def _straight_pairs(graph: TrackGraph, node: int) -> list[tuple[int, int]]:
    """The pairs of edges that go straight on over a crossing."""
    edges = graph.edges_at[node]
    return [
        (a, b)
        for index, a in enumerate(edges)
        for b in edges[index + 1 :]
        if pi - angle_between(graph.towards(node, a), graph.towards(node, b)) < 1e-3
    ]
