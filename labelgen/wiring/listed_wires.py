"""The wires that a builder listed: each is either one that the rules make anyway, or an extra one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from labelgen.model.description import Description, ListedWire
from labelgen.model.netlist import End, EndKind, Function, Side
from labelgen.problems import Problem
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends, landed
from labelgen.wiring.marks import Head

Metal = tuple[EndKind, str, str]
"""The point of an end."""
Key = frozenset[tuple[str, str, str]]
"""The two points of a wire."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """The wires of the rules, some with a listed wire's figures, then the extra ones."""

    wires: list[DraftWire]
    problems: list[Problem]


def with_listed(
    description: Description,
    drafts: list[DraftWire],
    ends: Ends,
    functions: Mapping[str, Function],
    whole: Mapping[Key, int] = MappingProxyType({}),
) -> Merged:
    """Adds what is listed under `wires`. Reports bad-end, same-ends and other-function.

    An unknown function was reported by reading.

    `whole`: the ends of wires that became several, because they run through plugs: where the list has them.
    """
    wires = list(drafts)
    at = {wire.key: number for number, wire in enumerate(wires)}
    ways = _ways(drafts)
    whole_functions = {wire.listed: wire.function for wire in drafts if wire.listed is not None}
    problems: list[Problem] = []
    for number, listed in enumerate(description.wires):
        both = _read_ends(description, number, listed, ends, problems)
        if both is None or (listed.function is not None and listed.function not in functions):
            continue
        landing = (landed(both[0], both[1]), landed(both[1], both[0]))
        extra = _extra(number, listed, landing, ways, functions)
        position = at.get(extra.key)
        if extra.key in whole:
            function = whole_functions.get(number)
            problems += _other_function(description, number, listed, function) if function is not None else ()
            problems += [_twice(description, number, listed)] if whole[extra.key] != number else ()
        elif position is None:
            at[extra.key] = len(wires)
            wires.append(extra)
        elif wires[position].listed is not None:
            problems.append(_twice(description, number, listed))
        else:
            problems += _other_function(description, number, listed, wires[position].function)
            wires[position] = is_that_wire(wires[position], number, both)
    return Merged(wires=wires, problems=problems)


def is_that_wire(wire: DraftWire, number: int, both: tuple[End, End]) -> DraftWire:
    """The wire of the rules, which takes number, colour and size from the list, and the sides that it says."""
    sides: dict[Metal, Side | None] = {end.point: end.side for end in both}
    start = replace(wire.start, side=sides[wire.start.point] or wire.start.side)
    finish = replace(wire.finish, side=sides[wire.finish.point] or wire.finish.side)
    return replace(wire, listed=number, start=start, finish=finish, further=False)


def _read_ends(
    description: Description, number: int, listed: ListedWire, ends: Ends, problems: list[Problem]
) -> tuple[End, End] | None:
    found: list[End] = []
    for key, text in (("from", listed.start), ("to", listed.finish)):
        end = ends.read(text)
        if isinstance(end, End):
            found.append(end)
            continue
        if not end:
            continue
        hint = "Name a thing and a terminal that it has, as in L5.N, A1.3, A1.3/panel, P5.C or PULSE.feed."
        place = description.place_of("wires", number, key)
        problems.append(Problem(code="bad-end", message=end, hint=hint, place=place))
    if len(found) < 2:
        return None
    if found[0].point == found[1].point:
        message = f"a wire runs from {found[0].name} to itself"
        place = description.place_of("wires", number, "to")
        problems.append(Problem(code="same-ends", message=message, hint="Name its other end.", place=place))
        return None
    return found[0], found[1]


def _extra(
    number: int,
    listed: ListedWire,
    both: tuple[End, End],
    ways: Mapping[tuple[str, str], DraftWire],
    functions: Mapping[str, Function],
) -> DraftWire:
    """A listed wire is called after the way it lands on, else after the lever or device at its end."""
    beside = next((ways[end.thing, end.terminal] for end in both if (end.thing, end.terminal) in ways), None)
    function = listed.function or (beside.function if beside else "spare")
    if beside is not None and function == beside.function:
        head = beside.head
    else:
        named = next((end for end in both if end.kind in {EndKind.LEVER, EndKind.DEVICE}), None)
        head = Head(stem=named.thing if named else "", painted=_painted(named), code=functions[function].code)
    start, finish = both
    return DraftWire(
        circuit="",
        function=function,
        head=head,
        start=start,
        finish=finish,
        link=start.kind is finish.kind is EndKind.WAY and start.thing == finish.thing,
        path=("wires", number),
        listed=number,
    )


def _painted(named: End | None) -> str:
    """A lever or device as it is called on the railway, the lever without its L."""
    if named is None:
        return ""
    thing = named.shown.rpartition(".")[0]
    return thing.removeprefix("L") if named.kind is EndKind.LEVER else thing


def _ways(drafts: list[DraftWire]) -> dict[tuple[str, str], DraftWire]:
    """The last wire of each way that the rules use: where a chain passes, the chain's."""
    ends = ((end, wire) for wire in drafts for end in (wire.start, wire.finish))
    return {(end.thing, end.terminal): wire for end, wire in ends if end.kind is EndKind.WAY}


def _other_function(description: Description, number: int, listed: ListedWire, function: str) -> list[Problem]:
    """Where the list calls a wire of the rules something else than its kind does."""
    if listed.function in (None, function):
        return []
    message = f"the wire from {listed.start} to {listed.finish} is listed as {listed.function}, and it is {function}"
    hint = f"It stays {function}, as the kind of its device says. Correct the list, or the end that is wrong."
    place = description.place_of("wires", number, "function")
    return [Problem(code="other-function", message=message, hint=hint, place=place)]


def _twice(description: Description, number: int, listed: ListedWire) -> Problem:
    return Problem(
        code="same-ends",
        message=f"the wire from {listed.start} to {listed.finish} is listed twice",
        hint="Two wires side by side hide a broken one: list it once.",
        place=description.place_of_key("wires", number),
    )
