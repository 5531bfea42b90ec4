"""The ring in a lever's colour around what its nut or slot covers: one colour, or two, the upper one above."""

from collections.abc import Iterator
from math import cos, pi, sin

from labelgen.lengths import Point
from labelgen.model.drawing import Box, Circle, Corner, Outline, Shape
from labelgen.model.panel.hole_room import Room
from labelgen.standards.colour_letters import COLOURS

HALO_MM = 0.35
"""Bare ground outside of the ring, so that it never runs into a track."""
RIM_MM = 0.15
_RIM = "#1a1a1a"
_STEPS = 24
"""Corners of a quarter of a ring: at 8 mm they are within 0.005 mm of the circle."""


def ring_shapes(room: Room, width: float, colours: tuple[str, ...], ground: str) -> Iterator[Shape]:
    """A band of a width around what a part covers, with a fine dark rim outside, on bare ground."""
    inner = room.radii[0]
    outer = inner + width
    yield _around(room, outer + HALO_MM, fill=ground)
    upper, lower = COLOURS[colours[0]].paint, COLOURS[colours[-1]].paint
    if upper == lower:
        yield _around(room, inner + width / 2, stroke=upper, stroke_width=width)
    else:
        yield Outline(runs=(_half(room, inner, outer, up=True),), closed=True, fill=upper)
        yield Outline(runs=(_half(room, inner, outer, up=False),), closed=True, fill=lower)
    yield _around(room, outer - RIM_MM / 2, stroke=_RIM, stroke_width=RIM_MM)


def _around(
    room: Room, radius: float, *, fill: str | None = None, stroke: str | None = None, stroke_width: float = 0.2
) -> Shape:
    """All that is no further from a part's middle line than that: a disc, or along a slot a box with round ends."""
    at, (across, down) = room.at, room.core
    if room.core == (0, 0):
        return Circle(x=at.x, y=at.y, radius=radius, fill=fill, stroke=stroke, stroke_width=stroke_width)
    return Box(
        x=at.x - across - radius,
        y=at.y - down - radius,
        width=2 * (across + radius),
        height=2 * (down + radius),
        fill=fill,
        stroke=stroke,
        stroke_width=stroke_width,
        radius=radius,
    )


def _half(room: Room, inner: float, outer: float, *, up: bool) -> tuple[Corner, ...]:
    """The half of a band that lies above its middle, or below it."""
    return (*_edge(room, outer, up=up), *reversed(list(_edge(room, inner, up=up))))


def _edge(room: Room, radius: float, *, up: bool) -> Iterator[Corner]:
    """From the left at the height of the middle, over the upper end or under the lower one, to the right."""
    (across, down), way = room.core, -1 if up else 1
    yield room.at.x - across - radius, room.at.y
    for side in (-1, 1):
        corner = Point(room.at.x + side * across, room.at.y + way * down)
        for step in range(_STEPS + 1):
            turn = pi / 2 * (step if side < 0 else _STEPS - step) / _STEPS
            yield corner.x + side * radius * cos(turn), corner.y + way * radius * sin(turn)
    yield room.at.x + across + radius, room.at.y
