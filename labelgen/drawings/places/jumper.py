"""The end of a jumper: on which board and plug it goes, and where its other end does. Sizes are mm."""

from collections.abc import Iterator

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.plate import arrow
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.netlist import PlugPlan

HERE_CAP, THERE_CAP, SMALL_CAP = 3.4, 2.4, 1.6
ARROW, GAP = 4.4, 2.0
WRITE_IN = 14.0
GREY, WRITE_COLOUR = "#444444", "#555555"


def jumper_shapes(plug: PlugPlan, here: str, there: str, face: Rectangle, lettering: Lettering) -> list[Shape]:
    """Its own end in large, the other end below it; its length, which nobody knows yet, to be written in."""
    return [*_ends(plug, here, there, face, lettering), *_foot(plug, face, lettering)]


def _ends(plug: PlugPlan, here: str, there: str, face: Rectangle, lettering: Lettering) -> Iterator[Shape]:
    first = lettering.head(f"{here} {plug.shown}", width=face.width, largest=HERE_CAP)
    baseline = face.y + HERE_CAP
    if first:
        yield first.at(face.x, baseline)
    baseline += 2.2 + THERE_CAP
    second = lettering.line(f"to {there} {plug.shown}", width=face.width - ARROW, largest=THERE_CAP)
    if second:
        yield from arrow(face.x, baseline - second.cap / 2)
        yield second.at(face.x + ARROW, baseline)


def _foot(plug: PlugPlan, face: Rectangle, lettering: Lettering) -> Iterator[Shape]:
    """The length to be written in at the left, the joint's name at the right where there is room."""
    largest = max(SMALL_CAP, lettering.smallest)
    length = lettering.line("length", width=face.width - WRITE_IN, largest=largest)
    if length is None:
        return
    yield length.at(face.x, face.bottom - 0.4, colour=GREY)
    x = face.x + length.width + 1
    yield Line(x1=x, y1=face.bottom, x2=x + WRITE_IN, y2=face.bottom, width=0.15, colour=WRITE_COLOUR)
    room = face.right - x - WRITE_IN - GAP
    if plug.name and room > 0:
        name = lettering.line(plug.name, width=room, largest=largest)
        if name:
            yield name.at(face.right, face.bottom - 0.4, anchor="end", colour=GREY)
