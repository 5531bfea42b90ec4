"""The cut list: every wire in the order in which it is pulled, what that adds up to, and what has to be bought."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.model.pulling_order import Pull, pulling_order
from labelgen.natural_order import natural
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.standards.conductors import parse_size
from labelgen.standards.ferrules import Ferrule, ferrule_for
from labelgen.workshop.reels import CutPlan, reels_to_buy

Stuff = tuple[str, str]
"""Colour (IEC 60757 letters; "" for none) and size, as printed."""
FLAGS_A_WIRE = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """A wire to cut."""

    wire: Wire
    size: str
    """As printed: `16/0.2`, `0.5 mm²`."""
    ferrule: Ferrule | None
    """None where no end of it is held by a strip's screw: what is soldered or crimped on takes none."""
    reel: int | None = None
    """From which reel of its colour and size it comes, from 1; None when there is one reel only, or no length."""

    @property
    def ferrules(self) -> int:
        """How many of its ends take one."""
        return _screwed(self.wire) if self.ferrule else 0

    @property
    def flags(self) -> int:
        return 0 if self.wire.link else FLAGS_A_WIRE


@dataclass(frozen=True, slots=True, kw_only=True)
class CutGroup:
    """Wires that are pulled one after the other."""

    pull: Pull
    rows: tuple[CutRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StuffTotal:
    """All the wire of one colour and size."""

    colour: str
    size: str
    wires: tuple[Wire, ...]
    """Those with a length; the plan counts in them."""
    unknown: int
    """How many wires have no length, and are left out of all that follows."""
    plan: CutPlan

    @property
    def length(self) -> int:
        """mm, of the wires whose length is known."""
        return sum(wire.length or 0 for wire in self.wires)

    @property
    def count(self) -> int:
        return len(self.wires) + self.unknown


@dataclass(frozen=True, slots=True, kw_only=True)
class StripsToBuy:
    ways: int
    amps: float
    strips: tuple[str, ...]
    """Ids, in natural order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    groups: tuple[CutGroup, ...]
    totals: tuple[StuffTotal, ...]
    """In the order of the colours' letters, thin wire first."""
    ferrules: Mapping[Ferrule, int]
    """How many of each, small ones first."""

    @property
    def rows(self) -> Iterator[CutRow]:
        return (row for group in self.groups for row in group.rows)


def cut_list(netlist: Netlist) -> CutList:
    """Every wire once, links at their strip; a ferrule for every end at a strip."""
    totals = _totals(netlist.wires)
    reels = {wire.number: reel for total in totals for wire, reel in _reels(total)}
    groups = tuple(
        CutGroup(pull=pull, rows=tuple(_row(wire, reels.get(wire.number)) for wire in pull.wires))
        for pull in pulling_order(netlist)
    )
    ferrules: Counter[Ferrule] = Counter()
    for group in groups:
        for row in group.rows:
            ferrules += Counter({row.ferrule: row.ferrules} if row.ferrule else {})
    return CutList(
        groups=groups,
        totals=totals,
        ferrules={each: ferrules[each] for each in sorted(ferrules, key=lambda each: each.mm2)},
    )


def strips_to_buy(description: Description) -> list[StripsToBuy]:
    """The strips of the railway, by ways and amps."""
    found: dict[tuple[int, float], list[str]] = {}
    for id_ in sorted(description.strips, key=natural):
        strip = description.strips[id_]
        found.setdefault((strip.ways, strip.amps), []).append(id_)
    return [StripsToBuy(ways=ways, amps=amps, strips=tuple(ids)) for (ways, amps), ids in sorted(found.items())]


def _row(wire: Wire, reel: int | None) -> CutRow:
    ferrule = ferrule_for(wire.size) if _screwed(wire) else None
    return CutRow(wire=wire, size=_notation(wire.size), ferrule=ferrule, reel=reel)


def _screwed(wire: Wire) -> int:
    """How many of its ends a strip's screws hold."""
    return sum(end.kind is EndKind.WAY for end in wire.ends)


def _notation(size: str) -> str:
    parsed = parse_size(size)
    return size if parsed is None else parsed.notation


def _totals(wires: Sequence[Wire]) -> tuple[StuffTotal, ...]:
    by_stuff: dict[Stuff, list[Wire]] = {}
    for wire in wires:
        by_stuff.setdefault((wire.colour, _notation(wire.size)), []).append(wire)
    return tuple(_total(stuff, by_stuff[stuff]) for stuff in sorted(by_stuff, key=_stuff_key))


def _total(stuff: Stuff, wires: Sequence[Wire]) -> StuffTotal:
    known = tuple(wire for wire in wires if wire.length is not None)
    return StuffTotal(
        colour=stuff[0],
        size=stuff[1],
        wires=known,
        unknown=len(wires) - len(known),
        plan=reels_to_buy([wire.length or 0 for wire in known]),
    )


def _stuff_key(stuff: Stuff) -> tuple[list[int], float, str]:
    order = list(COLOURS)
    size = parse_size(stuff[1])
    letters = letters_of(stuff[0]) or ()
    return [order.index(each) for each in letters] or [len(order)], size.copper_mm2 if size else 0, stuff[1]


def _reels(total: StuffTotal) -> Iterator[tuple[Wire, int]]:
    if len(total.plan.reels) > 1:
        for number, reel in enumerate(total.plan.reels, 1):
            yield from ((total.wires[index], number) for index in reel.cuts)
