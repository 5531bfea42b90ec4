"""Lamps that are wired to a panel on whose fascia they have no hole."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.lamp_leads import LAMP_FUNCTION, LEADS
from labelgen.model.netlist import Circuit, Netlist
from labelgen.problems import Problem

ROAD_OF = {contact: road for road, (contact, _) in LEADS.items()}
"""Beside a lever: which of its point's roads a lamp shows."""
PANEL_LAMPS = "panel-lamps"
"""The kind whose devices are lamps on the panel of their lever."""


def lamps_without_hole(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports lamps-without-hole, once for a lever or device: they may have their place elsewhere."""
    drawn = {point: id_ for id_, panel in description.panels.items() if panel.tracks for point in panel.points}
    of_lever = {lever.id: lever.panel for lever in netlist.levers}
    problems = []
    for circuit in netlist.circuits:
        wired = next(_wired(description, circuit, drawn, of_lever), None)
        if wired is not None and not _has_holes(description, circuit, wired[0]):
            problems.append(_problem(description, circuit, *wired))
    return problems


def _wired(
    description: Description, circuit: Circuit, drawn: dict[str, str], of_lever: dict[str, str | None]
) -> Iterator[tuple[str, str, list[str]]]:
    """(panel, device, what its lamps show) of each device with lamps beside its lever, or that is on a panel itself."""
    beside = [ROAD_OF[row.across] for row in circuit.kind.group if row.across in ROAD_OF]
    lit = [row.terminal for row in circuit.kind.group if row.function == LAMP_FUNCTION and row.terminal is not None]
    if not beside and not lit:
        return
    for device in circuit.devices:
        if beside and device in drawn:
            yield drawn[device], device, beside
        given = description.points.get(device) or description.devices[device]
        panel = given.panel
        if circuit.kind_name == PANEL_LAMPS:
            panel = panel or of_lever.get(circuit.lever or "")
        if not beside and panel in description.panels and description.panels[panel].tracks:
            yield panel, device, lit


def _has_holes(description: Description, circuit: Circuit, panel: str) -> bool:
    given = description.panels[panel]
    named = {name.partition(".")[0] for name in given.lamps}
    return given.lamps_on_roads or not named.isdisjoint(circuit.devices)


def _problem(description: Description, circuit: Circuit, panel: str, device: str, shows: list[str]) -> Problem:
    contacts = [contact for contact, road in ROAD_OF.items() if road in shows]
    ends = [f"L{circuit.lever}.{contact}" for contact in contacts] or [f"{device}.{terminal}" for terminal in shows]
    places = ", ".join(f"{device}.{one}: [x, y]" for one in shows)
    more = "" if not contacts else "`lamps: yes` for one on each road of its points, or "
    return Problem(
        code="lamps-without-hole",
        message=f"wires lead to the lamps of {device} ({', '.join(ends)}), and panel {panel} has no hole for them",
        hint=f"Write at the panel {more}where they go: `lamps: {{{places}}}`.",
        place=description.place_of_key(
            *(("panels", panel, "points", device) if device in description.panels[panel].points else ("panels", panel))
        ),
    )
