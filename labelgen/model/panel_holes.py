"""The one list of a panel's holes: read by its fascia, back sheet, drilling sheet and files for a cutter.

Millimetres from the top left corner of the face, y down.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.hardware import DEFAULT_HARDWARE, Hardware
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import lever_holes, route_places, square
from labelgen.natural_order import natural
from labelgen.places import Path

HoleUse = Literal["lever", "route", "lamp", "screw"]
HARDWARE_KEYS = {"lever": "levers", "route": "routes", "lamp": "lamps"}
"""The keys of a panel's `hardware:` that choose the part for all holes of a use."""
PART_OF_LEVER_TYPE = {
    "passing": "passing-lever",
    "button": "push-button-7",
    "buttons": "push-button-7",
    "rotary": "rotary-switch",
    "stud": "stud-4",
}
"""The part of a lever of a type, where the panel does not say; of every other type a toggle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelHole:
    use: HoleUse
    thing: str
    """Lever id, name of a route, what a lamp shows (`P1.normal`, a section, a supply); of screws, `1` to `4`."""
    called: str
    """In the builder's words: lever 5."""
    at: Point
    diameter: float
    part: Hardware | None
    """What is screwed in; None of a screw."""
    part_id: str = ""
    path: Path = ()
    """What the builder would change to move it."""


def panel_holes(description: Description, netlist: Netlist, panel_id: str) -> tuple[PanelHole, ...]:
    """Every hole of a panel: levers in natural order, routes in theirs, lamps, then screws."""
    panel = description.panels[panel_id]
    return (
        *_levers(description, netlist, panel_id, panel),
        *_routes(description, netlist, panel_id, panel),
        *_lamps(description, panel_id, panel),
        *_screws(panel_id, panel),
    )


def part_id_of(panel: Panel, use: HoleUse, lever: LeverPlan | None = None) -> str:
    """The part in a hole: the lever's own, else that of all holes of the use, else the default."""
    if lever is not None and lever.id in panel.hardware:
        return panel.hardware[lever.id]
    if (chosen := panel.hardware.get(HARDWARE_KEYS[use])) is not None:
        return chosen
    if lever is not None and lever.type in PART_OF_LEVER_TYPE:
        return PART_OF_LEVER_TYPE[lever.type]
    return DEFAULT_HARDWARE[{"route": "stud"}.get(use, use)]


def _levers(description: Description, netlist: Netlist, panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    levers = {lever.id: lever for lever in netlist.levers if lever.panel == panel_id}
    places = lever_holes(panel, {lever.id: lever.devices for lever in levers.values()})
    for id_, lever in levers.items():
        if id_ in places:
            part_id = part_id_of(panel, "lever", lever)
            path = lever_path(panel_id, panel, lever)
            called = f"lever {lever.shown}"
            yield _hole(description, "lever", id_, called=called, at=places[id_], part_id=part_id, path=path)


def lever_path(panel_id: str, panel: Panel, lever: LeverPlan) -> Path:
    """What the builder would change to move a lever's hole."""
    if lever.id in panel.levers:
        return ("panels", panel_id, "levers", lever.id)
    for device in sorted(lever.devices, key=natural):
        for table in ("points", "sections"):
            if device in getattr(panel, table):
                return ("panels", panel_id, table, device)
    return lever.path


def _routes(description: Description, netlist: Netlist, panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    routes = [row.route for matrix in netlist.matrices if matrix.panel == panel_id for row in matrix.rows]
    for name, at in route_places(panel, routes).items():
        path = ("panels", panel_id, "routes", name)
        called, part_id = f"the button of route {name}", part_id_of(panel, "route")
        yield _hole(description, "route", name, called=called, at=at, part_id=part_id, path=path)


def _lamps(description: Description, panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    for name, places in panel.lamp_places.items():
        for place in places:
            path = ("panels", panel_id, "lamps", name)
            at, part_id = square(panel, place), part_id_of(panel, "lamp")
            yield _hole(description, "lamp", name, called=f"the lamp {name}", at=at, part_id=part_id, path=path)


def _screws(panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    if panel.screws is None or panel.size is None:
        return
    width, height = panel.size
    inset, path = panel.screws.inset, ("panels", panel_id, "screws")
    corners = [(x, y) for y in (inset, height - inset) for x in (inset, width - inset)]
    for number, corner in enumerate(corners, 1):
        yield PanelHole(
            use="screw",
            thing=str(number),
            called=f"corner screw {number}",
            at=Point(*corner),
            diameter=panel.screws.diameter,
            part=None,
            path=path,
        )


def _hole(
    description: Description, use: HoleUse, thing: str, *, called: str, at: Point, part_id: str, path: Path
) -> PanelHole:
    part = description.parts[part_id]
    return PanelHole(
        use=use, thing=thing, called=called, at=at, diameter=part.hole, part=part, part_id=part_id, path=path
    )
