"""Chains that are recorded are never rethreaded: one wire closes a gap, one wire joins a newcomer (section 5.3)."""

from collections import Counter, deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from labelgen.model.built_record import BuiltRecord
from labelgen.model.netlist import End, EndKind
from labelgen.wiring.chain_members import Member, Step
from labelgen.wiring.joined_stops import Bridge, JoinedStops
from labelgen.wiring.nearest_stop import NearestStop

DEVICE_LIMIT = 2
"""Wires at one terminal of a device: a chain comes in and goes on. Common practice, no source."""
SOURCE = 0
"""The place of the supply's terminal among the stops."""


class RecordedChains:
    """Threads the chains of a railway that has a record."""

    def __init__(
        self, record: BuiltRecord, limits: Mapping[str, int], landed: Iterable[str], nearest: NearestStop
    ) -> None:
        """`limits`: of each strip, wires in one entry. `landed`: ends on the layout side of wires in no chain."""
        self._limits = limits
        self._nearest = nearest
        self._landed = Counter(landed)
        self._landed.update(end for wire in record.wires if not wire.circuit for end in wire.ends)
        self._edges: dict[str, list[tuple[str, str]]] = {}
        for wire in record.wires:
            self._edges.setdefault(wire.circuit, []).append((wire.start, wire.finish))
        for passage in record.pins:
            self._edges.setdefault(passage.circuit, []).append((passage.start, passage.finish))

    def steps(
        self, supply: str, source: Member, members: Sequence[Member], bridge_of: Callable[[End], Bridge | None]
    ) -> list[Step] | None:
        """The steps of a chain that is recorded, those that stay first; None where nothing of it is."""
        stops = [source, *members]
        at = {stop.end.name: number for number, stop in enumerate(stops)}
        edges = self._edges.get(supply, [])
        recorded = [(at[a], at[b]) for a, b in edges if a in at and b in at]
        above = _leading_to(source.end.name, edges)
        if not recorded and not any(name in above for name in at):
            return None
        joined = JoinedStops([bridge_of(stop.end) for stop in stops])
        room = [self._room(stop.end) for stop in stops]
        thread = _Thread(stops, joined, room, self._nearest)
        for step in recorded:
            thread.keep(step)
        # What hangs on the supply in the record, outward: so the first stop of a piece that was cut off comes first.
        for name in above:
            if name in at and not joined.is_fed(at[name]):
                thread.close(_left_before(name, above, at), at[name])
        for number in range(1, len(stops)):
            if not joined.is_fed(number):
                thread.join(number)
        return [(stops[a], stops[b]) for a, b in thread.steps]

    def _room(self, end: End) -> int:
        limit = self._limits[end.thing] if end.kind is EndKind.WAY else DEVICE_LIMIT
        return limit - self._landed[end.name]


class _Thread:
    """One chain that is being threaded. Stops are numbers, in the order of the chain."""

    def __init__(self, stops: Sequence[Member], joined: JoinedStops, room: list[int], nearest: NearestStop) -> None:
        """`room`: how many more wires each stop takes."""
        self.steps: list[tuple[int, int]] = []
        self._ends = [stop.end for stop in stops]
        self._joined = joined
        self._room = room
        self._nearest = nearest
        self._open: set[int] | None = None
        """Fed stops with room; None: to be looked for again."""

    def keep(self, step: tuple[int, int]) -> None:
        """A recorded step: unless it has become one too many, through a bridge."""
        if self._joined.join(*step):
            self._add(step)

    def close(self, before: int, number: int) -> None:
        """One wire to the first stop of a piece that is cut off: from `before` if that has room."""
        has_room = before == SOURCE or self._room[before] > 0
        self._lead(before if has_room and self._joined.is_fed(before) else self._nearest_to(number), number)

    def join(self, number: int) -> None:
        """One wire or link to a newcomer, from the nearest stop with room."""
        self._lead(self._nearest_to(number), number)

    def _lead(self, start: int, number: int) -> None:
        alone = self._joined.is_alone(number)
        self._joined.join(start, number)
        self._add((start, number))
        if self._open is not None and alone:
            self._open -= {stop for stop in (start,) if self._room[stop] <= 0}
            self._open |= {stop for stop in (number,) if self._room[stop] > 0}
        else:
            self._open = None

    def _add(self, step: tuple[int, int]) -> None:
        self.steps.append(step)
        for stop in step:
            self._room[stop] -= 1

    def _nearest_to(self, number: int) -> int:
        """By the length of the wire, ties by the order of the chain; where all are crowded, the nearest of all."""
        if self._open is None:
            self._open = {stop for stop in self._fed() if self._room[stop] > 0}
        stops = sorted(self._open) or list(self._fed())
        if not stops:
            return SOURCE
        return stops[self._nearest.among([self._ends[stop] for stop in stops], self._ends[number])]

    def _fed(self) -> Iterator[int]:
        return (stop for stop in range(1, len(self._ends)) if self._joined.is_fed(stop))


def _left_before(name: str, above: Mapping[str, str], at: Mapping[str, int]) -> int:
    """The nearest stop before one, of those that are left."""
    before = above[name]
    while before not in at:
        before = above[before]
    return at[before]


def _leading_to(source: str, edges: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Each recorded end that hangs on the source: the one before it; nearest to the source first."""
    beside: dict[str, list[str]] = {}
    for a, b in edges:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    above: dict[str, str] = {}
    waiting = deque([source])
    while waiting:
        end = waiting.popleft()
        for beyond in beside.get(end, ()):
            if beyond != source and beyond not in above:
                above[beyond] = end
                waiting.append(beyond)
    return above
