"""The tracks of a panel as runs of thick line: normal roads continuous, reverse roads set off, breaks left clear."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from labelgen.drawings.clearances import Obstacle, Stroke, clipped, point_to_segment
from labelgen.drawings.fascia_chains import Chain, drawn_chains
from labelgen.drawings.fascia_style import BREAK_GAP_MM, SET_OFF_MM
from labelgen.lengths import Point, Rectangle
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import NUT_RADIUS_MM
from labelgen.model.roads import Roads
from labelgen.model.track_graph import TrackGraph

_STEP_MM = 0.05
_MOST_CUT = 0.8
"""At least a fifth of a short road is drawn, however close its two ends are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One line, in mm."""

    places: tuple[Point, ...]
    what: str
    """In the builder's words."""


def track_runs(
    panel: Panel,
    graph: TrackGraph,
    roads: Mapping[str, Roads],
    *,
    width: float,
    holes: Sequence[Point],
    inside: Rectangle,
) -> list[Run]:
    """The middle lines to be drawn with round ends at `width`; the whole line stays `inside`.

    Reverse roads start clear of the normal road, and of the nut of a lever that stands on the point.
    """
    chains = drawn_chains(graph, roads)
    chain_of = {edge: chain for chain in chains for edge in chain.edges}
    at = [Point(node.x * panel.grid, node.y * panel.grid) for node in graph.nodes]
    through = {(r.node, r.reverse): (chain_of[r.normal], chain_of[r.toe]) for r in roads.values()}
    ends = _Ends(at, through, set(graph.breaks.values()), width, tuple(holes))
    runs = []
    for chain in chains:
        places = [at[node] for node in chain.nodes]
        trimmed = _trimmed(places, *ends.cuts(chain))
        what = f"track {graph.edges[chain.edges[0]].tracks[0]}"
        runs += [Run(places=part, what=what) for part in _kept_inside(trimmed, inside.inset(width / 2))]
    return runs


def run_obstacles(runs: Sequence[Run], width: float) -> list[Obstacle]:
    """What is drawn, as something that texts must stay clear of."""
    return [
        Stroke(start=a, end=b, reach=width / 2, what=run.what)
        for run in runs
        for a, b in (pairwise(run.places) if len(run.places) > 1 else [(run.places[0], run.places[0])])
    ]


def break_marks(panel: Panel, graph: TrackGraph, length: float) -> list[tuple[Point, Point]]:
    """For each section break a short line square to its track, in mm."""
    marks = []
    for node in sorted(set(graph.breaks.values())):
        across = _square_to(graph, node)
        x, y = graph.nodes[node].x * panel.grid, graph.nodes[node].y * panel.grid
        dx, dy = across.x * length / 2, across.y * length / 2
        marks.append((Point(x - dx, y - dy), Point(x + dx, y + dy)))
    return marks


def _square_to(graph: TrackGraph, node: int) -> Point:
    """The unit direction across the tracks at a node: half way between two of them, or a quarter turn from one."""
    unit = [_unit(graph.towards(node, edge)) for edge in graph.edges_at[node][:2]]
    both = Point(sum(u.x for u in unit), sum(u.y for u in unit))
    if hypot(both.x, both.y) < 1e-6 or len(unit) == 1:
        return Point(-unit[0].y, unit[0].x)
    return _unit(both)


def _unit(way: Point) -> Point:
    length = hypot(way.x, way.y)
    return Point(way.x / length, way.y / length)


@dataclass(frozen=True, slots=True)
class _Ends:
    """Works out how much of a chain is left out at either end."""

    at: Sequence[Point]
    through: Mapping[tuple[int, int], tuple[Chain, Chain]]
    """A point's node and its reverse edge: the chains of its normal road and of its toe."""
    broken: set[int]
    width: float
    holes: tuple[Point, ...]

    def cuts(self, chain: Chain) -> tuple[float, float]:
        """Lengths in mm to leave out at the start and at the end."""
        places = [self.at[node] for node in chain.nodes]
        first = self._cut(places, chain.nodes[0], chain.edges[0])
        last = self._cut(places[::-1], chain.nodes[-1], chain.edges[-1])
        room = _MOST_CUT * _length(places)
        shrink = min(1.0, room / (first + last)) if first + last else 1.0
        return first * shrink, last * shrink

    def _cut(self, places: Sequence[Point], node: int, edge: int) -> float:
        cut = (BREAK_GAP_MM + self.width) / 2 if node in self.broken else 0.0
        if (node, edge) in self.through:
            cut = max(cut, self._set_off(places, self.through[node, edge]))
        return cut

    def _set_off(self, places: Sequence[Point], chains: Sequence[Chain]) -> float:
        """How far from its point a reverse road first is clear of the other two, and of the lever's nut."""
        others = [(self.at[a], self.at[b]) for chain in dict.fromkeys(chains) for a, b in pairwise(chain.nodes)]
        clear = self.width + SET_OFF_MM
        nut = NUT_RADIUS_MM + SET_OFF_MM + self.width / 2
        own = [hole for hole in self.holes if _distance(hole, places[0]) < NUT_RADIUS_MM]
        whole = _length(places)
        for step in range(1, int(whole / _STEP_MM)):
            place = _place_at(places, step * _STEP_MM)
            if all(_distance(hole, place) >= nut for hole in own) and all(
                point_to_segment(place, a, b) >= clear for a, b in others
            ):
                return step * _STEP_MM
        return whole / 2


def _distance(a: Point, b: Point) -> float:
    return hypot(a.x - b.x, a.y - b.y)


def _length(places: Sequence[Point]) -> float:
    return sum(_distance(a, b) for a, b in pairwise(places))


def _place_at(places: Sequence[Point], length: float) -> Point:
    for a, b in pairwise(places):
        stretch = _distance(a, b)
        if length <= stretch:
            return Point(a.x + (b.x - a.x) * length / stretch, a.y + (b.y - a.y) * length / stretch)
        length -= stretch
    return places[-1]


def _trimmed(places: Sequence[Point], first: float, last: float) -> list[Point]:
    """The line without its first and last so many mm."""
    whole, gone = _length(places), 0.0
    kept = [_place_at(places, first)]
    for a, b in pairwise(places):
        gone += _distance(a, b)
        if first + 1e-9 < gone < whole - last - 1e-9:
            kept.append(b)
    return [*kept, _place_at(places, whole - last)]


def _kept_inside(places: Sequence[Point], inside: Rectangle) -> list[tuple[Point, ...]]:
    """The parts of a line that lie in a rectangle."""
    parts: list[list[Point]] = []
    for a, b in pairwise(places):
        piece = clipped(a, b, inside)
        if piece is None:
            continue
        if parts and parts[-1][-1] == piece[0]:
            parts[-1].append(piece[1])
        else:
            parts.append([*piece])
    return [tuple(part) for part in parts]
