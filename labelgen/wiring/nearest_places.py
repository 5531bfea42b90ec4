"""Which places are near to which: by |dx| + |dy|, with a tree that halves them (k-d tree, Bentley 1975)."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from heapq import heappush, heapreplace

from labelgen.lengths import Point, rectilinear

LEAF = 8
"""So few places are not halved again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Halved:
    """Places on both sides of a line; on the line itself they may be on either."""

    across: bool
    """Whether the line runs across, so that it parts by y."""
    at: float
    below: "_Tree"
    above: "_Tree"


_Tree = _Halved | Sequence[int]


def nearest_places(places: Sequence[Point | None], count: int) -> list[list[int]]:
    """Of each place, the numbers of the `count` nearest others; of None, and of places alone, none."""
    known = [number for number, place in enumerate(places) if place is not None]
    tree = _halved(places, known, across=False)
    return [[] if place is None else _Search(places, number, count).within(tree) for number, place in enumerate(places)]


def _halved(places: Sequence[Point | None], numbers: list[int], *, across: bool) -> _Tree:
    if len(numbers) <= LEAF:
        return numbers
    along = {number: _part(places[number], across=across) for number in numbers}
    numbers = sorted(numbers, key=along.__getitem__)
    middle = len(numbers) // 2
    return _Halved(
        across=across,
        at=along[numbers[middle]],
        below=_halved(places, numbers[:middle], across=not across),
        above=_halved(places, numbers[middle:], across=not across),
    )


def _part(place: Point | None, *, across: bool) -> float:
    assert place is not None
    return place.y if across else place.x


class _Search:
    """Looks for the nearest others of one place."""

    def __init__(self, places: Sequence[Point | None], number: int, count: int) -> None:
        self._places = places
        self._number = number
        self._count = count
        self._found: list[tuple[float, int]] = []
        """The best so far, distance and number both negative: the worst of them comes first."""

    def within(self, tree: _Tree) -> list[int]:
        """Nearest first, then by number. Of equally near ones beyond the count, any: but always the same."""
        self._look(tree)
        return [-number for _, number in sorted(self._found, reverse=True)]

    def _look(self, tree: _Tree) -> None:
        if not isinstance(tree, _Halved):
            self._compare(tree)
            return
        beyond = _part(self._places[self._number], across=tree.across) - tree.at
        nearer, farther = (tree.below, tree.above) if beyond < 0 else (tree.above, tree.below)
        self._look(nearer)
        if len(self._found) < self._count or abs(beyond) < -self._found[0][0]:
            self._look(farther)

    def _compare(self, numbers: Iterable[int]) -> None:
        here = self._places[self._number]
        assert here is not None
        for number in numbers:
            place = self._places[number]
            if number == self._number or place is None:
                continue
            candidate = (-rectilinear(here, place), -number)
            if len(self._found) < self._count:
                heappush(self._found, candidate)
            elif candidate > self._found[0]:
                heapreplace(self._found, candidate)
