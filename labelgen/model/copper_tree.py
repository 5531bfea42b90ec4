"""The metal of a railway, piece by piece, as a tree for every net: what lies between two of its points.

Every net is a tree (a ring of wires is an error), so between two of its points there is one way, and one piece that
fails divides it in two. Further pins that carry the same wire are left out: with one of them dead, the others carry on.
With the plugs pulled, each board has nets of its own, and further pins are metal like any other.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from labelgen.model.netlist import End, EndKind, Netlist, PinPlan, Wire

Point = tuple[EndKind, str, str, str]
"""What metal: kind of thing, its id, its terminal; of a pin also the board on which it is."""
PartKind = Literal["wire", "pin", "bridge", "contact", "own-contact", "load", "diode"]


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """A piece that current passes, from one point to another."""

    kind: PartKind
    one: Point
    other: Point
    wire: Wire | None = None
    lever: str = ""
    """Of a lever's contact."""

    def beyond(self, point: Point) -> Point:
        return self.other if point == self.one else self.one


def point_of(end: End) -> Point:
    return (end.kind, end.thing, end.terminal, end.board or "")


def name_of(point: Point) -> str:
    """As an end is written: `L5.N`, `A1.4`."""
    kind, thing, terminal, _ = point
    return End(kind=kind, thing=thing, terminal=terminal).name


class CopperTree:
    """All nets; each is rooted at a supply's terminal, where it has one."""

    def __init__(self, netlist: Netlist, *, plugged: bool = True) -> None:
        self.parts: list[Part] = [*_metal(netlist), *(_joined_pins(netlist) if plugged else _jumpers(netlist))]
        self.parts_at: dict[Point, list[Part]] = {}
        for part in self.parts:
            self.parts_at.setdefault(part.one, []).append(part)
            self.parts_at.setdefault(part.other, []).append(part)
        self.net: dict[Point, int] = {}
        self.roots: list[Point] = []
        self._above: dict[Point, tuple[Point, Part]] = {}
        self._depth: dict[Point, int] = {}
        for root in sorted(self.parts_at, key=lambda point: point[0] is not EndKind.SUPPLY):
            if root not in self.net:
                self._grow(root)

    def _grow(self, root: Point) -> None:
        number = len(self.roots)
        self.roots.append(root)
        self.net[root], self._depth[root] = number, 0
        ahead = [root]
        while ahead:
            here = ahead.pop()
            for part in self.parts_at[here]:
                there = part.beyond(here)
                if there not in self.net:
                    self.net[there], self._depth[there] = number, self._depth[here] + 1
                    self._above[there] = (here, part)
                    ahead.append(there)

    @cached_property
    def points(self) -> list[list[Point]]:
        """Of each net, its points."""
        found: list[list[Point]] = [[] for _ in self.roots]
        for point, net in self.net.items():
            found[net].append(point)
        return found

    @cached_property
    def _below(self) -> dict[Point, int]:
        """How many points hang on each, itself with them, away from the root."""
        count = dict.fromkeys(self.net, 1)
        for point in reversed(self.net):
            if point in self._above:
                count[self._above[point][0]] += count[point]
        return count

    def size_beyond(self, start: Point, without: Part) -> int:
        """How many points `beyond` would find."""
        lower = max(without.one, without.other, key=self._depth.__getitem__)
        below = self._below[lower]
        return below if start == lower else len(self.points[self.net[start]]) - below

    def between(self, one: Point, other: Point) -> list[Part]:
        """The parts on the way from one point to another of the same net, in order."""
        there: list[Part] = []
        back: list[Part] = []
        while one != other:
            if self._depth[one] >= self._depth[other]:
                one, part = self._above[one]
                there.append(part)
            else:
                other, part = self._above[other]
                back.append(part)
        return [*there, *reversed(back)]

    def beyond(self, start: Point, without: Part) -> set[Point]:
        """What of a net still hangs on a point when one part of it is taken away."""
        seen, ahead = {start}, [start]
        while ahead:
            here = ahead.pop()
            for part in self.parts_at[here]:
                there = part.beyond(here)
                if part is not without and there not in seen:
                    seen.add(there)
                    ahead.append(there)
        return seen


def _metal(netlist: Netlist) -> Iterator[Part]:
    for wire in netlist.wires:
        yield Part("wire", point_of(wire.start), point_of(wire.finish), wire=wire)
    for strip in netlist.strips:
        for bridge in strip.bridges:
            ways: Iterable[Point] = [(EndKind.WAY, strip.id, str(way), "") for way in bridge]
            first, *rest = ways
            yield from (Part("bridge", first, way) for way in rest)


def _joined_pins(netlist: Netlist) -> Iterator[Part]:
    for plug in netlist.plugs:
        one, other = plug.boards
        for pin in plug.pins:
            if is_joined(pin):
                terminal = str(pin.number)
                yield Part("pin", (EndKind.PIN, plug.id, terminal, one), (EndKind.PIN, plug.id, terminal, other))


def _jumpers(netlist: Netlist) -> Iterator[Part]:
    """On each board, from the pin on which a wire lands to its further pins."""
    for plug in netlist.plugs:
        for pin in plug.pins:
            for board in plug.boards if pin.bridged_to is not None else ():
                wired = (EndKind.PIN, plug.id, str(pin.bridged_to), board)
                yield Part("bridge", wired, (EndKind.PIN, plug.id, str(pin.number), board))


def is_joined(pin: PinPlan) -> bool:
    """Whether wires meet in a pin, and no other pin carries the same."""
    return bool(pin.wires) and pin.bridged_to is None
