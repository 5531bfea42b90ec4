"""The shortest open path through a number of stops, from a start that is fixed: a travelling salesman who stays.

Stops are numbers from 1; 0 is where the path starts, and the number behind the last stop is where it has to end.
"""

from collections.abc import Callable, Sequence
from math import inf

from labelgen.wiring.path_improvement import PathImprovement

Lengths = Callable[[int, int], float]
"""How far it is between two stops: the same both ways. A path that may end anywhere is 0 away from its end."""

EXACT_AT_MOST = 9
"""So many stops are ordered exactly. Each further one takes twice the time."""


def shortest_path(stops: int, length: Lengths, near: Sequence[Sequence[int]]) -> list[int]:
    """The stops 1, 2 … in a short order. `near`: of each number from the start to the end, others that are near it.

    Up to nine stops: the shortest order there is, by dynamic programming over sets (Held and Karp 1962). More: from
    the order in which they are given, and from that of the nearest neighbour, pieces are turned round (2-opt, Croes
    1958) and up to three stops carried elsewhere (Or 1976) as long as that makes the path shorter; the shorter of both
    stays. So it is never longer than the order in which they are given, which stays if nothing is shorter.
    """
    given = list(range(1, stops + 1))
    if stops <= EXACT_AT_MOST:
        found = [_exact(stops, length)] if stops > 1 else []
    else:
        starts = (given, _by_nearest(stops, length, near))
        found = [PathImprovement([0, *path, stops + 1], length, near).shortened()[1:-1] for path in starts]
    return min([given, *found], key=lambda path: path_length(path, length))


def path_length(path: Sequence[int], length: Lengths) -> float:
    """From the start through the stops to the end."""
    return sum(map(length, [0, *path], [*path, len(path) + 1]))


def _exact(stops: int, length: Lengths) -> list[int]:
    """For each set of stops and its last one, the shortest way to it, and the stop before."""
    apart = [[length(a, b) for b in range(stops + 2)] for a in range(stops + 2)]
    best: dict[tuple[int, int], tuple[float, int]] = {
        (1 << stop, stop): (apart[0][stop + 1], -1) for stop in range(stops)
    }
    for passed in range(1, 1 << stops):
        for last in range(stops):
            if (passed, last) not in best:
                continue
            so_far = best[passed, last][0]
            for following in range(stops):
                if not passed >> following & 1:
                    key = (passed | 1 << following, following)
                    longer = so_far + apart[last + 1][following + 1]
                    if longer < best.get(key, (inf, 0))[0]:
                        best[key] = (longer, last)
    passed = (1 << stops) - 1
    last = min(range(stops), key=lambda stop: best[passed, stop][0] + apart[stop + 1][stops + 1])
    path: list[int] = []
    while last >= 0:
        path.append(last + 1)
        passed, last = passed ^ 1 << last, best[passed, last][1]
    return path[::-1]


def _by_nearest(stops: int, length: Lengths, near: Sequence[Sequence[int]]) -> list[int]:
    """Always on to the nearest stop that is left; where all that are near have been passed, to the first one left."""
    left = dict.fromkeys(range(1, stops + 1))
    path, here = list[int](), 0
    while left:
        beside = [stop for stop in near[here] if stop in left]
        here = min(beside, key=lambda stop: length(here, stop)) if beside else next(iter(left))
        del left[here]
        path.append(here)
    return path
