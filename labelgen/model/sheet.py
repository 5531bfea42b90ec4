"""Label stock and printed pages. Millimetres, origin at the top left of the paper, y down."""

from dataclasses import dataclass

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Shape


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One kind of label sheet, described by its geometry alone."""

    id: str
    """Paper, count and size: `a4-65-38x21`."""
    paper: str
    paper_width: float
    paper_height: float
    columns: int
    rows: int
    width: float
    height: float
    pitch_x: float
    pitch_y: float
    left: float
    top: float
    corner: float = 2.0
    """Corner radius of a cell."""
    print_zone: float | None = None
    """Of a self-laminating label: mm of its height, from its top, that are white; the rest is a clear tail."""
    seen: str = ""
    """How sure the geometry is, in a sentence, so that nobody trusts a guess."""

    @property
    def count(self) -> int:
        return self.columns * self.rows

    def cell(self, index: int) -> Rectangle:
        """Cell `index` from 0, row by row from the top left."""
        row, column = divmod(index, self.columns)
        x, y = self.left + column * self.pitch_x, self.top + row * self.pitch_y
        return Rectangle(x, y, self.width, self.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A drawing on a page: where its top left corner lies after a turn of `turn` degrees clockwise (0 or 90)."""

    x: float
    y: float
    drawing: Drawing
    turn: int = 0

    @property
    def outline(self) -> Rectangle:
        turned = self.turn == 90
        width, height = self.drawing.width, self.drawing.height
        return Rectangle(self.x, self.y, height if turned else width, width if turned else height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One printed page: placed drawings, and marks that belong to the page (cut lines, check rule, page title)."""

    width: float
    height: float
    placed: tuple[Placed, ...] = ()
    marks: tuple[Shape, ...] = ()
    window: Rectangle | None = None
    """When set, what is placed is clipped to it (a tile of a drawing larger than the paper)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """The pages of one PDF."""

    title: str
    pages: tuple[Sheet, ...]
