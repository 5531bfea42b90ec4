"""The order in which wires are fitted, and so of their flags: strip by strip, plug by plug, then the panels."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.kinds import LEVER_CONTACTS
from labelgen.model.netlist import End, EndKind, LeverPlan, Netlist, PlugPlan, Side, StripPlan, Wire
from labelgen.natural_order import Key, natural

FAR_ENDS = (EndKind.DEVICE, EndKind.SUPPLY)


@dataclass(frozen=True, slots=True)
class FlagEnd:
    """A wire, and at which of its ends the flag goes: 0 its start, 1 its finish."""

    wire: Wire
    index: int

    @property
    def end(self) -> End:
        return self.wire.ends[self.index]

    @property
    def far(self) -> End:
        return self.wire.ends[1 - self.index]


def in_order_of_work(netlist: Netlist) -> list[FlagEnd]:
    """Both ends of every wire that is not a link, each once.

    Strip by strip, way by way, panel side then layout side; a flag for a device's or supply's end right behind its
    wire's flag at the strip; wires from device to device behind the ways of their first device's strip; then plug by
    plug, one board after the other, pin by pin; last, panel by panel, the levers' ends.
    """
    once: dict[FlagEnd, None] = {}
    between = _between_devices(netlist)
    for strip in netlist.strips:
        once.update(dict.fromkeys(_at_strip(strip)))
        once.update(dict.fromkeys(between.get(strip.id, ())))
    once.update(dict.fromkeys(flag for plug in netlist.plugs for flag in _at_plug(plug)))
    rest = [flag for wire in netlist.wires if not wire.link for flag in (FlagEnd(wire, 0), FlagEnd(wire, 1))]
    once.update(dict.fromkeys(flag for flag in rest if flag.end.kind is not EndKind.LEVER))
    levers = {lever.id: lever for lever in netlist.levers}
    at_levers = [flag for flag in rest if flag.end.kind is EndKind.LEVER]
    once.update(dict.fromkeys(sorted(at_levers, key=lambda flag: _lever_key(levers.get(flag.end.thing), flag.end))))
    return list(once)


def _at_strip(strip: StripPlan) -> Iterator[FlagEnd]:
    for way in strip.ways:
        for side in Side:
            for wire in way.entry(side):
                if not wire.link:
                    yield from _at_way(wire, strip.id, way.number, side)


def _at_way(wire: Wire, strip: str, way: int, side: Side) -> Iterator[FlagEnd]:
    for index, end in enumerate(wire.ends):
        if end.point == (EndKind.WAY, strip, str(way)) and end.side in (side, None):
            flag = FlagEnd(wire, index)
            yield flag
            if flag.far.kind in FAR_ENDS:
                yield FlagEnd(wire, 1 - index)


def _at_plug(plug: PlugPlan) -> Iterator[FlagEnd]:
    """Where pins are bridged, the flag is where the wire lands."""
    for board in plug.boards:
        for pin in plug.pins:
            for wire in pin.on(board) if pin.bridged_to is None else ():
                for index, end in enumerate(wire.ends):
                    if end.kind is EndKind.PIN and (end.thing, end.board) == (plug.id, board):
                        flag = FlagEnd(wire, index)
                        yield flag
                        if flag.far.kind in FAR_ENDS:
                            yield FlagEnd(wire, 1 - index)


def _between_devices(netlist: Netlist) -> dict[str, list[FlagEnd]]:
    """Strip: the wires that touch no strip, in the order of the first ways of their first devices."""
    first_ways = _first_ways(netlist)
    found: list[tuple[int, str, Wire]] = []
    for wire in netlist.wires:
        device = next((end.thing for end in wire.ends if end.kind is EndKind.DEVICE), None)
        touches_strip = any(end.kind is EndKind.WAY for end in wire.ends)
        if not wire.link and not touches_strip and device in first_ways:
            strip, way = first_ways[device]
            found.append((way, strip, wire))
    flags: dict[str, list[FlagEnd]] = {}
    for _, strip, wire in sorted(found, key=lambda one: one[0]):
        ends = [index for index, end in enumerate(wire.ends) if end.kind not in (EndKind.LEVER, EndKind.PIN)]
        flags.setdefault(strip, []).extend(FlagEnd(wire, index) for index in ends)
    return flags


def _first_ways(netlist: Netlist) -> dict[str | None, tuple[str, int]]:
    """Device: the first strip, in natural order, on which it has ways, and its first way there."""
    found: dict[str | None, tuple[str, int]] = {}
    for circuit in netlist.circuits:
        for group in circuit.groups:
            for device in group.devices if group.ways else ():
                way = (group.strip, min(group.ways.values()))
                found[device] = min(way, found.get(device, way), key=lambda at: (natural(at[0]), at[1]))
    return found


def _lever_key(lever: LeverPlan | None, end: End) -> tuple[Key, Key, int, Key]:
    """Panel, lever, contact: in the lever type's own order where it has one."""
    contacts = (LEVER_CONTACTS.get(lever.type) if lever else None) or ()
    place = contacts.index(end.terminal) if end.terminal in contacts else len(contacts)
    return natural((lever.panel if lever else None) or ""), natural(end.thing), place, natural(end.terminal)
