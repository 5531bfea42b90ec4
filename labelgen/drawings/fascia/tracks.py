"""The tracks of a panel as runs of thick line: normal roads continuous, reverse roads set off, breaks left clear."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from labelgen.drawings.clearances import Obstacle, Stroke
from labelgen.drawings.fascia.chains import drawn_chains
from labelgen.drawings.fascia.cuts import Cuts
from labelgen.drawings.fascia.forms import DrawnForms, deck_lines, slip_lines
from labelgen.drawings.fascia.polylines import kept_inside, onward, trimmed, turned, unit
from labelgen.lengths import Point, Rectangle
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_room import Room
from labelgen.model.tracks.forms import junctions
from labelgen.model.tracks.graph import TrackGraph
from labelgen.model.tracks.sections import TrackSections

_BARB, _BARB_TURN = 1.5, 0.75
"""An arrow's barbs: how long in widths of the track, and how far from it in radians."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One line, in mm."""

    places: tuple[Point, ...]
    what: str
    """In the builder's words."""
    width: float
    stretch: int = 0
    """To which of the panel's stretches of track it belongs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExitMark:
    """The arrow at the end of a track that leaves the scene."""

    tip: Point
    way: Point
    """The direction in which it points: a unit."""


def track_runs(
    panel: Panel,
    graph: TrackGraph,
    sections: TrackSections,
    drawn: DrawnForms,
    *,
    width: float,
    holes: Sequence[Room],
    inside: Rectangle,
) -> list[Run]:
    """The middle lines to be drawn with round ends; each whole line stays `inside`.

    Reverse roads start clear of the normal road, and of the nut of a lever that stands on the point.
    """
    forms = junctions(panel, graph)
    lines = _Lines(graph=graph, sections=sections.stretch_of(), inside=inside)
    chains = drawn_chains(graph, forms)
    cuts = Cuts(panel, graph, forms, chains, drawn, width=width, holes=tuple(holes))
    for chain in chains:
        places = [cuts.at[node] for node in chain.nodes]
        lines.add(trimmed(places, *cuts.of(chain)), chain.edges[0], width)
    for way, line, line_width in slip_lines(cuts.at, graph, forms, width=width, holes=holes):
        lines.add(line, way[0], line_width)
    for edge, line in deck_lines(drawn, width):
        lines.add(line, edge, width)
    return [*lines.runs, *_arrows(panel, graph, lines, width)]


@dataclass(slots=True, kw_only=True)
class _Lines:
    graph: TrackGraph
    sections: dict[int, int]
    inside: Rectangle
    runs: list[Run]

    def __init__(self, *, graph: TrackGraph, sections: dict[int, int], inside: Rectangle) -> None:
        self.graph, self.sections, self.inside, self.runs = graph, sections, inside, []

    def add(self, places: Sequence[Point], edge: int, width: float) -> None:
        """The part of a line that lies inside, as a part of an edge's track."""
        what = f"track {self.graph.edges[edge].tracks[0]}"
        for part in kept_inside(places, self.inside.inset(width / 2)):
            self.runs.append(Run(places=part, what=what, width=width, stretch=self.sections[edge]))


def _arrows(panel: Panel, graph: TrackGraph, lines: _Lines, width: float) -> Iterator[Run]:
    for name, mark in exit_marks(panel, graph).items():
        barbs = [onward(mark.tip, turned(mark.way, turn), -_BARB * width) for turn in (-_BARB_TURN, _BARB_TURN)]
        edge = graph.edges_at[graph.exits[name]][0]
        if all(len(kept_inside([barb, mark.tip], lines.inside.inset(width / 2))) == 1 for barb in barbs):
            yield Run(
                places=(barbs[0], mark.tip, barbs[1]),
                what=f"the arrow {name}",
                width=width,
                stretch=lines.sections[edge],
            )


def exit_marks(panel: Panel, graph: TrackGraph) -> dict[str, ExitMark]:
    """For each exit that is at the end of a track: where its arrow points, in mm."""
    found = {}
    for name, node in graph.exits.items():
        if len(graph.edges_at[node]) == 1:
            tip = graph.nodes[node]
            way = graph.towards(node, graph.edges_at[node][0])
            mark = ExitMark(tip=Point(tip.x * panel.grid, tip.y * panel.grid), way=unit(Point(-way.x, -way.y)))
            found[name] = mark
    return found


def run_obstacles(runs: Sequence[Run]) -> list[Obstacle]:
    """What is drawn, as something that texts must stay clear of."""
    return [
        Stroke(start=a, end=b, reach=run.width / 2, what=run.what)
        for run in runs
        for a, b in (pairwise(run.places) if len(run.places) > 1 else [(run.places[0], run.places[0])])
    ]


def break_marks(panel: Panel, graph: TrackGraph, length: float) -> list[tuple[Point, Point]]:
    """For each section break a short line square to its track, in mm."""
    marks = []
    for node in sorted(set(graph.breaks.values())):
        across = _square_to(graph, node)
        middle = Point(graph.nodes[node].x * panel.grid, graph.nodes[node].y * panel.grid)
        marks.append((onward(middle, across, -length / 2), onward(middle, across, length / 2)))
    return marks


def _square_to(graph: TrackGraph, node: int) -> Point:
    """The unit direction across the tracks at a node: half way between two of them, or a quarter turn from one."""
    ways = [unit(graph.towards(node, edge)) for edge in graph.edges_at[node][:2]]
    both = Point(sum(way.x for way in ways), sum(way.y for way in ways))
    if abs(both.x) + abs(both.y) < 1e-6 or len(ways) == 1:
        return Point(-ways[0].y, ways[0].x)
    return unit(both)
