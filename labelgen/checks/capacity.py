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
        free = [way.number for way in strip.ways if way.state == "spare" and not way.was]
        for way in strip.ways:
            for side in Side:
                wires = way.entry(side)
                if len(wires) > limit:
                    others = ", ".join(_far_end(wire, strip.id, way.number) for wire in wires)
                    way_out = _way_out(strip, way.number, wires) or _by_a_bridge(
                        description, netlist, strip, (way.number, free), wires if side is Side.LAYOUT else ()
                    )
                    problems.append(
                        Problem(
                            code="entry-crowded",
                            message=f"{len(wires)} wires meet in one screw entry: {strip.id}.{way.number}, "
                            f"{side} side (from {others})",
                            hint=f"The limit is {limit}. {way_out} Or raise the strip's `entry_limit`, if its "
                            "screws do hold so many.",
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
    return ""


def _by_a_bridge(
    description: Description, netlist: Netlist, strip: StripPlan, ways: tuple[int, list[int]], wires: Sequence[Wire]
) -> str:
    """A chain that goes on from strip to strip leaves by a free way that is bridged to this one.

    `ways`: the crowded one, and those that are free, of which the last is taken.
    """
    way, free = ways
    onward = next((end for wire in wires if (end := _onward(netlist, strip.id, way, wire))), "")
    if not free or not onward:
        return "Spread its wires over ways that are bridged."
    start = f"{strip.id}.{free[-1]}"
    bridges = ", ".join(str([*bridge]) for bridge in (*description.strips[strip.id].bridges, (way, free.pop())))
    return (
        f"Bridge it with a free way, and lead the wire to {onward} from there: write `bridges: [{bridges}]` at the"
        f" strip and `- {{from: {start}, to: {onward}}}` under `wires:`, and likewise at every other crowded way of"
        " this chain."
    )


def _onward(netlist: Netlist, strip: str, way: int, wire: Wire) -> str:
    """Where a chain's wire leads that begins here, past the plugs on its way; "" of any other."""
    here = f"{strip}.{way}"
    if wire.start.name != here or wire.start.kind is not EndKind.WAY or wire.finish.kind is EndKind.DEVICE:
        return ""
    if wire.finish.kind is not EndKind.PIN:
        return wire.finish.name
    through = (one for one in netlist.passages if one.start == here and wire.finish.name in one.pins[0])
    return next((one.finish for one in through), "")


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
