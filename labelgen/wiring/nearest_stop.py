"""From which stop of a chain the shortest wire leads to a newcomer; through as few plugs as can be."""

from collections.abc import Sequence
from math import inf

from labelgen.model.netlist import End, EndKind
from labelgen.model.strip_geometry import Spot
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.listed_joints import Boards
from labelgen.wiring.marks import Head
from labelgen.wiring.plug_ways import PlugWays
from labelgen.wiring.wire_lengths import WireLengths

NOTHING = Head(stem="", painted="", code="")


class NearestStop:
    """Measures wires that are not there yet."""

    def __init__(self, lengths: WireLengths, boards: Boards, ways: PlugWays) -> None:
        self._lengths = lengths
        self._boards = boards
        self._ways = ways
        self._spots: dict[tuple[EndKind, str, str], Spot | None] = {}

    def among(self, stops: Sequence[End], newcomer: End) -> int:
        """The position of the nearest: of equally near ones, and where no length is known, the first."""
        plugs = [self.plugs(stop, newcomer) for stop in stops]
        fewest = min(plugs)
        here = self._spot(newcomer)
        least = [self._least(stop, here) for stop in stops]
        near = [number for number in range(len(stops)) if plugs[number] == fewest]
        best, found = inf, near[0]
        for number in sorted(near, key=least.__getitem__):
            if least[number] > best:
                break
            length = self._length(stops[number], newcomer)
            if length is not None and (length, number) < (best, found):
                best, found = length, number
        return found

    def plugs(self, stop: End, newcomer: End) -> float:
        """Through how many a wire between them goes at least; none where boards are fixed together."""
        return self._ways.count(self._board(stop), self._board(newcomer)) if self._ways.between else 0

    def _board(self, end: End) -> str | None:
        return end.board if end.kind is EndKind.PIN else self._boards.get((end.kind, end.thing))

    def _least(self, stop: End, here: Spot | None) -> float:
        """A length in mm that no wire from there falls short of: so most of them need not be measured."""
        there = self._spot(stop)
        away = there.to(here) if there is not None and here is not None else None
        return 0 if away is None else away

    def _spot(self, end: End) -> Spot | None:
        if end.point not in self._spots:
            self._spots[end.point] = self._lengths.where(end)
        return self._spots[end.point]

    def _length(self, start: End, finish: End) -> int | None:
        link = start.kind is finish.kind is EndKind.WAY and start.thing == finish.thing
        wire = DraftWire(circuit="", function="", head=NOTHING, start=start, finish=finish, link=link)
        return self._lengths.measure(wire)[0]
