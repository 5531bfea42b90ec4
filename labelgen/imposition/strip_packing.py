"""Puts what is longer than a label, or is cut anyway, on full sheets: in bands, with straight cut lines right across.

A paper trimmer cuts from edge to edge: every band's border is one cut, and then each band falls into its markers.
Where turned markers stand beside the bands, one cut from head to foot parts them first.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from labelgen.imposition.band_plans import best_plan
from labelgen.imposition.cut_marks import RULE_HEIGHT, check_rule, cut_line, note
from labelgen.imposition.sheet_bands import HAIR, Page
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Shape, Text
from labelgen.model.sheet import PRINTABLE_EDGE, Placed, Sheet, Stock
from labelgen.problems import Problem
from labelgen.typefaces import BOLD

MARGIN = 8.0
"""What is cut out keeps this far from the paper's edge, in mm; headings and the check rule stand in the margin."""
CUT_BEYOND = 2.5
"""Cut lines run this far beyond the markers, so that a trimmer can be set to them."""
CUT_NOTE = "cut along the lines"


def pack(
    drawings: Sequence[Drawing], stock: Stock, *, title: str = "", together: bool = True
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """The full sheets that hold the drawings, at actual size, as few as may be, in order as far as that saves none.

    `together`: drawings of one place (the two markers of a strip) stay side by side. `stock`: a stock of one label, or
    any, of which only the paper is used. Every sheet falls apart by cuts from edge to edge. Codes: label-too-large.
    """
    area = _area(stock)
    longest, shortest = max(area.width, area.height), min(area.width, area.height)
    fits = [d.width <= longest + HAIR and d.height <= shortest + HAIR for d in drawings]
    problems = [_too_long(d, longest, stock) for d, good in zip(drawings, fits, strict=True) if not good]
    plan = best_plan([d for d, good in zip(drawings, fits, strict=True) if good], area, together=together)
    seen = Rectangle(area.y, stock.paper_width - area.right, area.height, area.width) if plan.upright else area
    view = _View(stock=stock, upright=plan.upright, area=seen)
    count = len(plan.pages)
    sheets = tuple(
        _sheet(blocks, view, _Heading(title=title, page=page, pages=count)) for page, blocks in enumerate(plan.pages, 1)
    )
    return sheets, problems


def packing_room(stock: Stock) -> tuple[float, float]:
    """Width and height of what can be cut from one sheet."""
    area = _area(stock)
    return area.width, area.height


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heading:
    title: str
    page: int
    pages: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """A sheet as it is read: as it is, or on its side (`upright`: the rows run along the paper's longer side).

    All it is given is in mm as read; all it gives is on the paper.
    """

    stock: Stock
    upright: bool
    area: Rectangle
    """Where markers may lie, as read."""

    @property
    def height(self) -> float:
        return self.stock.paper_width if self.upright else self.stock.paper_height

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place as read, on the paper; on its side, what is read at the top is at the paper's right."""
        return (self.stock.paper_width - y, x) if self.upright else (x, y)

    def placed(self, drawing: Drawing, x: float, y: float, *, turned: bool) -> Placed:
        height = drawing.width if turned else drawing.height
        left, top = self.at(x, y + height) if self.upright else (x, y)
        return Placed(x=left, y=top, drawing=drawing, turn=90 if self.upright != turned else 0)

    def cut(self, x1: float, y1: float, x2: float, y2: float) -> Shape:
        return cut_line(*self.at(x1, y1), *self.at(x2, y2))

    def text(self, text: Text) -> Shape:
        x, y = self.at(text.x, text.y)
        return replace(text, x=x, y=y, turn=90 if self.upright else 0)

    def rule(self, x: float, y: float) -> tuple[Shape, ...]:
        corner = self.at(x, y + RULE_HEIGHT) if self.upright else self.at(x, y)
        return check_rule(*corner, upright=self.upright)


def _area(stock: Stock) -> Rectangle:
    """Where markers may lie: inside the margin, and on the label where the sheet is one label."""
    paper = Rectangle(0, 0, stock.paper_width, stock.paper_height).inset(MARGIN)
    if stock.count > 1:
        return paper
    cell = stock.cell(0)
    left, top = max(paper.x, cell.x), max(paper.y, cell.y)
    return Rectangle(left, top, min(paper.right, cell.right) - left, min(paper.bottom, cell.bottom) - top)


def _sheet(blocks: Page, view: _View, heading: _Heading) -> Sheet:
    area = view.area
    placed: list[Placed] = []
    marks: list[Shape] = []
    left = area.x
    for block in blocks:
        first, last = block is blocks[0], block is blocks[-1]
        ends = (left - CUT_BEYOND * first, area.right + CUT_BEYOND if last else left + block.width)
        down = area.y
        for band in block.bands:
            marks.append(view.cut(ends[0], down, ends[1], down))
            along = left
            for drawing in band.drawings:
                placed.append(view.placed(drawing, along, down, turned=band.turned))
                marks.append(view.cut(along, down, along, down + band.height))
                along += band.along(drawing)
            marks.append(view.cut(along, down, along, down + band.height))
            down += band.height
        marks.append(view.cut(ends[0], down, ends[1], down))
        left += block.width
        if not last:
            foot = area.y + max(one.height for one in blocks)
            marks.append(view.cut(left, area.y, left, foot))
    marks += _heading_marks(heading, view)
    stock = view.stock
    return Sheet(width=stock.paper_width, height=stock.paper_height, placed=tuple(placed), marks=tuple(marks))


def _heading_marks(heading: _Heading, view: _View) -> Iterator[Shape]:
    area, baseline = view.area, PRINTABLE_EDGE + 2
    yield view.text(note(heading.title, area.x, baseline, cap=2, face=BOLD))
    yield view.text(note(CUT_NOTE, area.x + area.width / 2, baseline, anchor="middle"))
    yield view.text(note(f"sheet {heading.page} of {heading.pages}", area.right, baseline, anchor="end"))
    yield from view.rule(area.x, view.height - PRINTABLE_EDGE - RULE_HEIGHT)


def _too_long(drawing: Drawing, longest: float, stock: Stock) -> Problem:
    return Problem(
        code="label-too-large",
        message=f"{drawing.name} is {drawing.width:.1f} × {drawing.height:.1f} mm, but a "
        f"sheet {stock.id} has room for {longest:.1f} mm",
        hint="Describe the block as two strips, each with its own id, or choose a sheet of larger paper.",
        place=drawing.place,
    )
