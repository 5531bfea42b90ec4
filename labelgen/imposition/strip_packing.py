"""Puts strip markers, which are longer than a label, on full sheets: in bands, with straight cut lines right across.

A paper trimmer cuts from edge to edge: every band's border is one cut, and then each band falls into its markers.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, product

from labelgen.imposition.cut_marks import PRINTABLE_EDGE, RULE_HEIGHT, check_rule, cut_line, note
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Shape, Text
from labelgen.model.sheet import Placed, Sheet, Stock
from labelgen.problems import Problem
from labelgen.typefaces import BOLD

MARGIN = 8.0
"""What is cut out keeps this far from the paper's edge, in mm; headings and the check rule stand in the margin."""
CUT_BEYOND = 2.5
"""Cut lines run this far beyond the markers, so that a trimmer can be set to them."""
CUT_NOTE = "cut along the lines"
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Band:
    """Markers of one height, end to end."""

    height: float
    drawings: tuple[Drawing, ...]

    @property
    def length(self) -> float:
        return sum(d.width for d in self.drawings)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """One way to lay out all the markers: along the sheet's longer side (upright), or across it."""

    upright: bool
    pages: tuple[tuple[_Band, ...], ...]


def pack(
    drawings: Sequence[Drawing], stock: Stock, *, title: str = "", shift: tuple[float, float] = (0.0, 0.0)
) -> tuple[tuple[Sheet, ...], list[Problem]]:
    """The full sheets that hold the drawings, at actual size, as few as may be, in order but for equal sizes together.

    Drawings of one place (the two markers of a strip) stay side by side. `stock`: a stock of one label, or any, of
    which only the paper is used. Codes: label-too-large.
    """
    area = _area(stock)
    longest, shortest = max(area.width, area.height), min(area.width, area.height)
    fitting = [d for d in drawings if d.width <= longest + _HAIR and d.height <= shortest + _HAIR]
    problems = [_too_long(d, longest, stock) for d in drawings if d not in fitting]
    plan = _best_plan(fitting, area)
    seen = Rectangle(area.y, stock.paper_width - area.right, area.height, area.width) if plan.upright else area
    view = _View(stock=stock, upright=plan.upright, area=seen, shift=shift)
    count = len(plan.pages)
    sheets = tuple(
        _sheet(bands, view, _Heading(title=title, page=page, pages=count)) for page, bands in enumerate(plan.pages, 1)
    )
    return sheets, problems


@dataclass(frozen=True, slots=True, kw_only=True)
class _Heading:
    title: str
    page: int
    pages: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """A sheet as it is read: as it is, or on its side (`upright`: the rows run along the paper's longer side).

    All it is given is in mm as read; all it gives is on the paper, moved by `shift`.
    """

    stock: Stock
    upright: bool
    area: Rectangle
    """Where markers may lie, as read."""
    shift: tuple[float, float]

    @property
    def height(self) -> float:
        return self.stock.paper_width if self.upright else self.stock.paper_height

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place as read, on the paper; on its side, what is read at the top is at the paper's right."""
        dx, dy = self.shift
        return (self.stock.paper_width - y + dx, x + dy) if self.upright else (x + dx, y + dy)

    def placed(self, drawing: Drawing, x: float, y: float) -> Placed:
        if self.upright:
            left, top = self.at(x, y + drawing.height)
            return Placed(x=left, y=top, drawing=drawing, turn=90)
        left, top = self.at(x, y)
        return Placed(x=left, y=top, drawing=drawing)

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


def _best_plan(drawings: Sequence[Drawing], area: Rectangle) -> _Plan:
    """The plan of fewest sheets, then of fewest cuts; read without turning the sheet where both are equal."""
    plans = [
        _Plan(upright=upright, pages=tuple(_pages(_bands(units, length), room)))
        for units, (upright, length, room) in product(
            (_units(drawings), _grouped(_units(drawings))),
            ((False, area.width, area.height), (True, area.height, area.width)),
        )
        if all(unit[0].width <= length + _HAIR for unit in units)
    ]
    return min(plans, key=lambda plan: (len(plan.pages), sum(map(len, plan.pages)), plan.upright))


def _units(drawings: Sequence[Drawing]) -> list[tuple[Drawing, ...]]:
    """Drawings that stay side by side: those of one place and one size that follow one another."""
    return [tuple(unit) for _, unit in groupby(drawings, key=lambda d: (d.place, d.width, d.height))]


def _grouped(units: Sequence[tuple[Drawing, ...]]) -> list[tuple[Drawing, ...]]:
    """The units with those of equal size together, in the order in which each size is first met."""
    sizes = list(dict.fromkeys((unit[0].width, unit[0].height) for unit in units))
    return sorted(units, key=lambda unit: sizes.index((unit[0].width, unit[0].height)))


def _bands(units: Sequence[tuple[Drawing, ...]], length: float) -> list[_Band]:
    """The units end to end; a new band where one is full or the height changes, a unit split only if it must be."""
    bands: list[_Band] = []
    for unit in units:
        whole = sum(d.width for d in unit) <= length + _HAIR
        for piece in (unit,) if whole else tuple((d,) for d in unit):
            last = bands[-1] if bands else None
            room = last.length + sum(d.width for d in piece) <= length + _HAIR if last else False
            if last and room and last.height == piece[0].height:
                bands[-1] = _Band(height=last.height, drawings=last.drawings + piece)
            else:
                bands.append(_Band(height=piece[0].height, drawings=piece))
    return bands


def _pages(bands: Sequence[_Band], room: float) -> Iterator[tuple[_Band, ...]]:
    """The bands in order, as many on each page as there is room for."""
    page: list[_Band] = []
    for band in bands:
        if page and sum(b.height for b in page) + band.height > room + _HAIR:
            yield tuple(page)
            page = []
        page.append(band)
    if page:
        yield tuple(page)


def _sheet(bands: Sequence[_Band], view: _View, heading: _Heading) -> Sheet:
    area = view.area
    placed: list[Placed] = []
    marks: list[Shape] = []
    down = area.y
    for band in bands:
        marks.append(view.cut(area.x - CUT_BEYOND, down, area.right + CUT_BEYOND, down))
        along = area.x
        for drawing in band.drawings:
            placed.append(view.placed(drawing, along, down))
            marks.append(view.cut(along, down, along, down + band.height))
            along += drawing.width
        marks.append(view.cut(along, down, along, down + band.height))
        down += band.height
    marks.append(view.cut(area.x - CUT_BEYOND, down, area.right + CUT_BEYOND, down))
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
