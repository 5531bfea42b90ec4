"""The stretches into which section breaks divide the tracks of a panel, and its separate pieces of track."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations

from labelgen.disjoint_sets import DisjointSets
from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.forms import junctions, ways_over
from labelgen.model.tracks.graph import TrackGraph, edge_at
from labelgen.model.tracks.roads import Way


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Track on which a train goes everywhere without passing a break."""

    edges: tuple[int, ...]
    """In order of drawing."""
    sections: tuple[str, ...]
    """The devices under the panel's `sections` that lie on it: none of what is always live, one of a section."""


@dataclass(frozen=True, kw_only=True)
class TrackSections:
    stretches: tuple[Stretch, ...]
    """Every edge is in one of them; in order of drawing."""
    neighbours: frozenset[tuple[int, int]]
    """Pairs of stretches, the earlier first, that meet at a break, or cross."""
    idle_breaks: tuple[int, ...]
    """Positions in the panel's list of the breaks round which a train finds another way: they divide nothing."""

    def stretch_of(self) -> dict[int, int]:
        """Edge: its stretch."""
        return {edge: index for index, stretch in enumerate(self.stretches) for edge in stretch.edges}


def track_sections(panel: Panel, graph: TrackGraph) -> TrackSections:
    """A turntable joins its roads, as a fan does; tracks that cross on the level or by a bridge are not joined."""
    broken = set(graph.breaks.values())
    forms = junctions(panel, graph)
    ways = [
        way for node in range(len(graph.nodes)) if node not in broken for way in ways_over(graph, node, forms.get(node))
    ]
    groups = _groups(len(graph.edges), [*ways, *_over_turntables(graph)])
    index_of = {edge: index for index, group in enumerate(groups) for edge in group}
    named = _named(panel, graph, index_of)
    return TrackSections(
        stretches=tuple(Stretch(edges=group, sections=tuple(named[index])) for index, group in enumerate(groups)),
        neighbours=frozenset(_neighbours(graph, index_of)),
        idle_breaks=tuple(
            index
            for index, node in graph.breaks.items()
            if len(graph.edges_at[node]) > 1 and len({index_of[edge] for edge in graph.edges_at[node]}) == 1
        ),
    )


def track_pieces(graph: TrackGraph) -> list[tuple[int, ...]]:
    """The edges of each piece of track that hangs together, breaks and crossings on the level included."""
    ways = [way for edges in graph.edges_at for way in combinations(edges, 2)]
    return _groups(len(graph.edges), [*ways, *_over_turntables(graph)])


def _over_turntables(graph: TrackGraph) -> list[Way]:
    return [
        way
        for nodes in graph.turntables.values()
        for way in combinations([edge for node in nodes for edge in graph.edges_at[node]], 2)
    ]


def _neighbours(graph: TrackGraph, index_of: Mapping[int, int]) -> set[tuple[int, int]]:
    meeting = [*graph.edges_at, *((*graph.edges_at[a], *graph.edges_at[b]) for a, b in graph.bridges.values())]
    return {pair for edges in meeting for pair in combinations(sorted({index_of[edge] for edge in edges}), 2)}


def _named(panel: Panel, graph: TrackGraph, index_of: Mapping[int, int]) -> dict[int, list[str]]:
    named: dict[int, list[str]] = defaultdict(list)
    for section, at in panel.sections.items():
        edge = edge_at(graph, Point(*at))
        if edge is not None:
            named[index_of[edge]].append(section)
    return named


def _groups(count: int, joined: Iterable[Way]) -> list[tuple[int, ...]]:
    """Edges that hang together, in order of their first."""
    sets = DisjointSets[int]()
    for way in joined:
        sets.join(*sorted(map(sets.first, way)))
    groups: dict[int, list[int]] = defaultdict(list)
    for edge in range(count):
        groups[sets.first(edge)].append(edge)
    return [tuple(group) for group in groups.values()]
