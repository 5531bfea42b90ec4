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


def scaled(shapes: Iterable[Shape], factor: float) -> list[Shape]:
    """The same shapes in another size, with their lines and letters, about the origin."""
    return [_scaled(shape, factor) for shape in shapes]


def _scaled(shape: Shape, factor: float) -> Shape:
    if isinstance(shape, Outline):
        runs = tuple(tuple((x * factor, y * factor) for x, y in run) for run in shape.runs)
        return replace(shape, runs=runs, stroke_width=shape.stroke_width * factor)
    lengths = {name: getattr(shape, name) * factor for name in _LENGTHS if hasattr(shape, name)}
    dash = {"dash": tuple(part * factor for part in shape.dash)} if isinstance(shape, Line) else {}
    return replace(shape, **lengths, **dash)  # type: ignore[arg-type]


_LENGTHS = ("x", "y", "x1", "y1", "x2", "y2", "width", "height", "radius", "stroke_width", "size", "module")
"""Every length that a shape may have."""
