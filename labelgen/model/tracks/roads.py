"""Which of the three roads at a point is toe, normal and reverse, from the geometry alone."""

from dataclasses import dataclass
from itertools import combinations
from math import atan2, pi

from labelgen.lengths import Point
from labelgen.model.tracks.graph import TrackGraph
from labelgen.natural_order import natural

SAME_ANGLE = 1e-6
"""Radians: angles closer than this are equal."""
STRAIGHT_ON = 1e-3
"""Radians: a road that bends less goes straight on."""

Way = tuple[int, int]
"""Two edges between which a train passes over a node, in either direction."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Roads:
    """The edges by which the roads of one point leave its node."""

    node: int
    toe: int
    normal: int
    reverse: int
    third: int | None = None
    """The right-hand road of a three-way that is drawn as one point: `reverse` is then its left-hand road."""

    @property
    def legs(self) -> tuple[int, ...]:
        """Those that the point chooses between, the normal one first."""
        return (self.normal, self.reverse) if self.third is None else (self.normal, self.reverse, self.third)


def roads_at(graph: TrackGraph, node: int, normal: str | None = None) -> Roads | None:
    """The roads at a node; None unless exactly three meet there.

    The straightest pair is toe and normal, and the reverse road leaves the same way as the normal one: so toe is the
    road that is no part of the closest pair. `normal` names a track that is the normal road instead.
    """
    edges = graph.edges_at[node]
    if len(edges) != 3:
        return None
    toe = _toe(graph, node, edges)
    first, second = sorted((edge for edge in edges if edge != toe), key=lambda edge: _ahead(graph, node, toe, edge))
    if normal in graph.edges[second].tracks and normal not in graph.edges[first].tracks:
        first, second = second, first
    return Roads(node=node, toe=toe, normal=first, reverse=second)


def angle_between(a: Point, b: Point) -> float:
    """The angle between two directions, 0 to pi."""
    return abs(atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y))


def turn(graph: TrackGraph, node: int, start: int, edge: int) -> float:
    """The turn at a node from one edge to another, clockwise on the drawing, in radians below a whole turn."""
    back, out = graph.towards(node, start), graph.towards(node, edge)
    return (atan2(out.y, out.x) - atan2(back.y, back.x)) % (2 * pi)


def straight_ways(graph: TrackGraph, node: int) -> tuple[Way, ...]:
    """The pairs of edges that go straight on over a node."""
    return tuple(
        (a, b)
        for a, b in combinations(graph.edges_at[node], 2)
        if pi - angle_between(graph.towards(node, a), graph.towards(node, b)) < STRAIGHT_ON
    )


def is_crossing(graph: TrackGraph, node: int) -> bool:
    """True when two or more tracks go straight on over a node, as lines that cross do."""
    edges = graph.edges_at[node]
    return len(edges) >= 4 and sorted(edge for way in straight_ways(graph, node) for edge in way) == sorted(edges)


def _toe(graph: TrackGraph, node: int, edges: tuple[int, ...]) -> int:
    """The road that is no part of the closest pair; of equals (a square junction) the one drawn towards the point."""

    def closeness(edge: int) -> float:
        a, b = (graph.towards(node, other) for other in edges if other != edge)
        return angle_between(a, b)

    closest = min(closeness(edge) for edge in edges)
    equals = [edge for edge in edges if closeness(edge) <= closest + SAME_ANGLE]
    return min(equals, key=lambda edge: (graph.edges[edge].ends[1] != node, edge))


def _ahead(graph: TrackGraph, node: int, toe: int, edge: int) -> tuple[int, bool, object, float]:
    """Sorts the normal road first: the straighter; of equals the one on the toe's track, then by track's name.

    The last, for a nameless tie, is the turn from the toe clockwise.
    """
    back, out = graph.towards(node, toe), graph.towards(node, edge)
    bend = round((pi - angle_between(back, out)) / SAME_ANGLE)
    tracks, of_toe = graph.edges[edge].tracks, graph.edges[toe].tracks
    return bend, not set(tracks) & set(of_toe), natural(tracks[0]), turn(graph, node, toe, edge)
