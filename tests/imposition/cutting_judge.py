"""Judges of what is cut from full sheets, which know nothing of how it was laid out."""

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import combinations
from math import ceil

import numpy as np
from scipy.optimize import linprog

from labelgen.lengths import Rectangle

HAIR = 1e-6
Sizes = tuple[tuple[float, float], ...]


def falls_apart(rectangles: Sequence[Rectangle]) -> bool:
    """True when cuts from edge to edge part them all, none through a rectangle."""
    if len(rectangles) < 2:
        return True
    for groups in (_parted(rectangles, lambda r: (r.x, r.right)), _parted(rectangles, lambda r: (r.y, r.bottom))):
        if len(groups) > 1:
            return all(falls_apart(group) for group in groups)
    return False


def _parted(rectangles, ends):  # type: ignore[no-untyped-def]
    """Groups between which a straight cut goes."""
    groups, reach = [], float("-inf")
    for one in sorted(rectangles, key=ends):
        low, high = ends(one)
        if low >= reach - HAIR:
            groups.append([])
        groups[-1].append(one)
        reach = max(reach, high)
    return groups


def fewest(sizes: Sizes, width: float, height: float) -> int:
    """Of all ways to cut labels, turned or not, from sheets by straight cuts: how many sheets the best takes."""
    everything = frozenset(range(len(sizes)))
    for count in range(1, len(sizes) + 1):
        if _in_sheets(everything, count, sizes, width, height):
            return count
    raise AssertionError("one of them does not fit a sheet")


@cache
def _in_sheets(left: frozenset[int], count: int, sizes: Sizes, width: float, height: float) -> bool:
    if not left:
        return True
    if count == 0:
        return False
    first = min(left)
    return any(
        _in_one(tuple(sorted(sizes[n] for n in {first, *more})), width, height)
        and _in_sheets(left - {first, *more}, count - 1, sizes, width, height)
        for size in range(len(left), 0, -1)
        for more in combinations(sorted(left - {first}), size - 1)
    )


@cache
def _in_one(sizes: Sizes, width: float, height: float) -> bool:
    """Whether straight cuts can make all of them out of one piece."""
    if sum(w * h for w, h in sizes) > width * height + HAIR:
        return False
    if len(sizes) == 1:
        ((w, h),) = sizes
        return _fits(w, h, width, height) or _fits(h, w, width, height)
    return any(
        (_in_one(part, cut, height) and _in_one(rest, width - cut, height))
        or (_in_one(part, width, cut) and _in_one(rest, width, height - cut))
        for part, rest in _halves(sizes)
        for cut in _cuts(part)
    )


def _fits(w: float, h: float, width: float, height: float) -> bool:
    return w <= width + HAIR and h <= height + HAIR


def _halves(sizes: Sizes) -> Iterator[tuple[Sizes, Sizes]]:
    for count in range(1, len(sizes)):
        for chosen in combinations(range(len(sizes)), count):
            part = tuple(sizes[n] for n in chosen)
            yield part, tuple(size for n, size in enumerate(sizes) if n not in chosen)


def _cuts(sizes: Sizes) -> set[float]:
    """Where a cut may be: a cut elsewhere could be pushed until it touches labels side by side, turned or not."""
    reached = {0.0}
    for w, h in sizes:
        reached |= {round(at + side, 6) for at in reached for side in (w, h)}
    return reached - {0.0}


def bound_by_cuts(needed: Mapping[tuple[int, int], int], width: int, height: int) -> int:
    """So many sheets at least for labels of these sizes (whole numbers), turned or not, by straight cuts of any depth.

    The linear relaxation over all ways to cut one sheet, which are made as they are needed: P. C. Gilmore and
    R. E. Gomory, Multistage cutting stock problems of two and more dimensions, Operations Research 13 (1965).
    """
    sizes, counts = list(needed), np.array(list(needed.values()))
    ways = [np.eye(len(sizes), dtype=int)[n] for n in range(len(sizes))]
    while True:
        solved = linprog(np.ones(len(ways)), A_ub=-np.array(ways).T, b_ub=-counts, method="highs")
        worth, way = _dearest(sizes, -solved.ineqlin.marginals, _places(sizes, width), _places(sizes, height))
        if worth <= 1 + 1e-9:
            return ceil(solved.fun - 1e-6)
        ways.append(way)


def _places(sizes: Sequence[tuple[int, int]], limit: int) -> list[int]:
    """Where cuts need be looked for: at sums of sides."""
    found = {0}
    for side in {side for size in sizes for side in size}:
        for start in sorted(found):
            found |= set(range(start, limit + 1, side))
    return sorted(found)


def _dearest(sizes, prices, across: list[int], down: list[int]):  # type: ignore[no-untyped-def]
    """What the dearest way to cut one sheet is worth, and how many of each size it gives."""
    worth = np.zeros((len(across), len(down)))
    gives = np.zeros((len(across), len(down), len(sizes)), dtype=int)
    for i, x in enumerate(across):
        for j, y in enumerate(down):
            for size, label in enumerate(sizes):
                if (_fits(*label, x, y) or _fits(*reversed(label), x, y)) and prices[size] > worth[i, j]:
                    worth[i, j], gives[i, j] = prices[size], np.eye(len(sizes), dtype=int)[size]
            parts = [((near, j), (far, j)) for near, far in _cut_in_two(across, x)]
            parts += [((i, near), (i, far)) for near, far in _cut_in_two(down, y)]
            for one, other in parts:
                if worth[one] + worth[other] > worth[i, j] + 1e-12:
                    worth[i, j], gives[i, j] = worth[one] + worth[other], gives[one] + gives[other]
    return worth[-1, -1], gives[-1, -1]


def _cut_in_two(places: Sequence[int], length: int) -> list[tuple[int, int]]:
    """The shorter part and the rest, as places that are no longer."""
    return [(n, bisect_right(places, length - cut) - 1) for n, cut in enumerate(places) if 0 < cut <= length / 2]
