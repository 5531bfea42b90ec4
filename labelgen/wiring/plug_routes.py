"""The way of one wire through plugs: by the fewest, then by least wire, then by id."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from labelgen.model.netlist import End
from labelgen.model.strip_geometry import TIE_DECIMALS
from labelgen.natural_order import Key, natural
from labelgen.wiring.crossings import Hop
from labelgen.wiring.plug_pins import PlugPins
from labelgen.wiring.plug_ways import PlugWays


@dataclass(frozen=True, kw_only=True)
class Route:
    """A way through plugs."""

    hops: tuple[Hop, ...] = ()
    distance: float = 0
    """mm of wire on the boards; infinite where a place is not known."""

    @cached_property
    def order(self) -> tuple[float, list[Key]]:
        """Sorts ways by as many plugs: by least wire, then by id."""
        return (round(self.distance, TIE_DECIMALS), [natural(hop.plug) for hop in self.hops])


Layer = dict[tuple[str | None, str], Route]
"""The ways through so many plugs, by the last plug and the board behind it."""


class PlugRoutes:
    """Finds the ways of wires. Plugs of the same two boards fill in order, wherever they are on them."""

    def __init__(
        self,
        ways: PlugWays,
        pins: PlugPins,
        pin_end: Callable[[str, int, str], End],
        distance: Callable[[End, End], float],
    ) -> None:
        self._ways = ways
        self._pins = pins
        self._pin_end = pin_end
        self._distance = distance

    def way(self, start: tuple[End, str], finish: tuple[End, str], count: int) -> tuple[Hop, ...] | None:
        """From an end on one board to an end on another, `count` pins in each plug.

        None where no way by the fewest plugs has room.
        """
        return self._best(start, finish, count)

    def full_way(self, start: tuple[End, str], finish: tuple[End, str], count: int) -> tuple[Hop, ...]:
        """The plugs without room on the way that it would take if all had room."""
        hops = self._best(start, finish, 0) or ()
        return tuple(hop for hop in hops if self._with_room(hop.start, hop.finish, count) is None)

    def _best(self, start: tuple[End, str], finish: tuple[End, str], count: int) -> tuple[Hop, ...] | None:
        boards = self._ways.only_way(start[1], finish[1])
        if boards is not None:
            # Nothing to choose, so nothing is measured: on most railways, boards stand in a row.
            plugs = [(self._with_room(*pair, count), *pair) for pair in pairwise(boards)]
            hops = tuple(Hop(plug=plug, start=one, finish=other) for plug, one, other in plugs if plug is not None)
            return hops if len(hops) == len(plugs) else None
        layer: Layer = {(None, start[1]): Route()}
        for _ in range(int(self._ways.count(start[1], finish[1]))):
            layer = self._further(layer, start[0], finish[1], count)
        ends = [self._with(route, self._end(route, start[0], finish[1]), finish[0]) for route in layer.values()]
        best = min(ends, key=lambda route: route.order, default=None)
        return best.hops if best else None

    def _further(self, layer: Layer, start: End, finish: str, count: int) -> Layer:
        """Every way that is one plug longer; of those by the same plug, only the best."""
        found: Layer = {}
        for (_, board), route in layer.items():
            for onward in self._ways.onward(board, finish):
                plug = self._with_room(board, onward, count)
                if plug is None:
                    continue
                end = self._end(route, start, board)
                longer = self._with(route, end, self._pin_end(plug, 1, board))
                hops = (*longer.hops, Hop(plug=plug, start=board, finish=onward))
                candidate = Route(hops=hops, distance=longer.distance)
                best = found.setdefault((plug, onward), candidate)
                if candidate.order < best.order:
                    found[plug, onward] = candidate
        return found

    def _with_room(self, board: str, onward: str, count: int) -> str | None:
        """The first plug of two boards that has so many free pins."""
        plugs = self._ways.between[frozenset((board, onward))]
        return next((id_ for id_ in plugs if self._pins.room(id_) >= count), None)

    def _end(self, route: Route, start: End, board: str) -> End:
        """Where a way is so far."""
        return self._pin_end(route.hops[-1].plug, 1, board) if route.hops else start

    def _with(self, route: Route, end: End, other: End) -> Route:
        return Route(hops=route.hops, distance=route.distance + self._distance(end, other))
