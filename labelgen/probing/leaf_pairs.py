"""The fewest paths between ends of a tree that pass along all of it.

A path has two ends, and every end of the tree must be one of them: so it takes at least half the ends, rounded up; and
that is enough (a known result on covering a tree's edges by paths).
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

N = TypeVar("N", bound=Hashable)


def leaves_of(beside: Mapping[N, Sequence[N]]) -> list[N]:
    """The ends of a tree, given what is beside each of its points."""
    return [point for point, near in beside.items() if len(near) == 1]


def fewest(leaves: int) -> int:
    """How many paths it takes to pass along all of a tree with so many ends."""
    return -(-leaves // 2)


def leaf_pairs(beside: Mapping[N, Sequence[N]]) -> list[tuple[N, N]]:
    """Pairs of ends so that the paths between them pass along all of the tree; as few as can be, most of them short.

    From the ends inwards, every branch passes one or two of its ends on, so that some path leaves it; where branches
    meet, those ends are paired that met last.
    """
    if len(beside) < 2:
        return []
    root = next((point for point, near in beside.items() if len(near) > 1), next(iter(beside)))
    return _Pairing(beside).from_root(root)


@dataclass(slots=True)
class _Pairing(Generic[N]):
    beside: Mapping[N, Sequence[N]]

    def from_root(self, root: N) -> list[tuple[N, N]]:
        depth, above = self._outwards(root)
        pairs: list[tuple[N, N]] = []
        handed: dict[N, list[list[N]]] = {}
        for point in reversed(depth):
            branches = handed.pop(point, [])
            if len(self.beside[point]) == 1:
                branches.append([point])
            left = _paired(branches, pairs, at_most=0 if point == root else 2)
            handed.setdefault(above[point], []).append(sorted(left, key=lambda end: -depth[end]))
        return pairs

    def _outwards(self, root: N) -> tuple[dict[N, int], dict[N, N]]:
        """All points with their distances, each behind the one above it; and the one above each."""
        depth, above, ahead = {root: 0}, {root: root}, [root]
        while ahead:
            here = ahead.pop()
            for there in self.beside[here]:
                if there not in depth:
                    depth[there], above[there] = depth[here] + 1, here
                    ahead.append(there)
        return dict(sorted(depth.items(), key=lambda one: one[1])), above


def _paired(branches: list[list[N]], pairs: list[tuple[N, N]], *, at_most: int) -> list[N]:
    """Pairs ends of different branches until no more are left than that; gives those that are.

    The fullest branches go first, so that none is left alone with two of its own. One end that is left over at last is
    paired with one of the last pair, which is of another branch.
    """
    while sum(map(len, branches)) > at_most:
        one, *others = sorted(filter(None, branches), key=len, reverse=True)
        pairs.append((one.pop(), others[0].pop() if others else pairs[-1][1]))
    return [end for branch in branches for end in branch]
