"""The diagram of a panel: what is off a track, and roads that the operator would miss.

Faults of the diagram are cautions: the wiring still stands.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from labelgen.checks.panel_words import at_square, corner_at
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Circuit, Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.cutting import same_place
from labelgen.model.tracks.forms import Junction, junctions, panel_roads
from labelgen.model.tracks.graph import TrackGraph, on_a_track, track_corners, track_graph
from labelgen.model.tracks.near_places import nearest_on_track
from labelgen.model.tracks.roads import is_crossing
from labelgen.natural_order import natural
from labelgen.places import Path, Place
from labelgen.problems import Problem

OF_TWO_LIES = frozenset({"sprung", "passing", "latching", "on-off", "button", "changeover", "two-pole"})
"""Lever types by which a point lies in two ways; kinds that name none are the builder's own."""


def panel_problems(description: Description, netlist: Netlist) -> list[Problem]:
    """Codes: bad-track, point-off-track, roads-without-point, third-road."""
    kinds = {device: circuit for circuit in netlist.circuits for device in circuit.devices}
    return [problem for id_ in description.panels for problem in _of_panel(description, id_, kinds)]


def _of_panel(description: Description, id_: str, kinds: Mapping[str, Circuit]) -> Iterator[Problem]:
    """`kinds`: by device the circuit, which knows its kind."""
    panel = description.panels[id_]
    graph = track_graph(panel)
    yield from _bad_tracks(description, id_)
    if panel.tracks:
        forms = junctions(panel, graph)
        yield from _points_off_track(description, id_, graph, forms)
        yield from _third_roads(description, id_, forms, kinds)
        yield from _places_off_track(description, id_, graph)
        yield from _wrong_normals(description, id_, graph)
        yield from _roads_without_point(description, id_, graph)


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
                    message=f"track {track} has the corner {at_square(a)} twice in a row",
                    hint="Leave one of the two out, or correct it.",
                    place=description.place_of(*path, number + 1),
                )


def _points_off_track(
    description: Description, id_: str, graph: TrackGraph, forms: Mapping[int, Junction]
) -> Iterator[Problem]:
    """Points that do not lie where such roads meet as they can join."""
    panel = description.panels[id_]
    for point, placed in panel.points.items():
        where = f"point {point} at {at_square(Point(*placed.at))}"
        place = description.place_of_key("panels", id_, "points", point)
        node = graph.points.get(point)
        if node is None:
            yield _off(place, f"{where} lies on no track", _nearest_hint(graph, Point(*placed.at)))
        elif node not in forms and len(fellows := graph.points_at[node]) > 1 and len(graph.edges_at[node]) == 3:
            if point != fellows[0]:
                hint = "Each belongs where its own three roads meet: correct the one that is in the wrong square."
                yield _off(place, f"{where} lies in the square of {fellows[0]}, where only 3 roads meet", hint)
        elif node not in forms:
            yield _off(place, f"{where} does not lie where {_wanted(panel, graph, node)}")


def _third_roads(
    description: Description, id_: str, forms: Mapping[int, Junction], kinds: Mapping[str, Circuit]
) -> Iterator[Problem]:
    """Reports third-road for a three-way that is drawn as one point, of a kind that lies in two ways only."""
    for junction in forms.values():
        for point, roads in junction.roads.items():
            circuit = kinds.get(point)
            if roads.third is None or circuit is None or circuit.kind.lever_type not in OF_TWO_LIES:
                continue
            yield Problem(
                code="third-road",
                message=f"4 roads meet at {point}, and its kind {circuit.kind_name} leads from one to 2 others",
                hint=f"Is it a three-way? Then write `kind: three-way` at {point}, or put its second point into this"
                " square. If not, correct the track that should not end there.",
                place=description.place_of_key("panels", id_, "points", point),
            )


def _wanted(panel: Panel, graph: TrackGraph, node: int) -> str:
    """What should be where a point stands, and what is."""
    roads = len(graph.edges_at[node])
    met = "one road ends there" if roads == 1 else f"{roads} roads meet there"
    form = next((f for point in graph.points_at[node] if (f := panel.points[point].form) not in (None, "point")), None)
    if form is not None:
        such = "two tracks cross at a shallow angle" if "slip" in form else "four roads meet, none of them across"
        return f"{such}, as a {form} does: {met}"
    if roads == 4 and is_crossing(graph, node):
        return "three roads meet: two tracks cross there, at too wide an angle for a slip"
    return f"three roads meet: {met}"


def _nearest_hint(graph: TrackGraph, place: Point) -> str | None:
    near = nearest_on_track(graph, place)
    return f"Write {at_square(near)} instead of {at_square(place)}, if it belongs to the track there." if near else None


def _places_off_track(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    """Breaks, sections, exits, diamonds, bridges, fans and turntables where there is nothing of the sort."""
    for what, given, key, right in _placed(description.panels[id_], graph):
        if not right:
            at = Point(*given)
            path = ("panels", id_, *key)
            place = description.place_of(*path) if isinstance(key[-1], int) else description.place_of_key(*path)
            yield _off(place, what.format(at=at_square(at)), _nearest_hint(graph, at))


def _placed(panel: Panel, graph: TrackGraph) -> Iterator[tuple[str, tuple[float, float], Path, bool]]:
    """What is wrong with a place if it is; the place; its path from the panel; whether it is right."""
    for n, at in enumerate(panel.breaks):
        yield "the section break at {at} lies on no track", at, ("breaks", n), n in graph.breaks
    for name, at in panel.sections.items():
        yield f"section {name} at {{at}} lies on no track", at, ("sections", name), on_a_track(graph, Point(*at))
    for n, at in enumerate(panel.crossings):
        crossed = n in graph.crossings and is_crossing(graph, graph.crossings[n])
        yield "no two tracks cross at {at}", at, ("crossings", n), crossed
    for n, at in enumerate(panel.bridges):
        yield "no track passes over another at {at}", at, ("bridges", n), n in graph.bridges
    for name, at in panel.exits.items():
        ends = name in graph.exits and len(graph.edges_at[graph.exits[name]]) == 1
        yield f"the exit {name!r} at {{at}} is not at the end of a track", at, ("exits", name), ends
    for name, at in panel.fans.items():
        yield f"fan {name} at {{at}} lies on no track", at, ("fans", name), name in graph.fans
    for name, table in panel.turntables.items():
        what = f"no track ends on the rim or at the middle of turntable {name} at {{at}}"
        yield what, table.at, ("turntables", name), bool(graph.turntables[name])


def _off(place: Place, message: str, hint: str | None = None) -> Problem:
    hint = hint or "Move it onto the line, or end a track there."
    return Problem(code="point-off-track", message=message, hint=hint, place=place)


def _wrong_normals(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    """`normal:` naming a track that is none of the roads that a point chooses between."""
    panel = description.panels[id_]
    for point, roads in panel_roads(panel, graph).items():
        normal = panel.points[point].normal
        choices = dict.fromkeys(track for leg in roads.legs for track in graph.edges[leg].tracks)
        if normal is not None and normal not in choices:
            yield Problem(
                code="point-off-track",
                message=f"track {normal} is not one of the roads that point {point} chooses between",
                hint=f"Name {' or '.join(choices)}, or leave `normal` out: the straightest is normal.",
                place=description.place_of("panels", id_, "points", point, "normal"),
            )


def _roads_without_point(description: Description, id_: str, graph: TrackGraph) -> Iterator[Problem]:
    chosen_by_hand = {*graph.fans.values(), *(node for nodes in graph.turntables.values() for node in nodes)}
    for node, edges in enumerate(graph.edges_at):
        if node in graph.points_at or node in chosen_by_hand or len(edges) < 3 or is_crossing(graph, node):
            continue
        tracks = sorted({track for edge in edges for track in graph.edges[edge].tracks}, key=natural)
        at = at_square(graph.nodes[node])
        yield Problem(
            code="roads-without-point",
            message=f"{len(edges)} roads meet at {at} ({', '.join(tracks)}), and no point is there",
            hint="Add the point that stands there, or let the tracks pass each other without a corner.",
            place=corner_at(description, id_, tracks, graph.nodes[node]),
        )
