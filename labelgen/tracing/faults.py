"""What can be wrong with one piece of a railway, and how likely that is."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import combinations, pairwise

from labelgen.model.copper_tree import Part, Point, name_of, point_of
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.tracing.tasks import AS_IT_SHOULD_BE, Change, Source
from labelgen.tracing.working import Working

WEIGHTS = {
    "bad-joint": 8.0,
    "bad-pin": 6.0,
    "dead-contact": 5.0,
    "dead-supply": 4.0,
    "broken-wire": 3.0,
    "open-coil": 2.0,
    "swapped-pair": 2.0,
    "stuck-contact": 2.0,
    "open-diode": 1.0,
    "short": 1.0,
}
"""How much likelier one is than another: joints first, then what moves, then the rest (common practice, no source)."""
OF_PART = {
    "pin": "bad-pin",
    "bridge": "bad-joint",
    "contact": "dead-contact",
    "own-contact": "dead-contact",
    "load": "open-coil",
    "diode": "open-diode",
}


@dataclass(frozen=True, slots=True, eq=False)
class Fault:
    """One thing that is wrong."""

    kind: str
    where: tuple[Point, ...]
    place: tuple[object, ...]
    """What cannot be told apart by a meter at the ends has the same place: a wire and its two joints."""
    part: Part | None = None
    """What no longer conducts; None: nothing of the kind."""
    source: Source | None = None
    """The supply that is dead."""
    change: Change = field(default=AS_IT_SHOULD_BE)
    """What touches or has changed places."""

    @property
    def cause(self) -> object:
        """What it does: all faults of a part, or of a supply, spoil the same."""
        if self.part is not None:
            return self.part
        return self.source.id if self.source is not None else self

    @property
    def weight(self) -> float:
        return WEIGHTS[self.kind]

    @property
    def ends(self) -> list[str]:
        return [name_of(point) for point in self.where]


def breaks(part: Part) -> Iterator[Fault]:
    """The ways in which a part can fail to conduct."""
    place = ("part", part)
    if part.wire is None:
        yield Fault(OF_PART[part.kind], (part.one, part.other), place, part=part)
        return
    for point in (part.one, part.other):
        yield Fault("bad-joint", (point,), place, part=part)
    yield Fault("broken-wire", (part.one, part.other), place, part=part)


def dead(source: Source) -> Fault:
    return Fault("dead-supply", (source.plus, source.minus), ("supply", source.id), source=source)


def joined_or_exchanged(netlist: Netlist, working: Working) -> Iterator[Fault]:
    """Neighbours that touch, wires that have changed places, contacts that stay made: all of the railway."""
    yield from _shorts(netlist, working)
    yield from _swaps(netlist, working)
    yield from _stuck(working)


def _shorts(netlist: Netlist, working: Working) -> Iterator[Fault]:
    """Ways and pins beside each other, where a strand or a blob of solder may bridge them."""
    ways = [[(EndKind.WAY, s.id, str(way.number), "") for way in s.ways] for s in netlist.strips]
    pins = [[(EndKind.PIN, p.id, str(pin.number), p.boards[0]) for pin in p.pins] for p in netlist.plugs]
    for row in (*ways, *pins):
        for one, other in pairwise(row):
            nets = _nets(working, one, other)
            if nets is not None:
                yield Fault("short", (one, other), ("touching", *sorted(nets)), change=Change(touching=nets))


def _stuck(working: Working) -> Iterator[Fault]:
    made = [part for act in working.actions for part in act.made if part.kind == "contact"]
    for pair in dict.fromkeys((part.one, part.other) for part in made):
        if (nets := _nets(working, *pair)) is not None:
            yield Fault("stuck-contact", pair, ("touching", *sorted(nets)), change=Change(touching=nets))


def _swaps(netlist: Netlist, working: Working) -> Iterator[Fault]:
    """Two wires that land near each other on the same side of a strip, or at the same lever or device."""
    for wires in _beside_each_other(netlist):
        for one, other in combinations(wires, 2):
            if (change := _exchange(working, one, other)) is not None:
                ends = tuple(dict.fromkeys([point_of(end) for wire in (one, other) for end in wire.ends]))
                yield Fault("swapped-pair", ends, ("swap", one.number, other.number), change=change)


def _beside_each_other(netlist: Netlist) -> Iterator[list[Wire]]:
    """Wires from one circuit's ways to one thing, which go the same way side by side."""
    found: dict[tuple[object, ...], list[Wire]] = {}
    for wire in netlist.wires:
        if not wire.link and wire.circuit:
            ends = tuple((end.kind, end.thing, end.side) for end in wire.ends)
            found.setdefault((wire.circuit, *sorted(ends, key=str)), []).append(wire)
    yield from (wires for wires in found.values() if len(wires) > 1)


def _exchange(working: Working, one: Wire, other: Wire) -> Change | None:
    """The nets when two wires have changed places at their first ends; None where that changes nothing."""
    tree = working.tree
    nets = _nets(working, point_of(one.start), point_of(other.start))
    if nets is None:
        return None
    parts = [next(p for p in tree.parts_at[point_of(wire.start)] if p.wire is wire) for wire in (one, other)]
    sides = ([part.one for part in parts], [part.other for part in parts])
    ends = min(sides, key=lambda side: sum(map(tree.size_beyond, side, parts)))
    moved: dict[Point, int] = {}
    for end, part, net in zip(ends, parts, reversed(nets), strict=True):
        moved |= dict.fromkeys(tree.beyond(end, part), net)
    return Change(moved=moved)


def _nets(working: Working, one: Point, other: Point) -> tuple[int, int] | None:
    """The nets of two points, where both have one and they differ."""
    first, second = working.tree.net.get(one), working.tree.net.get(other)
    return None if first is None or second is None or first == second else (first, second)
