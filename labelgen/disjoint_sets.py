"""Sets of things that are joined step by step: which of them hang together.

A forest with path halving: R. E. Tarjan and J. van Leeuwen, Worst-case analysis of set union algorithms, Journal of the
ACM 31 (1984).
"""

from collections.abc import Hashable
from typing import Generic, TypeVar

Member = TypeVar("Member", bound=Hashable)


class DisjointSets(Generic[Member]):
    """Whatever was never joined is a set of its own."""

    def __init__(self) -> None:
        self._above: dict[Member, Member] = {}

    def first(self, member: Member) -> Member:
        """The one by which its set is known: the same for all of a set."""
        above = self._above
        while (upper := above.get(member, member)) != member:
            above[member] = member = above.get(upper, upper)
        return member

    def join(self, one: Member, other: Member) -> bool:
        """Makes one set of two, known by the first of `one`; False when they were one already."""
        upper, lower = self.first(one), self.first(other)
        if upper == lower:
            return False
        self._above[lower] = upper
        return True
