"""Wires of the builder's own that are called as others are, although nothing joins them, or of no known use."""

from labelgen.checks.continuity import Metal, nets_of_wires
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Wire
from labelgen.problems import Problem

NAMELESS = "spare"
"""The function of a wire that has no name to be confused with another's."""


def listed_heads(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports heads-alike, once for each head, at the first listed wire of another net.

    Heads of two circuits are compared elsewhere: among wires of the rules, one head may well be in two nets.
    """
    nets = nets_of_wires(netlist)
    called: dict[str, dict[Metal, Wire]] = {}
    for wire in sorted(netlist.wires, key=lambda wire: not wire.circuit):
        if wire.circuit or wire.function != NAMELESS:
            called.setdefault(wire.head, {}).setdefault(nets.root(wire.start.point), wire)
    problems = []
    for head, (first, *others) in ((head, [*wires.values()]) for head, wires in called.items()):
        if strays := [wire for wire in others if not wire.circuit]:
            problems.append(_alike(description, head, first, strays))
    return problems


def functions_not_said(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports function-not-said once, at the first listed wire of which neither list nor rules say what it is for."""
    spares = (wire.listed for wire in netlist.wires if not wire.circuit and wire.function == NAMELESS)
    unsaid = sorted({number for number in spares if number is not None and not description.wires[number].function})
    if not unsaid:
        return []
    first, more = description.wires[unsaid[0]], len(unsaid) - 1
    likewise = f"; {more} more {'wires are' if more > 1 else 'wire is'} listed so" if more else ""
    message = f"nothing says what the wire from {first.start} to {first.finish} is for, so that it counts as a spare"
    return [
        Problem(
            code="function-not-said",
            message=f"{message}{likewise}",
            hint="Say its function: `function: lamp`, say, or `function: spare` if that is meant.",
            place=description.place_of_key("wires", unsaid[0]),
        )
    ]


def _alike(description: Description, head: str, first: Wire, strays: list[Wire]) -> Problem:
    stray, more = strays[0], len(strays) - 1
    message = (
        f"the listed wire {_ends(stray)} is called {head}, as is the one {_ends(first)}, and nothing joins the two"
    )
    return Problem(
        code="heads-alike",
        message=f"{message}; so it is with {more} more" if more else message,
        hint="Give it another `function`, or one of your own that has a `code` of its own.",
        place=description.place_of(*stray.path),
    )


def _ends(wire: Wire) -> str:
    return f"from {wire.start.name} to {wire.finish.name}"
