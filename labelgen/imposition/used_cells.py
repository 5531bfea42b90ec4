"""Pictures of a sheet that was begun: which of its cells are gone, which are printed now, which are left."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.imposition.cut_marks import NOTE_CAP, note, rule_width
from labelgen.imposition.sheet_margins import margins
from labelgen.model.drawing import Box, Shape
from labelgen.model.sheet import Stock
from labelgen.typefaces import text_width

LEAST_HEIGHT, MOST_HEIGHT = 3.0, 6.0
"""mm: smaller, its cells run into one another; larger, it would draw the eye from the labels."""
GONE, NOW, LEFT = ".", "#", "o"
"""How a cell is shown on a screen, in letters that every terminal has."""
MOST_SPACED = 18
"""Columns of labels that two sheets side by side can have with blanks between, on 80 columns of a terminal."""
_LINE, _GAP = 0.1, 1.0


def used_cells_mark(stock: Stock, now: range) -> Iterator[Shape]:
    """The sheet in small, with the cells of `now` (from 0) in black, and their numbers; in its head or foot margin.

    Nothing where neither has room for it beside the check rule: a picture must never get onto a label.
    """
    numbers = f"labels {now.start + 1} to {now.stop}" if len(now) > 1 else f"label {now.start + 1}"
    words = note(f"{numbers} of {stock.count}", 0, 0)
    for margin in margins(stock):
        height = min(margin.depth, MOST_HEIGHT)
        small = height / stock.paper_height
        x, y = max(stock.edge, stock.left), margin.near + (margin.depth - height) / 2
        words_left = x + stock.paper_width * small + _GAP
        right = words_left + text_width(words.text, words.face, words.size)
        if margin.across and height >= LEAST_HEIGHT and right < (stock.paper_width - rule_width()) / 2 - _GAP:
            yield from _small_sheet(stock, now, (x, y), small)
            yield note(words.text, words_left, y + (height + NOTE_CAP) / 2)
            return


def _small_sheet(stock: Stock, now: range, at: tuple[float, float], small: float) -> Iterator[Shape]:
    x, y = at
    width, height = stock.paper_width * small, stock.paper_height * small
    yield Box(x=x, y=y, width=width, height=height, stroke="#000000", stroke_width=_LINE)
    for index in now:
        cell = stock.cell(index)
        yield Box(
            x=x + cell.x * small,
            y=y + cell.y * small,
            width=cell.width * small,
            height=cell.height * small,
            fill="#000000",
        )


def used_cells_text(stock: Stock, start: int, cells: int) -> str:
    """The first and the last of the sheets that so many cells from `start` (from 1) on take, as their labels lie.

    A letter a label: `.` gone, `#` printed now, `o` still to be had; narrow enough for a terminal of 80 columns.
    """
    end = start - 1 + cells
    pages = -(-end // stock.count)
    sheets = [_Begun(name=f"sheet 1, from label {start}", now=range(start - 1, min(end, stock.count)))]
    if pages > 1:
        last = end - (pages - 1) * stock.count
        sheets.append(_Begun(name=f"sheet {pages}, to label {last}", now=range(last)))
    columns = [[sheet.name, *_rows(stock, sheet.now)] for sheet in sheets]
    widths = [max(map(len, column)) for column in columns]
    lines = [
        "    ".join(line.ljust(width) for line, width in zip(row, widths, strict=True)).rstrip()
        for row in zip(*columns, strict=True)
    ]
    key = [f"{letter} {what}" for letter, what in ((GONE, "gone"), (NOW, "printed now"), (LEFT, "left over"))]
    return "\n".join([*lines, "   ".join(key)])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Begun:
    name: str
    now: range


def _rows(stock: Stock, now: range) -> Iterator[str]:
    letters = [GONE if n < now.start else NOW if n < now.stop else LEFT for n in range(stock.count)]
    step, between = stock.columns, " " if stock.columns <= MOST_SPACED else ""
    return (between.join(letters[n : n + step]) for n in range(0, stock.count, step))
