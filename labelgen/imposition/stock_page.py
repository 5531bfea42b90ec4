"""A page to hold against a sheet of labels before one is spent: every cell's outline and number, and two rules.

From what its rules measure, and how far its first cross is off, follows what the printer needs (`model/correction`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from labelgen.imposition.cut_marks import note
from labelgen.imposition.page_rules import RulePlaces, across_rule, down_rule, rule_length
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Corner, Line, Outline, Shape
from labelgen.model.sheet import Sheet, Stock

CROSS_ARM = 1.5
LINE = 0.15
NUMBER = Rectangle(-CROSS_ARM, -2.4, 2 * CROSS_ARM + 3, CROSS_ARM + 2.4)
"""What a cross and its number take up, about the middle of its cell."""
OVAL_CORNERS = 120
TEXT_ROOM = 150.0
"""On narrower paper there is no room beside the rule to say what to do with it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StockPage:
    """The page, and what should be measured on it in mm if the printer were true."""

    sheet: Sheet
    rules: tuple[int, int]
    """How long the rules across and down are."""
    cross: Corner
    """Where the first cross stands, from the paper's left and upper edge."""


def stock_page(stock: Stock) -> StockPage:
    """One page on the stock's paper: hold it and a label sheet against a window, and measure both rules."""
    cells = [stock.cell(index) for index in range(stock.count)]
    rules = (rule_length(stock.paper_width, stock.edge), rule_length(stock.paper_height, stock.edge))
    cross = _middle(cells[0])
    places = RulePlaces(stock.paper_width, stock.paper_height, [_taken(cell) for cell in cells])
    words = _words(stock, rules, cross) if stock.paper_width >= TEXT_ROOM else ()
    marks = [shape for number, cell in enumerate(cells, 1) for shape in _cell(cell, number, stock)]
    marks += _rules(places, rules, words)
    sheet = Sheet(width=stock.paper_width, height=stock.paper_height, marks=tuple(marks))
    return StockPage(sheet=sheet, rules=rules, cross=cross)


def _rules(places: RulePlaces, rules: tuple[int, int], words: Sequence[str]) -> Iterator[Shape]:
    across, down = places.across(rules[0], len(words)), places.down(rules[1])
    for ground in (across.ground, down.ground):
        yield Box(x=ground.x, y=ground.y, width=ground.width, height=ground.height, fill="#ffffff")
    yield from across_rule(across, words, gap=down.ground)
    yield from down_rule(down, gap=across.ground)


def _words(stock: Stock, rules: tuple[int, int], cross: Corner) -> tuple[str, ...]:
    return (
        f"{stock.id}, at actual size: this rule is {rules[0]} mm long, the one down the page {rules[1]} mm",
        f"cross 1 stands {cross[0]:.1f} mm from the left edge of the paper, {cross[1]:.1f} mm from the upper one",
        f"if not: labelgen sheets {stock.id} --measured {rules[0]}x{rules[1]} --off 0,0 "
        "with your figures (off: to the right, down)",
    )


def _middle(cell: Rectangle) -> Corner:
    return cell.x + cell.width / 2, cell.y + cell.height / 2


def _taken(cell: Rectangle) -> Rectangle:
    x, y = _middle(cell)
    return Rectangle(x + NUMBER.x, y + NUMBER.y, NUMBER.width, NUMBER.height)


def _cell(cell: Rectangle, number: int, stock: Stock) -> Iterator[Shape]:
    """The outline, the end of the white on a self-laminating label, and a numbered cross at the middle."""
    x, y = _middle(cell)
    yield _outline(cell, stock)
    if stock.print_zone is not None:
        white = cell.y + stock.print_zone
        yield Line(x1=cell.x, y1=white, x2=cell.right, y2=white, width=LINE, dash=(1.0, 0.8))
    yield Line(x1=x - CROSS_ARM, y1=y, x2=x + CROSS_ARM, y2=y, width=LINE)
    yield Line(x1=x, y1=y - CROSS_ARM, x2=x, y2=y + CROSS_ARM, width=LINE)
    yield note(str(number), x + 0.6, y - 0.6)


def _outline(cell: Rectangle, stock: Stock) -> Shape:
    x, y = _middle(cell)
    half_width, half_height = cell.width / 2, cell.height / 2
    if stock.shape == "round" and cell.width == cell.height:
        return Circle(x=x, y=y, radius=half_width, stroke="#000000", stroke_width=LINE)
    if stock.shape == "round":
        turns = [2 * pi * step / OVAL_CORNERS for step in range(OVAL_CORNERS)]
        oval = tuple((x + half_width * cos(turn), y + half_height * sin(turn)) for turn in turns)
        return Outline(runs=(oval,), closed=True, stroke="#000000", stroke_width=LINE)
    radius = min(stock.corner, half_width, half_height)
    return Box(
        x=cell.x, y=cell.y, width=cell.width, height=cell.height, stroke="#000000", stroke_width=LINE, radius=radius
    )
