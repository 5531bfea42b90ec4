"""Where the ink of a drawing is."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import ceil, cos, hypot, radians, sin

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Corner, Drawing, Line, Outline, Shape, Symbol, Text
from labelgen.typefaces import FACES, text_width

WHITE = "#ffffff"


def ink_of(drawing: Drawing) -> Rectangle | None:
    """The smallest rectangle around all that leaves ink on white paper; None when nothing does."""
    return next(_bounds([corner for shape in drawing.shapes for corner in _corners(shape)]), None)


def ink_boxes(shape: Shape, step: float = 5.0) -> Iterator[Rectangle]:
    """Upright rectangles that together hold all the ink of a shape: lines piece by piece, what is filled whole."""
    match shape:
        case Line():
            yield from _along(((shape.x1, shape.y1), (shape.x2, shape.y2)), shape.width / 2, step)
        case Outline() if not shape.fill:
            for run in shape.runs:
                yield from _along((*run, *run[:1]) if shape.closed else run, shape.stroke_width / 2, step)
        case Box() if not shape.fill:
            x, y, right, bottom = shape.x, shape.y, shape.x + shape.width, shape.y + shape.height
            yield from _along(((x, y), (right, y), (right, bottom), (x, bottom), (x, y)), shape.stroke_width / 2, step)
        case _:
            yield from _bounds(list(_corners(shape)))


def _along(run: Sequence[Corner], reach: float, step: float) -> Iterator[Rectangle]:
    for (x1, y1), (x2, y2) in pairwise(run):
        count = max(1, ceil(hypot(x2 - x1, y2 - y1) / step))
        places = [(x1 + (x2 - x1) * n / count, y1 + (y2 - y1) * n / count) for n in range(count + 1)]
        for piece in pairwise(places):
            yield from _bounds(list(_around(piece, reach)))


def _bounds(corners: Sequence[Corner]) -> Iterator[Rectangle]:
    if corners:
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        yield Rectangle(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def _corners(shape: Shape) -> Iterator[Corner]:
    match shape:
        case Line():
            yield from _around(((shape.x1, shape.y1), (shape.x2, shape.y2)), shape.width / 2)
        case Text():
            yield from _of_text(shape)
        case Symbol():
            yield shape.x, shape.y
            yield shape.x + len(shape.rows[0]) * shape.module, shape.y + len(shape.rows) * shape.module
        case _:
            reach = _reach(shape)
            if reach is not None:
                yield from _around(_spine(shape), reach)


def _spine(shape: Box | Circle | Outline) -> tuple[Corner, ...]:
    match shape:
        case Box():
            return (shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height)
        case Circle():
            r = shape.radius
            return (shape.x - r, shape.y - r), (shape.x + r, shape.y + r)
        case _:
            return tuple(corner for run in shape.runs for corner in run)


def _reach(shape: Box | Circle | Outline) -> float | None:
    """How far beyond its own edge a shape inks; None for what paints nothing, or white alone."""
    if shape.stroke and shape.stroke.lower() != WHITE:
        return shape.stroke_width / 2
    return 0.0 if shape.fill and shape.fill.lower() != WHITE else None


def _around(corners: tuple[Corner, ...], by: float) -> Iterator[Corner]:
    for x, y in corners:
        yield x - by, y - by
        yield x + by, y + by


def _of_text(text: Text) -> Iterator[Corner]:
    face = FACES[text.face]
    width = text_width(text.text, text.face, text.size) * text.stretch
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    c, s = cos(radians(text.turn)), sin(radians(text.turn))
    for along in (start, start + width):
        for down in (-face.ascent * text.size, face.descent * text.size):
            yield text.x + along * c - down * s, text.y + along * s + down * c
