"""A small drawing in layers, for the tests of SVG and DXF files."""

from labelgen.model.drawing import Box, Circle, Line, Outline, Text
from labelgen.model.panel.layers import LayeredDrawing
from labelgen.typefaces import BOLD, REGULAR

WORDS = Text(x=10, y=20, text="Fish quay", face=BOLD, size=5)
PANEL = LayeredDrawing(
    width=120,
    height=60,
    name="fascia <1>",
    engrave=(WORDS, Outline(runs=(((10, 30), (60, 30), (60, 34), (10, 34)),), closed=True, fill="#000000")),
    print=(
        Box(x=0, y=0, width=120, height=60, fill="#435560"),
        Text(x=10, y=20, text="Fish quay", face=REGULAR, size=5, colour="#ffffff"),
        Text(x=10, y=26, text=" ", face=REGULAR, size=5),
        Line(x1=5, y1=5, x2=15, y2=5, width=0.4),
        Outline(runs=(((10, 32), (60, 32)),), stroke="#1F3A4D", stroke_width=4),
        Circle(x=40, y=32, radius=5, fill="#ffffff"),
    ),
    cut=(Box(x=0, y=0, width=120, height=60, stroke="#FF0000", stroke_width=0.05),),
    drill=(
        Circle(x=40, y=32, radius=3.25, stroke="#FF00FF", stroke_width=0.05),
        Circle(x=100.5, y=7.25, radius=1.7, stroke="#FF00FF", stroke_width=0.05),
    ),
)
