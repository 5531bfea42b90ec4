"""The order in which a chain takes least wire (`chain: shortest`)."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import inf

from labelgen.model.netlist import End
from labelgen.natural_order import natural
from labelgen.wiring.chain_members import Member, Step
from labelgen.wiring.ends import Ends
from labelgen.wiring.joined_stops import Bridge
from labelgen.wiring.nearest_places import nearest_places
from labelgen.wiring.open_paths import shortest_path
from labelgen.wiring.plug_ways import PlugWays
from labelgen.wiring.stop_lengths import StopLengths
from labelgen.wiring.wire_lengths import WireLengths

ChainKey = tuple[str, str]
"""Supply, terminal."""
NEAR = 10
"""So many of the nearest stops are tried as the next one. Common practice for paths of this kind (Bentley 1992)."""

Stop = list[Member]
"""What the chain reaches at once: one member, or all that lie on one bridge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Stops that the chain passes one after the other: those of one board, where boards come apart at plugs."""

    board: str | None
    ground: str | None
    """Between its stops there are lengths; None: it is not known where they are."""
    stops: list[Stop]


class LeastWire:
    """Orders the stops of those chains that are to take least wire.

    With plugs, a chain still runs board by board, those behind the fewest plugs first: each board once, for every
    crossing costs a pin. What comes and goes through plugs is measured from the first plug between the two boards.
    Boards that are fixed together are as one. Stops of which it is not known where they are keep their order, and come
    last on their board, or last of all where there are no plugs. How near to the least the order comes, says
    `shortest_path`: on each board it is exact up to nine stops.
    """

    def __init__(
        self,
        ends: Ends,
        ways: PlugWays,
        lengths: WireLengths,
        boards: Mapping[tuple[str, str], str | None],
    ) -> None:
        """`boards`: of each thing at which a wire may end."""
        self._ends = ends
        self._ways = ways
        self._lengths = lengths
        self._boards = boards
        self._steps: dict[tuple[End, ...], list[Step]] = {}

    def in_line(self, members: Sequence[Member]) -> Sequence[Member]:
        """Strip by strip, but for stops of which it is not known where they are: they come last here as well."""
        places = [(self._board(member.end), self._ground(member.end) is None) for member in members]
        if not any(unknown for _, unknown in places):
            return members
        boards = [board for board, _ in places] if self._ways.between else []
        first = {board: number for number, board in reversed(list(enumerate(boards)))}
        order = sorted(range(len(members)), key=lambda number: (first.get(places[number][0], 0), places[number][1]))
        return [members[number] for number in order]

    def steps(self, source: Member, members: Sequence[Member], bridge_of: Callable[[End], Bridge | None]) -> list[Step]:
        """From the supply's terminal to each stop once. `members`: strip by strip."""
        ends = (source.end, *(member.end for member in members))
        if ends not in self._steps:
            self._steps[ends] = list(self._threaded(source, members, bridge_of))
        return self._steps[ends]

    def _threaded(
        self, source: Member, members: Sequence[Member], bridge_of: Callable[[End], Bridge | None]
    ) -> Iterator[Step]:
        blocks = self._blocks(source, _stops(members, bridge_of))
        at, board = [source], self._board(source.end)
        for number, block in enumerate(blocks):
            out, into = self._gate(board, block.board)
            beyond = blocks[number + 1].board if number + 1 < len(blocks) else block.board
            entry = source.end if number == 0 and into is None else into
            for stop in self._ordered(block, entry, self._gate(block.board, beyond)[0]):
                yield self._pair(at, stop, out, into)
                at, out, into = stop, None, None
            board = block.board

    def _blocks(self, source: Member, stops: Sequence[Stop]) -> list[Block]:
        blocks: dict[tuple[str | None, str | None], list[Stop]] = {}
        for stop in stops:
            board = self._board(stop[0].end) if self._ways.between else None
            blocks.setdefault((board, self._ground(stop[0].end)), []).append(stop)
        supply = self._board(source.end)
        found = [Block(board=board, ground=ground, stops=stops) for (board, ground), stops in blocks.items()]
        return sorted(found, key=lambda block: (*self._rank(supply, block.board), block.ground is None))

    def _rank(self, supply: str | None, board: str | None) -> tuple[float, object]:
        return (self._ways.count(supply, board) if self._ways.between else 0, natural(board or ""))

    def _board(self, end: End) -> str | None:
        return self._boards.get((end.kind, end.thing))

    def _ground(self, end: End) -> str | None:
        return self._lengths.stop(end).ground

    def _gate(self, here: str | None, there: str | None) -> tuple[End | None, End | None]:
        """Through which plug a wire leaves a board, and through which it comes to another; None where by none."""
        if here is None or there is None or here == there:
            return None, None
        if not self._ways.between or self._ways.count(here, there) == inf:
            return None, None
        boards = [here]
        while boards[-1] != there:
            boards.append(self._ways.onward(boards[-1], there)[0])
        first, last = (self._ways.between[frozenset(pair)][0] for pair in (boards[:2], boards[-2:]))
        return self._ends.pin(first, 1, here), self._ends.pin(last, 1, there)

    def _ordered(self, block: Block, entry: End | None, leaving: End | None) -> list[Stop]:
        """`entry`, `leaving`: from where and to where the chain runs; None: that does not matter."""
        if block.ground is None or len(block.stops) == 1:
            return block.stops
        members = [(number, member.end) for number, stop in enumerate(block.stops, 1) for member in stop]
        measured = StopLengths([entry, *[end for _, end in members], leaving], self._lengths)
        positions: list[list[int]] = [[0], *([] for _ in block.stops), [len(members) + 1]]
        for position, (number, _) in enumerate(members, 1):
            positions[number].append(position)

        def length(one: int, other: int) -> int:
            here, there = positions[one], positions[other]
            if len(here) == len(there) == 1:
                return measured(here[0], there[0])
            return min(measured(*pair) for pair in product(here, there))

        near = [
            sorted({*beside, 0, len(block.stops) + 1} - {stop}, key=lambda other: (length(stop, other), other))
            for stop, beside in enumerate(nearest_places([measured.places[some[0]] for some in positions], NEAR))
        ]
        return [block.stops[number - 1] for number in shortest_path(len(block.stops), length, near)]

    def _pair(self, at: Stop, stop: Stop, out: End | None, into: End | None) -> Step:
        """Of bridged ways, those between which the wire is shortest."""
        if len(at) == len(stop) == 1:
            return at[0], stop[0]

        def length(step: Step) -> int:
            here, there = step[0].end, step[1].end
            stretches = [(here, there)] if out is None or into is None else [(here, out), (into, there)]
            return sum(StopLengths(pair, self._lengths)(0, 1) for pair in stretches)

        return min(product(at, stop), key=length)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainLaying:
    """How the chains of one railway run, those that are not recorded."""

    least: LeastWire
    asked: frozenset[ChainKey]
    """Those that the builder wants to take least wire."""
    shortest: frozenset[ChainKey] = frozenset()
    """Those of them that do: the rest runs strip by strip, to compare, or because nothing shorter was found."""

    def steps(
        self, key: ChainKey, source: Member, members: Sequence[Member], bridge_of: Callable[[End], Bridge | None]
    ) -> list[Step] | None:
        """None for a chain that runs strip by strip."""
        return self.least.steps(source, members, bridge_of) if key in self.shortest else None

    def in_line(self, key: ChainKey, members: Sequence[Member]) -> Sequence[Member]:
        return self.least.in_line(members) if key in self.asked else members


def _stops(members: Sequence[Member], bridge_of: Callable[[End], Bridge | None]) -> list[Stop]:
    """Members that lie on one bridge are one piece of metal."""
    stops: dict[Bridge | int, Stop] = {}
    for number, member in enumerate(members):
        bridge = bridge_of(member.end)
        stops.setdefault(number if bridge is None else bridge, []).append(member)
    return list(stops.values())
