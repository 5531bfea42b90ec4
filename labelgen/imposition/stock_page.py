"""A page to hold against a sheet of labels before one is spent: every cell's outline and number, and two rules."""

from collections.abc import Iterator

from labelgen.imposition.cut_marks import RULE_HEIGHT, RULE_LENGTH, check_rule, note
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.sheet import Sheet, Stock

CROSS_ARM_MM = 1.5
LINE_MM = 0.15


def stock_page(stock: Stock) -> Sheet:
    """One page on the stock's paper: hold it and a label sheet against a window, and measure both rules."""
    cells = [shape for index in range(stock.count) for shape in _cell(stock.cell(index), index + 1, stock.corner)]
    cells += [line for index in range(stock.count) for line in _tail(stock.cell(index), stock.print_zone)]
    across = check_rule((stock.paper_width - RULE_LENGTH) / 2, stock.paper_height / 3 - RULE_HEIGHT)
    down = check_rule(stock.paper_width * 2 / 3, (stock.paper_height - RULE_LENGTH) / 2, upright=True)
    return Sheet(width=stock.paper_width, height=stock.paper_height, marks=(*cells, *across, *down))


def _tail(cell: Rectangle, print_zone: float | None) -> Iterator[Shape]:
    """Of a self-laminating label, where the white ends and the clear tail begins."""
    if print_zone is not None:
        y = cell.y + print_zone
        yield Line(x1=cell.x, y1=y, x2=cell.right, y2=y, width=LINE_MM, dash=(1.0, 0.8))


def _cell(cell: Rectangle, number: int, corner: float) -> Iterator[Shape]:
    """The outline, and a numbered cross at the middle."""
    x, y = cell.x + cell.width / 2, cell.y + cell.height / 2
    yield Box(
        x=cell.x,
        y=cell.y,
        width=cell.width,
        height=cell.height,
        stroke="#000000",
        stroke_width=LINE_MM,
        radius=min(corner, cell.width / 2, cell.height / 2),
    )
    yield Line(x1=x - CROSS_ARM_MM, y1=y, x2=x + CROSS_ARM_MM, y2=y, width=LINE_MM)
    yield Line(x1=x, y1=y - CROSS_ARM_MM, x2=x, y2=y + CROSS_ARM_MM, width=LINE_MM)
    yield note(str(number), x + 0.6, y - 0.6)
