"""Drawings to be placed, for the tests of the imposition."""

from labelgen.model.drawing import Box, Drawing, Shape
from labelgen.model.sheet import Sheet, Stock
from labelgen.places import Place


def label(
    width: float, height: float, name: str = "label", *, line: int = 1, shapes: tuple[Shape, ...] = ()
) -> Drawing:
    inked = shapes or (Box(x=0, y=0, width=width, height=height, fill="#000000"),)
    return Drawing(width=width, height=height, shapes=inked, name=name, place=Place(file="railway.yaml", line=line))


def names(sheets: tuple[Sheet, ...]) -> list[list[str]]:
    return [[placed.drawing.name for placed in sheet.placed] for sheet in sheets]


A4_65 = Stock(
    id="a4-65-38x21",
    paper="a4",
    paper_width=210,
    paper_height=297,
    columns=5,
    rows=13,
    width=38.1,
    height=21.2,
    pitch_x=40.6,
    pitch_y=21.2,
    left=4.75,
    top=10.7,
)
A4_24 = Stock(
    id="a4-24-64x34",
    paper="a4",
    paper_width=210,
    paper_height=297,
    columns=3,
    rows=8,
    width=64,
    height=34,
    pitch_x=66.5,
    pitch_y=34,
    left=6.5,
    top=12.5,
)
FULL = Stock(
    id="a4-1-full",
    paper="a4",
    paper_width=210,
    paper_height=297,
    columns=1,
    rows=1,
    width=210,
    height=297,
    pitch_x=210,
    pitch_y=297,
    left=0,
    top=0,
)
