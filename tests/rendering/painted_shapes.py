"""One drawing with every kind of shape, for the tests of the backends."""

from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Symbol, Text
from labelgen.places import Place

PLACE = Place(file="test")
CHECKS = tuple(tuple((row + column) % 2 == 0 or row % 5 == 0 for column in range(21)) for row in range(21))


def drawing(width: float, height: float, *shapes: object, name: str = "sample") -> Drawing:
    return Drawing(width=width, height=height, shapes=shapes, name=name, place=PLACE)  # type: ignore[arg-type]


EVERYTHING = drawing(
    60,
    30,
    Box(x=0.5, y=0.5, width=59, height=29, stroke="#FF0000"),
    Box(x=2, y=2, width=10, height=5, fill="#FDE60E", radius=1),
    Box(x=14, y=2, width=4, height=4),
    Circle(x=50, y=8, radius=5, fill="#5AAB75", stroke="#000000", stroke_width=0.4),
    Line(x1=1, y1=29, x2=59, y2=1, width=0.3, colour="#31397F", dash=(1, 0.5)),
    Outline(runs=(((20, 15), (25, 25), (30, 15)), ()), closed=True, fill="#cccccc", stroke="#000000", round_ends=True),
    Outline(runs=(((1, 12), (4, 14)), ((6, 12), (9, 14))), stroke="#777777"),
    Outline(runs=(), stroke="#000000"),
    Text(x=3, y=22, text="5N 1Il", face="B612-Regular", size=4),
    Text(x=30, y=10, text="mid & <5N>", face="B612-Bold", size=4, anchor="middle", stretch=0.8),
    Text(x=57, y=28, text="Łódź", face="DejaVuSansCondensed", size=4, anchor="end", colour="#31397F", turn=90),
    Symbol(x=38, y=15, module=0.5, rows=CHECKS),
    Symbol(x=38, y=15, module=0.5, rows=((False,),)),
    name="every <shape>",
)
