"""The blocks of a printed list: titles, paragraphs, tables with bands. Each gives pieces to put on pages. Sizes: mm."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor, inf

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.cells import NOTHING, Align, Cell, Words
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.text_fitting import LINE_HEIGHT, break_lines, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.typefaces import BOLD, REGULAR

TITLE_CAP, TITLE_HEIGHT = 4.2, 11.5
BAND_CAP, BAND_HEIGHT, BAND_FILL = 2.9, 7.4, "#e2e2e2"
ROW_AIR = 0.75
"""Above and below the capitals of a row, in cap heights: room to tick by hand."""
GAP = 3.0
"""Between columns."""
ENTRY_GAP = 7.0
"""Between the entries of a grid."""
NOTE_AIR = 2.0
"""Above a note's first capitals."""
INDENT = 1.6
"""Cells stand this far inside the table's edges."""
RULE = "#8a8a8a"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    heading: str
    align: Align = "start"
    grows: bool = False
    """It takes what room the others leave; what is too long for it is broken."""
    most: float = inf
    """How wide it gets at most; what is too long for it is broken."""
    lines: int = 8
    """On how many lines at most: what takes more is a sentence, not a name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    cells: tuple[Cell, ...]
    stop: str = ""
    keeps: bool = False
    """It stays on one page with the row behind it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A heading over some rows of a table, and what is said at its right."""

    text: str
    right: str = ""
    stop: str = ""
    bookmark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A sentence over the whole width of a table, below a band."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How large the list is set, how wide it is, and who is told what does not fit."""

    cap: float
    left: float
    width: float
    lettering: Lettering
    patient: bool = False
    """A cell has as many lines as it takes, whatever its column says."""

    @property
    def row_height(self) -> float:
        return self.cap * (1 + 2 * ROW_AIR)

    @property
    def right(self) -> float:
        return self.left + self.width


def title(text: str, setting: Setting) -> Piece:
    """A heading over a part of the list."""
    cap = max(TITLE_CAP, setting.cap)

    def paint(y: float) -> list[Shape]:
        fitted = fit(text, width=setting.width, largest=cap, smallest=setting.lettering.smallest, face=BOLD)
        return [fitted.at(setting.left, y + TITLE_HEIGHT - 3.6)] if fitted else []

    return Piece(height=TITLE_HEIGHT, paint=paint, keeps=True)


def space(height: float) -> Piece:
    return Piece(height=height, paint=lambda _: ())


def paragraph(text: str, setting: Setting, *, bold: bool = False, keeps: bool = False) -> Piece:
    """Words over the whole width, broken at blanks."""
    face = BOLD if bold else REGULAR
    lines = break_lines(text, width=setting.width, cap=setting.cap, face=face)
    step = LINE_HEIGHT * setting.cap

    def paint(y: float) -> list[Shape]:
        fitted = [Words(text=line, bold=bold).lines(setting.cap, setting.width) for line in lines]
        return [line.at(setting.left, y + setting.cap + i * step) for i, (line, *_) in enumerate(fitted)]

    return Piece(height=len(lines) * step + 0.8 * setting.cap, paint=paint, keeps=keeps)


def table(columns: Sequence[Column], rows: Sequence[Row | Band | Note], setting: Setting) -> Iterator[Piece]:
    """A table whose headings, and whose band, are said again where it goes on on another page; no rows, no headings."""
    cells = [row.cells for row in rows if isinstance(row, Row)]
    spans = _spans(columns, cells, setting)
    head = (_heading(columns, spans, setting),) if cells and any(column.heading for column in columns) else ()
    yield from head
    again = head
    for row in rows:
        if isinstance(row, Note):
            yield _note(row, setting)
        elif isinstance(row, Band):
            yield _band(row, setting, head)
            again = (*head, _band(Band(text=f"{row.text}, continued"), setting, ()))
        else:
            yield _row(row, columns, spans, setting, again)


def grid(
    band: Band, headings: Sequence[Column], entries: Sequence[Sequence[Cell]], setting: Setting
) -> Iterator[Piece]:
    """Under a band, short entries of some cells each: as many side by side as there is room for, left to right.

    Without entries, nothing.
    """
    if not entries:
        return
    widths = [max(entry[place].width(setting.cap) for entry in entries) for place in range(len(headings))]
    room = setting.width - 2 * INDENT + ENTRY_GAP
    entry_width = sum(widths) + (len(widths) - 1) * GAP / 2 + ENTRY_GAP
    across = max(1, floor(room / entry_width + 1e-9))
    spans = [span for index in range(across) for span in _entry_spans(widths, index * room / across, setting)]
    yield _band(band, setting, ())
    again = (_band(Band(text=f"{band.text}, continued"), setting, ()),)
    for first in range(0, len(entries), across):
        cells = [cell for entry in entries[first : first + across] for cell in entry]
        row = Row(cells=(*cells, *[NOTHING] * (len(spans) - len(cells))))
        yield _row(row, [*headings] * across, spans, setting, again)


Span = tuple[float, float]
"""Where a column starts, and how wide it is."""


def _entry_spans(widths: Sequence[float], along: float, setting: Setting) -> Iterator[Span]:
    x = setting.left + INDENT + along
    for width in widths:
        yield x, width
        x += width + GAP / 2


def _spans(columns: Sequence[Column], rows: Sequence[Sequence[Cell]], setting: Setting) -> list[Span]:
    natural = [
        min(column.most, max((_heading_width(column, setting), *(row[i].width(setting.cap) for row in rows))))
        for i, column in enumerate(columns)
    ]
    room = setting.width - 2 * INDENT - GAP * (len(columns) - 1)
    growing = [i for i, column in enumerate(columns) if column.grows]
    rest = room - sum(natural[i] for i in range(len(columns)) if i not in growing)
    widths = {**dict(enumerate(natural)), **_shared({i: natural[i] for i in growing}, rest)}
    spans, x = [], setting.left + INDENT
    for i in range(len(columns)):
        spans.append((x, widths[i]))
        x += widths[i] + GAP
    return spans


def _heading_width(column: Column, setting: Setting) -> float:
    return _heading_words(column, setting).width(setting.cap)


def _heading_words(column: Column, setting: Setting) -> Words:
    """Headings are ours, so they are said in the trade words that are wanted."""
    return Words(text=setting.lettering.says(column.heading), bold=True)


def _shared(natural: dict[int, float], room: float) -> dict[int, float]:
    """Each column what it needs while there is room; what is over, or lacks, is shared evenly."""
    widths: dict[int, float] = {}
    for column in sorted(natural, key=lambda column: natural[column]):
        fair = room / (len(natural) - len(widths))
        widths[column] = min(natural[column], fair)
        room -= widths[column]
    over = room / len(natural) if natural else 0
    return {column: width + over for column, width in widths.items()}


def _heading(columns: Sequence[Column], spans: Sequence[Span], setting: Setting) -> Piece:
    height = setting.row_height

    def paint(y: float) -> list[Shape]:
        shapes: list[Shape] = []
        for column, (x, width) in zip(columns, spans, strict=True):
            shapes += _heading_words(column, setting).shapes(Rectangle(x, y, width, height), setting.cap, column.align)
        return [*shapes, _rule(setting, y + height, "#000000", 0.3)]

    return Piece(height=height, paint=paint, keeps=True)


def _band(band: Band, setting: Setting, again: tuple[Piece, ...]) -> Piece:
    """Its text is broken over lines when it is long."""
    cap = max(BAND_CAP, setting.cap)
    right = Words(text=band.right)
    width = setting.width - 2 * INDENT - (right.width(setting.cap) + GAP if band.right else 0)
    words = Words(text=band.text, bold=True)
    height = BAND_HEIGHT + (len(words.lines(cap, width)) - 1) * LINE_HEIGHT * cap

    def paint(y: float) -> list[Shape]:
        line = Rectangle(setting.left + INDENT, y, width, BAND_HEIGHT)
        whole = Rectangle(setting.left + INDENT, y, setting.width - 2 * INDENT, BAND_HEIGHT)
        return [
            Box(x=setting.left, y=y, width=setting.width, height=height, fill=BAND_FILL),
            *words.shapes(line, cap, "start"),
            *right.shapes(whole, setting.cap, "end"),
        ]

    return Piece(height=height, paint=paint, keeps=True, again=again, stop=band.stop, bookmark=band.bookmark)


def _note(note: Note, setting: Setting) -> Piece:
    inside = replace(setting, left=setting.left + INDENT, width=setting.width - 2 * INDENT)
    words = paragraph(note.text, inside)

    def paint(y: float) -> Sequence[Shape]:
        return words.paint(y + NOTE_AIR)

    return Piece(height=words.height + NOTE_AIR, paint=paint, keeps=True)


def _row(
    row: Row, columns: Sequence[Column], spans: Sequence[Span], setting: Setting, again: tuple[Piece, ...]
) -> Piece:
    lines = 1
    for cell, column, (_, width) in zip(row.cells, columns, spans, strict=True):
        if isinstance(cell, Words):
            needed = len(cell.lines(setting.cap, width))
            if needed > column.lines and not setting.patient:
                setting.lettering.too_long(cell.text)
            else:
                lines = max(lines, needed)
    height = setting.row_height + (lines - 1) * LINE_HEIGHT * setting.cap

    def paint(y: float) -> list[Shape]:
        shapes: list[Shape] = []
        for cell, column, (x, width) in zip(row.cells, columns, spans, strict=True):
            shapes += cell.shapes(Rectangle(x, y, width, setting.row_height), setting.cap, column.align)
        return [*shapes, _rule(setting, y + height, RULE, 0.15)]

    return Piece(height=height, paint=paint, again=again, stop=row.stop, keeps=row.keeps)


def _rule(setting: Setting, y: float, colour: str, width: float) -> Line:
    return Line(x1=setting.left, y1=y, x2=setting.right, y2=y, width=width, colour=colour)
