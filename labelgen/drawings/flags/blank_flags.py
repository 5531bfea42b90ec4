"""Blank flags: fold-over flags with the next free numbers, and room for the pen."""

from collections.abc import Iterator, Sequence
from math import pi

from labelgen.drawings.flags.flags import FOLD_COLOUR, HIGHEST_FACE, MARGIN, NECK_GAP
from labelgen.drawings.flags.wires import UNKNOWN_DIAMETER
from labelgen.drawings.text_fitting import fit
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.typefaces import REGULAR

NOTE_CAP = 1.5
HEAD_SHARE = 0.6
"""Of a face's height, down to the line on which the head is written; the end's line is at its foot."""
LINE_WIDTH, LINE_COLOUR, GREY = 0.15, "#8c8c8c", "#333333"
GAP = 0.7


def blank_flag_drawings(description: Description, numbers: Sequence[int], look: Look, size: CellSize) -> list[Drawing]:
    """Two for each number, mm, unfolded, the fold at the middle; the neck as of a wire without a size."""
    place = description.place_of("printing", "blank_flags")
    return [
        Drawing(
            width=size.width, height=size.height, shapes=tuple(_shapes(f"#{number}", size, look)),
            name=f"blank flag {number}", place=place, folds=(size.width / 2,),
        )
        for number in numbers
        for _ in range(2)
    ]  # fmt: skip


def _shapes(number: str, size: CellSize, look: Look) -> Iterator[Shape]:
    middle = size.width / 2
    width = middle - MARGIN - NECK_GAP - pi * UNKNOWN_DIAMETER / 2
    height = min(HIGHEST_FACE, size.height - 2 * MARGIN)
    top = (size.height - height) / 2
    for x in (MARGIN, size.width - MARGIN - width):
        yield from _face(number, Rectangle(x, top, width, height), look)
    yield Line(x1=middle, y1=0, x2=middle, y2=size.height, width=0.15, colour=FOLD_COLOUR, dash=(1.0, 0.8))


def _face(number: str, face: Rectangle, look: Look) -> Iterator[Shape]:
    """A line for the head, a line for the end, and the number at the right of it."""
    largest = max(NOTE_CAP, look.smallest_cap)
    note = fit(number, width=face.width, largest=largest, smallest=look.smallest_cap, face=REGULAR)
    right = face.right
    if note is not None:
        yield note.at(face.right, face.bottom - 0.4, anchor="end", colour=GREY)
        right -= note.width + GAP
    head, foot = face.y + HEAD_SHARE * face.height, face.bottom - 0.4
    yield Line(x1=face.x, y1=head, x2=face.right, y2=head, width=LINE_WIDTH, colour=LINE_COLOUR)
    yield Line(x1=face.x, y1=foot, x2=right, y2=foot, width=LINE_WIDTH, colour=LINE_COLOUR)
