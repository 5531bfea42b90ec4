"""Which wires run on which board, and what stands beside it. Millimetres, seen from above."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from itertools import pairwise
from math import floor

from labelgen.drawings.board_plan.paths import WirePaths
from labelgen.drawings.board_plan.routing import Corners, routed
from labelgen.drawings.board_plan.things import BoardThings
from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist

_CELL_MM = 400.0


class BoardWires:
    """The ways of all wires, laid once for the whole railway, and cut board by board."""

    def __init__(self, description: Description, netlist: Netlist, things: BoardThings) -> None:
        self._description, self._netlist, self._things = description, netlist, things
        self.wires = WirePaths(description, netlist, things)

    @cached_property
    def paths(self) -> Mapping[str, Mapping[tuple[Corners, bool], int]]:
        """Board: the ways of wires that touch it, on the board, and whether above it; how many wires each."""
        counts: dict[tuple[str, Corners, bool], int] = {}
        for leg, corners in zip(self.wires.legs, routed(self.wires.legs, self.wires.bodies), strict=True):
            key = (leg.start.frame, corners, leg.above)
            counts[key] = counts.get(key, 0) + 1
        boards = self._boards_by_cell()
        found: dict[str, dict[tuple[Corners, bool], int]] = {board: {} for board in self._description.boards}
        for (frame, corners, above), wires in counts.items():
            for board in dict.fromkeys(b for cell in _cells(corners) for b in boards.get((frame, *cell), ())):
                spot = self.wires.corners[board]
                assert spot is not None
                own = tuple(corner - spot.point for corner in corners)
                found[board][own, above] = found[board].get((own, above), 0) + wires
        return found

    def _boards_by_cell(self) -> Mapping[tuple[str, int, int], list[str]]:
        cells: dict[tuple[str, int, int], list[str]] = {}
        for board in [board for board, things in self._things.things.items() if things]:
            spot, extent = self.wires.corners[board], self._things.extent(board)
            assert spot is not None
            a = spot.point + Point(extent.x, extent.y)
            for cell in _cells((a, a + Point(extent.width, extent.height))):
                cells.setdefault((spot.frame, *cell), []).append(board)
        return cells

    def neighbours(self, board: str) -> list[tuple[str, str]]:
        """Boards that stand at an edge of this one: at which edge, seen from above, and what they are called."""
        here, size = self.wires.corners[board], self._description.boards[board].size
        found: list[tuple[str, str]] = []
        for other, given in self._description.boards.items():
            there = self.wires.corners[other]
            if (
                other == board
                or here is None
                or there is None
                or here.frame != there.frame
                or not size
                or not given.size
            ):
                continue
            own = Rectangle(here.point.x, here.point.y, *size)
            side = _beside(own, Rectangle(there.point.x, there.point.y, *given.size))
            if side is not None:
                found.append((side, self._netlist.shown_id(other)))
        return found


def _beside(here: Rectangle, there: Rectangle) -> str | None:
    """At which edge of one board another stands."""
    down = min(here.bottom, there.bottom) - max(here.y, there.y) > 1
    across = min(here.right, there.right) - max(here.x, there.x) > 1
    near = {"right": there.x - here.right, "left": here.x - there.right} if down else {}
    near |= {"front": there.y - here.bottom, "back": here.y - there.bottom} if across else {}
    return next((side for side, gap in near.items() if abs(gap) < 1), None)


def _cells(corners: Sequence[Point]) -> Iterator[tuple[int, int]]:
    for a, b in pairwise(corners):
        for column in range(floor(min(a.x, b.x) / _CELL_MM), floor(max(a.x, b.x) / _CELL_MM) + 1):
            for row in range(floor(min(a.y, b.y) / _CELL_MM), floor(max(a.y, b.y) / _CELL_MM) + 1):
                yield column, row
