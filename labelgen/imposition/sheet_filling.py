"""Puts labels into the cells of a label sheet, in order, from a chosen cell on."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from math import floor

from labelgen.imposition.cut_marks import RULE_HEIGHT, check_rule, cut_line, note, rule_width
from labelgen.imposition.ink import ink_of
from labelgen.imposition.sheet_grid import FITS_WITHIN, holds, near_edge_problem, stocks_that_hold
from labelgen.imposition.sheet_margins import margins
from labelgen.imposition.used_cells import used_cells_mark, used_cells_text
from labelgen.lengths import Rectangle
from labelgen.model.correction import UNCORRECTED, Correction
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.sheet import Placed, Sheet, Stock
from labelgen.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class _Filling:
    """What is the same for every sheet."""

    start: int
    pages: int
    correction: Correction


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
    correction: Correction = UNCORRECTED,
    stocks: Sequence[Stock] = (),
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """The sheets that hold the drawings, in their order, row by row from cell `start` (from 1) of the first sheet.

    Equal small drawings share a cell, with cut lines between them: those that follow one another, or all of a size
    where that takes fewer sheets. Nothing shares a round cell. `correction`: by which the sheets will be painted; a
    label that it moves into the paper's edge is told. `stocks`: those that a hint may name. Of a sheet that was begun
    (`start`), a small picture in its margin says which cells are used. Codes: label-too-large, near-paper-edge.
    ValueError: no cell `start`.
    """
    if not 1 <= start <= stock.count:
        raise ValueError(f"{stock.id} has no cell {start}")
    fitting = [d for d in drawings if holds(stock, d.width, d.height)]
    problems = _too_large([d for d in drawings if not holds(stock, d.width, d.height)], stock, stocks)
    cells = _cells(fitting, stock, start)
    filling = _Filling(start=start, pages=_pages(len(cells), stock, start), correction=correction)
    sheets = []
    for page in range(filling.pages):
        first = max(0, page * stock.count - (start - 1))
        last = (page + 1) * stock.count - (start - 1)
        offset = start - 1 if page == 0 else 0
        on_page = {offset + i: cell for i, cell in enumerate(cells[first:last])}
        sheets.append(_sheet(on_page, stock, filling, page))
    return tuple(sheets), problems + _near_edge(cells, sheets, stock, filling)


def begun(drawings: Sequence[Drawing], stock: Stock, start: int) -> str:
    """A picture in letters of the cells that are used of a sheet that was begun; empty for a new one."""
    fitting = [d for d in drawings if holds(stock, d.width, d.height)]
    cells = _cells(fitting, stock, start) if start > 1 else []
    return used_cells_text(stock, start, len(cells)) if cells else ""


def _pages(cells: int, stock: Stock, start: int) -> int:
    return -(-(cells + start - 1) // stock.count) if cells else 0


def _cells(drawings: Sequence[Drawing], stock: Stock, start: int) -> list[_Cell]:
    """The drawings as they come, or with those of equal size together where that takes fewer sheets."""
    as_given = _shared(drawings, stock)
    sizes = list(dict.fromkeys((d.width, d.height) for d in drawings))
    grouped = _shared(sorted(drawings, key=lambda d: sizes.index((d.width, d.height))), stock)
    return min((as_given, grouped), key=lambda cells: _pages(len(cells), stock, start))


def _shared(drawings: Sequence[Drawing], stock: Stock) -> list[_Cell]:
    cells = []
    for (width, height), equal in groupby(drawings, key=lambda d: (d.width, d.height)):
        group = tuple(equal)
        whole = stock.shape == "round"
        columns = 1 if whole else max(1, floor((stock.width + FITS_WITHIN) / width))
        rows = 1 if whole else max(1, floor((stock.height + FITS_WITHIN) / height))
        step = columns * rows
        cells += [_Cell(drawings=group[i : i + step], columns=columns, rows=rows) for i in range(0, len(group), step)]
    return cells


def _sheet(cells: dict[int, _Cell], stock: Stock, filling: _Filling, page: int) -> Sheet:
    placed: list[Placed] = []
    marks: list[Shape] = []
    for index, cell in cells.items():
        at = stock.cell(index)
        for part, drawing in zip(_parts(at, cell), cell.drawings, strict=False):
            x, y = _corner(part, drawing.width, drawing.height)
            placed.append(Placed(x=x, y=y, drawing=drawing))
        marks += _cuts(at, cell)
    marks += _margin_marks(stock, f"sheet {page + 1} of {filling.pages}")
    if page == 0 and filling.start > 1:
        marks += used_cells_mark(stock, range(filling.start - 1, filling.start - 1 + len(cells)))
    return Sheet(width=stock.paper_width, height=stock.paper_height, placed=tuple(placed), marks=tuple(marks))


@lru_cache(maxsize=1024)
def _corner(part: Rectangle, width: float, height: float) -> tuple[float, float]:
    """Of a label in the middle of its part: the same numbers on every sheet."""
    return part.x + (part.width - width) / 2, part.y + (part.height - height) / 2


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


def _margin_marks(stock: Stock, page_name: str) -> Iterator[Shape]:
    """The check rule and the sheet's name, in margins that have room for them."""
    free = [margin for margin in margins(stock) if margin.depth >= RULE_HEIGHT - 1e-9]
    if not free:
        return
    width = rule_width()
    first = free[0]
    where = first.near + (first.depth - RULE_HEIGHT) / 2
    if first.across:
        x, y = (stock.paper_width - width) / 2, where
    else:
        x, y = where, (stock.paper_height - width) / 2
    yield from check_rule(x, y, upright=not first.across)
    named = [margin for margin in free[1:] if margin.across]
    if named:
        baseline = named[0].near + (named[0].depth + RULE_HEIGHT) / 2 - 0.4
        yield note(f"{stock.id} – {page_name}", stock.paper_width / 2, baseline, anchor="middle")


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


def _near_edge(cells: Sequence[_Cell], sheets: Sequence[Sheet], stock: Stock, filling: _Filling) -> list[Problem]:
    """One caution for all the cells in which ink comes too near to the paper's edge."""
    safe = Rectangle(0, 0, stock.paper_width, stock.paper_height).inset(stock.edge)
    placed = iter([p for sheet in sheets for p in sheet.placed])
    found: dict[int, Drawing] = {}
    for index, cell in enumerate(cells):
        for drawing in cell.drawings:
            at = next(placed)
            if safe.contains(_corrected(at, Rectangle(0, 0, drawing.width, drawing.height), filling.correction)):
                continue  # and so does whatever is painted on it
            ink = _painted(at, filling.correction)
            if ink is not None and not safe.contains(ink):
                found.setdefault((filling.start - 1 + index) % stock.count + 1, drawing)
    numbers = sorted(found)
    return [near_edge_problem(stock, numbers, found[numbers[0]].place)] if numbers else []


def _painted(placed: Placed, correction: Correction) -> Rectangle | None:
    """Where the ink of a label is told to be."""
    ink = ink_of(placed.drawing)
    return None if ink is None else _corrected(placed, ink, correction)


def _corrected(placed: Placed, ink: Rectangle, correction: Correction) -> Rectangle:
    """A part of a label where it comes to lie on the paper."""
    x, y = correction.at(placed.x + ink.x, placed.y + ink.y)
    right, bottom = correction.at(placed.x + ink.right, placed.y + ink.bottom)
    return Rectangle(x, y, right - x, bottom - y)
