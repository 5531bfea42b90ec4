"""What stands where tracks meet: points of every form, diamonds, fans; and by which ways a train passes there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import pi

from labelgen.model.panel.form import Panel, PointForm
from labelgen.model.tracks.graph import TrackGraph
from labelgen.model.tracks.roads import (
    SAME_ANGLE,
    Roads,
    Way,
    angle_between,
    is_crossing,
    roads_at,
    straight_ways,
    turn,
)

MOST_SLIP = pi / 3
"""Tracks that cross at a wider angle than this have no slip: a train could not take it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Junction:
    """Where one or two points stand, and the roads of each."""

    node: int
    form: PointForm
    roads: Mapping[str, Roads]
    """Point: its roads. Two points of a three-way have one toe and one normal road; two of a slip face each other."""
    ways: tuple[Way, ...]
    """Every way over it: the straight ones first."""

    @property
    def straight(self) -> tuple[Way, ...]:
        """The ways that are drawn in one go: both tracks of a slip, else the normal road with the toe."""
        return self.ways[: 2 if self.is_slip else 1]

    @property
    def curved(self) -> tuple[Way, ...]:
        """The ways that leave a straight one."""
        return self.ways[2 if self.is_slip else 1 :]

    @property
    def is_slip(self) -> bool:
        return self.form in {"single-slip", "double-slip"}


def junctions(panel: Panel, graph: TrackGraph) -> dict[int, Junction]:
    """By node: every place where points stand, and the roads that meet there are such as those points can join."""
    found = {}
    for node, points in graph.points_at.items():
        junction = _junction(panel, graph, node, points)
        if junction is not None:
            found[node] = junction
    return found


def panel_roads(panel: Panel, graph: TrackGraph) -> dict[str, Roads]:
    """The roads of every point that stands where such roads meet as it can join."""
    return {point: roads for junction in junctions(panel, graph).values() for point, roads in junction.roads.items()}


def ways_over(graph: TrackGraph, node: int, junction: Junction | None = None) -> tuple[Way, ...]:
    """The ways over any node: those of its points, straight over a crossing, round a corner, else from each to each."""
    if junction is not None:
        return junction.ways
    return straight_ways(graph, node) if is_crossing(graph, node) else tuple(combinations(graph.edges_at[node], 2))


def _junction(panel: Panel, graph: TrackGraph, node: int, points: tuple[str, ...]) -> Junction | None:
    form = _form(panel, graph, node, points)
    if form == "point" and len(points) == 1:
        roads = roads_at(graph, node, panel.points[points[0]].normal)
        return _plain(points[0], roads) if roads is not None else None
    if form == "three-way":
        return _three_way(panel, graph, node, points)
    if form in ("single-slip", "double-slip"):
        return _slip(graph, node, points, form)
    return None


def _form(panel: Panel, graph: TrackGraph, node: int, points: tuple[str, ...]) -> PointForm | None:
    """What the builder calls it, else what the roads make of it; None when such roads cannot have such a point."""
    said = next((form for point in points if (form := panel.points[point].form) is not None), None)
    edges = graph.edges_at[node]
    if len(points) > 2 or len(edges) not in (3, 4):
        return None
    if len(edges) == 3:
        return "point" if said in (None, "point") else None
    if is_crossing(graph, node):
        if said not in (None, "single-slip", "double-slip") or _crossing_angle(graph, node) > MOST_SLIP + SAME_ANGLE:
            return None
        return said or ("double-slip" if len(points) == 2 else "single-slip")
    return "three-way" if said in (None, "three-way") else None


def _crossing_angle(graph: TrackGraph, node: int) -> float:
    return min(
        angle_between(graph.towards(node, a), graph.towards(node, b)) for a, b in combinations(graph.edges_at[node], 2)
    )


def _plain(point: str, roads: Roads) -> Junction:
    ways = ((roads.toe, roads.normal), (roads.toe, roads.reverse))
    return Junction(node=roads.node, form="point", roads={point: roads}, ways=ways)


def _three_way(panel: Panel, graph: TrackGraph, node: int, points: tuple[str, ...]) -> Junction:
    """The first point leads to the left of the road in the middle, as seen from the toe, the second to its right.

    The road in the middle is normal, whether or not it is the straightest.
    """
    edges = graph.edges_at[node]
    toe = max(edges, key=lambda edge: (_closest(graph, node, edge), -edge))
    legs = sorted((edge for edge in edges if edge != toe), key=lambda edge: turn(graph, node, toe, edge))
    left, middle, right = legs
    named = {panel.points[point].normal for point in points}
    chosen = [leg for leg in legs if named & set(graph.edges[leg].tracks)]
    if len(chosen) == 1 and chosen[0] != middle:
        left, right = (leg for leg in legs if leg != chosen[0])
        middle = chosen[0]
    if len(points) == 1:
        roads = {points[0]: Roads(node=node, toe=toe, normal=middle, reverse=left, third=right)}
    else:
        roads = {
            point: Roads(node=node, toe=toe, normal=middle, reverse=leg)
            for point, leg in zip(points, (left, right), strict=True)
        }
    return Junction(node=node, form="three-way", roads=roads, ways=((toe, middle), (toe, left), (toe, right)))


def _slip(graph: TrackGraph, node: int, points: Sequence[str], form: PointForm) -> Junction:
    """Two tracks that cross, and one or two curves from one to the other.

    The first point faces from the end of the first track at which a curve of a single slip begins, the second from
    the other end of that curve. Which curve it is, a track shows that turns there; else it is that from the first
    track's beginning.
    """
    (a, a_far), (b, b_far) = straight_ways(graph, node)
    if angle_between(graph.towards(node, a), graph.towards(node, b)) > pi / 2:
        b, b_far = b_far, b
    curves = [(a, b_far), (b, a_far)]
    turned = [curve for curve in curves if set(graph.edges[curve[0]].tracks) & set(graph.edges[curve[1]].tracks)]
    if form == "single-slip":
        curves = turned[:1] if len(turned) == 1 else curves[:1]
    start, end = curves[0]
    straight = {a: a_far, a_far: a, b: b_far, b_far: b}
    faces = [(start, end), (end, start)]
    roads = {
        point: Roads(node=node, toe=toe, normal=straight[toe], reverse=reverse)
        for point, (toe, reverse) in zip(points, faces, strict=False)
    }
    return Junction(node=node, form=form, roads=roads, ways=((a, a_far), (b, b_far), *curves))


def _closest(graph: TrackGraph, node: int, edge: int) -> float:
    """The angle to the road that is nearest."""
    way = graph.towards(node, edge)
    return min(angle_between(way, graph.towards(node, other)) for other in graph.edges_at[node] if other != edge)
