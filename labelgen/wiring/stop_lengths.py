"""How long the wires between the stops of one chain would be: as the wire list says, only quicker."""

from collections.abc import Sequence
from functools import cache

from labelgen.lengths import rectilinear, rounded_up
from labelgen.model.netlist import End, EndKind
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.marks import Head
from labelgen.wiring.wire_lengths import WireLengths

WHOLE_MM = 10**10
"""A length counts so much for each mm to which it is cut, and 1 for each mm that it runs: of two orders that are cut to
the same length, that with the shorter way is better. More than the wires of the largest railway run, in mm."""
NOTHING = Head(stem="", painted="", code="")


class StopLengths:
    """Measures between ends by their position."""

    def __init__(self, ends: Sequence[End | None], lengths: WireLengths) -> None:
        """`ends`: None for one that is not known."""
        self._ends = ends
        self._lengths = lengths
        self._step = lengths.step
        self._stops = [None if end is None else lengths.stop(end) for end in ends]
        self._strips = [end.thing if end is not None and end.kind is EndKind.WAY else None for end in ends]
        self._links: dict[tuple[str, int], int] = {}
        self._by_holes = cache(self._measured)
        self.places = [None if stop is None else stop.about for stop in self._stops]
        """About where each is, so that it can be told which are near."""

    def __call__(self, one: int, other: int) -> int:
        """In parts of a mm as WHOLE_MM says, slack included; 0 where no length is known."""
        a, b = self._stops[one], self._stops[other]
        if a is None or b is None or a.ground is None or a.ground != b.ground:
            return 0
        if (strip := self._strips[one]) is not None and strip == self._strips[other]:
            return self._link(one, other, strip)
        if a.place is not None and b.place is not None and a.panel == b.panel:
            distance = rectilinear(a.place, b.place)
        elif a.straight is not None and b.straight is not None and a.framed == b.framed:
            (here, before), (there, behind) = a.straight, b.straight
            distance = before + abs(here.x - there.x) + abs(here.y - there.y) + behind
        else:
            return self._by_holes(min(one, other), max(one, other))
        return rounded_up(distance + a.slack + b.slack, self._step) * WHOLE_MM + int(distance)

    def _link(self, one: int, other: int, strip: str) -> int:
        ends = (self._ends[one], self._ends[other])
        ways = abs(int.__sub__(*[int(end.terminal) for end in ends if end is not None]))
        if (strip, ways) not in self._links:
            self._links[strip, ways] = self._measured(one, other, link=True)
        return self._links[strip, ways]

    def _measured(self, one: int, other: int, *, link: bool = False) -> int:
        start, finish = self._ends[one], self._ends[other]
        assert start is not None
        assert finish is not None
        wire = DraftWire(circuit="", function="", head=NOTHING, start=start, finish=finish, link=link)
        length = self._lengths.measure(wire)[0] or 0
        return length * WHOLE_MM + (length if link else int(self._lengths.distance(start, finish)))
