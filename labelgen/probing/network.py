"""What a meter reads between nets that are not one: through coils, through diodes, or nothing.

Nets are numbers. Nets that contacts join are one region; regions that coils join with so few ohms that any meter tells
are one group: what touches one region of a group is read from every other.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from labelgen.disjoint_sets import DisjointSets
from labelgen.electrics.network import Branch, solve
from labelgen.model.test_plan import Expect

READABLE_OHMS = 100.0
"""What is more may be out of a meter's lowest range (200 ohms on most; common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Expected:
    expect: Expect
    ohms: float | None = None
    red_first: bool = False
    red_second: bool = False


class Network:
    """All nets of a railway with the levers lying still."""

    def __init__(
        self,
        made: Iterable[tuple[int, int]],
        between: Iterable[tuple[int, int, float | None]],
        diodes: Iterable[tuple[int, int]],
    ) -> None:
        """`between`: two nets and the ohms of what joins them, None where those are not known."""
        self.region, self.group, self._reached = (DisjointSets[int]() for _ in range(3))
        for one, other in made:
            for sets in (self.region, self.group, self._reached):
                sets.join(other, one)
        self._mhos: dict[int, dict[int, float]] = {}
        """Region, region beside it: what lies between; 0 where that is not known."""
        for one, other, ohms in between:
            self._lay(one, other, ohms)
        self._through = [(self._reached.first(one), self._reached.first(other)) for one, other in diodes]
        self._up: dict[int, int] = {}
        self._strip()
        self._core = cache(self._core_ohms)

    def _lay(self, one: int, other: int, ohms: float | None) -> None:
        one, other = self.region.first(one), self.region.first(other)
        if one == other:
            return
        self._reached.join(other, one)
        if ohms is not None and ohms <= READABLE_OHMS:
            self.group.join(other, one)
        for here, there in ((one, other), (other, one)):
            beside = self._mhos.setdefault(here, {})
            before = beside.get(there, -1.0)
            if ohms is None or before == 0:
                beside[there] = 0.0
            else:
                beside[there] = max(before, 0.0) + 1 / ohms

    def _strip(self) -> None:
        """Notes of each region in a blind end what lies beyond it, towards the rest."""
        count = {region: len(beside) for region, beside in self._mhos.items()}
        ahead = [region for region, beside in count.items() if beside == 1]
        while ahead:
            here = ahead.pop()
            rest = [there for there in self._mhos[here] if there not in self._up]
            if rest:
                self._up[here] = rest[0]
                count[rest[0]] -= 1
                if count[rest[0]] == 1:
                    ahead.append(rest[0])

    def expected(self, one: int, other: int) -> Expected:
        """What a meter reads between two nets of different regions."""
        here, there = self._reached.first(one), self._reached.first(other)
        if here == there:
            ohms = self.ohms(one, other)
            return Expected("no-short") if ohms is None else Expected("through", ohms)
        on, back = self._lets_through(here, there), self._lets_through(there, here)
        return Expected("no-short") if on and back else Expected("nothing", red_first=back, red_second=on)

    def _lets_through(self, start: int, goal: int) -> bool:
        """Whether current can go from the one to the other by diodes."""
        seen, ahead = {start}, [start]
        while ahead:
            here = ahead.pop()
            for one, other in self._through:
                if one == here and other not in seen:
                    seen.add(other)
                    ahead.append(other)
        return goal in seen

    def ohms(self, one: int, other: int) -> float | None:
        """Of what lies between two nets; None where not all of it is known."""
        ways = [self._climb(self.region.first(net)) for net in (one, other)]
        met = next(region for region in ways[0] if region in ways[1] or region not in self._up)
        if met in ways[1]:
            core: float | None = 0.0
            legs = [way[: way.index(met) + 1] for way in ways]
        else:
            core, legs = self._core(ways[0][-1], ways[1][-1]), ways
        mhos = [self._mhos[a][b] for leg in legs for a, b in pairwise(leg)]
        return None if core is None or not all(mhos) else core + sum(1 / each for each in mhos)

    @property
    def coiled(self) -> list[int]:
        """The regions at which a coil hangs, or what may let current through."""
        return sorted(self._mhos)

    def joins(self, one: int, other: int) -> bool:
        """Whether coils, or what may let current through, lead from one region to another."""
        return self._reached.first(one) == self._reached.first(other)

    def pieces_between(self, one: int, other: int) -> frozenset[tuple[int, ...]]:
        """What a current between two regions passes, piece by piece: coils; all that hangs together in rings is one."""
        ways = [self._climb(self.region.first(net)) for net in (one, other)]
        met = next((region for region in ways[0] if region in ways[1]), None)
        legs = [way[: way.index(met) + 1] for way in ways] if met is not None else ways
        pieces = {(min(pair), max(pair)) for leg in legs for pair in pairwise(leg)}
        return frozenset(pieces if met is not None else {*pieces, ()})

    def _climb(self, region: int) -> list[int]:
        way = [region]
        while way[-1] in self._up:
            way.append(self._up[way[-1]])
        return way

    def _core_ohms(self, one: int, other: int) -> float | None:
        """Between two regions that rings hang together."""
        core, ahead = {one}, [one]
        while ahead:
            for there in self._mhos[ahead.pop()]:
                if there not in core and there not in self._up:
                    core.add(there)
                    ahead.append(there)
        edges = [(a, b, mhos) for a in core for b, mhos in self._mhos[a].items() if a < b and b in core]
        if not all(mhos for _, _, mhos in edges):
            return None
        return 1 / solve([Branch(a, b, 1 / mhos) for a, b, mhos in edges], one, other).total_amps
