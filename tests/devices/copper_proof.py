"""What reaches what through copper: a small judge of its own, which knows nothing of how the wires were made.

Metal is joined by wires, by a lever's closed contacts and by a device's own contacts, both ways; by a diode one way
only. Coils, motors and lamps join nothing: they are what is to be fed.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from labelgen.model.netlist import End, EndKind, Netlist

# Which contacts are closed, by the lever's type and the way it lies. Trade page, section 4: a sprung lever, a passing
# one and a changeover have their common in the middle; a changeover's outer contacts are joined crosswise.
CLOSED: Mapping[str, Mapping[str, tuple[tuple[str, str], ...]]] = {
    "sprung": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "passing": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "latching": {"normal": (("F", "N"),), "reverse": (("F", "R"),)},
    "on-off": {"on": (("1", "2"),)},
    "button": {"on": (("1", "2"),)},
    "changeover": {"normal": (("P", "A"), ("M", "B")), "reverse": (("P", "B"), ("M", "A"))},
    "two-pole": {"normal": (("F1", "N1"), ("F2", "N2")), "reverse": (("F1", "R1"), ("F2", "R2"))},
}
CAB_POSITIONS = {f"cab {number}": (("F1", f"{number}A"), ("F2", f"{number}B")) for number in range(1, 5)}
"""Of a two-pole rotary switch: each pole's arm on the same position."""
LIES = {"reverse": "reverse", "on": "reverse", "open": "nowhere"}
"""How the device lies after the lever's throw, where it is not normal; `open`: none of its own contacts is made."""

Joint = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Copper:
    """Everything metal of one railway, with its levers lying as they were put."""

    joints: tuple[Joint, ...]
    diodes: tuple[Joint, ...] = ()
    """From anode to cathode."""

    def from_here(self, start: str) -> set[str]:
        """Where current can go from there."""
        return _reach(start, [*self.joints, *_turned(self.joints), *self.diodes])

    def to_here(self, goal: str) -> set[str]:
        """From where current can come to it."""
        return _reach(goal, [*self.joints, *_turned(self.joints), *_turned(self.diodes)])


def _turned(joints: Iterable[Joint]) -> list[Joint]:
    return [(b, a) for a, b in joints]


def _reach(start: str, steps: Iterable[Joint]) -> set[str]:
    onward: dict[str, list[str]] = {}
    for a, b in steps:
        onward.setdefault(a, []).append(b)
    seen, to_do = {start}, [start]
    while to_do:
        for after in onward.get(to_do.pop(), ()):
            if after not in seen:
                seen.add(after)
                to_do.append(after)
    return seen


def copper(netlist: Netlist, positions: Mapping[str, str]) -> Copper:
    """`positions`: lever: how it lies, or which of its buttons, studs or positions is made (left out: none).

    Also of a device without a lever: how it lies.
    """
    joints = [(wire.start.name, wire.finish.name) for wire in netlist.wires]
    for strip in netlist.strips:
        joints += [(f"{strip.id}.{bridge[0]}", f"{strip.id}.{way}") for bridge in strip.bridges for way in bridge[1:]]
    for lever in netlist.levers:
        joints += _closed(netlist, lever.id, lever.type, positions.get(lever.id, "off"))
    for circuit in netlist.circuits:
        position = positions.get(circuit.lever or "", positions.get(circuit.id, "normal"))
        for a, b in circuit.kind.inside.get(LIES.get(position, "normal"), ()):
            joints += [(f"{device}.{a}", f"{device}.{b}") for device in circuit.devices]
    diodes = tuple((diode.anode.name, diode.cathode.name) for diode in netlist.diodes)
    return Copper(joints=tuple(joints), diodes=diodes)


def _closed(netlist: Netlist, lever: str, type_: str, position: str) -> list[Joint]:
    """A stud is touched with the probe; of buttons and rotary switches, the position names the contact."""
    if position in ("off", "rest"):
        return []
    if type_ == "stud":
        return [(f"{circuit.id}.tip", f"L{lever}.{position}") for circuit in netlist.circuits if circuit.id == "PROBE"]
    if type_ == "buttons" or (type_ == "rotary" and position not in CAB_POSITIONS):
        pairs: Iterable[Joint] = [("F", position)]
    else:
        pairs = CAB_POSITIONS[position] if type_ == "rotary" else CLOSED[type_][position]
    return [(f"L{lever}.{one}", f"L{lever}.{other}") for one, other in pairs]


def sources(netlist: Netlist) -> list[str]:
    """The terminals of supplies from which something is fed: neither their inputs, nor a device that gives."""
    supplies = (end for end in ends(netlist) if end.kind is EndKind.SUPPLY)
    return sorted({end.name for end in supplies if not end.terminal.startswith("in-")})


def ends(netlist: Netlist) -> Iterator[End]:
    return (end for wire in netlist.wires for end in wire.ends)


def fed(netlist: Netlist, positions: Mapping[str, str], signals: Iterable[str] = ()) -> dict[str, str]:
    """Every terminal of a device, and every thing beside a lever, that a supply reaches: by which of its terminals.

    `>PULSE.feed`: through a diode, so that current can only come from there; `<AC.feed`: can only go there.
    `signals`: outputs of devices, which count like a supply's terminals.
    """
    metal = copper(netlist, positions)
    found: dict[str, list[str]] = {}
    for source in [*sources(netlist), *signals]:
        out, back = metal.from_here(source), metal.to_here(source)
        for end in _watched(netlist):
            if end != source and (end in out or end in back):
                sign = "" if end in out and end in back else ">" if end in out else "<"
                found.setdefault(end, []).append(f"{sign}{source}")
    return {end: " ".join(by) for end, by in found.items()}


def _watched(netlist: Netlist) -> list[str]:
    terminals = [f"{d}.{t}" for circuit in netlist.circuits for d in circuit.devices for t in circuit.kind.terminals]
    return terminals + sorted({end.name for end in ends(netlist) if end.terminal.startswith("lamp-")})


def meetings(netlist: Netlist, positions: Mapping[str, str]) -> list[str]:
    """Which terminals of supplies are joined: each a short circuit, unless it was declared."""
    metal, all_of_them = copper(netlist, positions), sources(netlist)
    return [
        f"{one} {other}"
        for number, one in enumerate(all_of_them)
        for other in all_of_them[number + 1 :]
        if other in metal.from_here(one) | metal.to_here(one)
    ]


def rings(netlist: Netlist) -> list[str]:
    """Wires that join what is joined already."""
    piece: dict[str, str] = {}

    def top(metal: str) -> str:
        while metal in piece:
            metal = piece[metal]
        return metal

    found = []
    for wire in netlist.wires:
        one, other = top(wire.start.name), top(wire.finish.name)
        if one == other:
            found.append(f"{wire.start.name} {wire.finish.name}")
        else:
            piece[other] = one
    return found
