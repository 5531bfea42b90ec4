"""A band with words across a label: white on black, what must not be overlooked; black on white, what always holds."""

from collections.abc import Iterator

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import centred
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Shape
from labelgen.typefaces import BOLD

BAND = 3.4
"""Its usual height."""
CAP, INSET, RIM = 1.8, 0.6, 0.25


def band(words: str, place: Rectangle, lettering: Lettering, *, open_: bool = False) -> Iterator[Shape]:
    """`open_`: a rim alone. Sizes are mm."""
    edge = place.inset(RIM / 2)
    fill, ink = (None, "#000000") if open_ else ("#000000", "#ffffff")
    yield Box(x=edge.x, y=edge.y, width=edge.width, height=edge.height, fill=fill, stroke="#000000", stroke_width=RIM)
    room = Rectangle(place.x + INSET, place.y + 0.3, place.width - 2 * INSET, place.height - 0.6)
    line = lettering.inside(words, room, largest=max(CAP, lettering.smallest), face=BOLD)
    if line:
        yield from centred(line, room, colour=ink)
