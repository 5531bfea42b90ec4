"""Along a road, away from where something stands on a panel: where its hole or lamp may slide to. Millimetres."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import hypot, pi

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.cutting import SAME_PLACE
from labelgen.model.tracks.forms import panel_roads
from labelgen.model.tracks.graph import TrackGraph, track_graph
from labelgen.model.tracks.roads import Roads, angle_between

STEP_MM = 0.5
"""Places are tried that far apart."""
_AT_A_BREAK_MM = 4.0
"""What slides along a section stays that far from its end."""
_STRAIGHT_ON = 1e-3
"""Radians."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """One way out along the tracks, through corners and over crossings, up to what belongs to something else."""

    places: tuple[Point, ...]
    edges: frozenset[int]
    length: float
    """How far one may go."""
    meets: tuple[str, ...] = ()
    """The points at which it ends; then only its first half is its own."""

    def whole(self) -> "Walk":
        """All of it, for someone to whom the point at its end belongs as well."""
        return Walk(places=self.places, edges=self.edges, length=2 * self.length) if self.meets else self

    def steps(self, start: float = 0.0) -> Iterator[tuple[float, Point]]:
        """How far, and where, in order."""
        for step in range(round(self.length / STEP_MM + 0.5)):
            if start <= step * STEP_MM <= self.length:
                yield step * STEP_MM, self._at(step * STEP_MM)

    def _at(self, length: float) -> Point:
        at, gone = self.places[0], 0.0
        for start, finish in pairwise(self.places):
            stretch = hypot(finish.x - start.x, finish.y - start.y)
            t = min(1.0, (length - gone) / stretch)
            at = Point(start.x + (finish.x - start.x) * t, start.y + (finish.y - start.y) * t)
            gone += stretch
            if length < gone:
                break
        return at


class PanelWalks:
    """The roads of one panel, worked out when they are first asked for."""

    def __init__(self, panel: Panel) -> None:
        self.panel = panel

    @cached_property
    def graph(self) -> TrackGraph:
        return track_graph(self.panel)

    @cached_property
    def at(self) -> tuple[Point, ...]:
        """The nodes in mm."""
        return tuple(self._mm(node) for node in self.graph.nodes)

    @cached_property
    def _stops(self) -> set[int]:
        return {*self.graph.points.values(), *self.graph.breaks.values()}

    @cached_property
    def _roads(self) -> dict[str, Roads]:
        return panel_roads(self.panel, self.graph)

    @cached_property
    def legs(self) -> dict[str, tuple[Walk, ...]]:
        """Point: its normal and its reverse road; the third one of a three-way that is drawn as one point."""
        return {
            point: tuple(self._from_node(found.node, edge) for edge in found.legs)
            for point, found in self._roads.items()
        }

    def of_point(self, point: str) -> tuple[Walk, ...]:
        """Its toe first, then its normal road, then the others; none of a point that stands on no track."""
        node = self.graph.points.get(point)
        if node is None:
            return ()
        roads = self._roads.get(point)
        edges = (roads.toe, *roads.legs) if roads else self.graph.edges_at[node]
        return tuple(self._from_node(node, edge) for edge in edges)

    def of_section(self, place: tuple[float, float]) -> tuple[Walk, ...]:
        """Both ways along the track from a square on it."""
        spot = Point(*place)
        edge = next((index for index in range(len(self.graph.edges)) if self._lies_on(spot, index)), None)
        if edge is None:
            return ()
        return tuple(self._walk(self._mm(spot), edge, end) for end in self.graph.edges[edge].ends)

    def tracks_but(self, walks: Sequence[Walk]) -> list[tuple[Point, Point]]:
        """Every stretch of track that is on none of these walks."""
        own = {edge for walk in walks for edge in walk.edges}
        edges = [e for index, e in enumerate(self.graph.edges) if index not in own]
        return [(self.at[e.ends[0]], self.at[e.ends[1]]) for e in edges]

    def tracks_of(self, walk: Walk, *, but: Walk) -> list[tuple[Point, Point]]:
        """The stretches of one walk that are not on another."""
        edges = [self.graph.edges[edge] for edge in sorted(walk.edges - but.edges)]
        return [(self.at[e.ends[0]], self.at[e.ends[1]]) for e in edges]

    def _from_node(self, node: int, edge: int) -> Walk:
        return self._walk(self.at[node], edge, self.graph.edges[edge].other(node))

    def _walk(self, start: Point, edge: int, node: int) -> Walk:
        places, edges = [start, self.at[node]], {edge}
        while node not in self._stops and (onward := self._onward(node, edge)) is not None and onward not in edges:
            edge, node = onward, self.graph.edges[onward].other(node)
            edges.add(edge)
            places.append(self.at[node])
        whole = sum(hypot(b.x - a.x, b.y - a.y) for a, b in pairwise(places))
        if node in self.graph.points_at:
            whole /= 2  # beyond the middle it would seem to belong to the other point
        elif node in self._stops:
            whole -= _AT_A_BREAK_MM
        meets = self.graph.points_at.get(node, ())
        return Walk(places=tuple(places), edges=frozenset(edges), length=whole, meets=meets)

    def _onward(self, node: int, edge: int) -> int | None:
        """The edge by which a road goes on: round a corner, or straight over a crossing."""
        others = [one for one in self.graph.edges_at[node] if one != edge]
        if len(others) == 1:
            return others[0]
        back = self.graph.towards(node, edge)
        straight = [o for o in others if pi - angle_between(back, self.graph.towards(node, o)) < _STRAIGHT_ON]
        return straight[0] if straight else None

    def _lies_on(self, spot: Point, edge: int) -> bool:
        a, b = (self.graph.nodes[end] for end in self.graph.edges[edge].ends)
        return to_line(spot, a, b) <= SAME_PLACE

    def _mm(self, place: Point) -> Point:
        return Point(place.x * self.panel.grid, place.y * self.panel.grid)


def to_line(place: Point, a: Point, b: Point) -> float:
    """The distance from a place to a straight stretch."""
    along_x, along_y, x, y = b.x - a.x, b.y - a.y, place.x - a.x, place.y - a.y
    t = (along_x * x + along_y * y) / (along_x * along_x + along_y * along_y)
    t = 0.0 if t < 0 else min(t, 1.0)
    return hypot(x - t * along_x, y - t * along_y)
