"""The copper of a railway: which ends its wires join into nets, and what resists between two ends of one net.

Every net is a tree (a ring of wires is an error), so between two of its ends there is one way. Bars that bridge ways,
and further pins of a wire, are taken as metal without resistance.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.standards.copper import ohms_per_metre

Joint = tuple[EndKind, str, str]
"""`End.point`: the metal of an end, whichever side or board it is reached from."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """From one joint to another of the same net."""

    start: Joint
    finish: Joint
    ohms: float
    """Of the wires between, at 20 °C; a wire without a known length counts for nothing."""
    unmeasured: int
    """How many of those there are."""


class Copper:
    """All nets of a netlist; each is rooted at its supply's terminal, where it has one."""

    def __init__(self, netlist: Netlist) -> None:
        self._beside: dict[Joint, list[tuple[Joint, float, Wire | None]]] = {}
        for wire in netlist.wires:
            self._join(wire.start.point, wire.finish.point, wire_ohms(wire), wire)
        for one, other in bars(netlist):
            self._join(one, other, 0.0, None)
        self._net: dict[Joint, int] = {}
        self._from_root: dict[Joint, tuple[float, int]] = {}
        """Ohms, and how many wires without a length."""
        self._towards_root: dict[Joint, tuple[Joint, Wire | None]] = {}
        self._order: dict[Joint, int] = {}
        self._last: dict[Joint, int] = {}
        """The order of the last joint beyond it, away from the root."""
        self.nets = 0
        for root in sorted(self._beside, key=lambda joint: joint[0] is not EndKind.SUPPLY):
            if root not in self._net:
                self._grow(root)

    def _join(self, one: Joint, other: Joint, ohms: float, wire: Wire | None) -> None:
        self._beside.setdefault(one, []).append((other, ohms, wire))
        self._beside.setdefault(other, []).append((one, ohms, wire))

    def _grow(self, root: Joint) -> None:
        """Walks a net from its root, deep first, and notes for each joint how it is reached."""
        self._net[root], self._from_root[root] = self.nets, (0.0, 0)
        ahead, met = [root], []
        while ahead:
            here = ahead.pop()
            met.append(here)
            self._order[here] = self._last[here] = len(self._order)
            for there, ohms, wire in self._beside[here]:
                if there not in self._net:
                    self._net[there] = self.nets
                    before, unmeasured = self._from_root[here]
                    unknown = wire is not None and wire.length is None
                    self._from_root[there] = (before + ohms, unmeasured + unknown)
                    self._towards_root[there] = (here, wire)
                    ahead.append(there)
        for here in reversed(met[1:]):
            above = self._towards_root[here][0]
            self._last[above] = max(self._last[above], self._last[here])
        self.nets += 1

    def net(self, joint: Joint) -> int | None:
        """The number of its net; None of an end at which no wire lands."""
        return self._net.get(joint)

    @cached_property
    def joints(self) -> dict[int, list[Joint]]:
        """Of each net, its joints."""
        found: dict[int, list[Joint]] = {}
        for joint, net in self._net.items():
            found.setdefault(net, []).append(joint)
        return found

    def wires_between(self, one: Joint, other: Joint) -> list[Wire]:
        """The wires on the way from one joint to another of the same net, in order."""
        meeting = self._meeting(one, other)
        there = [*self.up(one, meeting)]
        return [*there, *reversed([*self.up(other, meeting)])]

    def stretches(self, joints: Iterable[Joint]) -> list[Stretch]:
        """The part of one net that lies between some of its joints, as few resistances as hold it.

        Forks on the way become joints of their own.
        """
        wanted = sorted(dict.fromkeys(joints), key=self._order.__getitem__)
        if len(wanted) == 2 and self._beyond(*wanted):
            return [self._stretch(*wanted)]
        forks = [self._meeting(one, other) for one, other in pairwise(wanted)]
        nodes = sorted({*wanted, *forks}, key=self._order.__getitem__)
        return [self._stretch(self._meeting(one, other), other) for one, other in pairwise(nodes)]

    def _stretch(self, above: Joint, below: Joint) -> Stretch:
        (upper, lost), (lower, lost_too) = self._from_root[above], self._from_root[below]
        return Stretch(above, below, lower - upper, lost_too - lost)

    def _meeting(self, one: Joint, other: Joint) -> Joint:
        """Where the ways from two joints to the root meet."""
        while not self._beyond(one, other):
            one = self._towards_root[one][0]
        return one

    def _beyond(self, one: Joint, other: Joint) -> bool:
        """Whether the way from the root to the other joint leads through the one."""
        return self._order[one] <= self._order[other] <= self._last[one]

    def up(self, joint: Joint, top: Joint | None = None) -> Iterator[Wire]:
        """The wires from a joint towards the root of its net, in order: to the top that is given, else to the root."""
        while joint != top and joint in self._towards_root:
            joint, wire = self._towards_root[joint]
            if wire is not None:
                yield wire


def wire_ohms(wire: Wire) -> float:
    """Of a wire from end to end at 20 °C; 0 where its length or size is not known."""
    return ohms_per_metre(wire.size) * wire.length / 1000 if wire.length is not None and wire.size else 0.0


def bars(netlist: Netlist) -> Iterator[tuple[Joint, Joint]]:
    for strip in netlist.strips:
        for bridge in strip.bridges:
            for way in bridge[1:]:
                yield (EndKind.WAY, strip.id, str(bridge[0])), (EndKind.WAY, strip.id, str(way))
    for plug in netlist.plugs:
        for pin in plug.pins:
            if pin.bridged_to is not None:
                yield (EndKind.PIN, plug.id, str(pin.bridged_to)), (EndKind.PIN, plug.id, str(pin.number))
