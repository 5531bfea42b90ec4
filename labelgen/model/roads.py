"""Which of the three roads at a point is toe, normal and reverse, from the geometry alone."""

from dataclasses import dataclass
from math import acos, atan2, hypot, pi

from labelgen.lengths import Point
from labelgen.model.panel_form import Panel
from labelgen.model.track_graph import TrackGraph
from labelgen.natural_order import natural

SAME_ANGLE = 1e-6
"""Radians: angles closer than this are equal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Roads:
    """The edges by which the three roads leave a point's node."""

    node: int
    toe: int
    normal: int
    reverse: int


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


def panel_roads(panel: Panel, graph: TrackGraph) -> dict[str, Roads]:
    """The roads of every point that stands alone where exactly three meet."""
    found: dict[str, Roads] = {}
    for point, node in graph.points.items():
        roads = roads_at(graph, node, panel.points[point].normal)
        if roads and graph.points_at[node] == (point,):
            found[point] = roads
    return found


def angle_between(a: Point, b: Point) -> float:
    """The angle between two directions, 0 to pi."""
    cosine = (a.x * b.x + a.y * b.y) / (hypot(a.x, a.y) * hypot(b.x, b.y))
    return acos(max(-1.0, min(1.0, cosine)))


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
    turn = (atan2(out.y, out.x) - atan2(back.y, back.x)) % (2 * pi)
    return bend, not set(tracks) & set(of_toe), natural(tracks[0]), turn
