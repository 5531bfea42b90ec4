"""The readings that prove nets apart: one for every two groups, one for every two nets within a group.

What coils join is read together: a strand between a feed and any one coil's wire is seen from every other coil, as
the ohms of two coils in place of nothing. Within a group a reading through two coils proves each of them besides, for
it falls to half when one is bridged.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.copper_tree import CopperTree
from labelgen.model.netlist import EndKind
from labelgen.model.test_plan import Levers, Reading
from labelgen.probing.network import Network
from labelgen.probing.places import Places
from labelgen.probing.touching import Touch

BY_HALF = 0.4
"""The part of a reading by which it must fall, so that nobody takes it for a coil's tolerance."""


@dataclass(frozen=True, slots=True)
class Proof:
    """A reading, and the board on which it is taken."""

    board: str
    reading: Reading


@dataclass(frozen=True, slots=True)
class Apart:
    """With the levers in one position: the proofs in walking order, and what is left for another position."""

    scene: Levers
    proofs: tuple[Proof, ...]
    left: tuple[Touch, ...]


class Apartness:
    """Finds the readings for one position of the levers."""

    def __init__(self, scene: Levers, network: Network, tree: CopperTree, places: Places) -> None:
        self._scene, self._network, self._tree, self._places = scene, network, tree, places

    def proofs(self, touches: Sequence[Touch]) -> Apart:
        """`touches`: of every two nets one, in walking order."""
        region = self._network.region
        told = [touch for touch in touches if len({region[net] for net in self._nets(touch)}) == 2]
        left = tuple(touch for touch in touches if len({region[net] for net in self._nets(touch)}) == 1)
        single, together = self._sorted(told)
        kept = [*self._needed(single), *((alike[0], len(alike)) for alike in together)]
        order = {touch: place for place, touch in enumerate(told)}
        kept.sort(key=lambda one: order[one[0]])
        return Apart(self._scene, tuple(self._proof(touch, pairs) for touch, pairs in kept), left)

    def _nets(self, touch: Touch) -> tuple[int, int]:
        return self._tree.net[touch.one], self._tree.net[touch.other]

    def _sorted(self, touches: Sequence[Touch]) -> tuple[list[list[Touch]], list[list[Touch]]]:
        """Those that need a reading of their own, by regions; and those that share one, by groups."""
        single: dict[frozenset[int], list[Touch]] = {}
        together: dict[frozenset[int], list[Touch]] = {}
        for touch in touches:
            one, other = self._nets(touch)
            groups = frozenset({self._network.group[one], self._network.group[other]})
            if len(groups) == 2 and self._network.expected(one, other).expect == "nothing":
                together.setdefault(groups, []).append(touch)
            else:
                regions = frozenset({self._network.region[one], self._network.region[other]})
                single.setdefault(regions, []).append(touch)
        return list(single.values()), list(together.values())

    def _needed(self, single: Sequence[Sequence[Touch]]) -> Iterator[tuple[Touch, int]]:
        """Without those that a reading through a further coil proves as well; and how many pairs each proves."""
        pairs = {alike[0]: len(alike) for alike in single}
        ohms = {touch: self._network.expected(*self._nets(touch)).ohms or 0.0 for touch in pairs}
        kept: dict[Touch, int] = {}
        by_region: dict[int, list[Touch]] = {}
        for touch in sorted(pairs, key=lambda one: -ohms[one]):
            ends = [self._network.region[net] for net in self._nets(touch)]
            longer = (one for end in ends for one in by_region.get(end, ()))
            proving = next((one for one in longer if self._is_part(touch, one, ohms)), None)
            if proving is not None:
                kept[proving] += pairs[touch]
                continue
            kept[touch] = pairs[touch]
            for end in ends:
                by_region.setdefault(end, []).append(touch)
        yield from kept.items()

    def _is_part(self, touch: Touch, longer: Touch, ohms: dict[Touch, float]) -> bool:
        """Whether what lies between two nets is one part of a longer way, and enough of it to be missed."""
        own, whole = ohms[touch], ohms[longer]
        if not own or own < BY_HALF * whole:
            return False
        region = self._network.region
        ends, far = ({region[net] for net in self._nets(one)} for one in (touch, longer))
        rests = [(one, other) for one in ends - far for other in far - ends]
        beyond = self._network.ohms(*rests[0]) if len(rests) == 1 else None
        return beyond is not None and abs(own + beyond - whole) < 1e-6 * whole

    def _proof(self, touch: Touch, pairs: int) -> Proof:
        expected = self._network.expected(*self._nets(touch))
        ends = [self._places.handy(point, self._tree) for point in (touch.one, touch.other)]
        if expected.red_second:
            ends.reverse()
        return Proof(
            self._places.board(touch.one),
            Reading(
                one=ends[0],
                other=ends[1],
                shown=(self._places.shown(ends[0]), self._places.shown(ends[1])),
                what=f"{self._places.heads(ends[0])} and {self._places.heads(ends[1])}",
                band=self._places.band(touch.one),
                expect=expected.expect,
                ohms=expected.ohms,
                red_first=expected.red_first or expected.red_second,
                pairs=pairs,
            ),
        )


def one_of_each(touches: Iterator[Touch], tree: CopperTree, places: Places) -> list[Touch]:
    """Of every two nets one, in walking order: where they first lie side by side, or on a strip on which both are."""
    found: dict[frozenset[int], Touch] = {}
    for touch in touches:
        nets = frozenset({tree.net[touch.one], tree.net[touch.other]})
        if nets not in found:
            found[nets] = _on_a_strip(touch, tree, places)
    return sorted(found.values(), key=lambda touch: (places.rank(touch.one), places.rank(touch.other)))


def _on_a_strip(touch: Touch, tree: CopperTree, places: Places) -> Touch:
    """A meter reaches two ways of one strip with one hand; behind a panel it needs the panel opened."""
    if EndKind.WAY in (touch.one[0], touch.other[0]):
        return touch
    ways = [[p for p in tree.points[tree.net[end]] if p[0] is EndKind.WAY] for end in (touch.one, touch.other)]
    both = [(one, other) for one in ways[0] for other in ways[1] if one[1] == other[1]]
    if not both:
        return touch
    near = min(both, key=lambda ends: (abs(int(ends[0][2]) - int(ends[1][2])), places.rank(ends[0])))
    return Touch(*sorted(near, key=places.rank))
