"""Ways of one kind that are called the same."""

from labelgen.model.description import Description
from labelgen.model.kinds import GroupRow
from labelgen.model.netlist import Circuit, Netlist
from labelgen.places import Path
from labelgen.problems import Problem


def heads_within_kinds(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports heads-alike once for a kind of which two ways that nothing joins are called the same."""
    problems: dict[str, Problem] = {}
    for circuit in netlist.circuits:
        rows = sorted(circuit.groups[0].ways) if circuit.groups and circuit.kind_name not in problems else []
        first: dict[str, GroupRow] = {}
        for number in rows:
            row = circuit.kind.group[number]
            other = first.setdefault(f"{netlist.functions[row.function].code}{row.mark}", row)
            if not _one_net(row, other):
                problems[circuit.kind_name] = _within(description, netlist, circuit, other, number)
                break
    return [*problems.values()]


def _one_net(row: GroupRow, other: GroupRow) -> bool:
    if row is other or row.chain is not None or other.chain is not None:
        return row is other or row.chain == other.chain
    ends = ((row.contact, other.contact), (row.terminal, other.terminal))
    return any(one is not None and one == another for one, another in ends)


def _within(description: Description, netlist: Netlist, circuit: Circuit, other: GroupRow, number: int) -> Problem:
    row = circuit.kind.group[number]
    path: Path = ("kinds", circuit.kind_name, "group", number)
    hint = f"Give each of these rows of the kind a `mark`, as in `{{function: {row.function}, mark: a}}`."
    coded = [one for one in (row.function, other.function) if one in description.functions]
    if row.function != other.function or circuit.kind_name not in description.kinds:
        hint = f"Give {other.function} and {row.function} codes of their own under `functions:`, or rows a `mark`."
        path = ("functions", coded[0], "code") if coded else path
    return Problem(
        code="heads-alike",
        message=f"two ways of the kind {circuit.kind_name} are both called"
        f" {circuit.id}{netlist.functions[row.function].code}{row.mark}, and nothing joins them: that of"
        f" {_what_it_is(other)} and that of {_what_it_is(row)}",
        hint=hint,
        place=description.place_of(*path),
    )


def _what_it_is(row: GroupRow) -> str:
    if row.terminal is not None:
        return f"terminal {row.terminal}"
    return f"contact {row.contact}" if row.contact is not None else f"the chain {row.chain}"
