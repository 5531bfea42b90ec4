"""Levers and the panels that draw them: a hole on one panel for a lever that stands in another."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.places import Path
from labelgen.problems import Problem


def levers_of_others(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports lever-on-another-panel, once for each panel and lever. Its hole is drawn only where it stands."""
    return [problem for id_ in description.panels for problem in _of_panel(description, netlist, id_)]


def _of_panel(description: Description, netlist: Netlist, id_: str) -> Iterator[Problem]:
    told: set[str] = set()
    for lever, drawn, path in _drawn(description, netlist, id_):
        if lever.panel not in (None, id_) and lever.id not in told:
            told.add(lever.id)
            yield Problem(
                code="lever-on-another-panel",
                message=f"panel {id_} draws {drawn}, and lever {lever.shown} is on panel {lever.panel}",
                hint=f"Take it out here, or write `panel: {id_}` at the lever.",
                place=description.place_of_key("panels", id_, *path),
            )


def _drawn(description: Description, netlist: Netlist, id_: str) -> Iterator[tuple[LeverPlan, str, Path]]:
    """(lever, what is drawn of it, where that is written)."""
    panel = description.panels[id_]
    for lever in panel.levers:
        if lever in netlist.lever_by_id:
            yield netlist.lever_by_id[lever], f"a hole for lever {netlist.lever_by_id[lever].shown}", ("levers", lever)
    works = {device: lever for lever in netlist.levers for device in lever.devices}
    for point in panel.points:
        if point in works:
            yield works[point], f"point {point}", ("points", point)
