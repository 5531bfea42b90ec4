"""A fascia in layers for a cutter or engraver; holes from the panel's one list of them. Millimetres, y down."""

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from labelgen.drawings.fascia.stroke_outlines import round_edge, stroke_outline
from labelgen.model.drawing import Box, Circle, Corner, Drawing, Line, Outline, Shape, Text
from labelgen.model.panel.holes import PanelHole
from labelgen.model.panel.layers import HAIRLINE_MM, LAYER_COLOURS, LayeredDrawing

_HAIR = 1e-6
BLACK = LAYER_COLOURS["engrave"]


def panel_layers(fascia: Drawing, holes: Sequence[PanelHole]) -> LayeredDrawing:
    """The layers of one fascia as it is drawn without bleed: as large as its panel."""
    return LayeredDrawing(
        width=fascia.width,
        height=fascia.height,
        name=fascia.name,
        engrave=tuple(_engraved(fascia, {(round(hole.at.x, 6), round(hole.at.y, 6)) for hole in holes})),
        print=tuple(shape for shape in fascia.shapes if not _is_trim(shape, fascia)),
        cut=tuple(_cuts(fascia, holes)),
        drill=tuple(_circle(hole) for hole in holes),
    )


def _engraved(fascia: Drawing, holes: Container[Corner]) -> Iterator[Shape]:
    """Lines as filled outlines and texts, all black: tracks, rims, platforms' edges, breaks, underlines.

    Not what belongs to a hole, nor the lines of the grid and of the trim.
    """
    for shape in fascia.shapes:
        if isinstance(shape, Outline) and shape.stroke and shape.fill is None:
            edges = tuple(stroke_outline(run, shape.stroke_width) for run in shape.runs if run)
            yield Outline(runs=edges, closed=True, fill=BLACK)
        elif isinstance(shape, Circle | Box) and shape.stroke and not _of_hole_or_trim(shape, fascia, holes):
            yield _ring(shape)
        elif isinstance(shape, Line) and _middle(shape) not in holes and not _crosses(shape, fascia):
            ends = ((shape.x1, shape.y1), (shape.x2, shape.y2))
            yield Outline(runs=(stroke_outline(ends, shape.width),), closed=True, fill=BLACK)
    yield from (replace(shape, colour=BLACK) for shape in fascia.shapes if isinstance(shape, Text))


def _ring(shape: Circle | Box) -> Outline:
    """The line around it, filled."""
    off = shape.stroke_width / 2
    runs = (round_edge(shape, off), round_edge(shape, -off)[::-1])
    return Outline(runs=runs, closed=True, fill=BLACK)


def _of_hole_or_trim(shape: Circle | Box, fascia: Drawing, holes: Container[Corner]) -> bool:
    """What has its middle in that of a hole (its slot, a ring), or goes around the whole fascia."""
    return _middle(shape) in holes or _is_trim(shape, fascia)


def _middle(shape: Circle | Box | Line) -> Corner:
    match shape:
        case Circle():
            x, y = shape.x, shape.y
        case Box():
            x, y = shape.x + shape.width / 2, shape.y + shape.height / 2
        case Line():
            x, y = (shape.x1 + shape.x2) / 2, (shape.y1 + shape.y2) / 2
    return round(x, 6), round(y, 6)


def _crosses(line: Line, fascia: Drawing) -> bool:
    """A line of the grid runs from edge to edge."""
    lacks = (fascia.width - abs(line.x2 - line.x1), fascia.height - abs(line.y2 - line.y1))
    return min(map(abs, lacks)) < _HAIR


def _cuts(fascia: Drawing, holes: Sequence[PanelHole]) -> Iterator[Box]:
    """Inner cuts first, so that the panel still lies firm; what two parts share is cut once."""
    slots = (_cut(hole.at.x, hole.at.y, *hole.part.slot) for hole in holes if hole.part is not None and hole.part.slot)
    yield from dict.fromkeys(slots)
    yield _cut(fascia.width / 2, fascia.height / 2, fascia.width, fascia.height)


def _cut(middle_x: float, middle_y: float, width: float, height: float) -> Box:
    x, y = middle_x - width / 2, middle_y - height / 2
    return Box(x=x, y=y, width=width, height=height, stroke=LAYER_COLOURS["cut"], stroke_width=HAIRLINE_MM)


def _circle(hole: PanelHole) -> Circle:
    radius = hole.diameter / 2
    return Circle(x=hole.at.x, y=hole.at.y, radius=radius, stroke=LAYER_COLOURS["drill"], stroke_width=HAIRLINE_MM)


def _is_trim(shape: Shape, fascia: Drawing) -> bool:
    """The line around the whole fascia: unfilled, and its outer edge is the panel's."""
    if not isinstance(shape, Box) or shape.fill is not None:
        return False
    lacks = (fascia.width - shape.width - shape.stroke_width, fascia.height - shape.height - shape.stroke_width)
    return max(map(abs, lacks)) < _HAIR
