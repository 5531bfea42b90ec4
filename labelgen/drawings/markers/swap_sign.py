"""The sign at two ways that may have to be exchanged when it shorts: two arrows, and the other way's number."""

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.text_fitting import Fitted, centred
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Outline, Shape
from labelgen.typefaces import BOLD, size_for_cap

CAP = 1.5
"""mm, on a marker 10 mm high, as all measures here."""
ARROWS, APART = 2.1, 0.95
"""Length of the two arrows, and how far apart they lie."""
HEAD_LONG, HEAD_HALF, SHAFT = 0.75, 0.42, 0.22
PAD, GAP, EDGE = 0.45, 0.4, 0.2
SMALLEST_ARROWS = 1.2


def swap_sign(number: str, band: Rectangle, *, smallest: float, scale: float) -> list[Shape]:
    """A white field in the middle of the way's coloured band. Where that is narrow, the arrows stand alone.

    `smallest`: the height of the lowest capital that may be printed, mm.
    """
    pad, gap, edge = PAD * scale, GAP * scale, EDGE * scale
    word = Fitted(text=number, face=BOLD, size=size_for_cap(max(CAP * scale, smallest), BOLD), stretch=1.0)
    height, widest = band.height - 2 * edge, band.width - 2 * edge
    with_number = 2 * pad + ARROWS * scale + gap + word.width
    fits = with_number <= widest and word.cap <= height
    width = with_number if fits else min(2 * pad + ARROWS * scale, widest)
    if width < 2 * pad + SMALLEST_ARROWS * scale:
        pad = 0.0
    left, middle = band.x + (band.width - width) / 2, band.y + band.height / 2
    arrows = ARROWS * scale if fits else width - 2 * pad
    field = Box(x=left, y=band.y + edge, width=width, height=height, fill="#ffffff", radius=0.35 * scale)
    return [
        field,
        *_arrow(left + pad, left + pad + arrows, middle - APART / 2 * scale, scale),
        *_arrow(left + pad + arrows, left + pad, middle + APART / 2 * scale, scale),
        *(_number(word, Rectangle(left + pad + arrows + gap, field.y, word.width, height)) if fits else []),
    ]


def _number(word: Fitted, room: Rectangle) -> list[Shape]:
    """Underlined where it could be read upside down, as everywhere."""
    return centred(word, room, underlined=len(word.text) if needs_underline(word.text) else 0)


def _arrow(tail: float, tip: float, y: float, scale: float) -> list[Shape]:
    """Level, from x to x."""
    neck = tip - HEAD_LONG * scale * (1 if tip > tail else -1)
    half = HEAD_HALF * scale
    return [
        Line(x1=tail, y1=y, x2=neck, y2=y, width=SHAFT * scale),
        Outline(runs=(((tip, y), (neck, y - half), (neck, y + half)),), closed=True, fill="#000000"),
    ]
