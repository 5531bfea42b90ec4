"""The squares of a panel with their numbers, to be shown while it is being drawn, so that nobody counts squares."""

from collections.abc import Iterator

from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.text_fitting import fit
from labelgen.model.drawing import Corner, Line, Shape
from labelgen.typefaces import BOLD

EVERY = 5
"""Every fifth line is heavier and has its number."""
FINE_MM, HEAVY_MM = 0.1, 0.25
CAP_MM = 2.0
_FROM_LINE_MM, _FROM_EDGE_MM = 0.5, 1.0
_LEAST_MM = 2.0
"""Closer lines than this would be a grey area: only every fifth is drawn then."""


def grid_shapes(plan: FasciaPlan) -> Iterator[Shape]:
    """Its lines over the whole panel, faint, and the number of every fifth along all four edges."""
    columns, rows = _lines(plan.width, plan.panel.grid), _lines(plan.height, plan.panel.grid)
    for number, x in columns:
        yield _line(plan, number, (x, 0), (x, plan.height))
    for number, y in rows:
        yield _line(plan, number, (0, y), (plan.width, y))
    for number, x in columns:
        for y in (_FROM_EDGE_MM + CAP_MM, plan.height - _FROM_EDGE_MM):
            yield from _number(plan, number, x + _FROM_LINE_MM, y)
    for number, y in rows:
        for x, anchor in ((_FROM_EDGE_MM, "start"), (plan.width - _FROM_EDGE_MM, "end")):
            yield from _number(plan, number, x, y - _FROM_LINE_MM, anchor=anchor)


def _lines(length: float, square: float) -> list[tuple[int, float]]:
    """Number and place of each line between the edges."""
    step = 1 if square >= _LEAST_MM else EVERY
    return [(n, n * square) for n in range(step, int(length / square - 1e-9) + 1, step)]


def _line(plan: FasciaPlan, number: int, a: Corner, b: Corner) -> Line:
    width = FINE_MM if number % EVERY else HEAVY_MM
    return Line(x1=a[0], y1=a[1], x2=b[0], y2=b[1], width=width, colour=plan.style.grid)


def _number(plan: FasciaPlan, number: int, x: float, y: float, *, anchor: str = "start") -> Iterator[Shape]:
    if number % EVERY:
        return
    fitted = fit(str(number), width=plan.width, largest=CAP_MM, smallest=CAP_MM, face=BOLD)
    if fitted is not None:
        yield fitted.at(x, y, anchor=anchor, colour=plan.style.grid_ink)
