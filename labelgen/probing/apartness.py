"""The readings that prove nets apart: one for every two groups; within a group the fewest that show every short.

What coils join is read together: a strand between a feed and any one coil's wire is seen from every other coil, as
the ohms of two coils in place of nothing. Within a group a reading shows a short by falling (`through_coils`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.copper_tree import CopperTree, Point
from labelgen.model.netlist import EndKind
from labelgen.model.test_plan import Levers, Reading
from labelgen.probing.coil_readings import through_coils
from labelgen.probing.network import Network
from labelgen.probing.places import Places
from labelgen.probing.touching import Touch

Firsts = dict[tuple[int, str], Point]
"""Net and board: its first point there, in walking order."""


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
    fewest: int
    """With fewer readings than so many, some pair of these would go unread."""


class Apartness:
    """Finds the readings for one position of the levers."""

    def __init__(self, scene: Levers, network: Network, tree: CopperTree, places: Places) -> None:
        self._scene, self._network, self._tree, self._places = scene, network, tree, places

    def proofs(self, touches: Sequence[Touch]) -> Apart:
        """`touches`: of every two nets one, in walking order."""
        region = self._network.region.first
        told = [touch for touch in touches if len({region(net) for net in self._nets(touch)}) == 2]
        left = tuple(touch for touch in touches if len({region(net) for net in self._nets(touch)}) == 1)
        single, together = self._sorted(told)
        within, least = self._within_groups(single)
        kept = [*within, *((alike[0], len(alike)) for alike in together)]
        order = {touch: place for place, touch in enumerate(told)}
        kept.sort(key=lambda one: order[one[0]])
        proofs = tuple(self._proof(touch, pairs) for touch, pairs in kept)
        return Apart(self._scene, proofs, left, least + len(together))

    def _nets(self, touch: Touch) -> tuple[int, int]:
        return self._tree.net[touch.one], self._tree.net[touch.other]

    def _sorted(self, touches: Sequence[Touch]) -> tuple[list[list[Touch]], list[list[Touch]]]:
        """Those that need a reading of their own, by regions; and those that share one, by groups."""
        single: dict[frozenset[int], list[Touch]] = {}
        together: dict[frozenset[int], list[Touch]] = {}
        for touch in touches:
            one, other = self._nets(touch)
            groups = frozenset({self._network.group.first(one), self._network.group.first(other)})
            if len(groups) == 2 and self._network.expected(one, other).expect == "nothing":
                together.setdefault(groups, []).append(touch)
            else:
                regions = frozenset({self._network.region.first(one), self._network.region.first(other)})
                single.setdefault(regions, []).append(touch)
        return list(single.values()), list(together.values())

    def _within_groups(self, single: Sequence[Sequence[Touch]]) -> tuple[list[tuple[Touch, int]], int]:
        """What is read, and how many pairs each proves; and how many readings it takes at least.

        What is not known to be a coil shows nothing but its own short.
        """
        own: list[tuple[Touch, int]] = []
        known: list[tuple[Touch, int]] = []
        for alike in single:
            ohms = self._network.expected(*self._nets(alike[0])).ohms
            (known if ohms else own).append((alike[0], len(alike)))
        chosen, least = through_coils([self._regions(touch) for touch, _ in known], self._network)
        read = [(known[place][0], sum(known[shown][1] for shown in proved)) for place, proved in chosen.items()]
        return [*own, *read], least + len(own)

    def _regions(self, touch: Touch) -> tuple[int, int]:
        one, other = self._nets(touch)
        return self._network.region.first(one), self._network.region.first(other)

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
    firsts = _firsts(tree, places)
    for touch in touches:
        nets = frozenset({tree.net[touch.one], tree.net[touch.other]})
        if nets not in found:
            found[nets] = _on_a_strip(touch, tree, places, firsts)
    return sorted(found.values(), key=lambda touch: (places.rank(touch.one), places.rank(touch.other)))


def _firsts(tree: CopperTree, places: Places) -> Firsts:
    found: Firsts = {}
    for point, net in tree.net.items():
        if point[0] not in (EndKind.WAY, EndKind.DEVICE):
            continue
        key = (net, places.board(point))
        if key not in found or places.rank(point) < places.rank(found[key]):
            found[key] = point
    return found


def _on_a_strip(touch: Touch, tree: CopperTree, places: Places, firsts: Firsts) -> Touch:
    """A meter reaches two ways of one strip with one hand; behind a panel it needs the panel opened."""
    if EndKind.WAY in (touch.one[0], touch.other[0]):
        return touch
    ways = [[p for p in tree.points[tree.net[end]] if p[0] is EndKind.WAY] for end in (touch.one, touch.other)]
    both = [(one, other) for one in ways[0] for other in ways[1] if one[1] == other[1]]
    if not both:
        at_devices = touch.one[0] is touch.other[0] is EndKind.DEVICE
        return _from_a_clip(touch, tree, places, firsts) if at_devices else touch
    near = min(both, key=lambda ends: (abs(int(ends[0][2]) - int(ends[1][2])), places.rank(ends[0])))
    return Touch(*sorted(near, key=places.rank))


def _from_a_clip(touch: Touch, tree: CopperTree, places: Places, firsts: Firsts) -> Touch:
    """What comes by a strip is read there; the other lead stays clipped to one place of a net that never does."""
    board = places.board(touch.one)
    one, other = sorted((firsts.get((tree.net[end], board), end) for end in (touch.one, touch.other)), key=places.rank)
    return Touch(one, other) if (one[0], other[0]) == (EndKind.WAY, EndKind.DEVICE) else touch
