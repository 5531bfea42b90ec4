"""Buttons and studs of routes on the panels."""

from collections.abc import Iterator, Mapping
from itertools import combinations
from math import hypot

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.hole_room import apart, needed_between, shortfall
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.panel.near_rooms import near_rooms
from labelgen.model.panel.parts import part_of
from labelgen.model.panel.places import route_places
from labelgen.model.panel.routes import MatrixRow
from labelgen.places import Place
from labelgen.problems import Problem

SAME_PLACE_MM = 0.1
ROUND_MM = 0.05
"""Nobody drills closer than this."""


def route_studs(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports route-without-stud, route-stud-taken and off-panel."""
    rows: dict[str, dict[str, MatrixRow]] = {}
    for matrix in netlist.matrices:
        if matrix.panel is not None:
            rows.setdefault(matrix.panel, {}).update({row.route: row for row in matrix.rows})
    return [
        problem
        for id_, of_panel in rows.items()
        for problem in (
            *_without_place(description, id_, of_panel),
            *_too_close(description, netlist, id_, of_panel),
            *_off_panel(description, id_, of_panel),
        )
    ]


def _without_place(description: Description, id_: str, rows: Mapping[str, MatrixRow]) -> Iterator[Problem]:
    panel = description.panels[id_]
    for name, row in rows.items() if panel.tracks else ():
        if name not in panel.routes:
            yield Problem(
                code="route-without-stud",
                message=f"route {name!r} has no place on panel {id_}",
                hint=f"Give its {_called(row)} a place at the panel: `routes: {{{name}: [x, y]}}`.",
                place=description.place_of_key(*row.path),
            )


def _called(row: MatrixRow) -> str:
    return "stud" if row.stud else "button"


def _too_close(
    description: Description, netlist: Netlist, id_: str, rows: Mapping[str, MatrixRow]
) -> Iterator[Problem]:
    studs = route_places(description.panels[id_], rows)
    for (first, a), (second, b) in combinations(studs.items(), 2):
        if hypot(a.x - b.x, a.y - b.y) < SAME_PLACE_MM:
            yield Problem(
                code="route-stud-taken",
                message=f"routes {first!r} and {second!r} have one and the same place on panel {id_}",
                hint="Give one of them another square under the panel's `routes:`.",
                place=description.place_of("panels", id_, "routes", second),
            )
    holes = [hole for hole in panel_holes(description, netlist, id_) if hole.use in ("lever", "route")]
    rooms = [hole.room for hole in holes]
    for i, j in near_rooms(rooms):
        one, other = holes[i], holes[j]
        between = apart(rooms[i], rooms[j])
        if other.use == "route" and between >= SAME_PLACE_MM and shortfall(rooms[i], rooms[j], "nuts") > ROUND_MM:
            place = description.place_of("panels", id_, "routes", other.thing)
            yield _crowded(_both(one, other), between, needed_between(rooms[i], rooms[j], "nuts"), place)


def _both(one: PanelHole, other: PanelHole) -> str:
    if one.use == "route":
        return f"routes {one.thing!r} and {other.thing!r}"
    return f"route {other.thing!r} and {one.called}"


def _crowded(which: str, apart: float, needed: float, place: Place) -> Problem:
    return Problem(
        code="route-without-stud",
        message=f"{which} are {apart:.3g} mm apart on the panel, and they need {needed:.3g} mm",
        hint="Give one of them another square under the panel's `routes:` or `levers:`.",
        place=place,
    )


def _off_panel(description: Description, id_: str, rows: Mapping[str, MatrixRow]) -> Iterator[Problem]:
    panel = description.panels[id_]
    if panel.size is None:
        return
    width, height = panel.size
    for name, at in route_places(panel, rows).items():
        reach = part_of(description, panel, "route", route=description.routes[name]).covers / 2
        if (room := _room(at, width, height)) < reach:
            where = f"{'on' if room >= 0 else 'beyond'} the edge of panel {id_}"
            yield Problem(
                code="off-panel",
                message=f"route {name!r}, at {at.x:g}, {at.y:g} mm, lies {where}, which is {width:g} × {height:g} mm",
                hint="Correct the place, or the panel's `size` or `grid`.",
                place=description.place_of("panels", id_, "routes", name),
            )


def _room(at: Point, width: float, height: float) -> float:
    return min(at.x, at.y, width - at.x, height - at.y)
