"""The track diagram of a panel as a graph: read by the checks (roads without a point) and by the fascia."""

from collections import Counter
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import hypot
from typing import TypeVar

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel, Turntable
from labelgen.model.tracks.cutting import SAME_PLACE, Nodes, along_of, crossings_of, same_place, stops_of
from labelgen.model.tracks.segment_cells import Segment

RIM = 0.25
"""Squares: a track that ends so near to a turntable's rim ends on it, for nobody works out where a slanting line meets
a circle."""


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
    crossings: Mapping[int, int]
    """Position in the panel's list of crossings: its node. Those on no track are left out."""
    bridges: Mapping[int, tuple[int, int]]
    """Position in the panel's list of bridges: the nodes of its lower and of its upper track, which are in one place
    and not joined. Those where no two tracks pass are left out."""
    exits: Mapping[str, int]
    """What it leads to: its node. Exits on no track are left out."""
    fans: Mapping[str, int]
    """Fan: its node. Fans on no track are left out."""
    turntables: Mapping[str, tuple[int, ...]]
    """Turntable: the nodes at which its roads end: at its middle, or on its rim."""

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
    runs = [(track, segment) for track in panel.tracks for segment in _segments(panel, track)]
    nodes = Nodes()
    points = {point: nodes.add(Point(*placed.at)) for point, placed in panel.points.items()}
    for _, (start, end) in runs:
        nodes.add(start)
        nodes.add(end)
    breaks = {index: nodes.add(Point(*at)) for index, at in enumerate(panel.breaks)}
    diamonds = {index: nodes.add(Point(*at)) for index, at in enumerate(panel.crossings)}
    under = {index: nodes.add(Point(*at)) for index, at in enumerate(panel.bridges)}
    exits = {name: nodes.add(Point(*at)) for name, at in panel.exits.items()}
    fans = {name: nodes.add(Point(*at)) for name, at in panel.fans.items()}
    for crossing in crossings_of([segment for _, segment in runs]):
        nodes.add(crossing)
    stops = stops_of([segment for _, segment in runs], nodes.places)
    bridges = _lifted(runs, stops, under, nodes.places)
    edges = _edges([track for track, _ in runs], stops)
    on_track = {node for edge in edges for node in edge.ends}
    return TrackGraph(
        nodes=tuple(nodes.places),
        edges=edges,
        points=_kept(points, on_track),
        breaks=_kept(breaks, on_track),
        crossings=_kept(diamonds, on_track),
        bridges=bridges,
        exits=_kept(exits, on_track),
        fans=_kept(fans, on_track),
        turntables={id_: _road_ends(table, edges, nodes.places) for id_, table in panel.turntables.items()},
    )


Key = TypeVar("Key")


def _kept(found: Mapping[Key, int], on_track: AbstractSet[int]) -> dict[Key, int]:
    return {key: node for key, node in found.items() if node in on_track}


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


def on_a_track(graph: TrackGraph, place: Point) -> bool:
    """True when a place, in squares, lies on a track."""
    return edge_at(graph, place) is not None


def edge_at(graph: TrackGraph, place: Point) -> int | None:
    """The first edge on which a place, in squares, lies."""
    ends = ((graph.nodes[edge.ends[0]], graph.nodes[edge.ends[1]]) for edge in graph.edges)
    return next((index for index, segment in enumerate(ends) if along_of(segment, place) is not None), None)


def _segments(panel: Panel, track: str) -> list[Segment]:
    corners = [corner for corner in track_corners(panel, track) if corner is not None]
    return [(a, b) for a, b in pairwise(corners) if not same_place(a, b)]


def _lifted(
    runs: Sequence[tuple[str, Segment]], stops: list[list[int]], under: Mapping[int, int], nodes: list[Point]
) -> dict[int, tuple[int, int]]:
    """Gives the upper track of each bridge a node of its own there, in `stops` and `nodes`."""
    bridges: dict[int, tuple[int, int]] = {}
    for index, node in under.items():
        passing = [run for run, of_run in enumerate(stops) if node in of_run]
        upper = [run for run in passing[-2:] if _is_one_line(runs, stops, node, run, passing[-1])]
        if len(passing) == len(upper) or any(lower == node for lower, _ in bridges.values()):
            continue
        nodes.append(nodes[node])
        bridges[index] = (node, len(nodes) - 1)
        for run in upper:
            stops[run] = [len(nodes) - 1 if stop == node else stop for stop in stops[run]]
    return bridges


def _is_one_line(
    runs: Sequence[tuple[str, Segment]], stops: Sequence[Sequence[int]], node: int, run: int, last: int
) -> bool:
    """True for the last run that passes a node, and for the one before if its track has its corner there."""
    return run == last or (
        run == last - 1 and runs[run][0] == runs[last][0] and stops[last][0] == stops[run][-1] == node
    )


def _edges(tracks: Sequence[str], stops: Sequence[Sequence[int]]) -> tuple[Edge, ...]:
    """Every segment cut at the nodes that lie on it; what is drawn twice is one edge."""
    found: dict[tuple[int, int], tuple[tuple[int, int], list[str]]] = {}
    for track, of_segment in zip(tracks, stops, strict=True):
        for a, b in pairwise(of_segment):
            _, over = found.setdefault((min(a, b), max(a, b)), ((a, b), []))
            if track not in over:
                over.append(track)
    return tuple(Edge(ends=ends, tracks=tuple(over)) for ends, over in found.values())


def _road_ends(table: Turntable, edges: Sequence[Edge], nodes: Sequence[Point]) -> tuple[int, ...]:
    ends = Counter(node for edge in edges for node in edge.ends)
    middle = Point(*table.at)
    out = {node: hypot(nodes[node].x - middle.x, nodes[node].y - middle.y) for node in ends}
    return tuple(
        node
        for node, times in ends.items()
        if out[node] <= SAME_PLACE or (times == 1 and abs(out[node] - table.radius) <= RIM)
    )
