"""The ring in a lever's colour around its nut: one colour, or two, the upper one above."""

from collections.abc import Iterator
from math import cos, pi, sin

from labelgen.lengths import Point
from labelgen.model.drawing import Circle, Corner, Outline, Shape
from labelgen.standards.colour_letters import COLOURS

HALO_MM = 0.35
"""Bare ground outside of the ring, so that it never runs into a track."""
RIM_MM = 0.15
_STEPS = 48
"""Corners of half a ring: at 8 mm they are within 0.005 mm of the circle."""


def ring_shapes(middle: Point, inner: float, width: float, colours: tuple[str, ...], ground: str) -> Iterator[Shape]:
    """What stands between the radii `inner` and `inner + width`, with a fine dark rim outside, on bare ground."""
    outer = inner + width
    yield Circle(x=middle.x, y=middle.y, radius=outer + HALO_MM, fill=ground)
    upper, lower = COLOURS[colours[0]].paint, COLOURS[colours[-1]].paint
    if upper == lower:
        yield Circle(x=middle.x, y=middle.y, radius=inner + width / 2, stroke=upper, stroke_width=width)
    else:
        yield Outline(runs=(_half(middle, inner, outer, pi),), closed=True, fill=upper)
        yield Outline(runs=(_half(middle, inner, outer, 0),), closed=True, fill=lower)
    yield Circle(x=middle.x, y=middle.y, radius=outer - RIM_MM / 2, stroke=_RIM, stroke_width=RIM_MM)


_RIM = "#1a1a1a"


def _half(middle: Point, inner: float, outer: float, start: float) -> tuple[Corner, ...]:
    """Half a ring, clockwise as seen with y down from the angle `start`."""
    turns = [start + pi * step / _STEPS for step in range(_STEPS + 1)]
    ways = [(cos(turn), sin(turn)) for turn in turns]
    out = [(middle.x + outer * c, middle.y + outer * s) for c, s in ways]
    back = [(middle.x + inner * c, middle.y + inner * s) for c, s in reversed(ways)]
    return (*out, *back)
