"""Shapes, turned to run upwards."""

from collections.abc import Iterable
from dataclasses import replace

from labelgen.model.drawing import Box, Circle, Line, Outline, Shape, Text


def upwards(shapes: Iterable[Shape], width: float) -> list[Shape]:
    """What stood in a place of that width from the origin, a quarter turned against the clock, from the origin again.

    ValueError for a matrix of modules, which nothing turns.
    """
    return [_upwards(shape, width) for shape in shapes]


def _upwards(shape: Shape, width: float) -> Shape:
    match shape:
        case Line():
            return replace(shape, x1=shape.y1, y1=width - shape.x1, x2=shape.y2, y2=width - shape.x2)
        case Box():
            y = width - shape.x - shape.width
            return replace(shape, x=shape.y, y=y, width=shape.height, height=shape.width)
        case Circle():
            return replace(shape, x=shape.y, y=width - shape.x)
        case Outline():
            return replace(shape, runs=tuple(tuple((y, width - x) for x, y in run) for run in shape.runs))
        case Text():
            return replace(shape, x=shape.y, y=width - shape.x, turn=shape.turn - 90)
        case _:
            raise ValueError("a symbol is never turned")
