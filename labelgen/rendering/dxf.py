"""Writes a drawing in layers as DXF of the year 2010 (AC1024), in mm: origin at the bottom left, y up.

Earlier forms cannot say what their unit is (R12), and some programs take it for inches then.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO
from typing import TYPE_CHECKING

from labelgen.model.drawing import Box, Circle, Corner, Line, Outline, Shape, Text
from labelgen.model.panel.layers import HAIRLINE_MM, LAYER_COLOURS, LayeredDrawing
from labelgen.rendering.glyph_outlines import contours_of, flattened

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

VERSION, MILLIMETRES, METRIC = "R2010", 4, 1


def dxf_bytes(drawing: LayeredDrawing) -> bytes:
    """The layers with their names; the same drawing always gives the same bytes.

    Of what is printed, the lines: hatches would only be in a machine's way.
    """
    import ezdxf

    with _without_date():
        document = ezdxf.new(VERSION)  # type: ignore[attr-defined]
        document.units = MILLIMETRES
        document.header["$MEASUREMENT"] = METRIC
        corners = ((0, 0, 0), (drawing.width, drawing.height, 0))
        document.header["$EXTMIN"], document.header["$EXTMAX"] = corners
        document.modelspace().reset_extents(*corners)
        document.modelspace().reset_limits((0, 0), (drawing.width, drawing.height))
        for name, shapes in drawing.layers().items():
            document.layers.add(name, true_color=_number(LAYER_COLOURS[name]))
            pen = _Pen(document.modelspace(), name, drawing.height)
            for shape in shapes:
                pen.draw(shape)
        for name in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(name)  # while writing they are added too, in an order left to chance
        into = StringIO(newline="\n")
        document.write(into)
    return into.getvalue().encode()


@contextmanager
def _without_date() -> Iterator[None]:
    """Without the time of writing, and with identifiers that do not change from one writing to the next."""
    from ezdxf import options  # type: ignore[attr-defined]

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


class _Pen:
    """Draws on one layer; here y turns over."""

    def __init__(self, space: "Modelspace", layer: str, height: float) -> None:
        self._space, self._layer, self._height = space, layer, height

    def draw(self, shape: Shape) -> None:
        match shape:
            case Text():
                if self._layer != "print":  # it is engraved; printed from a picture
                    for contour in contours_of(shape):
                        self._run(flattened(contour), closed=True, width=0)
            case Circle():
                if self._layer != "print":  # the fills and rings around holes
                    attributes = {"layer": self._layer}
                    self._space.add_circle(self._at((shape.x, shape.y)), shape.radius, dxfattribs=attributes)
            case Outline():
                width = shape.stroke_width if shape.stroke and shape.stroke_width > HAIRLINE_MM else 0
                for run in shape.runs:
                    self._run(run, closed=shape.closed, width=width)
            case Box():
                self._run(_corners(shape), closed=True, width=0)
            case Line():
                self._run(((shape.x1, shape.y1), (shape.x2, shape.y2)), closed=False, width=shape.width)
            case _:
                raise ValueError(f"{type(shape).__name__} has no form in a DXF file")

    def _run(self, corners: tuple[Corner, ...], *, closed: bool, width: float) -> None:
        attributes = {"layer": self._layer, "const_width": width} if width else {"layer": self._layer}
        self._space.add_lwpolyline([self._at(corner) for corner in corners], close=closed, dxfattribs=attributes)

    def _at(self, corner: Corner) -> Corner:
        return corner[0], self._height - corner[1]


def _corners(box: Box) -> tuple[Corner, ...]:
    right, bottom = box.x + box.width, box.y + box.height
    return ((box.x, box.y), (right, box.y), (right, bottom), (box.x, bottom))


def _number(colour: str) -> int:
    """`#rrggbb` as group code 420 holds it."""
    return int(colour[1:], 16)
