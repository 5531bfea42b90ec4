"""Shorts between regions that coils join: which readings show which, and the fewest that show all.

A short brings a reading down, from R to R - p² / S: S is what a meter reads across the short's own ends while they are
apart, p the volts between these ends while one ampere flows through the reading. (Two points of a network of ohms are
joined: superposition, as in any text book of electrical engineering.)
"""

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import combinations

from labelgen.probing.covering import fewest
from labelgen.probing.network import Network

BY_HALF = 0.4
"""The part of a reading by which it must fall, so that nobody takes it for a coil's tolerance."""
SHOWN_AT_MOST = int(1 / BY_HALF)
FEW = 32
"""Regions of which every reading that there is can be looked at, to know how many it takes at least."""
LOOKED_AT = 64
"""Shorts of one group: of more, a reading is tried on those alone that begin or end where it does."""
CROWDED = 16
"""Shorts at one region: of more (at a common) those are looked at that share the reading's other end."""

Pair = tuple[int, int]


def through_coils(shorts: Sequence[Pair], network: Network) -> tuple[dict[int, list[int]], int]:
    """`shorts`: regions that might touch. Those to read, each with what it proves; and how many it takes at least."""
    readings = _Readings(shorts, network)
    shown = [readings.shown(short) for short in shorts]
    proved: dict[int, list[int]] = {place: [place] for place in fewest(shown)[0]}
    for place in range(len(shorts)):
        if place not in proved:
            proved[next(one for one in proved if shown[one] >> place & 1)].append(place)
    return proved, readings.least()


class _Readings:
    """All that may be read of some shorts."""

    def __init__(self, shorts: Sequence[Pair], network: Network) -> None:
        self._shorts, self._network = shorts, network
        self._ohms = cache(network.ohms)
        self._at: dict[int, list[int]] = {}
        for place, short in enumerate(shorts):
            for region in short:
                self._at.setdefault(region, []).append(place)

    def shown(self, reading: Pair) -> int:
        """The shorts that bring a reading down, bit by bit."""
        places: Iterable[int] = range(len(self._shorts))
        if len(self._shorts) > LOOKED_AT:
            near = sorted((self._at.get(region, []) for region in reading), key=len)
            places = dict.fromkeys([*near[0], *(near[1] if len(near[1]) <= CROWDED else ())])
        return sum(1 << place for place in places if self._shows(reading, self._shorts[place]))

    def _shows(self, reading: Pair, short: Pair) -> bool:
        """Not where some of the ohms are not known."""
        (a, b), (x, y) = reading, short
        if not self._network.joins(a, x):
            return False
        whole, own, ay, bx, ax, by = (self._ohms(*ends) for ends in (reading, short, (a, y), (b, x), (a, x), (b, y)))
        if whole is None or own is None or ay is None or bx is None or ax is None or by is None:
            return reading == short
        volts = (ay + bx - ax - by) / 2
        return volts * volts >= (BY_HALF - 1e-9) * whole * own

    def least(self) -> int:
        """Below which no choice of readings does, whatever two regions they are taken between."""
        regions = self._network.coiled
        if len(regions) > FEW:
            return -(-len(self._by_themselves()) // SHOWN_AT_MOST)
        pairs = (pair for pair in combinations(regions, 2) if self._network.joins(*pair))
        every = {sum(1 << i for i, short in enumerate(self._shorts) if self._shows(pair, short)) for pair in pairs}
        return fewest(sorted(every, reverse=True))[1]

    def _by_themselves(self) -> list[Pair]:
        """Shorts of which no two bridge the same coil: each takes the loss in its own coils from a reading at most.

        So no reading falls by enough for more of them than `SHOWN_AT_MOST`.
        """
        pieces = {short: self._network.pieces_between(*short) for short in self._shorts}
        found: list[Pair] = []
        used: set[tuple[int, ...]] = set()
        for short in sorted(pieces, key=lambda one: (len(pieces[one]), one)):
            if used.isdisjoint(pieces[short]):
                used |= pieces[short]
                found.append(short)
        return found
