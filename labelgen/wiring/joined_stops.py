"""Which stops of a chain hang together."""

from collections.abc import Sequence

from labelgen.disjoint_sets import DisjointSets

Bridge = tuple[str, int]
"""Strip, position among its bridges."""


class JoinedStops:
    """Stops by number; the first one is the supply's terminal."""

    def __init__(self, bridges: Sequence[Bridge | None]) -> None:
        """`bridges`: of each stop, the bridge on which it lies: stops on one bridge are one piece of metal."""
        self._sets = DisjointSets[int]()
        self._size = [1] * len(bridges)
        first: dict[Bridge, int] = {}
        for number, bridge in enumerate(bridges):
            if bridge is not None:
                self.join(first.setdefault(bridge, number), number)

    def join(self, one: int, other: int) -> bool:
        """False when they are joined already: one more wire would make a ring."""
        a, b = self.top(one), self.top(other)
        if self._sets.join(a, b):
            self._size[a] += self._size[b]
        return a != b

    def is_fed(self, number: int) -> bool:
        """Whether it hangs on the supply."""
        return self.top(number) == self.top(0)

    def is_alone(self, number: int) -> bool:
        return self._size[self.top(number)] == 1

    def top(self, number: int) -> int:
        """One of its piece: the same for all of them."""
        return self._sets.first(number)
