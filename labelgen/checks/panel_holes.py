"""The holes of a panel: levers without one, and what lies off the panel.

Cautions all: the wiring still stands.
"""

from collections.abc import Iterator, Sequence

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.places import Path
from labelgen.problems import Problem


def panel_hole_problems(description: Description, netlist: Netlist) -> list[Problem]:
    """Codes: lever-without-hole, off-panel."""
    return [problem for id_ in description.panels for problem in _levers(description, netlist, id_)]


def _levers(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    """Levers without a hole; and all that lies beyond the panel's edge, their holes included."""
    panel = description.panels[id_]
    levers = {lever.id: lever for lever in netlist.levers if lever.panel == id_}
    holes = [hole for hole in panel_holes(description, netlist, id_) if hole.use != "route"]
    placed = {hole.thing for hole in holes if hole.use == "lever"}
    if panel.tracks:
        for lever in levers.values():
            if lever.id not in placed and not lever.spare:
                yield Problem(
                    code="lever-without-hole",
                    message=f"lever {lever.shown} has no place on panel {id_}",
                    hint=f"Give its hole a place at the panel: `levers: {{{lever.id}: [x, y]}}`, or `row: y` for all.",
                    place=description.place_of_key(*lever.path),
                )
    if panel.size is not None:
        yield from _off_panel(description, id_, panel, panel.size, holes)


def _off_panel(
    description: Description, id_: str, panel: Panel, size: tuple[float, float], holes: Sequence[PanelHole]
) -> Iterator[Problem]:
    reach = {hole.at: hole.room.reach for hole in holes}
    for what, at, path in _everything(panel, holes):
        room = min(at.x, at.y, size[0] - at.x, size[1] - at.y)
        if room < reach.get(at, -1e-6):
            where = f"{'on' if room >= 0 else 'beyond'} the edge of panel {id_}"
            yield Problem(
                code="off-panel",
                message=f"{what}, at {at.x:g}, {at.y:g} mm, lies {where}, which is {size[0]:g} × {size[1]:g} mm",
                hint="Correct the place, or the panel's `size` or `grid`.",
                place=description.place_of("panels", id_, *path),
            )


def _everything(panel: Panel, holes: Sequence[PanelHole]) -> Iterator[tuple[str, Point, Path]]:
    """What the builder placed on a panel: what it is, where in mm, and its path from the panel."""
    yield from _on_the_line(panel)
    for hole in holes:
        if hole.use in ("lamp", "screw"):
            yield hole.called, hole.at, hole.path[2:]
        elif hole.thing in panel.levers or panel.lever_row is not None:
            key = hole.thing if hole.thing in panel.levers else "row"
            yield f"the hole of {hole.called}", hole.at, ("levers", key)
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
