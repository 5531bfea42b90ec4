"""Which holes a wire takes on its way: those by which it is shortest."""

from collections.abc import Mapping, Sequence

from labelgen.lengths import Point, rectilinear
from labelgen.model.description import Board, HoleWay
from labelgen.model.strip_geometry import TIE_DECIMALS, Ground
from labelgen.natural_order import natural

HoleAt = tuple[str, Point]


def holes_at(boards: Mapping[str, Board], ground: Ground, through: HoleWay) -> dict[str, list[HoleAt]]:
    """Board: its holes through its top, or through its frame, in natural order; boards without any are left out."""
    found = {
        id_: [
            (hole, spot.point)
            for hole in sorted(board.holes, key=natural)
            if board.holes[hole].through == through and (spot := ground.spot(id_, board.holes[hole].at))
        ]
        for id_, board in boards.items()
    }
    return {id_: holes for id_, holes in found.items() if holes}


def shortest_way(start: Point, choices: Sequence[Sequence[HoleAt]], finish: Point) -> tuple[float, tuple[str, ...]]:
    """|dx| + |dy| from start to finish by one hole of each choice, in that order; and which. Ties by natural order.

    Worked out from the finish back, so that the work grows with the holes, and not with all ways through them.
    """
    onward: list[tuple[Point, float, tuple[str, ...]]] = [(finish, 0, ())]
    for holes in reversed(choices):
        onward = [(at, *_best(at, onward, id_)) for id_, at in holes]
    return _best(start, onward)


def _best(
    here: Point, onward: Sequence[tuple[Point, float, tuple[str, ...]]], *hole: str
) -> tuple[float, tuple[str, ...]]:
    found = [(round(rectilinear(here, at) + distance, TIE_DECIMALS), ids) for at, distance, ids in onward]
    distance, ids = min(found, key=lambda one: one[0])
    return distance, (*hole, *ids)
