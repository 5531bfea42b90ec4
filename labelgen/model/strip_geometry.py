"""Where a strip's ways lie, and where things stand on the railway. Millimetres, seen from above, y to the front."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.lengths import Point, rectilinear
from labelgen.model.description import Board, Strip
from labelgen.natural_order import natural

PITCH_BY_AMPS = ((3.0, 8.0), (5.0, 10.0), (15.0, 12.0))
"""Usual pitch of a screw strip by its rating, from memory: to be measured on the strip itself."""
WAY_DIRECTION = {"left": (1, 0), "right": (-1, 0), "back": (0, 1), "front": (0, -1)}
"""Where way numbers run to, by the edge at which way 1 lies."""
TIE_DECIMALS = 6
"""Distances in mm that are the same to so many decimals are equal."""


def pitch_of(strip: Strip) -> float:
    """Centre to centre of two ways: as given, as measured over the strip, else by its amps."""
    if strip.pitch is not None:
        return strip.pitch
    if strip.measured is not None and strip.row_ways > 1:
        return strip.measured / (strip.row_ways - 1)
    return pitch_by_amps(strip.amps)


def pitch_by_amps(rating: float) -> float:
    """The usual pitch of a strip of such a rating."""
    return next((pitch for amps, pitch in PITCH_BY_AMPS if rating <= amps), PITCH_BY_AMPS[-1][1])


def panel_side_of(strip: Strip) -> str:
    """The edge of the board that the panel side looks to."""
    return strip.panel_side or ("front" if strip.way_1 in {"left", "right"} else "left")


def way_offset(strip: Strip, way: int) -> Point:
    """From the strip's middle to the middle of a way; ways of different rows lie above each other."""
    dx, dy = WAY_DIRECTION[strip.way_1]
    along = (column_of(strip, way) - (strip.row_ways - 1) / 2) * pitch_of(strip)
    return Point(dx * along, dy * along)


def column_of(strip: Strip, way: int) -> int:
    """Where a way stands in its row, from 0 at way 1's end."""
    return (way - 1) % strip.row_ways


@dataclass(frozen=True, slots=True)
class Spot:
    """A place and the frame in which it is measured: two spots of different frames have no distance."""

    frame: str
    point: Point

    def to(self, other: "Spot") -> float | None:
        """|dx| + |dy|, or None when it is not known how the frames lie."""
        return rectilinear(self.point, other.point) if self.frame == other.frame else None


RAILWAY = ""
"""The frame of boards that say where they stand on the railway."""


class Ground:
    """Where the boards stand, and what is on them."""

    def __init__(self, boards: Mapping[str, Board]) -> None:
        self._boards = boards
        self._corners: dict[str, Spot] = {}
        for id_ in sorted(boards, key=natural):
            self._set_corners(id_)

    def spot(self, board: str | None, at: tuple[float, float] | None) -> Spot | None:
        """A place on a board; without boards every place is in one frame."""
        if at is None or (board is None and self._boards):
            return None
        corner = self._corners[board] if board in self._corners else Spot(RAILWAY, Point(0, 0))
        return Spot(corner.frame, corner.point + Point(*at))

    def _set_corners(self, id_: str) -> None:
        """Places a board, and first those that it stands to the right of, from the leftmost on."""
        row = [id_]
        while (left := self._left_of(row[-1])) is not None and left not in self._corners and left not in row:
            row.append(left)
        for board in reversed(row):
            self._corners.setdefault(board, self._corner(board))

    def _corner(self, id_: str) -> Spot:
        """The top left corner of a board; a board that says nothing is a frame of its own."""
        board, left = self._boards[id_], self._left_of(id_)
        if board.at is not None:
            return Spot(RAILWAY, Point(*board.at))
        if left is None or left not in self._corners:
            return Spot(id_, Point(0, 0))
        width, _ = self._boards[left].size or (0, 0)
        beside = self._corners[left]
        return Spot(beside.frame, beside.point + Point(width, 0))

    def _left_of(self, id_: str) -> str | None:
        """The board that a board stands to the right of, where that says how far."""
        board = self._boards[id_]
        left = self._boards.get(board.right_of or "")
        return board.right_of if board.at is None and left is not None and left.size is not None else None
