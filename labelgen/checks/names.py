"""What wires and levers are called: nothing twice, nothing for nothing."""

from collections.abc import Collection, Iterator

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.panel.routes import ROUTE_FUNCTION
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
    used: dict[str, dict[str, None]] = {}
    for wire in netlist.wires:
        used.setdefault(wire.circuit, {})[wire.head] = None
    for circuit in netlist.circuits:
        path = description.device_path(circuit.devices[0])
        owner = f"lever {circuit.lever}" if circuit.lever else f"the {str(path[0]).removesuffix('s')} {circuit.id}"
        for row in circuit.kind.group:
            begins = f"{circuit.id}{netlist.functions[row.function].code}{row.mark}"
            for head in used.get(circuit.id, ()):
                if head.startswith(begins):
                    yield head, owner, path
    for matrix in netlist.matrices:
        for route in matrix.rows:
            yield f"{route.number}{netlist.functions[ROUTE_FUNCTION].code}", f"route {route.route!r}", route.path
    for wire in netlist.wires:
        if wire.circuit and any(end.kind is EndKind.SUPPLY for end in wire.ends):
            yield wire.head, f"the supply {wire.circuit}", wire.path[:2]


def painted_alike(description: Description, netlist: Netlist) -> list[Problem]:
    """Something painted on a thing that is another's id, or is painted on that as well: a label could mean either.

    Capitals do not tell two apart. Levers have a space of their own, but for the L under which lists know them.
    """
    things: list[tuple[str, str, Path]] = [
        (id_, thing.shown, (table, id_)) for table in TABLES for id_, thing in getattr(description, table).items()
    ]
    for board, given in description.boards.items():
        things += [(id_, hole.shown, ("boards", board, "holes", id_)) for id_, hole in given.holes.items()]
    owners = {id_.casefold(): id_ for id_, _, _ in things}
    owners |= {f"l{lever.id}".casefold(): f"lever {lever.id}" for lever in netlist.levers}
    owners |= {matrix.id.casefold(): f"the diodes {matrix.id} of the routes" for matrix in netlist.matrices}
    owners |= {f"route{row.number}": f"route {row.route!r}" for matrix in netlist.matrices for row in matrix.rows}
    problems = []
    for id_, shown, path in things:
        other = owners.setdefault(shown.casefold(), id_) if shown else id_
        if other != id_:
            problems.append(_alike(description, id_, shown, other, path))
    for id_, lever in description.levers.items():
        name = f"lever {id_}"
        other = owners.setdefault(f"l{lever.shown}".casefold(), name) if lever.shown else name
        if other != name:
            problems.append(_alike(description, name, lever.shown, other, ("levers", id_)))
    return problems


def _alike(description: Description, name: str, shown: str, other: str, path: Path) -> Problem:
    return Problem(
        code="repeated-id",
        message=f"{name} is shown as {shown}, and {other} is called so too",
        hint="Give one of them another `shown`: a label must mean one thing.",
        place=description.place_of(*path, "shown"),
    )


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
    working = {lever.id for lever in netlist.levers if lever.devices}
    return [
        Problem(
            code="lever-works-nothing",
            message=f"lever {lever.id} works nothing",
            hint=f"{_how_it_is_called(lever.id, working)}Write `spare: yes` if that is meant, or name it at what it"
            " works.",
            place=description.place_of_key(*lever.path),
        )
        for lever in netlist.levers
        if not lever.devices and not lever.spare
    ]


def _how_it_is_called(lever: str, working: Collection[str]) -> str:
    """Of `L5` where there is a lever 5: that the L is ours."""
    meant = lever[1:] if lever[:1] in ("L", "l") else ""
    if meant not in working:
        return ""
    return f"Lever {meant} is written `{meant}:` here; the L stands before it on wires' ends alone. "


def working_spares(description: Description, netlist: Netlist) -> list[Problem]:
    """A lever that is called a spare, and works something."""
    return [
        Problem(
            code="spare-lever-works",
            message=f"lever {lever.id} is called a spare, and works {', '.join(lever.devices)}",
            hint="Take `spare: yes` out, or give what it works another lever.",
            place=description.place_of("levers", lever.id, "spare"),
        )
        for lever in netlist.levers
        if lever.devices and lever.id in description.levers and description.levers[lever.id].spare
    ]
