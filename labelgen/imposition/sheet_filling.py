"""Puts labels into the cells of a label sheet, in order, from a chosen cell on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import floor

from labelgen.imposition.cut_marks import (
    PRINTABLE_EDGE,
    RULE_HEIGHT,
    check_rule,
    cut_line,
    note,
    rule_width,
)
from labelgen.imposition.ink import ink_of
from labelgen.imposition.sheet_grid import FITS_WITHIN, holds, stocks_that_hold
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.sheet import Placed, Sheet, Stock
from labelgen.problems import Problem

CLEAR_OF_CELLS = 0.6
"""Marks in the margin keep this far from the labels, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Cell:
    """The drawings of one cell, in parts row by row."""

    drawings: tuple[Drawing, ...]
    columns: int
    rows: int


def fill(
    drawings: Sequence[Drawing],
    stock: Stock,
    *,
    start: int = 1,
    scale: float = 1.0,
    shift: tuple[float, float] = (0.0, 0.0),
    stocks: Sequence[Stock] = (),
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """The sheets that hold the drawings, in their order, row by row from cell `start` (from 1) of the first sheet.

    Equal small drawings that follow one another share a cell, with cut lines between them. What is in a cell moves by
    `shift` + (`scale` - 1) × the cell's place on the paper, to follow a printer that stretches or shifts.
    `stocks`: those that a hint may name. Codes: label-too-large, near-paper-edge. ValueError: no cell `start`.
    """
    if not 1 <= start <= stock.count:
        raise ValueError(f"{stock.id} has no cell {start}")
    fitting = [d for d in drawings if holds(stock, d.width, d.height)]
    problems = _too_large([d for d in drawings if not holds(stock, d.width, d.height)], stock, stocks)
    cells = _shared(fitting, stock)
    pages = -(-(len(cells) + start - 1) // stock.count) if cells else 0
    sheets = []
    for page in range(pages):
        first = max(0, page * stock.count - (start - 1))
        last = (page + 1) * stock.count - (start - 1)
        offset = start - 1 if page == 0 else 0
        on_page = {offset + i: cell for i, cell in enumerate(cells[first:last])}
        sheets.append(_sheet(on_page, stock, scale, shift, f"sheet {page + 1} of {pages}"))
    return tuple(sheets), problems + _near_edge(cells, sheets, stock, start)


def _shared(drawings: Sequence[Drawing], stock: Stock) -> list[_Cell]:
    cells = []
    for (width, height), equal in groupby(drawings, key=lambda d: (d.width, d.height)):
        group = tuple(equal)
        columns = max(1, floor((stock.width + FITS_WITHIN) / width))
        rows = max(1, floor((stock.height + FITS_WITHIN) / height))
        step = columns * rows
        cells += [_Cell(drawings=group[i : i + step], columns=columns, rows=rows) for i in range(0, len(group), step)]
    return cells


def _sheet(cells: dict[int, _Cell], stock: Stock, scale: float, shift: tuple[float, float], page_name: str) -> Sheet:
    placed: list[Placed] = []
    marks: list[Shape] = []
    for index, cell in cells.items():
        at = stock.cell(index)
        x = at.x + shift[0] + (scale - 1) * at.x
        y = at.y + shift[1] + (scale - 1) * at.y
        moved = Rectangle(x, y, at.width, at.height)
        for part, drawing in zip(_parts(moved, cell), cell.drawings, strict=False):
            inset_x, inset_y = (part.width - drawing.width) / 2, (part.height - drawing.height) / 2
            placed.append(Placed(x=part.x + inset_x, y=part.y + inset_y, drawing=drawing))
        marks += _cuts(moved, cell)
    marks += _margin_marks(stock, shift, page_name)
    return Sheet(width=stock.paper_width, height=stock.paper_height, placed=tuple(placed), marks=tuple(marks))


def _parts(at: Rectangle, cell: _Cell) -> list[Rectangle]:
    width, height = at.width / cell.columns, at.height / cell.rows
    return [
        Rectangle(at.x + column * width, at.y + row * height, width, height)
        for row in range(cell.rows)
        for column in range(cell.columns)
    ]


def _cuts(at: Rectangle, cell: _Cell) -> Iterator[Shape]:
    """The lines between the parts that are used; right across where the parts on both sides are."""
    parts = _parts(at, cell)[: len(cell.drawings)]
    used_rows = -(-len(parts) // cell.columns)
    across = parts[-1].right if used_rows == 1 else at.right
    for row in range(1, min(used_rows, cell.rows - 1) + 1):
        y = at.y + row * at.height / cell.rows
        full = row * cell.columns <= len(parts)
        yield cut_line(at.x, y, across if full or used_rows == 1 else parts[-1].right, y)
    for column in range(1, cell.columns):
        below = [part for i, part in enumerate(parts) if i % cell.columns == column - 1]
        if below:
            yield cut_line(below[0].right, at.y, below[0].right, below[-1].bottom)


def _margin_marks(stock: Stock, shift: tuple[float, float], page_name: str) -> Iterator[Shape]:
    """The check rule and the sheet's name, in margins that have room for them."""
    free = _margins(stock)
    if not free:
        return
    width = rule_width()
    where, across = free[0]
    if across:
        x, y = (stock.paper_width - width) / 2, where
    else:
        x, y = where, (stock.paper_height - width) / 2
    yield from check_rule(x + shift[0], y + shift[1], upright=not across)
    named = [at for at, is_across in free[1:] if is_across]
    if named:
        middle, baseline = stock.paper_width / 2 + shift[0], named[0] + RULE_HEIGHT - 0.4 + shift[1]
        yield note(f"{stock.id} – {page_name}", middle, baseline, anchor="middle")


def _margins(stock: Stock) -> list[tuple[float, bool]]:
    """Where a strip of the rule's height fits: (its top, across) or (its left, not across)."""
    last = stock.cell(stock.count - 1)
    sides = [
        (PRINTABLE_EDGE, stock.top - CLEAR_OF_CELLS, True),
        (last.bottom + CLEAR_OF_CELLS, stock.paper_height - PRINTABLE_EDGE, True),
        (PRINTABLE_EDGE, stock.left - CLEAR_OF_CELLS, False),
        (last.right + CLEAR_OF_CELLS, stock.paper_width - PRINTABLE_EDGE, False),
    ]
    return [((low + high - RULE_HEIGHT) / 2, across) for low, high, across in sides if high - low >= RULE_HEIGHT - 1e-9]


def _too_large(drawings: Sequence[Drawing], stock: Stock, stocks: Sequence[Stock]) -> list[Problem]:
    """One problem for each size, at the first drawing of it."""
    by_size: dict[tuple[float, float], list[Drawing]] = {}
    for drawing in drawings:
        by_size.setdefault((drawing.width, drawing.height), []).append(drawing)
    return [_too_large_problem(group, stock, stocks) for group in by_size.values()]


def _too_large_problem(group: Sequence[Drawing], stock: Stock, stocks: Sequence[Stock]) -> Problem:
    first = group[0]
    others = "" if len(group) == 1 else f" and {len(group) - 1} more of that size"
    do, size = ("does" if len(group) == 1 else "do"), f"{first.width:.1f} × {first.height:.1f} mm"
    would = [s.id for s in stocks_that_hold(first.width, first.height, stocks, stock.paper)[:3]]
    return Problem(
        code="label-too-large",
        message=f"{first.name} ({size}){others} {do} not fit the labels of {stock.id}, "
        f"which are {stock.width:.1f} × {stock.height:.1f} mm",
        hint=f"Sheets that would do: {', '.join(would)}." if would else "No sheet that is known has labels so large.",
        place=first.place,
    )


def _near_edge(cells: Sequence[_Cell], sheets: Sequence[Sheet], stock: Stock, start: int) -> list[Problem]:
    """One caution for all the cells in which ink comes too near to the paper's edge."""
    safe = Rectangle(0, 0, stock.paper_width, stock.paper_height).inset(PRINTABLE_EDGE)
    placed = iter([p for sheet in sheets for p in sheet.placed])
    found: dict[int, Drawing] = {}
    for index, cell in enumerate(cells):
        for drawing in cell.drawings:
            at, ink = next(placed), ink_of(drawing)
            if ink and not safe.contains(Rectangle(at.x + ink.x, at.y + ink.y, ink.width, ink.height)):
                found.setdefault((start - 1 + index) % stock.count + 1, drawing)
    if not found:
        return []
    numbers = sorted(found)
    shown = ", ".join(map(str, numbers[:8])) + (f" and {len(numbers) - 8} more" if len(numbers) > 8 else "")
    return [
        Problem(
            code="near-paper-edge",
            message=f"on {stock.id}, the print of {'label' if len(numbers) == 1 else 'labels'} {shown} comes within "
            f"{PRINTABLE_EDGE:g} mm of the paper's edge, where many printers print nothing",
            hint=f"Print the test page first (`labelgen sheets {stock.id}`), or choose a sheet with wider margins.",
            place=found[numbers[0]].place,
        )
    ]
