"""Wires between boards run through plugs: one pin each, one wire for each board. Section 5.6 of the format."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from math import inf

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.netlist import End, EndKind, Passage, PlugPlan, Wire
from labelgen.problems import Problem
from labelgen.wiring.crossings import Crossing, Hop, Settled
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends
from labelgen.wiring.listed_pins import ListedPins
from labelgen.wiring.listed_wires import Key, is_that_wire
from labelgen.wiring.plug_pins import PlugPins
from labelgen.wiring.plug_plans import plug_plans
from labelgen.wiring.plug_problems import PlugProblems
from labelgen.wiring.plug_routes import PlugRoutes
from labelgen.wiring.plug_ways import PlugWays, joins_two
from labelgen.wiring.settled_pins import SettledPins
from labelgen.wiring.wire_lengths import WireLengths


class PlugWiring:
    """Leads the wires of one description through its plugs. Reports plug-full, no-way-by-plugs and no-board."""

    def __init__(
        self,
        description: Description,
        ends: Ends,
        boards: Mapping[tuple[str, str], str | None],
        lengths: WireLengths,
        record: BuiltRecord | None = None,
    ) -> None:
        """`boards`: of each thing at which a wire may end. `record`: pins that wires have for good, and spare ones."""
        self._description = description
        self._ends = ends
        self._boards = boards
        known = description.boards.keys()
        self._plugs = {id_: plug for id_, plug in description.plugs.items() if joins_two(plug, known)}
        self.ways = PlugWays(self._plugs)
        self._listed = ListedPins(self._plugs, self.ways)
        self.whole: dict[Key, int] = {}
        """The ends of wires that became several: their place in the builder's list."""
        self.passages: list[Passage] = []
        self._lists = self._read_lists() if self._plugs else {}
        record = record or BuiltRecord(railway=description.railway)
        kept = {(pins.ends, pins.circuit): pins for pins in record.pins}
        self._heads = {pin: head for pin, head in record.spare_heads.items() if pin[0] in self._plugs}
        self._pins = PlugPins(self._plugs, [*self._listed.pins(), *self._heads])
        self._settled = SettledPins(self._plugs, self._listed, self._pins, kept)
        self._routes = PlugRoutes(self.ways, self._pins, ends.pin, lengths.distance)
        self._told = PlugProblems(description, self._plugs, self.ways, self._pins)

    def _read_lists(self) -> dict[Key, tuple[int, tuple[End, End]]]:
        """The builder's own wires by their ends; those that end at a pin are noted. Mistakes are reported later."""
        found: dict[Key, tuple[int, tuple[End, End]]] = {}
        for number, listed in enumerate(self._description.wires):
            start, finish = self._ends.read(listed.start), self._ends.read(listed.finish)
            if isinstance(start, End) and isinstance(finish, End):
                found.setdefault(frozenset((start.point, finish.point)), (number, (start, finish)))
                if all(end.kind is not EndKind.PIN or end.thing in self._plugs for end in (start, finish)):
                    self._listed.add(number, start, finish)
        return found

    def through(self, drafts: list[DraftWire]) -> list[DraftWire]:
        """The wires of the rules, each between boards as one wire for every board that it crosses."""
        if not self._plugs:
            return drafts
        crossings = {number: found for number, wire in enumerate(drafts) if (found := self._crossing(wire))}
        named = self._settled.of(crossings)
        wires: list[DraftWire] = []
        for number, wire in enumerate(drafts):
            if number in crossings:
                wires += self._split(self._as_listed(crossings[number]), named.get(number, Settled()))
            else:
                wires.append(wire)
        return wires

    def _crossing(self, wire: DraftWire) -> Crossing | None:
        """A wire between two boards; None for one that stays on its board, or of which that is not known."""
        start, finish = self._board(wire.start), self._board(wire.finish)
        if start is None or finish is None:
            for end, board in ((wire.start, start), (wire.finish, finish)):
                if board is None:
                    self._told.unknown_board(end)
            return None
        if start == finish or not self._description.boards.keys() >= {start, finish}:
            return None
        return Crossing(wire=wire, start=start, finish=finish, count=self._count(wire))

    def _board(self, end: End) -> str | None:
        return end.board if end.kind is EndKind.PIN else self._boards.get((end.kind, end.thing))

    def _count(self, wire: DraftWire) -> int:
        function = self._description.functions.get(wire.function)
        return max(wire.pins, function.pins if function else 1)

    def _as_listed(self, crossing: Crossing) -> Crossing:
        """With number, colour and size, where the builder listed the whole wire."""
        key = crossing.wire.key
        if key not in self._lists or key in self.whole:
            return crossing
        number, both = self._lists[key]
        self.whole[key] = number
        return replace(crossing, wire=is_that_wire(crossing.wire, number, both))

    # One wire after the other.

    def _split(self, crossing: Crossing, settled: Settled) -> list[DraftWire]:
        """One wire for each board crossed, or the wire as it is, and a problem."""
        hops = self._hops(crossing, settled)
        if hops is None:
            return [crossing.wire]
        wire, passed, landed = crossing.wire, list[str](), list[int]()
        for hop in hops:
            pins = self._pins.take(hop.plug, crossing.count, settled.pins.get(hop.plug, ()))
            if len(pins) < crossing.count:
                self._told.full([hop], crossing.count - len(pins))
            landed.append(pins[0])
            passed += [f"{hop.plug}.{pin}" for pin in pins]
        passage = Passage(start=wire.start.name, finish=wire.finish.name, circuit=wire.circuit, pins=tuple(passed))
        self.passages.append(passage)
        return list(self._stretches(wire, hops, landed))

    def _stretches(self, wire: DraftWire, hops: list[Hop], pins: list[int]) -> Iterator[DraftWire]:
        start, board, further = wire.start, hops[0].start, wire.further
        for hop, pin in zip(hops, pins, strict=True):
            finish = self._ends.pin(hop.plug, pin, hop.start)
            yield replace(wire, start=start, finish=finish, board=hop.start, link=False, further=further)
            start, board, further = self._ends.pin(hop.plug, pin, hop.finish), hop.finish, True
        yield replace(wire, start=start, board=board, link=False, further=True)

    def _hops(self, crossing: Crossing, settled: Settled) -> list[Hop] | None:
        """All plugs on the way: those with settled pins, and between them what has room."""
        wire, head, tail = crossing.wire, settled.head, settled.tail
        start, finish = (wire.start, crossing.start), (wire.finish, crossing.finish)
        if head:
            start = (self._ends.pin(head[-1].plug, 1, head[-1].finish), head[-1].finish)
        if tail:
            finish = (self._ends.pin(tail[0].plug, 1, tail[0].start), tail[0].start)
        if self.ways.count(start[1], finish[1]) == inf:
            self._told.no_way(wire, start[1], finish[1])
            return None
        route = self._routes.way(start, finish, crossing.count)
        if route is None:
            self._told.full(self._routes.full_way(start, finish, crossing.count), crossing.count)
            return None
        return [*head, *route, *tail]

    # The builder's own wires.

    def with_extras(self, wires: list[DraftWire]) -> list[DraftWire]:
        """The same, with the builder's own wires led through plugs as well: their pins have their boards."""
        if not self._plugs:
            return wires
        return [part for wire in wires for part in ([wire] if wire.circuit else self._extra(wire))]

    def _extra(self, wire: DraftWire) -> list[DraftWire]:
        starts, finishes = self._may_be_on(wire.start), self._may_be_on(wire.finish)
        if not starts or not finishes:
            return [wire]
        start, finish = self.ways.nearest(starts, finishes)
        known = replace(wire, start=_on(wire.start, start), finish=_on(wire.finish, finish))
        crossing = self._crossing(known)
        if crossing is None:
            return [replace(known, board=start)]
        return self._split(crossing, self._settled.recorded(crossing) or Settled())

    def _may_be_on(self, end: End) -> list[str | None]:
        if end.kind is not EndKind.PIN:
            return [self._board(end)]
        return [*self._plugs[end.thing].boards] if end.thing in self._plugs else []

    def plans(self, wires: Iterable[Wire]) -> tuple[PlugPlan, ...]:
        """Every plug, in natural order of id."""
        return plug_plans(self._description, self._plugs, wires, self._pins.bridged, self._heads)

    @property
    def problems(self) -> list[Problem]:
        return self._told.all()


def _on(end: End, board: str | None) -> End:
    return replace(end, board=board) if end.kind is EndKind.PIN else end
