"""Labels in the cells of label sheets: from the first cell that is left, or, after a jam, some of them once more."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.labelling import Cells
from labelgen.making import Job
from labelgen.model.drawing import Drawing
from labelgen.model.sheet import Sheet, Stock
from labelgen.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    drawings: Sequence[Drawing]
    """Those that were placed."""
    pages: tuple[Sheet, ...]
    problems: list[Problem]
    picture: str
    """Of a sheet that was begun."""


def filled(
    job: Job, use: str, stock: Stock, wanted: Sequence[Drawing], *, alike: Sequence[Stock], form: str = ""
) -> Filled:
    """`alike`: stocks that a hint may name; `form`: another name of the use. Problems: as `fill`."""
    from labelgen.imposition.sheet_filling import begun, fill

    cells = job.labelling.again(use)
    if cells is not None:
        as_made, _ = fill(wanted, stock, start=job.labelling.first_made(use, stock))
        wanted = _in_cells(as_made, stock, cells)
    start = job.labelling.start(use, stock, form)
    pages, problems = fill(wanted, stock, start=start, correction=job.correction, stocks=alike)
    job.labelling.used(use, stock, start, pages)
    return Filled(drawings=wanted, pages=pages, problems=problems, picture=begun(wanted, stock, start))


def _in_cells(pages: Sequence[Sheet], stock: Stock, cells: Cells) -> list[Drawing]:
    wanted = range(cells.first - 1, cells.last)
    page = pages[cells.sheet - 1 : cells.sheet]
    return [placed.drawing for sheet in page for placed in sheet.placed if stock.cell_at(*placed.middle) in wanted]
