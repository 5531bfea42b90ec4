"""A strip's ways in words, as a table on its tag: way, head, and where the wires of either side go."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.tags.text import Part, bridged_to, closing_lines, one_line, other_ends
from labelgen.drawings.text_fitting import LINE_HEIGHT, NARROWEST, Fitted
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.netlist import Side
from labelgen.typefaces import BOLD, REGULAR, face_for, size_for_cap

LARGEST_CAP = 2.6
GAP = 1.6
"""Between columns, mm."""
ROW_AIR = 0.5
"""Above and below the capitals of a row, in cap heights."""
ROW_HEIGHT = 1 + 2 * ROW_AIR
"""Of a row of one line, in cap heights."""
MOST_AIR = 8.0
"""Between the two columns of ends at most, mm: the eye must not lose its row."""
HEADINGS = ("Way", "Wire", "Panel side", "Layout side")
RULE = "#9a9a9a"

Edges = tuple[float, float, float, float]
"""x at which each column starts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A way with its far ends; or, with `words`, what is said of it over the whole width."""

    way: str = ""
    head: str = ""
    panel: tuple[str, ...] = ()
    layout: tuple[str, ...] = ()
    words: str = ""


def words_table(part: Part, box: Rectangle, smallest: float) -> list[Shape] | None:
    """The table at the largest cap height at which it fits the box; None when that would be under `smallest` mm."""
    rows = _rows(part)
    highest = box.height / (len(rows) + 1) / ROW_HEIGHT
    for cap, stretch in _settings(highest, smallest):
        shapes = _Setting(cap=cap, stretch=stretch).table(rows, box)
        if shapes is not None:
            return shapes
    return None


def _settings(highest: float, smallest: float) -> Iterator[tuple[float, float]]:
    """Cap heights up to `highest`, largest first, in natural width; then the smallest one condensed."""
    cap = min(highest, max(LARGEST_CAP, smallest))
    while cap > smallest:
        yield cap, 1.0
        cap *= 0.96
    if highest >= smallest:
        yield from ((smallest, 1.0), (smallest, 0.9), (smallest, NARROWEST))


def _rows(part: Part) -> list[Row]:
    rows = []
    for way in part.ways:
        number = str(way.number)
        panel, layout = (other_ends(part.strip, way, side) for side in (Side.PANEL, Side.LAYOUT))
        if way.state == "taken":
            rows.append(Row(way=number, words=one_line(way.head)))
            rows += [Row(panel=panel, layout=layout)] if panel or layout else []
        elif way.state == "used":
            ends = layout or bridged_to(part, way)
            rows.append(Row(way=number, head=one_line(way.head), panel=panel, layout=ends))
    return rows + [Row(words=line) for line in closing_lines(part)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Setting:
    """One size of type to try."""

    cap: float
    stretch: float

    def table(self, rows: list[Row], box: Rectangle) -> list[Shape] | None:
        edges = self._edges(rows, box)
        if edges is None:
            return None
        shapes = list(self._line([(BOLD, *pair) for pair in zip(HEADINGS, edges, strict=True)], box.y))
        y = box.y + self._height(1)
        for row in rows:
            lines = self._row(row, edges, box.right)
            if lines is None:
                return None
            shapes.append(Line(x1=box.x, y1=y, x2=box.right, y2=y, width=0.12, colour=RULE))
            for index, cells in enumerate(lines):
                shapes += self._line(cells, y + self.cap * (ROW_AIR + LINE_HEIGHT * index))
            y += self._height(len(lines))
        return shapes if y <= box.bottom + 1e-9 else None

    def _height(self, lines: int) -> float:
        """Of a row, up to the rule under it: as much air above its capitals as below."""
        return self.cap * (ROW_HEIGHT + (lines - 1) * LINE_HEIGHT)

    def _line(self, cells: list[tuple[str, str, float]], top: float) -> Iterator[Shape]:
        """Face, text and x of each cell; `top` of their capitals."""
        return (self._set(text, face).at(x, top + self.cap) for face, text, x in cells if text)

    def _row(self, row: Row, edges: Edges, right: float) -> list[list[tuple[str, str, float]]] | None:
        """The cells of each of the row's lines; None when a word is too wide."""
        first, second, third, fourth = edges
        if row.words:
            left = second if row.way else first
            said = self._wrapped(row.words.split(), right - left, " ")
            if said is None:
                return None
            return [[(BOLD, row.way if not index else "", first), (REGULAR, line, left)] for index, line in said]
        panel = dict(self._wrapped(row.panel, fourth - GAP - third, ", ") or ())
        layout = dict(self._wrapped(row.layout, right - fourth, ", ") or ())
        lines = [
            [(REGULAR, panel.get(index, ""), third), (REGULAR, layout.get(index, ""), fourth)]
            for index in range(max(len(panel), len(layout), 1))
        ]
        lines[0] += [(BOLD, row.way, first), (BOLD, row.head, second)]
        return lines

    def _wrapped(self, pieces: Sequence[str], width: float, between: str) -> list[tuple[int, str]] | None:
        """Pieces over numbered lines, none of them broken; None when one is wider than a line."""
        lines: list[str] = []
        for piece in pieces:
            longer = f"{lines[-1]}{between}{piece}" if lines else piece
            if lines and self._width(longer) <= width + 1e-9:
                lines[-1] = longer
            else:
                lines = [*lines[:-1], f"{lines[-1]}{between.rstrip()}", piece] if lines else [piece]
        fits = all(self._width(line) <= width + 1e-9 for line in lines)
        return list(enumerate(lines)) if fits else None

    def _set(self, text: str, face: str) -> Fitted:
        chosen = face_for(text, face)
        return Fitted(text=text, face=chosen, size=size_for_cap(self.cap, chosen), stretch=self.stretch)

    def _width(self, text: str, face: str = REGULAR) -> float:
        return self._set(text, face).width

    def _edges(self, rows: list[Row], box: Rectangle) -> Edges | None:
        """Left edges of the columns; None when an end would be wider than its column."""
        second = box.x + self._widest([HEADINGS[0], *(row.way for row in rows)], BOLD) + GAP
        third = second + self._widest([HEADINGS[1], *(row.head for row in rows)], BOLD) + GAP
        room = box.right - third - GAP
        panel, layout = [row.panel for row in rows], [row.layout for row in rows]
        least = [self._least(HEADINGS[2], panel), self._least(HEADINGS[3], layout)]
        whole = [max(least[0], self._whole(panel)), max(least[1], self._whole(layout))]
        if sum(least) > room:
            return None
        if sum(whole) <= room:
            width = whole[0] + min(MOST_AIR, (room - sum(whole)) / 2)
        else:
            width = least[0] + (room - sum(least)) * (whole[0] - least[0]) / (sum(whole) - sum(least))
        return (box.x, second, third, third + width + GAP)

    def _widest(self, texts: Sequence[str], face: str) -> float:
        return max(self._width(text, face) for text in texts)

    def _least(self, heading: str, cells: list[tuple[str, ...]]) -> float:
        """A column as narrow as its longest end, a comma behind it."""
        ends = [f"{end}," if len(cell) > 1 else end for cell in cells for end in cell]
        return max(self._width(heading, BOLD), self._widest(["", *ends], REGULAR))

    def _whole(self, cells: list[tuple[str, ...]]) -> float:
        """A column in which no line is broken."""
        return self._widest(["", *(", ".join(cell) for cell in cells)], REGULAR)
