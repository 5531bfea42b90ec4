"""Bundles: what should not run side by side through one hole."""

from collections import defaultdict

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Wire
from labelgen.problems import Problem


def boosters_with_others(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports booster-with-others for each hole that a digital supply's bus shares with other wires."""
    digital = _on_digital(description, netlist)
    through: dict[str, list[Wire]] = defaultdict(list)
    for wire in netlist.wires if digital else ():
        for hole in wire.holes:
            through[hole].append(wire)
    boards = {hole: board for board, given in description.boards.items() for hole in given.holes}
    return [
        Problem(
            code="booster-with-others",
            message=f"{next(wire.head for wire in wires if wire.circuit in digital)} of the digital supply goes through"
            f" hole {hole} together with others, such as {others[0].head}",
            hint="Lead it through a hole of its own: what it carries strays into wires beside it.",
            place=description.place_of_key("boards", boards[hole], "holes", hole),
        )
        for hole, wires in through.items()
        if 0 < len(others := [wire for wire in wires if wire.circuit not in digital]) < len(wires)
    ]


def _on_digital(description: Description, netlist: Netlist) -> set[str]:
    """Digital supplies, and the circuits that they alone feed."""
    supplies = {id_ for id_, supply in description.supplies.items() if supply.kind == "digital"}
    return supplies | {circuit.id for circuit in netlist.circuits if supplies.issuperset(circuit.supplies.values())}
