"""Studs: nothing comes to them but by a probe."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import Circuit, Netlist
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.problems import Problem

Feed = tuple[str, str]
"""A supply and its terminal."""
Studs = tuple[str, Path]
"""What has them, in words; and where that stands in the description."""


def studs_without_probe(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports stud-without-probe once for each supply whose feed no probe brings to the studs that need it."""
    brought = {feed for circuit in netlist.circuits for feed in _brought(circuit)}
    waiting: dict[Feed, list[Studs]] = {}
    for feed, studs in (*_of_levers(description, netlist), *_of_routes(description, netlist)):
        if feed not in brought:
            waiting.setdefault(feed, []).append(studs)
    return [_problem(description, supply, studs) for (supply, _), studs in waiting.items()]


def _brought(circuit: Circuit) -> Iterator[Feed]:
    """What a probe brings: a device with nothing but its tip, on the feed."""
    if len(circuit.kind.terminals) == 1:
        for row in circuit.kind.chain:
            role, terminal = circuit.kind.reference(row.supply)
            yield circuit.supplies[role], terminal


def _of_levers(description: Description, netlist: Netlist) -> Iterator[tuple[Feed, Studs]]:
    for circuit in netlist.circuits:
        lever = netlist.lever_by_id.get(circuit.lever or "")
        if lever is not None and lever.type == "stud":
            path = ("levers", lever.id, "type") if lever.id in description.levers else lever.path
            yield _feed_of(circuit), (f"lever {lever.id}", path)


def _feed_of(circuit: Circuit) -> Feed:
    """As the row says that falls away with studs, else the first terminal of its first supply."""
    dropped = (row for row in circuit.kind.group if row.chain is not None and not row.needed_with("stud"))
    reference = next((row.chain for row in dropped if row.chain is not None), None)
    role = next(iter(circuit.kind.supply))
    role, terminal = circuit.kind.reference(reference or SUPPLY_TERMINALS[circuit.kind.supply[role]][0])
    return circuit.supplies[role], terminal


def _of_routes(description: Description, netlist: Netlist) -> Iterator[tuple[Feed, Studs]]:
    for matrix in netlist.matrices:
        for row in matrix.rows:
            if row.stud:
                terminal = SUPPLY_TERMINALS[description.supplies[matrix.supply].kind][0]
                yield (matrix.supply, terminal), (f"route {row.route!r}", row.path)


def _problem(description: Description, supply: str, studs: list[Studs]) -> Problem:
    names = [name for name, _ in sorted(studs, key=lambda one: natural(one[0]))]
    told = f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]
    return Problem(
        code="stud-without-probe",
        message=f"no probe brings {supply}'s feed to the studs of {told}",
        hint=f"Write one under `devices:`, such as `PROBE: {{kind: probe, supply: {supply}}}`, where no supply comes "
        "to them in another way.",
        place=description.place_of(*studs[0][1]),
    )
