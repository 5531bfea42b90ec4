"""Colours for things of which neighbours must differ: as few as can be, the same on every run."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

_MOST_SEARCHED = 150
"""A larger set of things gets the colours of the first try, which seldom are more than the fewest."""
_MOST_STEPS = 20_000
"""After so many the best that is known is taken; plans of panels take a few hundred."""


def coloured(count: int, neighbours: Iterable[tuple[int, int]]) -> list[int]:
    """A colour from 0 for each of so many things, neighbours always different.

    DSATUR with backtracking (Brélaz 1979): the thing whose neighbours have most colours already comes next.
    """
    beside: list[set[int]] = [set() for _ in range(count)]
    for a, b in neighbours:
        beside[a].add(b)
        beside[b].add(a)
    found = [0] * count
    for things in _apart(beside):
        search = _Search(things=things, beside=beside, best=_in_turn(things, beside))
        if len(things) <= _MOST_SEARCHED:
            search.go_on(0)
        for one, colour in search.best.items():
            found[one] = colour
    return found


def spread(count: int, neighbours: Iterable[tuple[int, int]], colours: int) -> list[int]:
    """As `coloured`, but with as many of so many colours as there are things for, so that few share one.

    One after the other takes the colour that is least used; where that leads nowhere, the fewest colours that do.
    """
    pairs = list(neighbours)
    beside: list[set[int]] = [set() for _ in range(count)]
    for a, b in pairs:
        beside[a].add(b)
        beside[b].add(a)
    found: dict[int, int] = {}
    used = [0] * colours
    for one in range(count):
        free = sorted(set(range(colours)) - {found.get(other) for other in beside[one]})
        if not free:
            return coloured(count, pairs)
        found[one] = min(free, key=lambda colour: (used[colour], colour))
        used[found[one]] += 1
    return list(found.values())


def _apart(beside: Sequence[set[int]]) -> list[tuple[int, ...]]:
    """Things that hang together, in order of their first."""
    seen: set[int] = set()
    groups = []
    for first in range(len(beside)):
        group, new = set[int](), {first} - seen
        while new:
            group |= new
            new = set().union(*(beside[one] for one in new)) - group
        seen |= group
        if group:
            groups.append(tuple(sorted(group)))
    return groups


def _in_turn(things: Sequence[int], beside: Sequence[set[int]]) -> dict[int, int]:
    """One after the other takes the lowest colour that it may."""
    colours: dict[int, int] = {}
    while len(colours) < len(things):
        one = _hardest(things, beside, colours)
        taken = {colours.get(other) for other in beside[one]}
        colours[one] = next(colour for colour in range(len(things)) if colour not in taken)
    return colours


def _hardest(things: Sequence[int], beside: Sequence[set[int]], colours: dict[int, int]) -> int:
    """The thing whose neighbours have most colours already; of equals that with most neighbours, then the first."""

    def ease(one: int) -> tuple[int, int, int]:
        near = {colours[other] for other in beside[one] if other in colours}
        return -len(near), -len(beside[one]), one

    return min((one for one in things if one not in colours), key=ease)


@dataclass(slots=True, kw_only=True)
class _Search:
    """Looks for fewer colours than the best that is known."""

    things: Sequence[int]
    beside: Sequence[set[int]]
    best: dict[int, int]
    colours: dict[int, int] = field(default_factory=dict)
    steps: int = 0

    def go_on(self, used: int) -> None:
        """Colours what is left, as long as that can take fewer than the best."""
        if used > max(self.best.values()) or self.steps > _MOST_STEPS:
            return
        self.steps += 1
        if len(self.colours) == len(self.things):
            self.best = dict(self.colours)
            return
        one = _hardest(self.things, self.beside, self.colours)
        taken = {self.colours.get(other) for other in self.beside[one]}
        for colour in range(used + 1):
            if colour not in taken:
                self.colours[one] = colour
                self.go_on(max(used, colour + 1))
                del self.colours[one]
