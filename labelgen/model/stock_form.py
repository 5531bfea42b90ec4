"""How label stock is written: data files in `layouts/sheets/`, or `stocks:` in a description. Millimetres."""

from typing import Literal

from labelgen.model.pairs import Position, Size
from labelgen.model.record import Record
from labelgen.model.scalars import Length, Positive, Ways, Word
from labelgen.model.sheet import ROLL, CellShape, Stock
from labelgen.standards.paper_sizes import PAPERS


class StockForm(Record):
    """One kind of label stock, from the paper's top left corner; margins are taken to be equal on both sides."""

    paper: Literal["a4", "letter", "roll"]
    """`roll`: every label is a page of its own."""
    columns: Ways = 1
    rows: Ways = 1
    size: Size
    """Of one label."""
    pitch: Position | None = None
    """From one label to the next, gap included; left out: labels without gaps."""
    left: Length = 0
    top: Length = 0
    corner: Length = 2
    """Radius of a label's corners."""
    shape: CellShape = "rectangle"
    """`round`: a circle, or an oval where width and height differ."""
    print_zone: Positive | None = None
    """Of a self-laminating label: how much of its height, from its top, is white."""
    seen: Word = ""
    """How sure the figures are."""


def stock_of(id_: str, form: StockForm) -> Stock:
    """The stock that is meant; whether it adds up is the imposition's to say."""
    width, height = form.size
    paper = (width, height) if form.paper == ROLL else (PAPERS[form.paper].width, PAPERS[form.paper].height)
    pitch_x, pitch_y = form.pitch or form.size
    return Stock(
        id=id_,
        paper=form.paper,
        paper_width=paper[0],
        paper_height=paper[1],
        columns=form.columns,
        rows=form.rows,
        width=width,
        height=height,
        pitch_x=pitch_x,
        pitch_y=pitch_y,
        left=form.left,
        top=form.top,
        corner=form.corner,
        shape=form.shape,
        print_zone=form.print_zone,
        seen=form.seen,
    )
