"""The diagram of a panel: what is off a track or off the panel, and roads and levers that the operator would miss.

Faults of the diagram are cautions: the wiring still stands.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise
from math import hypot, pi

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import NUT_RADIUS_MM, lever_holes
from labelgen.model.roads import SAME_ANGLE, angle_between, panel_roads
from labelgen.model.track_graph import TrackGraph, on_a_track, same_place, track_corners, track_graph
from labelgen.natural_order import natural
from labelgen.places import Path, Place
from labelgen.problems import Problem


def panel_problems(description: Description, netlist: Netlist) -> list[Problem]:
    """Codes: bad-track, point-off-track, roads-without-point, lever-without-hole, off-panel."""
    return [problem for id_ in description.panels for problem in _of_panel(description, netlist, id_)]


def _of_panel(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    panel = description.panels[id_]
    graph = track_graph(panel)
    yield from _bad_tracks(description, id_)
    if panel.tracks:
        yield from _off_track(description, id_, graph)
        yield from _wrong_normals(description, id_, graph)
        yield from _roads_without_point(description, id_, graph)
    yield from _levers(description, netlist, id_)


def _bad_tracks(description: Description, id_: str) -> Iterator[Problem]:
    panel = description.panels[id_]
    for track, given in panel.tracks.items():
        path = ("panels", id_, "tracks", track)
        if len(given) < 2:
            yield Problem(
                code="bad-track",
                message=f"track {track} has fewer than two corners",
                hint="Write at least two, each [x, y] or the id of a point under the panel's `points:`.",
                place=description.place_of(*path),
            )
        corners = track_corners(panel, track)
        for number, (a, b) in enumerate(pairwise(corners)):
            if a and b and same_place(a, b):
                yield Problem(
                    code="bad-track",
                    message=f"track {track} has the corner {_at(a)} twice in a row",
                    hint="Leave one of the two out, or correct it.",
                    place=description.place_of(*path, number + 1),
                )


def _off_track(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    """Points that do not lie where three roads meet; breaks and sections that lie on no track."""
    panel = description.panels[id_]
    for point, placed in panel.points.items():
        where = f"point {point} at {_at(Point(*placed.at))}"
        place = description.place_of_key("panels", id_, "points", point)
        node = graph.points.get(point)
        if node is None:
            yield _off(place, f"{where} lies on no track")
        elif (roads := len(graph.edges_at[node])) != 2 + len(graph.points_at[node]):
            met = "one road ends" if roads == 1 else f"{roads} roads meet"
            yield _off(place, f"{where} does not lie where three roads meet: {met} there")
    for number, at in enumerate(panel.breaks):
        if number not in graph.breaks:
            place = description.place_of("panels", id_, "breaks", number)
            yield _off(place, f"the section break at {_at(Point(*at))} lies on no track")
    for section, at in panel.sections.items():
        if not on_a_track(graph, Point(*at)):
            place = description.place_of_key("panels", id_, "sections", section)
            yield _off(place, f"section {section} at {_at(Point(*at))} lies on no track")


def _off(place: Place, message: str) -> Problem:
    hint = "Move it onto the line, or end a track there."
    return Problem(code="point-off-track", message=message, hint=hint, place=place)


def _wrong_normals(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    """`normal:` naming a track that is neither of the two roads that a point chooses between."""
    panel = description.panels[id_]
    for point, roads in panel_roads(panel, graph).items():
        normal = panel.points[point].normal
        choices = dict.fromkeys([*graph.edges[roads.normal].tracks, *graph.edges[roads.reverse].tracks])
        if normal is not None and normal not in choices:
            yield Problem(
                code="point-off-track",
                message=f"track {normal} is not one of the two roads that point {point} chooses between",
                hint=f"Name {' or '.join(choices)}, or leave `normal` out: the straightest is normal.",
                place=description.place_of("panels", id_, "points", point, "normal"),
            )


def _roads_without_point(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    for node, edges in enumerate(graph.edges_at):
        if node in graph.points_at or len(edges) < 3 or _is_crossing(graph, node):
            continue
        tracks = sorted({track for edge in edges for track in graph.edges[edge].tracks}, key=natural)
        yield Problem(
            code="roads-without-point",
            message=f"{len(edges)} roads meet at {_at(graph.nodes[node])} ({', '.join(tracks)}), and no point is there",
            hint="Add the point that stands there, or let the tracks pass each other without a corner.",
            place=_corner_at(description, id_, tracks, graph.nodes[node]),
        )


def _corner_at(description: Description, id_: str, tracks: Sequence[str], at: Point) -> Place:
    """The last corner that a track has there, as the road that leaves the others has; else the last track."""
    path = ("panels", id_, "tracks")
    found = [
        description.place_of(*path, track, number)
        for track in tracks
        for number, corner in enumerate(track_corners(description.panels[id_], track))
        if corner and same_place(corner, at)
    ]
    return found[-1] if found else description.place_of_key(*path, tracks[-1])


def _is_crossing(graph: TrackGraph, node: int) -> bool:
    """True when every road goes straight on over the node, as two lines that cross do."""
    ways = [graph.towards(node, edge) for edge in graph.edges_at[node]]
    return all(any(pi - angle_between(way, other) < 1e3 * SAME_ANGLE for other in ways) for way in ways)


def _levers(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    """Levers without a hole; and all that lies beyond the panel's edge, their holes included."""
    panel = description.panels[id_]
    levers = {lever.id: lever for lever in netlist.levers if lever.panel == id_}
    holes = lever_holes(panel, {lever.id: lever.devices for lever in levers.values()})
    if panel.tracks:
        for lever in levers.values():
            if lever.id not in holes and not lever.spare:
                yield Problem(
                    code="lever-without-hole",
                    message=f"lever {lever.shown} has no place on panel {id_}",
                    hint=f"Give its hole a place at the panel: `levers: {{{lever.id}: [x, y]}}`, or `row: y` for all.",
                    place=description.place_of_key(*lever.path),
                )
    yield from _crowded_holes(description, id_, holes)
    if panel.size is not None:
        yield from _off_panel(description, id_, panel, panel.size, holes)


def _crowded_holes(description: Description, id_: str, holes: Mapping[str, Point]) -> Iterator[Problem]:
    """Levers whose nuts would lie on each other, as those of two points in one place."""
    for (first, a), (second, b) in combinations(sorted(holes.items(), key=lambda hole: natural(hole[0])), 2):
        apart = hypot(a.x - b.x, a.y - b.y)
        if apart < 2 * NUT_RADIUS_MM:
            yield Problem(
                code="lever-without-hole",
                message=f"the holes of levers {first} and {second} are {apart:.3g} mm apart, and their nuts need"
                f" {2 * NUT_RADIUS_MM:g} mm",
                hint="Give one of them another square under the panel's `levers:`.",
                place=description.place_of_key("panels", id_, "levers", second),
            )


def _off_panel(
    description: Description, id_: str, panel: Panel, size: tuple[float, float], holes: Mapping[str, Point]
) -> Iterator[Problem]:
    for what, at, path in _everything(panel, holes):
        room = min(at.x, at.y, size[0] - at.x, size[1] - at.y)
        if room < (NUT_RADIUS_MM if at in holes.values() else -1e-6):
            where = f"{'on' if room >= 0 else 'beyond'} the edge of panel {id_}"
            yield Problem(
                code="off-panel",
                message=f"{what}, at {at.x:g}, {at.y:g} mm, lies {where}, which is {size[0]:g} × {size[1]:g} mm",
                hint="Correct the place, or the panel's `size` or `grid`.",
                place=description.place_of("panels", id_, *path),
            )


def _everything(panel: Panel, holes: Mapping[str, Point]) -> Iterator[tuple[str, Point, Path]]:
    """What the builder placed on a panel: what it is, where in mm, and its path from the panel."""
    yield from _on_the_line(panel)
    for lever, hole in holes.items():
        if lever in panel.levers or panel.lever_row is not None:
            yield f"the hole of lever {lever}", hole, ("levers", lever if lever in panel.levers else "row")
    for name, corners in panel.platforms.items():
        for number, at in enumerate(corners):
            yield f"a corner of platform {name!r}", _mm(panel, at), ("platforms", name, number)
    for text, at in panel.texts.items():
        yield f"the text {text!r}", _mm(panel, at), ("texts", text)
    if panel.exit is not None:
        yield "the exit of its wires", Point(*panel.exit), ("exit",)


def _on_the_line(panel: Panel) -> Iterator[tuple[str, Point, Path]]:
    for track, given in panel.tracks.items():
        for number, corner in enumerate(given):
            if not isinstance(corner, str):
                yield f"a corner of track {track}", _mm(panel, corner), ("tracks", track, number)
    for point, placed in panel.points.items():
        yield f"point {point}", _mm(panel, placed.at), ("points", point)
    for number, at in enumerate(panel.breaks):
        yield "a section break", _mm(panel, at), ("breaks", number)
    for section, at in panel.sections.items():
        yield f"section {section}", _mm(panel, at), ("sections", section)


def _mm(panel: Panel, at: tuple[float, float]) -> Point:
    return Point(at[0] * panel.grid, at[1] * panel.grid)


def _at(place: Point) -> str:
    return f"[{place.x:g}, {place.y:g}]"
