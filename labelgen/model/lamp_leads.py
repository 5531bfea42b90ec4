"""Which wires lead to a lamp on a panel: read by the back sheet and the checks."""

from collections.abc import Iterable
from dataclasses import dataclass

from labelgen.model.netlist import End, EndKind, Function, Netlist, Wire

LAMP_FUNCTION = "lamp"
LEADS = {"normal": ("lamp-N", "N"), "reverse": ("lamp-R", "R")}
"""What a point's road is: where its wire lands, on what stands beside the lever, or on a device of lamps."""
SHARED = "lamp-C"
"""Beside the lever: the end that its two lamps share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LampLead:
    """What is soldered to a lamp."""

    wires: tuple[Wire, ...]
    """To its long leg (plus); none where the description says nothing of its wiring."""
    shared: tuple[Wire, ...]
    """To the other one, where it shares its end with another lamp."""
    colour: str
    """IEC 60757 letters of its lead: that of its wire, else of the function `lamp`; "" when there is none."""
    function: Function | None


def lamp_lead(netlist: Netlist, name: str) -> LampLead:
    """The lead of a lamp by what it shows: `P5.normal`, a device's terminal (`SIG7.G`), a device, section or supply."""
    function = netlist.functions.get(LAMP_FUNCTION)
    thing, _, road = name.partition(".")
    wires = tuple(_wires_of(netlist, thing, road))
    lever = netlist.lever_of_device.get(thing)
    shared = _landing(netlist, EndKind.LEVER, lever, SHARED) if road in LEADS and wires and lever is not None else ()
    colour = wires[0].colour if wires else (function.colour if function else "")
    return LampLead(wires=wires, shared=tuple(shared), colour=colour, function=function)


def _wires_of(netlist: Netlist, thing: str, road: str) -> Iterable[Wire]:
    if road in LEADS:
        beside, terminal = LEADS[road]
        lever = netlist.lever_of_device.get(thing)
        by_lever = [] if lever is None else _landing(netlist, EndKind.LEVER, lever, beside)
        if by_lever:
            return by_lever
        return [wire for wire in _landing(netlist, EndKind.DEVICE, thing, terminal) if wire.function == LAMP_FUNCTION]
    if road:
        return _landing(netlist, EndKind.DEVICE, thing, road)
    lamps = (wire for wire in netlist.wires if wire.function == LAMP_FUNCTION)
    return [wire for wire in lamps if any(_is(end, EndKind.DEVICE, thing) for end in wire.ends)]


def _landing(netlist: Netlist, kind: EndKind, thing: str, terminal: str) -> list[Wire]:
    return [wire for wire in netlist.wires if any(end.point == (kind, thing, terminal) for end in wire.ends)]


def _is(end: End, kind: EndKind, thing: str) -> bool:
    return end.kind is kind and end.thing == thing


def load_shown(netlist: Netlist, device: str, terminal: str) -> str:
    """What is painted at the terminal of a load: `P5.1`; of a lamp that stands beside a lever `L5.lamp-N`."""
    lever = netlist.lever_of_device.get(device)
    at_lever = (EndKind.LEVER, lever or "", terminal)
    beside = any(terminal == end for end, _ in LEADS.values())
    return netlist.shown_at.get(
        at_lever if beside else (EndKind.DEVICE, device, terminal), f"{netlist.shown_id(device)}.{terminal}"
    )
