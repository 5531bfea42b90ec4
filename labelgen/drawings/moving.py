"""Shapes, moved."""

from collections.abc import Iterable
from dataclasses import replace

from labelgen.model.drawing import Line, Outline, Shape


def moved(shapes: Iterable[Shape], dx: float, dy: float) -> list[Shape]:
    """The same shapes, dx mm further right and dy mm further down."""
    return [_moved(shape, dx, dy) for shape in shapes]


def _moved(shape: Shape, dx: float, dy: float) -> Shape:
    if isinstance(shape, Line):
        return replace(shape, x1=shape.x1 + dx, y1=shape.y1 + dy, x2=shape.x2 + dx, y2=shape.y2 + dy)
    if isinstance(shape, Outline):
        return replace(shape, runs=tuple(tuple((x + dx, y + dy) for x, y in run) for run in shape.runs))
    return replace(shape, x=shape.x + dx, y=shape.y + dy)
