"""What wires and levers are called: nothing twice, nothing for nothing."""

from collections.abc import Iterator
from typing import Any

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.routes import ROUTE_FUNCTION
from labelgen.places import Path
from labelgen.problems import Problem

TABLES = ("boards", "panels", "supplies", "strips", "points", "devices", "plugs")
"""What shares one space of names; levers have their own."""


def equal_heads(description: Description, netlist: Netlist) -> list[Problem]:
    """Two circuits whose wires would be called the same."""
    first: dict[str, str] = {}
    told: set[tuple[str, str]] = set()
    problems = []
    for head, owner, path in _owned_heads(description, netlist):
        other = first.setdefault(head, owner)
        if other != owner and (other, owner) not in told:
            told.add((other, owner))
            problems.append(
                Problem(
                    code="equal-heads",
                    message=f"wires of {other} and of {owner} would both be called {head}",
                    hint="Call one of them otherwise, or give its function another `code`.",
                    place=description.place_of_key(*path),
                )
            )
    return problems


def _owned_heads(description: Description, netlist: Netlist) -> Iterator[tuple[str, str, Path]]:
    """(head, whose it is, where that is): a lever, a device and a supply may have the same id."""
    used = {(wire.circuit, wire.head) for wire in netlist.wires}
    for circuit in netlist.circuits:
        path = description.device_path(circuit.devices[0])
        owner = f"lever {circuit.lever}" if circuit.lever else f"the {str(path[0]).removesuffix('s')} {circuit.id}"
        for row in circuit.kind.group:
            head = f"{circuit.id}{netlist.functions[row.function].code}{row.mark}"
            if (circuit.id, head) in used:
                yield head, owner, path
    for matrix in netlist.matrices:
        for route in matrix.rows:
            yield f"{route.number}{netlist.functions[ROUTE_FUNCTION].code}", f"route {route.route!r}", route.path
    for wire in netlist.wires:
        if wire.circuit and any(end.kind is EndKind.SUPPLY for end in wire.ends):
            yield wire.head, f"the supply {wire.circuit}", wire.path[:2]


def painted_alike(description: Description, _netlist: Netlist) -> list[Problem]:
    """Two things on which the same is painted: a label that says it could mean either."""
    named = [(table, id_, thing) for table in TABLES for id_, thing in getattr(description, table).items()]
    levers = [("levers", id_, lever) for id_, lever in description.levers.items()]
    return [problem for things in (named, levers) for problem in _alike(description, things)]


def _alike(description: Description, things: list[tuple[str, str, Any]]) -> list[Problem]:
    ids = {id_: id_ for _, id_, thing in things if not thing.shown}
    problems = []
    for table, id_, thing in things:
        if thing.shown and ids.setdefault(thing.shown, id_) != id_:
            problems.append(
                Problem(
                    code="repeated-id",
                    message=f"{id_} is shown as {thing.shown}, and so is {ids[thing.shown]}",
                    hint="Give one of them another `shown`: a label must mean one thing.",
                    place=description.place_of(table, id_, "shown"),
                )
            )
    return problems


def repeated_numbers(description: Description, _netlist: Netlist) -> list[Problem]:
    """Two wires to which the builder gave the same number."""
    seen: dict[str, str] = {}
    problems = []
    for number, listed in enumerate(description.wires):
        if listed.number is None:
            continue
        ends = f"{listed.start} to {listed.finish}"
        if listed.number in seen:
            problems.append(
                Problem(
                    code="repeated-number",
                    message=f"wire number {listed.number} is given twice: {seen[listed.number]}, and {ends}",
                    hint="Give each wire a number of its own.",
                    place=description.place_of("wires", number, "number"),
                )
            )
        seen.setdefault(listed.number, ends)
    return problems


def idle_levers(description: Description, netlist: Netlist) -> list[Problem]:
    """A lever that works nothing and is not called a spare."""
    return [
        Problem(
            code="lever-works-nothing",
            message=f"lever {lever.id} works nothing",
            hint="Write `spare: yes` if that is meant, or name it at what it works.",
            place=description.place_of_key(*lever.path),
        )
        for lever in netlist.levers
        if not lever.devices and not lever.spare
    ]
