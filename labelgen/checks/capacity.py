"""How much goes where: wires in a screw entry."""

from collections.abc import Sequence

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Side, StripPlan, Wire
from labelgen.problems import Problem


def crowded_entries(description: Description, netlist: Netlist) -> list[Problem]:
    """More wires in one screw entry than the strip's limit. Reports entry-crowded."""
    problems = []
    for strip in netlist.strips:
        limit = description.strips[strip.id].entry_limit
        for way in strip.ways:
            for side in Side:
                wires = way.entry(side)
                if len(wires) > limit:
                    others = ", ".join(_far_end(wire, strip.id, way.number) for wire in wires)
                    problems.append(
                        Problem(
                            code="entry-crowded",
                            message=f"{len(wires)} wires meet in one screw entry: {strip.id}.{way.number}, "
                            f"{side} side (from {others})",
                            hint=f"The limit is {limit}. {_way_out(strip, way.number, wires)} Or raise the strip's "
                            "`entry_limit`, if its screws do hold so many.",
                            place=description.place_of_key("strips", strip.id),
                        )
                    )
    return problems


def _way_out(strip: StripPlan, way: int, wires: Sequence[Wire]) -> str:
    """What takes wires out of an entry: a chain's links give way to a bridge, devices to a group of their own."""
    linked = _linked(strip, way)
    if len(linked) > 1:
        ways = ", ".join(map(str, sorted(linked)))
        return f"Bridge the ways instead of linking them by wires: `bridges: [[{ways}]]` at the strip."
    if any(not wire.circuit for wire in wires):
        return "Lead your own wire to a way that is bridged to this one."
    if sum(end.kind is EndKind.DEVICE for wire in wires for end in wire.ends) > 1:
        return (
            "Name a `strip` at each of these devices, not the same for all: on each strip they have ways of their own."
        )
    return "Spread its wires over ways that are bridged."


def _linked(strip: StripPlan, way: int) -> set[int]:
    """The ways of a strip to which the links of a chain lead from one."""
    found, waiting = {way}, [way]
    while waiting:
        entry = strip.ways[waiting.pop() - 1].layout
        beyond = {int(end.terminal) for wire in entry if wire.link and wire.circuit for end in wire.ends} - found
        found |= beyond
        waiting += beyond
    return found


def _far_end(wire: Wire, strip: str, way: int) -> str:
    return wire.finish.name if wire.start.name == f"{strip}.{way}" else wire.start.name
