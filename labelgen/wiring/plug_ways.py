"""From board to board by plugs: which boards a wire crosses, the fewest first."""

from collections.abc import Container, Iterable, Mapping
from functools import cached_property
from itertools import product
from math import inf
from typing import TYPE_CHECKING

from labelgen.model.description import Plug
from labelgen.natural_order import natural

if TYPE_CHECKING:
    import networkx as nx

Pair = frozenset[str]
"""Two boards that plugs join."""


def joins_two(plug: Plug, boards: Container[str] | None = None) -> bool:
    """Whether it joins two boards, of those that there are: what is wrong with it was reported by reading."""
    two = len(set(plug.boards)) == len(plug.boards) == 2
    return two and all(boards is None or board in boards for board in plug.boards)


class PlugWays:
    """The boards of one railway and the plugs between them. Without any plug, the boards are fixed together."""

    def __init__(self, plugs: Mapping[str, Plug]) -> None:
        self.between: dict[Pair, list[str]] = {}
        """The plugs of each two boards, in natural order: so they fill."""
        for id_ in sorted(plugs, key=natural):
            if joins_two(plugs[id_]):
                self.between.setdefault(frozenset(plugs[id_].boards), []).append(id_)
        self._away: dict[str, dict[str, int]] = {}
        self._onward: dict[tuple[str, str], list[str]] = {}
        self._only: dict[tuple[str, str], tuple[str, ...] | None] = {}

    @cached_property
    def _graph(self) -> "nx.Graph[str]":
        import networkx as nx

        return nx.Graph([(one, other) for one, other in self.between])

    def count(self, start: str | None, finish: str | None) -> float:
        """The fewest plugs between two boards; infinite where no way leads.

        With boards that are fixed together, 1 for any other board: what is near still comes first.
        """
        if start == finish:
            return 0
        if not self.between:
            return 1
        return self._distances(finish or "").get(start or "", inf)

    def _distances(self, finish: str) -> dict[str, int]:
        if finish not in self._away:
            import networkx as nx

            reached = nx.single_source_shortest_path_length(self._graph, finish) if finish in self._graph else {}
            self._away[finish] = dict(reached)
        return self._away[finish]

    def only_way(self, start: str, finish: str) -> tuple[str, ...] | None:
        """The boards from one to another by the fewest plugs, if there is but one such way."""
        key = (start, finish)
        if key not in self._only:
            boards = [start]
            while boards[-1] != finish and len(onward := self.onward(boards[-1], finish)) == 1:
                boards += onward
            self._only[key] = tuple(boards) if boards[-1] == finish else None
        return self._only[key]

    def onward(self, board: str, finish: str) -> list[str]:
        """The boards that are one plug away and one plug nearer to `finish`, in natural order."""
        key = (board, finish)
        if key not in self._onward:
            nearer = self.count(board, finish) - 1
            beside = sorted(self._graph.neighbors(board), key=natural)
            self._onward[key] = [other for other in beside if self.count(other, finish) == nearer]
        return self._onward[key]

    def nearest(self, starts: Iterable[str | None], finishes: Iterable[str | None]) -> tuple[str | None, str | None]:
        """Of ends that may be on several boards, as a pin may: two boards with the fewest plugs between them."""
        return min(product(starts, finishes), key=lambda pair: self.count(*pair))
