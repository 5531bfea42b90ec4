"""Label stock and printed pages. Millimetres, origin at the top left of the paper, y down."""

from dataclasses import dataclass
from math import sqrt
from typing import Literal

from labelgen.lengths import Rectangle
from labelgen.model.correction import UNCORRECTED, Correction
from labelgen.model.drawing import Drawing, Shape

CellShape = Literal["rectangle", "round"]
ROLL = "roll"
"""The paper of a label roller's stock: every label is a page of its own."""
PRINTABLE_EDGE = 5.0
"""No ink within 5 mm of the paper's edge: printers leave 4 to 5 mm unprinted (print facts, 7: 0.2 in advised)."""
ROLL_EDGE = 1.5
"""The same of a roll, whose printer is as wide as the label. Common practice, no source."""


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
    shape: CellShape = "rectangle"
    """`round`: a circle, or an oval where width and height differ."""
    print_zone: float | None = None
    """Of a self-laminating label: mm of its height, from its top, that are white; the rest is a clear tail."""
    seen: str = ""
    """How sure the geometry is, in a sentence, so that nobody trusts a guess."""

    @property
    def count(self) -> int:
        return self.columns * self.rows

    @property
    def is_whole(self) -> bool:
        """True of a sheet that is one label, from which smaller ones are cut."""
        return self.count == 1 and self.paper != ROLL

    @property
    def edge(self) -> float:
        """How many mm of the paper's edge its printer may leave white."""
        return ROLL_EDGE if self.paper == ROLL else PRINTABLE_EDGE

    @property
    def room(self) -> tuple[float, float]:
        """Width and height that a label can fill: of an oval, the largest rectangle in it (its half axes × √2)."""
        part = 1 / sqrt(2) if self.shape == "round" else 1.0
        return self.width * part, self.height * part

    def cell(self, index: int) -> Rectangle:
        """Cell `index` from 0, row by row from the top left."""
        row, column = divmod(index, self.columns)
        x, y = self.left + column * self.pitch_x, self.top + row * self.pitch_y
        return Rectangle(x, y, self.width, self.height)

    def cell_at(self, x: float, y: float) -> int:
        """The cell, from 0, whose middle is nearest to that place."""
        column = round((x - self.left - self.width / 2) / self.pitch_x) if self.columns > 1 else 0
        row = round((y - self.top - self.height / 2) / self.pitch_y) if self.rows > 1 else 0
        return row * self.columns + column


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

    @property
    def middle(self) -> tuple[float, float]:
        outline = self.outline
        return outline.x + outline.width / 2, outline.y + outline.height / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A place on a page that texts may lead to."""

    name: str
    """Unique in its document."""
    y: float
    bookmark: str = ""
    """How it is called among the document's bookmarks; "" when it is not there."""
    level: int = 0
    """Of its bookmark: below which other it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One printed page: placed drawings, and marks that belong to the page (cut lines, check rule, page title)."""

    width: float
    height: float
    placed: tuple[Placed, ...] = ()
    marks: tuple[Shape, ...] = ()
    window: Rectangle | None = None
    """When set, what is placed is clipped to it (a tile of a drawing larger than the paper)."""
    correction: Correction = UNCORRECTED
    """By which everything on the page is painted, so that a printer that stretches and shifts puts it where it is."""
    stops: tuple[Stop, ...] = ()
    """From the top down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """The pages of one PDF."""

    title: str
    pages: tuple[Sheet, ...]
    about: str = ""
    """Its subject, in a sentence."""
    both_sides: bool = False
    """It may be printed on both sides of the paper, and bound."""
