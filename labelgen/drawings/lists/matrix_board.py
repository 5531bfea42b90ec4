"""The board of a route matrix at true size, seen from the side of its parts, to be laid on a board with 2.54 mm holes.

A row's wire lies on the upper side, a column's on the lower. A diode stands from its row's wire to four holes further
down; there its end is bent over, below the board, to the column's wire one hole to the right.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.lists.blocks import Setting
from labelgen.drawings.lists.cells import Words
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.text_fitting import centred, fit_in
from labelgen.lengths import Point, Rectangle
from labelgen.model.drawing import Box, Circle, Line, Shape
from labelgen.model.panel.matrix_wires import MatrixWires
from labelgen.model.panel.routes import Matrix, MatrixColumn, MatrixRow, row_position
from labelgen.typefaces import BOLD, REGULAR

HOLE_MM = 2.54
"""0.1 inch: the pitch of perforated boards (IEC 60097 counts its grids in it)."""
COLUMN_HOLES, ROW_HOLES, DIODE_HOLES = 3, 5, 4
COLUMN_MM, ROW_MM, DIODE_MM = COLUMN_HOLES * HOLE_MM, ROW_HOLES * HOLE_MM, DIODE_HOLES * HOLE_MM
BODY_LENGTH, BODY_WIDTH, BAND = 5.2, 2.7, 0.9
"""Of a usual 1 A diode. Common practice, no source."""
NAMES_MM, PAD = 46.0, 2.5
"""Left of the board: what each row is. The radius of a terminal, with its letter or number in it."""
HEAD_MM, LABEL_MM, TURNED_MM = 2.0, 4.4, 15.0
"""Above the board; how high a head or number below it is, and how high where it has to run upwards."""
LABEL_WIDTH = COLUMN_MM - 1.4
HEAD_CAP = 3.2
MOST_ROWS = 12
COPPER, BELOW, DOTS, WOOD = "#000000", "#555555", "#b8b8b8", "#f7f7f7"
DASH = (1.6, 0.9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Labels:
    """How what stands below the columns is set: all heads in one size, level if all can be read so."""

    height: float
    turn: float
    head_cap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What of a matrix is drawn in one piece: a board of its own, where there are several.

    Rows and columns stand where their letters and numbers put them, even if one between them is gone.
    """

    rows: Sequence[MatrixRow]
    columns: Sequence[MatrixColumn]
    first_column: int

    def row_slot(self, row: MatrixRow) -> int:
        return (row_position(row.letter) or 0) - (row_position(self.rows[0].letter) or 0)

    def column_slot(self, column: MatrixColumn) -> int:
        return column.number - self.first_column

    @property
    def down(self) -> int:
        return self.row_slot(self.rows[-1]) + 1

    @property
    def across(self) -> int:
        return self.column_slot(self.columns[-1]) + 1

    def height(self, labels: Labels) -> float:
        return HEAD_MM + HOLE_MM + self.down * ROW_MM + 2 * PAD + 2 * labels.height


def board_parts(matrix: Matrix, setting: Setting) -> list[Part]:
    """Parts that fit on a page: as many columns as there is room for, then the rows that have diodes there."""
    across = int((setting.width - NAMES_MM - 2 * HOLE_MM) / COLUMN_MM)
    return [
        Part(rows=rows, columns=columns, first_column=first)
        for first in range(1, matrix.columns[-1].number + 1, across)
        if (columns := [column for column in matrix.columns if first <= column.number < first + across])
        for rows in _in_reach([row for row in matrix.rows if {column.number for column in columns} & {*row.columns}])
    ]


def _in_reach(rows: Sequence[MatrixRow]) -> Iterator[list[MatrixRow]]:
    """The rows in lots, none of which is higher than a page allows."""
    lot: list[MatrixRow] = []
    for row in rows:
        position = row_position(row.letter) or 0
        if lot and position - (row_position(lot[0].letter) or 0) >= MOST_ROWS:
            yield lot
            lot = []
        lot.append(row)
    yield lot


def board_piece(part: Part, wires: MatrixWires, setting: Setting) -> Piece:
    """One part of the board, with what comes in at each row and goes out at each column."""
    labels = _labels(part.columns, wires, setting)
    painter = _Painter(part, wires, setting, labels)
    return Piece(height=part.height(labels), paint=lambda y: list(painter.shapes(y)))


def _labels(columns: Sequence[MatrixColumn], wires: MatrixWires, setting: Setting) -> Labels:
    box, smallest = Rectangle(0, 0, LABEL_WIDTH, LABEL_MM), setting.lettering.smallest
    heads = [wires.head(column.number) for column in columns]
    numbers = [wires.number(column.number) for column in columns]
    level = [fit_in(text, box, largest=HEAD_CAP, smallest=smallest, face=BOLD, underline=True) for text in heads]
    known = [fitted.cap for fitted in level if fitted is not None]
    short = all(fit_in(text, box, largest=HEAD_CAP, smallest=smallest, underline=True) for text in numbers)
    if short and len(known) == len(level):
        return Labels(height=LABEL_MM, turn=0, head_cap=min(known))
    return Labels(height=TURNED_MM, turn=-90, head_cap=HEAD_CAP)


class _Painter:
    def __init__(self, part: Part, wires: MatrixWires, setting: Setting, labels: Labels) -> None:
        self._part, self._wires, self._setting, self._labels = part, wires, setting, labels
        self._left = setting.left + NAMES_MM

    def shapes(self, top: float) -> Iterator[Shape]:
        first = top + HEAD_MM + HOLE_MM
        left = self._left + 3 * HOLE_MM
        ys = {row.letter: first + self._part.row_slot(row) * ROW_MM for row in self._part.rows}
        xs = {column.number: left + self._part.column_slot(column) * COLUMN_MM for column in self._columns}
        foot = first + self._part.down * ROW_MM
        yield from self._ground(top + HEAD_MM, foot)
        for row in self._part.rows:
            yield from self._row(row, ys[row.letter], xs)
        for column in self._columns:
            yield from self._column(column, xs[column.number], ys, foot)
        for row in self._part.rows:
            for number in (number for number in row.columns if number in xs):
                yield from _diode(xs[number] - HOLE_MM, ys[row.letter])

    @property
    def _columns(self) -> Sequence[MatrixColumn]:
        return self._part.columns

    def _ground(self, top: float, bottom: float) -> Iterator[Shape]:
        """The board, and a dot for each hole of it."""
        across, down = self._part.across * COLUMN_HOLES + 1, self._part.down * ROW_HOLES
        width = (across + 1) * HOLE_MM
        yield Box(x=self._left, y=top, width=width, height=bottom - top, fill=WOOD, stroke=BELOW, stroke_width=0.15)
        for row in range(down):
            for column in range(across):
                x, y = self._left + (column + 1) * HOLE_MM, top + (row + 1) * HOLE_MM
                yield Circle(x=x, y=y, radius=0.25, fill=DOTS)

    def _row(self, row: MatrixRow, y: float, xs: dict[int, float]) -> Iterator[Shape]:
        """Its wire on the upper side, as far as the last diode; its terminal, and what comes in there."""
        here = [xs[number] - HOLE_MM for number in row.columns if number in xs]
        yield Line(x1=self._left, y1=y, x2=max(here), y2=y, width=0.5, colour=COPPER)
        yield from self._terminal(row.letter, Point(self._left - PAD, y))
        room = Rectangle(self._setting.left, y - ROW_MM / 2, NAMES_MM - 3 * PAD, ROW_MM)
        yield from self._what(row, room)

    def _what(self, row: MatrixRow, room: Rectangle) -> Iterator[Shape]:
        """The number of the route in large, its name beside it, and the number of its wire below."""
        lettering, cap = self._setting.lettering, self._setting.cap
        number = lettering.line(row.number, width=14, largest=4.2, face=BOLD)
        if number is not None:
            yield number.at(room.x, room.y + room.height / 2 + 1.0)
        x = room.x + max(8.0, number.width + 2 if number is not None else 0)
        width = room.right - x
        name = lettering.lines(row.route, width=width, height=ROW_MM / 2 + 1, largest=cap)
        top = room.y + room.height / 2 + 1.0 - (len(name) - 1) * 1.6 * cap
        for index, line in enumerate(name):
            yield line.at(x, top + index * 1.6 * cap)
        wire = Words(text=f"wire {self._wires.number(row.letter)}").lines(cap, width)[0]
        yield wire.at(x, room.y + room.height / 2 + 1.0 + 1.6 * cap, colour=BELOW)

    def _column(self, column: MatrixColumn, x: float, ys: dict[str, float], foot: float) -> Iterator[Shape]:
        """Its wire on the lower side, from its first diode down to its terminal; and what goes out there."""
        ends = [ys[row.letter] + DIODE_MM for row in self._part.rows if column.number in row.columns]
        if ends:
            yield Line(x1=x, y1=min(ends), x2=x, y2=foot, width=0.5, colour=BELOW, dash=DASH)
        yield from self._terminal(str(column.number), Point(x, foot + PAD))
        height, turn = self._labels.height, self._labels.turn
        head = Rectangle(x - LABEL_WIDTH / 2, foot + 2 * PAD, LABEL_WIDTH, height)
        below = Rectangle(head.x, head.bottom, head.width, height)
        yield from self._boxed(
            self._wires.head(column.number), head, largest=self._labels.head_cap, face=BOLD, turn=turn
        )
        yield from self._boxed(self._wires.number(column.number), below, largest=self._setting.cap, turn=turn)

    def _terminal(self, name: str, at: Point) -> Iterator[Shape]:
        yield Circle(x=at.x, y=at.y, radius=PAD, fill="#ffffff", stroke=COPPER, stroke_width=0.3)
        inside = Rectangle(at.x - PAD + 0.5, at.y - PAD, 2 * PAD - 1.0, 2 * PAD)
        yield from self._boxed(name, inside, largest=2.6, face=BOLD)

    def _boxed(
        self, text: str, box: Rectangle, *, largest: float, face: str = REGULAR, turn: float = 0
    ) -> Sequence[Shape]:
        fitted = self._setting.lettering.inside(text, box, largest=largest, face=face, turn=turn)
        return centred(fitted, box, turn=turn) if fitted is not None else ()


def _diode(x: float, y: float) -> Iterator[Shape]:
    """Upright, its band down; the lower end is bent over to the column's wire."""
    foot, top = y + DIODE_MM, y + (DIODE_MM - BODY_LENGTH) / 2
    yield Line(x1=x, y1=y, x2=x, y2=foot, width=0.35, colour=COPPER)
    yield Line(x1=x, y1=foot, x2=x + HOLE_MM, y2=foot, width=0.5, colour=BELOW)
    body = Rectangle(x - BODY_WIDTH / 2, top, BODY_WIDTH, BODY_LENGTH)
    yield Box(x=body.x, y=body.y, width=body.width, height=body.height, fill="#ffffff", stroke=COPPER, radius=0.3)
    yield Box(x=body.x, y=body.bottom - 0.5 - BAND, width=body.width, height=BAND, fill=COPPER)
    yield Circle(x=x, y=y, radius=0.55, fill=COPPER)
    for end in (x, x + HOLE_MM):
        yield Circle(x=end, y=foot, radius=0.45, fill=BELOW)
