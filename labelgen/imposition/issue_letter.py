"""Where on a finished label there is room for the letter of its issue."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import floor, hypot

from labelgen.imposition.ink import ink_boxes, ink_of
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Circle, Drawing, Shape, Symbol, Text
from labelgen.typefaces import BOLD, size_for_cap, text_width

CAP = 1.5
RING, RING_WIDTH = 0.55, 0.15
"""The ring around a letter, from its corners on, in cap heights; its line, in mm."""
CLEAR, STEP, STEPS = 0.35, 0.5, 80
"""mm: between the ring and other ink; from place to place at least; how many places are tried across and down."""
LEVEL = 2.0
"""mm by which a place beside the text may be further away than one below it."""
QUIET = 4
"""Modules around a symbol that stay blank: ISO/IEC 18004, quiet zone."""
GREY = "#333333"


def with_issue_letter(drawing: Drawing, letter: str, smallest_cap: float) -> Drawing:
    """The same with a small letter in a ring, as near as may be to its largest text; as it is where there is no room.

    The letter keeps within what the other ink reaches, on a folded label within one of its faces, so that margins and
    the place of the wire stay free.
    """
    cap = max(CAP, smallest_cap)
    radius = cap * 0.5 + RING * cap + 0.5 * max(0.0, text_width(letter, BOLD, size_for_cap(cap, BOLD)) - cap)
    taken = [box for shape in drawing.shapes for box in _kept_clear(shape)]
    for shapes, room in _rooms(drawing):
        for x, y in _places(shapes, room, radius):
            reach = radius + CLEAR
            if not any(box.overlaps(Rectangle(x - reach, y - reach, 2 * reach, 2 * reach)) for box in taken):
                return replace(drawing, shapes=(*drawing.shapes, *_letter(letter, x, y, cap, radius)))
    return drawing


def _kept_clear(shape: Shape) -> Iterator[Rectangle]:
    by = QUIET * shape.module if isinstance(shape, Symbol) else 0.0
    return (box.inset(-by) for box in ink_boxes(shape))


def _rooms(drawing: Drawing) -> Iterator[tuple[Sequence[Shape], Rectangle]]:
    """Shapes, and what their ink reaches; of a folded label face by face from the right."""
    for left, right in reversed(list(pairwise([0.0, *drawing.folds, drawing.width]))):
        own = tuple(shape for shape in drawing.shapes if _inside(shape, left, right))
        ink = ink_of(replace(drawing, shapes=own))
        if ink is not None:
            yield own, ink


def _inside(shape: Shape, left: float, right: float) -> bool:
    boxes = list(ink_boxes(shape))
    return bool(boxes) and all(left <= box.x + 1e-6 and box.right <= right + 1e-6 for box in boxes)


def _places(shapes: Sequence[Shape], room: Rectangle, radius: float) -> Iterator[tuple[float, float]]:
    """Middles, those nearest to the largest text first; level with it before below or above, and further right."""
    texts = [shape for shape in shapes if isinstance(shape, Text)]
    largest = max(texts, key=lambda text: text.size, default=None)
    title = next(ink_boxes(largest)) if largest is not None else room
    found = []
    for x in _along(room.x + radius, room.right - radius):
        for y in _along(room.y + radius, room.bottom - radius):
            across = max(title.x - x, 0.0, x - title.right)
            down = max(title.y - y, 0.0, y - title.bottom)
            found.append((hypot(across, down) + (LEVEL if down else 0.0), -x, -y))
    return ((-x, -y) for _, x, y in sorted(found))


def _along(first: float, last: float) -> list[float]:
    step = max(STEP, (last - first) / STEPS)
    return [first + index * step for index in range(floor((last - first) / step + 1e-9) + 1)]


def _letter(letter: str, x: float, y: float, cap: float, radius: float) -> Sequence[Shape]:
    return (
        Circle(x=x, y=y, radius=radius - RING_WIDTH / 2, stroke=GREY, stroke_width=RING_WIDTH),
        Text(x=x, y=y + cap / 2, text=letter, face=BOLD, size=size_for_cap(cap, BOLD), colour=GREY, anchor="middle"),
    )
