"""Which wires to cut from which reel, so that little is left over; and which reels to buy. Lengths are in mm.

First fit decreasing: the longest wire first, each from the first reel on which there is enough. It never takes more
than 11/9 × the fewest reels that would do + 6/9 (G. Dósa, "The tight bound of first fit decreasing bin-packing
algorithm is FFD(I) ≤ 11/9 OPT(I) + 6/9", 2007); and the fewest are at least the total length over a reel's length.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

REEL_LENGTHS_MM = (10_000, 25_000, 100_000)
"""Lengths in which layout wire is usually sold. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reel:
    length: int
    cuts: tuple[int, ...]
    """Which wires come off it: places in the list of lengths, the longest wire first."""
    left: int
    """What remains on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    reels: tuple[Reel, ...]
    too_long: tuple[int, ...] = ()
    """Places in the list of those that no reel is long enough for: never cut, never forgotten."""

    @property
    def bought(self) -> int:
        return sum(reel.length for reel in self.reels)

    @property
    def left(self) -> int:
        return sum(reel.left for reel in self.reels)


def fewest_reels(lengths: Sequence[int], reel_length: int) -> int:
    """No plan takes fewer: the total length over that of a reel, rounded up."""
    return -(-sum(lengths) // reel_length)


def plan_cuts(lengths: Sequence[int], reel_length: int) -> CutPlan:
    """Every wire from a reel of that length, by first fit decreasing; equal lengths in their order."""
    too_long = [index for index, length in enumerate(lengths) if length > reel_length]
    fitting = [index for index, length in enumerate(lengths) if length <= reel_length]
    cuts: list[list[int]] = []
    left: list[int] = []
    before, first = reel_length, 0
    for index in sorted(fitting, key=lambda index: -lengths[index]):
        length = lengths[index]
        first = first if length == before else 0  # where one was cut, the reels before have no room for its equal
        first = next((reel for reel in range(first, len(left)) if length <= left[reel]), len(left))
        if first == len(left):
            cuts.append([])
            left.append(reel_length)
        cuts[first].append(index)
        left[first] -= length
        before = length
    reels = [Reel(length=reel_length, cuts=tuple(own), left=rest) for own, rest in zip(cuts, left, strict=True)]
    return CutPlan(reels=tuple(reels), too_long=tuple(too_long))


def reels_to_buy(lengths: Sequence[int], usual: Sequence[int] = REEL_LENGTHS_MM) -> CutPlan:
    """The plan that buys least wire, then the fewest reels.

    Planned once for each usual length that is long enough for all that any reel can hold; then each reel is
    exchanged for the shortest usual one that holds its cuts.
    """
    longest = max((length for length in lengths if length <= max(usual)), default=0)
    plans = [_shortened(plan_cuts(lengths, length), usual) for length in sorted(usual) if length >= longest]
    return min(plans, key=lambda plan: (plan.bought, len(plan.reels)))


def _shortened(plan: CutPlan, usual: Sequence[int]) -> CutPlan:
    return replace(plan, reels=tuple(_shortest(reel, usual) for reel in plan.reels))


def _shortest(reel: Reel, usual: Sequence[int]) -> Reel:
    used = reel.length - reel.left
    length = min(length for length in usual if length >= used)
    return replace(reel, length=length, left=length - used)
