"""Slips and tandems: which of their levers lies how for which road is nothing that a drawing tells."""

from collections.abc import Sequence

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.forms import Junction, junctions
from labelgen.model.tracks.graph import track_graph
from labelgen.natural_order import natural
from labelgen.problems import Problem

CALLED = {"single-slip": "a single slip", "double-slip": "a double slip", "three-way": "a three-way point"}


def roads_not_said(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports roads-not-said for each slip or tandem on several levers, without a table of how they lie.

    A lever that works both ends decides by itself. A table is `roads` beside one of its points, or as many routes that
    name all its levers as there are roads over it.
    """
    lever_of = {device: circuit.lever for circuit in netlist.circuits for device in circuit.devices}
    names = {lever.id: {lever.id, lever.shown} for lever in netlist.levers}
    problems = []
    for panel in filter(_holds_two_in_one_place, description.panels.values()):
        for junction in junctions(panel, track_graph(panel)).values():
            points = sorted(junction.roads, key=natural)
            levers = sorted({lever for point in points if (lever := lever_of.get(point))}, key=natural)
            if junction.form in CALLED and len(levers) > 1 and not _said(description, points):
                setting = _routes_over(description, [names[lever] for lever in levers])
                if setting < len(junction.ways):
                    problems.append(_problem(description, junction, points, levers, setting))
    return problems


def _holds_two_in_one_place(panel: Panel) -> bool:
    """What every such point has, and few panels: the tracks of the others need not be followed."""
    squares = [(round(point.at[0], 1), round(point.at[1], 1)) for point in panel.points.values()]
    return len(set(squares)) < len(squares)


def _said(description: Description, points: Sequence[str]) -> bool:
    devices = {**description.points, **description.devices}
    return any(devices[point].roads for point in points if point in devices)


def _routes_over(description: Description, levers: Sequence[set[str]]) -> int:
    """How many routes name all of these levers, each by one of its names."""
    return sum(all(lever & route.levers.keys() for lever in levers) for route in description.routes.values())


def _problem(
    description: Description, junction: Junction, points: Sequence[str], levers: Sequence[str], setting: int
) -> Problem:
    roads = len(junction.ways)
    some = f"the routes say of {setting} of its {roads} roads how both lie" if setting else ""
    example = ", ".join(f"{lever}: normal" for lever in levers)
    return Problem(
        code="roads-not-said",
        message=f"{' and '.join(points)} are {CALLED[junction.form]} on levers {' and '.join(levers)}, and "
        + (some or f"nothing says how both lie for each of its {roads} roads"),
        hint=f"Try each road, and write it beside {points[0]}: `roads: {{Platform 1: {{{example}}}}}`, and so on. The"
        " operator’s card then shows it. If the points stand apart, one of them is in the wrong square of the panel.",
        place=description.place_of_key(*description.device_path(points[0])),
    )
