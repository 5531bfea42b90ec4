"""Pins that are settled before any is given: by the as-built record, then by the builder's list."""

from collections.abc import Iterable, Mapping

from labelgen.model.description import Plug
from labelgen.wiring.crossings import Crossing, Hop, KeptPins, Settled
from labelgen.wiring.listed_pins import ListedPins, Named, facing
from labelgen.wiring.plug_pins import Pin, PlugPins


class SettledPins:
    """Finds the settled pins of all wires, and takes them."""

    def __init__(self, plugs: Mapping[str, Plug], listed: ListedPins, pins: PlugPins, kept: KeptPins) -> None:
        self._plugs = plugs
        self._listed = listed
        self._pins = pins
        self._kept = kept

    def of(self, crossings: Mapping[int, Crossing]) -> dict[int, Settled]:
        """By a wire's place among the drafts: recorded pins first, then whole ways of the list, then parts of ways."""
        found: dict[int, Settled] = {}
        for find in (self.recorded, self._listed_whole, self._listed_in_part):
            for number, crossing in crossings.items():
                if number not in found and (settled := find(crossing)) is not None:
                    found[number] = settled
        return found

    def recorded(self, crossing: Crossing) -> Settled | None:
        """As the record says, if the plugs that it names still lead from board to board."""
        wire = crossing.wire
        kept = self._kept.get((frozenset((wire.start.name, wire.finish.name)), wire.circuit))
        if kept is None:
            return None
        pins = by_plug(map(_pin, kept.pins))
        plugs = list(pins) if kept.start == wire.start.name else list(reversed(pins))
        hops = self._hops(plugs, crossing.start)
        if not hops or hops[-1].finish != crossing.finish:
            return None
        if any(n > self._plugs[plug].pins or self._pins.is_taken((plug, n)) for plug in pins for n in pins[plug]):
            return None
        self._hold(pins)
        return Settled(head=hops, pins=pins)

    def _hops(self, plugs: Iterable[str], board: str) -> tuple[Hop, ...]:
        """By those plugs from a board on; none where one of them does not lead on."""
        hops: list[Hop] = []
        for plug in plugs:
            if plug not in self._plugs or board not in self._plugs[plug].boards:
                return ()
            hops.append(Hop(plug=plug, start=board, finish=facing(self._plugs[plug], board)))
            board = hops[-1].finish
        return tuple(hops)

    def _listed_whole(self, crossing: Crossing) -> Settled | None:
        wire = crossing.wire
        start, finish = (wire.start.point, crossing.start), (wire.finish.point, crossing.finish)
        named = self._listed.whole(start, finish, self._is_free)
        return None if named is None else self._used(crossing, named)

    def _listed_in_part(self, crossing: Crossing) -> Settled | None:
        """At the wire's start, then at its finish: what lies between is found like any other way."""
        wire = crossing.wire
        head = self._listed.part(wire.start.point, crossing.start, crossing.finish, self._is_free)
        settled = self._used(crossing, head)
        tail = self._listed.part(wire.finish.point, crossing.finish, head.board, self._is_free)
        both = self._used(crossing, tail, settled)
        return both if both.pins else None

    def _used(self, crossing: Crossing, named: Named, head: Settled | None = None) -> Settled:
        """`head`: what is settled at the start, when these pins are at the finish."""
        self._listed.use(named)
        pins = by_plug(named.pins)
        self._hold(pins)
        if head is None:
            return Settled(head=self._hops(pins, crossing.start), pins=pins)
        back = reversed(self._hops(pins, crossing.finish))
        tail = tuple(Hop(plug=hop.plug, start=hop.finish, finish=hop.start) for hop in back)
        return Settled(head=head.head, tail=tail, pins={**head.pins, **pins})

    def _hold(self, pins: Mapping[str, tuple[int, ...]]) -> None:
        for plug, numbers in pins.items():
            self._pins.take(plug, len(numbers), numbers)

    def _is_free(self, pin: Pin) -> bool:
        return not self._pins.is_taken(pin)


def by_plug(pins: Iterable[Pin]) -> dict[str, tuple[int, ...]]:
    """The pins of each plug, plugs in the order in which they are passed."""
    found: dict[str, tuple[int, ...]] = {}
    for plug, number in pins:
        found[plug] = (*found.get(plug, ()), number)
    return found


def _pin(name: str) -> Pin:
    plug, _, number = name.rpartition(".")
    return plug, int(number)
