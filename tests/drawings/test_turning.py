import pytest

from labelgen.drawings.turning import upwards
from labelgen.model.drawing import Box, Circle, Line, Outline, Symbol, Text


def test_a_quarter_turn_against_the_clock() -> None:
    """In a place 10 wide, the top left corner goes to the bottom left, the top right one to the top left."""
    text = Text(x=1, y=2, text="5N", face="B612-Regular", size=3)
    shapes = [
        Line(x1=0, y1=0, x2=10, y2=0),
        Box(x=1, y=2, width=6, height=3),
        Circle(x=9, y=1, radius=1),
        Outline(runs=(((0, 0), (10, 4)),)),
        text,
    ]
    line, box, circle, outline, words = upwards(shapes, 10)
    assert line == Line(x1=0, y1=10, x2=0, y2=0)
    assert box == Box(x=2, y=3, width=3, height=6)
    assert circle == Circle(x=1, y=1, radius=1)
    assert outline == Outline(runs=(((0, 10), (4, 0)),))
    assert isinstance(words, Text)
    assert (words.x, words.y, words.turn) == (2, 9, -90)


def test_a_symbol_is_refused() -> None:
    with pytest.raises(ValueError, match="never turned"):
        upwards([Symbol(x=0, y=0, module=1, rows=((True,),))], 10)
