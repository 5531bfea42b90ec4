"""Chains of which something is there already: recorded, or listed by the builder. They are never rethreaded.

One wire closes a gap, and one wire joins a newcomer (section 5.3).
"""

from collections import Counter, deque
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from labelgen.model.built.built_record import BuiltPins, BuiltRecord
from labelgen.model.netlist import End, EndKind, Side
from labelgen.wiring.chain_members import Member, Step
from labelgen.wiring.chain_thread import ChainThread
from labelgen.wiring.copper_pieces import CopperPieces
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends, landed
from labelgen.wiring.joined_stops import Bridge, JoinedStops
from labelgen.wiring.listed_joints import Boards, Joint
from labelgen.wiring.nearest_stop import NearestStop

DEVICE_LIMIT = 2
"""Wires at one terminal of a device: a chain comes in and goes on. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KnownSteps:
    """What there is of one railway's chains, before any is laid."""

    record: BuiltRecord
    listed: Sequence[Joint]
    pieces: CopperPieces
    landed: Counter[str]
    """Wires in no chain at each end, on a strip those on its layout side."""


def known_steps(
    record: BuiltRecord, listed: Sequence[Joint], of_circuits: Sequence[DraftWire], pieces: CopperPieces
) -> KnownSteps:
    """`of_circuits`: the wires that are in no chain, besides those that only the builder lists."""
    ends = [end for wire in of_circuits for end in (wire.start, wire.finish)]
    made = {frozenset((wire.start.name, wire.finish.name)) for wire in of_circuits}
    ends += [landed(*pair) for joint in listed if joint.names not in made for pair in (joint.ends, joint.ends[::-1])]
    on_layout = Counter(end.name for end in ends if end.side is not Side.PANEL)
    return KnownSteps(record=record, listed=listed, pieces=pieces, landed=on_layout)


class KnownChains:
    """Threads the chains of a railway that has a record, or whose builder lists its wires."""

    def __init__(
        self, known: KnownSteps, ends: Ends, boards: Boards, limits: Mapping[str, int], nearest: NearestStop
    ) -> None:
        """`limits`: of each strip, wires in one entry. `boards`: of each thing at which a wire may end."""
        self._known = known
        self._ends = ends
        self._boards = boards
        self._limits = limits
        self._nearest = nearest
        self._edges: dict[str, list[tuple[str, str]]] = {}
        self._passages: dict[str, list[BuiltPins]] = {}
        for passage in known.record.pins:
            self._passages.setdefault(passage.circuit, []).append(passage)
            self._edges.setdefault(passage.circuit, []).append((passage.start, passage.finish))
        for wire in known.record.wires:
            self._edges.setdefault(wire.circuit, []).append((wire.start, wire.finish))

    def together(self, supply: str, chains: Sequence[list[Member]]) -> list[list[Member]]:
        """The chains of one terminal: those between which there is a wire become one, in the place of the first."""
        at: dict[str, int] = {}
        for number, members in enumerate(chains):
            for member in members:
                at |= dict.fromkeys(self._known.pieces.of(member.end.name), number)
        one = list(range(len(chains)))
        joints = [(joint.start.name, joint.finish.name) for joint in self._known.listed]
        for start, finish in [*self._edges.get(supply, ()), *joints]:
            if start in at and finish in at and one[at[start]] != one[at[finish]]:
                low, high = sorted((one[at[start]], one[at[finish]]))
                one = [low if number == high else number for number in one]
        return [
            [member for n, members in enumerate(chains) if one[n] == number for member in members]
            for number in range(len(chains))
        ]

    def steps(
        self,
        supply: str,
        stops: Sequence[Member],
        bridge_of: Callable[[End], Bridge | None],
        afresh: Callable[[], Iterable[Step]],
    ) -> list[Step]:
        """The steps of a chain: those that are there first. `stops`: the supply's terminal, then its members.

        `afresh`: the steps of one of which nothing is known, or only wires that it would have anyway.
        """
        edges = self._edges.get(supply, [])
        above = _leading_to(stops[0].end.name, edges)
        known = _Stops(stops, self._known.pieces)
        recorded = any(known.number(a) != known.number(b) for a, b in edges if a in known and b in known)
        recorded = recorded or any(stop.end.name in above for stop in stops)
        listed = [joint for joint in self._known.listed if joint.start.name in known or joint.finish.name in known]
        if not recorded:
            plain = list(afresh())
            pairs = {frozenset((before.end.name, after.end.name)) for before, after in plain}
            if all(joint.names in pairs for joint in known.joining(listed)):
                return plain
        return self._threaded(supply, known, bridge_of, listed, above)

    def _threaded(
        self,
        supply: str,
        known: "_Stops",
        bridge_of: Callable[[End], Bridge | None],
        listed: Sequence[Joint],
        above: Mapping[str, str],
    ) -> list[Step]:
        joined = JoinedStops([bridge_of(stop.end) for stop in known.stops])
        thread = ChainThread(known.stops, joined, self._room(known, listed), self._nearest)
        for one, other in self._recorded(supply, known):
            thread.keep(one, other)
        for joint in listed:
            start, finish = joint.ends
            both = start.name in known and finish.name in known
            if both and thread.keep(known.at(start, finish), known.at(finish, start)):
                known.reach(joint.pins, start.name)
        # What hangs on the supply in the record, outward: so the first stop of a piece that was cut off comes first.
        numbers = known.own_numbers
        for name in above:
            if name in numbers and not joined.is_fed(numbers[name]):
                thread.close(_left_before(name, above, numbers), numbers[name])
        thread.join_all()
        return thread.steps

    def _recorded(self, supply: str, known: "_Stops") -> Iterator[tuple[tuple[int, End], tuple[int, End]]]:
        """The recorded wires between two stops, those through plugs first: further ones may start at their pins."""
        for passage in self._passages.get(supply, ()):
            if passage.start in known and passage.finish in known:
                known.reach(passage.pins, passage.start)
        for start, finish in self._edges.get(supply, ()):
            if start in known and finish in known and known.number(start) != known.number(finish):
                both = self._ends.read(start), self._ends.read(finish)
                if isinstance(both[0], End) and isinstance(both[1], End):
                    one, other = self._on_board(both[0], both[1]), self._on_board(both[1], both[0])
                    yield known.at(one, other), known.at(other, one)

    def _on_board(self, end: End, other: End) -> End:
        """A pin on the board on which the wire's other end is."""
        return replace(end, board=self._boards.get((other.kind, other.thing))) if end.kind is EndKind.PIN else end

    def _room(self, known: "_Stops", listed: Sequence[Joint]) -> list[int]:
        """Of each stop: what its entry takes beside the wires in no chain. What is listed for this chain is no such."""
        own = Counter(end.name for joint in known.joining(listed) for end in joint.ends)
        landed_here = self._known.landed
        return [self._limit(stop.end) - landed_here[stop.end.name] + own[stop.end.name] for stop in known.stops]

    def _limit(self, end: End) -> int:
        return self._limits[end.thing] if end.kind is EndKind.WAY else DEVICE_LIMIT


class _Stops:
    """The stops of one chain, by all the ends that are one piece of copper with them."""

    def __init__(self, stops: Sequence[Member], pieces: CopperPieces) -> None:
        self.stops = stops
        self.own_numbers = {stop.end.name: number for number, stop in enumerate(stops)}
        self._numbers = {**self.own_numbers}
        for number, stop in enumerate(stops):
            for name in pieces.of(stop.end.name):
                self._numbers.setdefault(name, number)

    def __contains__(self, name: str) -> bool:
        return name in self._numbers

    def number(self, name: str) -> int:
        return self._numbers[name]

    def reach(self, pins: Iterable[str], stop: str) -> None:
        """By those pins a wire leads from a stop: they are one piece with it."""
        for pin in pins:
            self._numbers.setdefault(pin, self._numbers[stop])

    def at(self, end: End, other: End) -> tuple[int, End]:
        """The stop of an end, and that end: the stop's own as it is, another on the side where its wire lands."""
        number = self._numbers[end.name]
        own = self.stops[number].end
        return number, own if own.point == end.point else landed(end, other)

    def joining(self, joints: Iterable[Joint]) -> list[Joint]:
        """Those between two stops."""
        return [
            joint
            for joint in joints
            if joint.start.name in self
            and joint.finish.name in self
            and self._numbers[joint.start.name] != self._numbers[joint.finish.name]
        ]


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
