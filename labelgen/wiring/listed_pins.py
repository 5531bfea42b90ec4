"""The pins that a builder's own list names: a wire between boards takes them, if the list leads it there."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from labelgen.model.description import Plug
from labelgen.model.netlist import End, EndKind
from labelgen.wiring.plug_pins import Pin
from labelgen.wiring.plug_ways import PlugWays

Metal = tuple[EndKind, str, str]
"""The point of an end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """Pins that a wire passes by the list, from one of its ends on, and the board on which it is then."""

    pins: tuple[Pin, ...]
    board: str
    joins: tuple[int, ...]
    """The listed wires, by their place in the list."""


@dataclass(slots=True)
class ListedPins:
    """The listed wires that end at a pin. A listed wire leads one wire only."""

    plugs: Mapping[str, Plug]
    ways: PlugWays
    joins: dict[Metal, list[tuple[int, End]]] = field(default_factory=dict)
    """Of each end: the listed wires from it, and their other ends."""
    used: set[int] = field(default_factory=set)

    def add(self, number: int, start: End, finish: End) -> None:
        """Notes one listed wire, if it ends at a pin."""
        if EndKind.PIN in {start.kind, finish.kind}:
            self.joins.setdefault(start.point, []).append((number, finish))
            self.joins.setdefault(finish.point, []).append((number, start))

    def pins(self) -> Iterable[Pin]:
        """All that are named."""
        return [pin_of(point) for point in self.joins if point[0] is EndKind.PIN]

    def use(self, named: Named) -> None:
        self.used |= {*named.joins}

    def whole(self, start: tuple[Metal, str], finish: tuple[Metal, str], free: Callable[[Pin], bool]) -> Named | None:
        """The pins by which the list leads from one end to the other (metal and board each), if it does."""
        finished = Named(pins=(), board=start[1], joins=())
        waiting = [(start[0], finished)]
        while waiting:
            metal, so_far = waiting.pop(0)
            if so_far.pins and so_far.board == finish[1]:
                last = next((n for n, end in self._from(metal, so_far) if end.point == finish[0]), None)
                if last is not None:
                    return Named(pins=so_far.pins, board=so_far.board, joins=(*so_far.joins, last))
            waiting += self._steps(metal, so_far, free)
        return None

    def part(self, start: Metal, board: str, finish: str, free: Callable[[Pin], bool]) -> Named:
        """As far as the list leads from an end towards a board, always nearer to it; no pins where it does not."""
        so_far, metal = Named(pins=(), board=board, joins=()), start
        while so_far.board != finish:
            nearer = self.ways.count(so_far.board, finish) - 1
            steps = self._steps(metal, so_far, free)
            step = next((s for s in steps if self.ways.count(s[1].board, finish) == nearer), None)
            if step is None:
                break
            metal, so_far = step
        return so_far

    def _from(self, metal: Metal, so_far: Named) -> Iterator[tuple[int, End]]:
        """The listed wires that go on from a place and lead no other wire."""
        joins = self.joins.get(metal, ())
        return ((n, end) for n, end in joins if n not in self.used and n not in so_far.joins)

    def _steps(self, metal: Metal, so_far: Named, free: Callable[[Pin], bool]) -> list[tuple[Metal, Named]]:
        """One pin further, by each listed wire that leads to a plug of this board."""
        steps = []
        for number, end in self._from(metal, so_far):
            if end.kind is not EndKind.PIN or so_far.board not in self.plugs[end.thing].boards:
                continue
            pin = pin_of(end.point)
            if pin not in so_far.pins and free(pin):
                board = facing(self.plugs[end.thing], so_far.board)
                joins = (*so_far.joins, number)
                steps.append((end.point, Named(pins=(*so_far.pins, pin), board=board, joins=joins)))
        return steps


def pin_of(point: Metal) -> Pin:
    return point[1], int(point[2])


def facing(plug: Plug, board: str) -> str:
    """The other board of a plug."""
    return plug.boards[1] if board == plug.boards[0] else plug.boards[0]
