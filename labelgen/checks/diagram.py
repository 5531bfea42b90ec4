"""The diagram of a panel as a whole: slips of the pen, crossings without a name, islands, and its sections.

Cautions all: the wiring still stands.
"""

from collections.abc import Iterator, Sequence

from labelgen.checks.panel_words import at_square, corner_at
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.graph import TrackGraph, edge_at, track_graph
from labelgen.model.tracks.near_places import near_misses
from labelgen.model.tracks.roads import is_crossing
from labelgen.model.tracks.sections import track_pieces, track_sections
from labelgen.natural_order import natural
from labelgen.problems import Problem


def near_track_problems(description: Description, _: Netlist) -> list[Problem]:
    """Reports near-miss for each corner that ends less than half a square beside another track."""
    return [
        Problem(
            code="near-miss",
            message=f"track {miss.track} nearly meets track {miss.other}: its corner {at_square(miss.at)} is less than"
            " half a square from it",
            hint=f"Write {at_square(miss.meant)} instead of {at_square(miss.at)}, or keep the two further apart.",
            place=description.place_of("panels", id_, "tracks", miss.track, miss.corner),
        )
        for id_, panel in description.panels.items()
        for miss in near_misses(panel)
    ]


def crossing_problems(description: Description, _: Netlist) -> list[Problem]:
    """Reports crossing-not-named where tracks cross and neither a diamond, a bridge nor a point is named."""
    return [
        problem
        for id_, panel in description.panels.items()
        for problem in _crossings(description, id_, panel, track_graph(panel))
    ]


def _crossings(description: Description, id_: str, panel: Panel, graph: TrackGraph) -> Iterator[Problem]:
    tables = {node for nodes in graph.turntables.values() for node in nodes}
    named = {*graph.points_at, *graph.crossings.values(), *graph.fans.values(), *tables}
    for node, edges in enumerate(graph.edges_at):
        if node in named or not is_crossing(graph, node):
            continue
        at, tracks = graph.nodes[node], _tracks(graph, edges)
        level, over = (_line(key, [*given, (at.x, at.y)]) for key, given in _named_so_far(panel))
        yield Problem(
            code="crossing-not-named",
            message=f"{' and '.join(tracks)} cross at {at_square(at)}, and nothing says how",
            hint=f"Write {level} under the panel if they cross on the level, {over} if the one written later passes"
            " over the other; or put a point there, if it is a slip.",
            place=corner_at(description, id_, tracks, at),
        )


def _named_so_far(panel: Panel) -> list[tuple[str, tuple[tuple[float, float], ...]]]:
    return [("crossings", panel.crossings), ("bridges", panel.bridges)]


def _line(key: str, places: Sequence[tuple[float, float]]) -> str:
    return f"`{key}: [{', '.join(at_square(Point(*place)) for place in places)}]`"


def _tracks(graph: TrackGraph, edges: Sequence[int]) -> list[str]:
    return sorted({track for edge in edges for track in graph.edges[edge].tracks}, key=natural)


def island_problems(description: Description, _: Netlist) -> list[Problem]:
    """Reports track-island for each piece of track that joins nothing and on which there is nothing to work."""
    return [
        Problem(
            code="track-island",
            message=f"nothing leads to {_and(tracks)}: no other track, no exit, and no point or section is there",
            hint="Lead a track there, write where it leaves the scene under `exits:`, or leave it out.",
            place=description.place_of_key("panels", id_, "tracks", tracks[-1]),
        )
        for id_, panel in description.panels.items()
        for tracks in _islands(panel, track_graph(panel))
    ]


def _islands(panel: Panel, graph: TrackGraph) -> list[list[str]]:
    """The tracks of each piece with nothing on it, but for the longest where no piece has anything."""
    tables = [node for nodes in graph.turntables.values() for node in nodes]
    used = {*graph.points_at, *graph.exits.values(), *graph.fans.values(), *tables}
    sections = {edge_at(graph, Point(*at)) for at in panel.sections.values()}
    pieces = track_pieces(graph)
    idle = [
        piece
        for piece in pieces
        if not sections & set(piece) and not used & {node for edge in piece for node in graph.edges[edge].ends}
    ]
    if len(idle) == len(pieces):
        idle = idle[1:] if not idle else [piece for piece in idle if piece is not max(idle, key=len)]
    return [_tracks(graph, piece) for piece in idle]


def section_problems(description: Description, _: Netlist) -> list[Problem]:
    """Reports section-twice for two sections on one stretch, idle-break for a break that divides nothing."""
    return [problem for id_, panel in description.panels.items() for problem in _sections(description, id_, panel)]


def _sections(description: Description, id_: str, panel: Panel) -> Iterator[Problem]:
    graph = track_graph(panel)
    found = track_sections(panel, graph)
    for stretch in found.stretches:
        first, *others = stretch.sections or ("",)
        for section in others:
            yield Problem(
                code="section-twice",
                message=f"sections {first} and {section} are on one stretch of track: no break lies between them",
                hint="Add the break under the panel's `breaks:`, or put the section on its own stretch.",
                place=description.place_of_key("panels", id_, "sections", section),
            )
    for number in found.idle_breaks:
        at = Point(*panel.breaks[number])
        yield Problem(
            code="idle-break",
            message=f"the section break at {at_square(at)} divides nothing: the track on both sides of it is joined by"
            " another way",
            hint="Add the break that is missing on the other way, or leave this one out.",
            place=description.place_of("panels", id_, "breaks", number),
        )


def _and(tracks: Sequence[str]) -> str:
    if len(tracks) == 1:
        return f"track {tracks[0]}"
    return f"tracks {', '.join(tracks[:-1])} and {tracks[-1]}"
