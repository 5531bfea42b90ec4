"""The track diagram of a panel as a graph: read by the checks (roads without a point) and by the fascia."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from math import floor, hypot

from labelgen.lengths import Point
from labelgen.model.panel_form import Panel

SAME_PLACE = 0.01
"""Squares: places closer than this are one place, so that `5.33` lies on a line that passes at 5.3333."""

Segment = tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A straight stretch of track with nothing on it but its two ends."""

    ends: tuple[int, int]
    """Its nodes, in the direction in which its first track was drawn."""
    tracks: tuple[str, ...]
    """The tracks that run over it; more than one where the builder drew one over another."""

    def other(self, node: int) -> int:
        return self.ends[1] if self.ends[0] == node else self.ends[0]


@dataclass(frozen=True, kw_only=True)
class TrackGraph:
    """Nodes in squares from the panel's top left, y down: corners, ends, points, breaks and crossings of tracks."""

    nodes: tuple[Point, ...]
    edges: tuple[Edge, ...]
    points: Mapping[str, int]
    """Point id: its node. Points that stand on no track are left out."""
    breaks: Mapping[int, int]
    """Position in the panel's list of breaks: its node. Breaks on no track are left out."""

    @cached_property
    def edges_at(self) -> tuple[tuple[int, ...], ...]:
        """For each node the edges that meet there, in order of drawing."""
        found: list[list[int]] = [[] for _ in self.nodes]
        for index, edge in enumerate(self.edges):
            for node in edge.ends:
                found[node].append(index)
        return tuple(tuple(edges) for edges in found)

    @cached_property
    def points_at(self) -> dict[int, tuple[str, ...]]:
        """For each node the points that stand there."""
        found: dict[int, tuple[str, ...]] = {}
        for point, node in self.points.items():
            found[node] = (*found.get(node, ()), point)
        return found

    def towards(self, node: int, edge: int) -> Point:
        """The direction in which an edge leaves a node."""
        return self.nodes[self.edges[edge].other(node)] - self.nodes[node]


def track_graph(panel: Panel) -> TrackGraph:
    """The graph of all tracks, split wherever something is on them; corners that name no point are passed over."""
    segments = {track: _segments(panel, track) for track in panel.tracks}
    every = [segment for track in segments.values() for segment in track]
    nodes = _Nodes()
    points = {point: nodes.add(Point(*placed.at)) for point, placed in panel.points.items()}
    for start, end in every:
        nodes.add(start)
        nodes.add(end)
    breaks = {index: nodes.add(Point(*at)) for index, at in enumerate(panel.breaks)}
    for crossing in _crossings(every):
        nodes.add(crossing)
    edges = _edges(segments, nodes.places)
    on_track = {node for edge in edges for node in edge.ends}
    return TrackGraph(
        nodes=tuple(nodes.places),
        edges=edges,
        points={point: node for point, node in points.items() if node in on_track},
        breaks={index: node for index, node in breaks.items() if node in on_track},
    )


def track_corners(panel: Panel, track: str) -> list[Point | None]:
    """The corners of a track in squares; None for one that names no point of this panel."""
    corners: list[Point | None] = []
    for corner in panel.tracks[track]:
        if isinstance(corner, str):
            placed = panel.points.get(corner)
            corners.append(Point(*placed.at) if placed else None)
        else:
            corners.append(Point(*corner))
    return corners


def same_place(a: Point, b: Point) -> bool:
    return hypot(a.x - b.x, a.y - b.y) <= SAME_PLACE


def on_a_track(graph: TrackGraph, place: Point) -> bool:
    """True when a place, in squares, lies on a track."""
    return any(_along((graph.nodes[e.ends[0]], graph.nodes[e.ends[1]]), place) is not None for e in graph.edges)


@dataclass(slots=True)
class _Nodes:
    """Collects places, one node for all that are the same place; what came first decides where it is."""

    places: list[Point] = field(default_factory=list)
    cells: dict[tuple[int, int], list[int]] = field(default_factory=dict)

    def add(self, place: Point) -> int:
        column, row = floor(place.x / SAME_PLACE), floor(place.y / SAME_PLACE)
        for cell in ((column + dx, row + dy) for dx in (0, -1, 1) for dy in (0, -1, 1)):
            for node in self.cells.get(cell, ()):
                if same_place(self.places[node], place):
                    return node
        self.places.append(place)
        self.cells.setdefault((column, row), []).append(len(self.places) - 1)
        return len(self.places) - 1


def _segments(panel: Panel, track: str) -> list[Segment]:
    corners = [corner for corner in track_corners(panel, track) if corner is not None]
    return [(a, b) for a, b in pairwise(corners) if not same_place(a, b)]


def _crossings(segments: Sequence[Segment]) -> Iterator[Point]:
    """Where two segments cross; of parallel ones nothing, for their own ends split them."""
    for index, first in enumerate(segments):
        for second in segments[index + 1 :]:
            crossing = _crossing(first, second)
            if crossing:
                yield crossing


def _crossing(first: Segment, second: Segment) -> Point | None:
    (a, b), (c, d) = first, second
    if max(a.x, b.x) < min(c.x, d.x) or max(c.x, d.x) < min(a.x, b.x):
        return None
    along, across = b - a, d - c
    turn = along.x * across.y - along.y * across.x
    if abs(turn) <= 1e-9 * hypot(along.x, along.y) * hypot(across.x, across.y):
        return None
    way = c - a
    t = (way.x * across.y - way.y * across.x) / turn
    u = (way.x * along.y - way.y * along.x) / turn
    if not (0 <= t <= 1 and 0 <= u <= 1):
        return None
    return Point(a.x + t * along.x, a.y + t * along.y)


def _edges(segments: Mapping[str, Sequence[Segment]], nodes: Sequence[Point]) -> tuple[Edge, ...]:
    """Every segment cut at the nodes that lie on it; what is drawn twice is one edge."""
    found: dict[tuple[int, int], tuple[tuple[int, int], list[str]]] = {}
    for track, of_track in segments.items():
        for segment in of_track:
            for a, b in pairwise(_nodes_on(segment, nodes)):
                _, tracks = found.setdefault((min(a, b), max(a, b)), ((a, b), []))
                if track not in tracks:
                    tracks.append(track)
    return tuple(Edge(ends=ends, tracks=tuple(tracks)) for ends, tracks in found.values())


def _nodes_on(segment: Segment, nodes: Sequence[Point]) -> list[int]:
    placed = ((_along(segment, place), node) for node, place in enumerate(nodes))
    return [node for _, node in sorted((t, node) for t, node in placed if t is not None)]


def _along(segment: Segment, place: Point) -> float | None:
    """How far along a segment (0 to 1) a place lies, None when it is not on it."""
    a, b = segment
    low, high = (a.x, b.x) if a.x < b.x else (b.x, a.x)
    if not low - SAME_PLACE <= place.x <= high + SAME_PLACE:
        return None
    along, way = b - a, place - a
    length = hypot(along.x, along.y)
    t = (along.x * way.x + along.y * way.y) / length
    off = abs(along.x * way.y - along.y * way.x) / length
    if off > SAME_PLACE or not -SAME_PLACE <= t <= length + SAME_PLACE:
        return None
    return t / length
