"""The fewest sets that hold everything, and how many it takes at least.

Sets are numbers, bit by bit what they hold. To find the fewest is hard in general (R. M. Karp, "Reducibility among
combinatorial problems", 1972): small pieces are searched to the end, of others a good answer and a bound are given.
Things of which no set holds two need a set each: that is the bound.
"""

from collections.abc import Iterator, Sequence

MOST_STEPS = 2000
"""Of the search in one piece; after so many the best answer so far is taken."""


def fewest(sets: Sequence[int]) -> tuple[list[int], int]:
    """The places of the sets that are chosen, and a number below which no choice does; all that they hold is held."""
    chosen: list[int] = []
    least = 0
    for piece in _pieces(sets):
        search = _Search({place: sets[place] for place in piece})
        chosen += search.best
        least += search.least
    return sorted(chosen), least


def _pieces(sets: Sequence[int]) -> Iterator[list[int]]:
    """The places of sets that have to do with each other."""
    found: list[tuple[int, list[int]]] = []
    for place, held in enumerate(sets):
        if held:
            near = [piece for piece in found if piece[0] & held]
            found = [piece for piece in found if not piece[0] & held]
            merged = held
            for mask, _ in near:
                merged |= mask
            found.append((merged, sorted([place, *(one for _, places in near for one in places)])))
    yield from (places for _, places in found)


class _Search:
    """Of one piece: `best` are the places of the sets chosen, `least` how many it takes at least."""

    def __init__(self, sets: dict[int, int]) -> None:
        self._steps = 0
        whole = 0
        for held in sets.values():
            whole |= held
        sure, sets, left = _reduced(sets, whole)
        self._sets = sets
        self.best = [*sure, *self._greedy(left)]
        self.least = len(sure) + self._bound(left)
        if self.least < len(self.best):
            self._look(sure, left)
            if self._steps <= MOST_STEPS:
                self.least = len(self.best)

    def _greedy(self, left: int) -> list[int]:
        chosen = []
        while left:
            place = max(self._sets, key=lambda one: ((self._sets[one] & left).bit_count(), -one))
            chosen.append(place)
            left &= ~self._sets[place]
        return chosen

    def _holding(self, thing: int) -> list[int]:
        return [place for place, held in self._sets.items() if held & thing]

    def _bound(self, left: int) -> int:
        """Things of which no set holds two, those first that share their sets with fewest."""
        near = {thing: self._near(thing) & left for thing in _bits(left)}
        count = 0
        for thing in sorted(near, key=lambda one: (near[one].bit_count(), one)):
            if thing & left:
                left &= ~near[thing]
                count += 1
        return count

    def _near(self, thing: int) -> int:
        """All that is in a set with it."""
        near = 0
        for held in self._sets.values():
            near |= held if held & thing else 0
        return near

    def _look(self, chosen: list[int], left: int) -> None:
        """Tries all sets that hold the thing which fewest hold, the fullest first."""
        self._steps += 1
        if not left:
            self.best = min(self.best, chosen, key=len)
            return
        if self._steps > MOST_STEPS or len(chosen) + self._bound(left) >= len(self.best):
            return
        thing = min(_bits(left), key=lambda one: (len(self._holding(one)), one))
        for place in sorted(self._holding(thing), key=lambda one: (-(self._sets[one] & left).bit_count(), one)):
            self._look([*chosen, place], left & ~self._sets[place])


def _reduced(sets: dict[int, int], left: int) -> tuple[list[int], dict[int, int], int]:
    """The sets that must be chosen; those that may be, without such as another holds whole; and what is left."""
    chosen: list[int] = []
    before = -1
    while left != before:
        before = left
        sets = _without_held({place: held & left for place, held in sets.items() if held & left})
        holders = _holders(sets)
        left = _without_implied(sets, holders, left)
        for place in sorted({holders[thing][0] for thing in _bits(left) if len(holders[thing]) == 1}):
            chosen.append(place)
            left &= ~sets[place]
    return chosen, sets, left


def _holders(sets: dict[int, int]) -> dict[int, list[int]]:
    """Thing: the places of the sets that hold it."""
    found: dict[int, list[int]] = {}
    for place, held in sets.items():
        for thing in _bits(held):
            found.setdefault(thing, []).append(place)
    return found


def _without_held(sets: dict[int, int]) -> dict[int, int]:
    """Without those that another holds whole; of equal ones the first stays."""
    holders = _holders(sets)

    def is_held(place: int, held: int) -> bool:
        others = ((one, sets[one]) for one in holders[held & -held] if one != place)
        return any(held | other == other and (held != other or one < place) for one, other in others)

    return {place: held for place, held in sets.items() if not is_held(place, held)}


def _without_implied(sets: dict[int, int], holders: dict[int, list[int]], left: int) -> int:
    """Without what is held anyway, once something else is: by all sets that hold the other."""
    for thing in _bits(left):
        if thing & left:
            common = left
            for place in holders[thing]:
                common &= sets[place]
            left &= ~common | thing
    return left


def _bits(mask: int) -> Iterator[int]:
    while mask:
        yield mask & -mask
        mask &= mask - 1
