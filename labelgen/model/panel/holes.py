"""The one list of a panel's holes: read by its fascia, back sheet, drilling sheet and files for a cutter.

Millimetres from the top left corner of the face, y down.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.hole_room import Room, room_of, row_places, screw_room
from labelgen.model.panel.lamp_places import lamp_places
from labelgen.model.panel.parts import HoleUse, part_id_of, part_of, row_of
from labelgen.model.panel.places import lever_holes, route_places, routes_on, screw_places
from labelgen.natural_order import natural
from labelgen.places import Path


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
    contact: str = ""
    """Of one of several buttons or studs of a lever: what it makes."""
    row: Room | None = None
    """All of them together."""

    @property
    def whole(self) -> Room:
        """The room of all that belongs to its lever."""
        return self.row or self.room

    @property
    def room(self) -> Room:
        """What it needs around it."""
        return room_of(self.part, self.at) if self.part is not None else screw_room(self.diameter, self.at)


def panel_holes(description: Description, netlist: Netlist, panel_id: str) -> tuple[PanelHole, ...]:
    """Every hole of a panel: levers in natural order, routes in theirs, lamps, then screws."""
    panel = description.panels[panel_id]
    levers = [lever for lever in netlist.levers if lever.panel == panel_id]
    others = (
        *_levers(description, netlist, panel_id, panel),
        *_routes(description, netlist, panel_id, panel),
    )
    screws = tuple(_screws(panel_id, panel))
    return (*others, *_lamps(description, panel_id, panel, [hole.room for hole in (*others, *screws)], levers), *screws)


def _levers(description: Description, netlist: Netlist, panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    levers = {lever.id: lever for lever in netlist.levers if lever.panel == panel_id}
    places = lever_holes(description, panel_id, levers.values(), routes_on(netlist.matrices, panel_id))
    for id_, lever in levers.items():
        if id_ in places:
            part_id = part_id_of(panel, "lever", lever)
            path = lever_path(panel_id, panel, lever)
            called = f"lever {lever.shown}"
            part, at = part_of(description, panel, "lever", lever), places[id_]
            one = _hole(part, "lever", id_, called=called, at=at, part_id=part_id, path=path)
            yield from _row(one, part, row_of(part, lever)) or [one]


def _row(one: PanelHole, part: Hardware, contacts: Sequence[str]) -> list[PanelHole]:
    """A hole for each of a lever's buttons or studs."""
    row = room_of(part, one.at, len(contacts))
    what = "stud" if part.use == "stud" else "button"
    return [
        replace(one, called=f"{what} {contact} of {one.called}", at=at, contact=contact, row=row)
        for contact, at in zip(contacts, row_places(part, one.at, len(contacts)), strict=True)
    ]


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
    for name, at in route_places(panel, routes_on(netlist.matrices, panel_id)).items():
        path = ("panels", panel_id, "routes", name)
        route = description.routes[name]
        part, part_id = part_of(description, panel, "route", route=route), part_id_of(panel, "route", route=route)
        called = f"the {'button' if route.stud is None else 'stud'} of route {name}"
        yield _hole(part, "route", name, called=called, at=at, part_id=part_id, path=path)


def _lamps(
    description: Description, panel_id: str, panel: Panel, others: Sequence[Room], levers: Sequence[LeverPlan]
) -> Iterator[PanelHole]:
    part, part_id = part_of(description, panel, "lamp"), part_id_of(panel, "lamp")
    for name, places in lamp_places(panel, part, others, levers).items():
        path: Path = ("panels", panel_id, "lamps")
        path = (*path, name) if name in panel.lamps else path
        for at in places:
            yield _hole(part, "lamp", name, called=f"the lamp {name}", at=at, part_id=part_id, path=path)


def _screws(panel_id: str, panel: Panel) -> Iterator[PanelHole]:
    for number, corner in enumerate(screw_places(panel), 1):
        assert panel.screws is not None
        yield PanelHole(
            use="screw",
            thing=str(number),
            called=f"corner screw {number}",
            at=corner,
            diameter=panel.screws.diameter,
            part=None,
            path=("panels", panel_id, "screws"),
        )


def _hole(part: Hardware, use: HoleUse, thing: str, *, called: str, at: Point, part_id: str, path: Path) -> PanelHole:
    return PanelHole(
        use=use, thing=thing, called=called, at=at, diameter=part.hole, part=part, part_id=part_id, path=path
    )
