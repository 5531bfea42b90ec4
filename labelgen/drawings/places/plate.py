"""A board-end plate: the plug, the board that it faces, and what each of its pins carries. Sizes are mm."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import code_block
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import Fitted, fit, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Outline, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import EndKind, Netlist, PinPlan, PlugPlan, Wire
from labelgen.typefaces import BOLD

LEAST_WIDTH, LEAST_HEIGHT = 48.0, 25.0
MARGIN, GAP, COLUMN_GAP = 3.0, 1.4, 4.0
HEADER, HEADINGS, FOOT = 8.0, 3.2, 2.6
ID_CAP, BELOW = 4.2, 7.6
"""Capitals of the joint; from the top to the baseline of what stands below it."""
LEAST_ROW, HIGHEST_ROW, LEAST_COLUMN = 4.1, 6.0, 40.0
CAP_SHARE, LARGEST_CAP, HEADING_CAP, NAME_CAP = 0.47, 2.8, 1.5, 2.2
"""A row's capitals: their share of its height, and the most they measure."""
BLOCK_SHARE = 0.84
NUMBER_WIDTH = 6.0
HEAD_SHARE = 0.4
"""Of a column behind its pin's number: block and head; where the wire goes has the rest."""
RULE, GREY, FREE = "#9a9a9a", "#444444", "#777777"
CAUTION = "Extra-low voltage only"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """One label: some of the pins of a plug, as they are on one of its boards."""

    netlist: Netlist
    plug: PlugPlan
    board: str
    pins: tuple[PinPlan, ...]
    index: int
    count: int
    rows: int
    """Of a column: the same on all labels of a plug, so that they look alike."""
    cell: CellSize

    @property
    def here(self) -> str:
        return self.netlist.shown_id(self.board)

    @property
    def words(self) -> str:
        """Which pins it shows, of a plug that takes several labels."""
        if self.count == 1:
            return ""
        first, last = self.pins[0].number, self.pins[-1].number
        these = f"pin {first}" if first == last else f"pins {first}–{last}"
        return f"{these} of {len(self.plug.pins)}, {self.index}/{self.count}"

    def shapes(self, lettering: Lettering, look: Look) -> list[Shape]:
        face = Rectangle(0, 0, self.cell.width, self.cell.height).inset(MARGIN)
        columns, rows = _columns(self.cell), self.rows
        top = face.y + HEADER + GAP
        height = min(HIGHEST_ROW, (face.bottom - FOOT - top - HEADINGS) / rows)
        width = (face.width - (columns - 1) * COLUMN_GAP) / columns
        shapes = [*self._header(face, lettering), *self._foot(face, lettering)]
        for column in range(columns):
            pins = self.pins[column * rows : (column + 1) * rows]
            box = Rectangle(face.x + column * (width + COLUMN_GAP), top, width, HEADINGS + height * len(pins))
            if pins:
                table = _Table(plate=self, box=box, row=height, lettering=lettering, look=look)
                shapes += table.shapes(pins)
        return shapes

    def _header(self, face: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        """The joint in large, its name below; at the right its board, and the one that it faces."""
        side = 0.46 * face.width
        title = lettering.head(self.plug.shown, width=side, largest=ID_CAP)
        baseline = face.y + ID_CAP
        if title:
            yield title.at(face.x, baseline)
        boards = face.width - side - GAP
        here = lettering.line(f"on {self.here}", width=boards, largest=2.8, face=BOLD)
        if here:
            yield here.at(face.right, face.y + 2.8, anchor="end")
        other = self.netlist.shown_id(self.plug.facing(self.board))
        there = lettering.line(f"faces {other}", width=boards - 4.2, largest=2.4)
        if there:
            yield there.at(face.right, face.y + BELOW, anchor="end")
            yield from arrow(face.right - there.width - 4.2, face.y + BELOW - there.cap / 2)
        name = lettering.known(self.plug.name, BOLD)
        said = " · ".join(filter(None, (name, self.words)))
        below = (
            fit(said, width=side, largest=max(2.0, lettering.smallest), smallest=lettering.smallest) if said else None
        )
        if below:
            yield below.at(face.x, face.y + BELOW, colour=GREY)
        elif self.words:
            lettering.line(self.words, width=side, largest=2.0)
        yield Line(x1=face.x, y1=face.y + HEADER + 1, x2=face.right, y2=face.y + HEADER + 1, width=0.35)

    def _foot(self, face: Rectangle, lettering: Lettering) -> Iterator[Shape]:
        railway = lettering.known(self.netlist.railway, BOLD)
        for said in (f"{railway} · {CAUTION}", CAUTION):
            line = fit(said, width=face.width, largest=max(1.4, lettering.smallest), smallest=lettering.smallest)
            if line:
                yield line.at(face.right, face.bottom, anchor="end", colour=GREY)
                return


@dataclass(frozen=True, slots=True, kw_only=True)
class _Table:
    """One column of pins."""

    plate: Plate
    box: Rectangle
    row: float
    lettering: Lettering
    look: Look

    @property
    def cap(self) -> float:
        return min(LARGEST_CAP, max(CAP_SHARE * self.row, self.lettering.smallest))

    @property
    def block(self) -> float:
        return BLOCK_SHARE * self.row

    @property
    def head_x(self) -> float:
        return self.box.x + NUMBER_WIDTH + GAP

    @property
    def far_x(self) -> float:
        return self.head_x + HEAD_SHARE * (self.box.width - NUMBER_WIDTH)

    def shapes(self, pins: tuple[PinPlan, ...]) -> Iterator[Shape]:
        yield from self._headings()
        for number, pin in enumerate(pins):
            row = Rectangle(self.box.x, self.box.y + HEADINGS + number * self.row, self.box.width, self.row)
            yield Line(x1=row.x, y1=row.y, x2=row.right, y2=row.y, width=0.12, colour=RULE)
            yield from self._number(pin, row)
            yield from self._carried(pin, row)
        yield Line(x1=self.box.x, y1=self.box.bottom, x2=self.box.right, y2=self.box.bottom, width=0.12, colour=RULE)

    def _headings(self) -> Iterator[Shape]:
        for text, x in (("Pin", self.box.x), ("Wire", self.head_x), ("Goes to", self.far_x)):
            line = self.lettering.line(text, width=20, largest=max(HEADING_CAP, self.lettering.smallest))
            if line:
                yield line.at(x, self.box.y + HEADINGS - 1.0, colour=GREY)

    def _number(self, pin: PinPlan, row: Rectangle) -> Iterator[Shape]:
        fitted = self._line(str(pin.number), NUMBER_WIDTH, bold=True)
        if fitted:
            middle = row.x + NUMBER_WIDTH / 2
            yield fitted.at(middle, self._baseline(row), anchor="middle")
            if needs_underline(fitted.text):
                yield underline(fitted, middle, self._baseline(row), characters=len(fitted.text))

    def _carried(self, pin: PinPlan, row: Rectangle) -> Iterator[Shape]:
        if pin.state == "empty":
            yield from self._kept_empty(row)
        elif pin.state == "spare":
            yield from self._words(f"spare, was {pin.was}" if pin.was else "spare", self.head_x, row, colour=FREE)
        elif pin.bridged_to is not None:
            yield from self._wire(pin, row)
            yield from self._words(f"with pin {pin.bridged_to}", self.far_x, row)
        else:
            yield from self._wire(pin, row)
            yield from self._words(", ".join(self._far_ends(pin)) or "–", self.far_x, row)

    def _kept_empty(self, row: Rectangle) -> Iterator[Shape]:
        """A crossed box: nothing may be put in there."""
        side = 0.6 * self.row
        x, y = self.head_x, row.y + (row.height - side) / 2
        yield Box(x=x, y=y, width=side, height=side, stroke="#000000", stroke_width=0.25)
        yield Line(x1=x, y1=y, x2=x + side, y2=y + side, width=0.25)
        yield Line(x1=x, y1=y + side, x2=x + side, y2=y, width=0.25)
        yield from self._words("keep empty", x + self.block + GAP / 2, row)

    def _wire(self, pin: PinPlan, row: Rectangle) -> Iterator[Shape]:
        """The head as on the wire's flag: what comes before the code letter, its block, and what follows it."""
        x, room = self.head_x, self.far_x - GAP - self.head_x
        function = self.plate.netlist.functions[pin.function]
        width = self.block * (0.95 + 0.4 * max(0, len(function.code) - 1))
        if pin.stem:
            stem = self._line(pin.stem, room - width - GAP / 2 - (2 if pin.mark else 0), bold=True)
            if stem:
                yield stem.at(x, self._baseline(row))
                x += stem.width + GAP / 2
        yield from code_block(
            function, Rectangle(x, row.y + (row.height - self.block) / 2, width, self.block), self.look
        )
        x += width + GAP / 3
        mark = self._line(pin.mark, self.head_x + room - x, bold=True) if pin.mark else None
        if mark:
            yield mark.at(x, self._baseline(row))

    def _far_ends(self, pin: PinPlan) -> list[str]:
        """Where the wires go that land on the pin here."""
        return [_far(wire, self.plate.plug.id, self.plate.board) for wire in pin.on(self.plate.board)]

    def _words(self, text: str, x: float, row: Rectangle, *, colour: str = "#000000") -> Iterator[Shape]:
        line = self._line(text, self.box.right - x)
        if line:
            yield line.at(x, self._baseline(row), colour=colour)

    def _line(self, text: str, width: float, *, bold: bool = False) -> Fitted | None:
        if bold:
            return self.lettering.line(text, width=width, largest=self.cap, face=BOLD)
        return self.lettering.line(text, width=width, largest=self.cap)

    def _baseline(self, row: Rectangle) -> float:
        return row.y + (row.height + self.cap) / 2


def plates(netlist: Netlist, plug: PlugPlan, board: str, cell: CellSize) -> list[Plate]:
    """As few labels as hold all pins legibly, each with as near as may be as many."""
    body = cell.height - 2 * MARGIN - HEADER - GAP - HEADINGS - FOOT
    most = max(1, floor(body / LEAST_ROW + 1e-9)) * _columns(cell)
    count = ceil(len(plug.pins) / most)
    cuts = [round(len(plug.pins) * index / count) for index in range(count + 1)]
    parts = [plug.pins[start:stop] for start, stop in pairwise(cuts)]
    rows = ceil(max(map(len, parts)) / _columns(cell))
    return [
        Plate(netlist=netlist, plug=plug, board=board, pins=part, index=index, count=count, rows=rows, cell=cell)
        for index, part in enumerate(parts, 1)
    ]


def _columns(cell: CellSize) -> int:
    return max(1, floor((cell.width - 2 * MARGIN + COLUMN_GAP) / (LEAST_COLUMN + COLUMN_GAP) + 1e-9))


def _far(wire: Wire, plug: str, board: str) -> str:
    ends = [end for end in wire.ends if not (end.kind is EndKind.PIN and (end.thing, end.board) == (plug, board))]
    return ends[0].shown


def arrow(x: float, y: float) -> Iterator[Shape]:
    """To the right, 3 mm long, its middle at y."""
    yield Line(x1=x, y1=y, x2=x + 2, y2=y, width=0.35)
    yield Outline(runs=(((x + 3, y), (x + 1.8, y - 0.85), (x + 1.8, y + 0.85)),), closed=True, fill="#000000")
