"""A fascia in layers for a cutter or engraver; holes from the panel's one list of them. Millimetres, y down."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from labelgen.drawings.stroke_outlines import stroke_outline
from labelgen.model.drawing import Box, Circle, Drawing, Outline, Shape, Text
from labelgen.model.layers import HAIRLINE_MM, LAYER_COLOURS, LayeredDrawing
from labelgen.model.panel_holes import PanelHole

_HAIR = 1e-6
BLACK = LAYER_COLOURS["engrave"]


def panel_layers(fascia: Drawing, holes: Sequence[PanelHole]) -> LayeredDrawing:
    """The layers of one fascia as it is drawn without bleed: as large as its panel."""
    return LayeredDrawing(
        width=fascia.width,
        height=fascia.height,
        name=fascia.name,
        engrave=tuple(_engraved(fascia)),
        print=tuple(shape for shape in fascia.shapes if not _is_trim(shape, fascia)),
        cut=tuple(_cuts(fascia, holes)),
        drill=tuple(_circle(hole) for hole in holes),
    )


def _engraved(fascia: Drawing) -> Iterator[Shape]:
    """Tracks as filled outlines and texts, all black."""
    for shape in fascia.shapes:
        if isinstance(shape, Outline) and shape.stroke and shape.fill is None:
            edges = tuple(stroke_outline(run, shape.stroke_width) for run in shape.runs if run)
            yield Outline(runs=edges, closed=True, fill=BLACK)
    yield from (replace(shape, colour=BLACK) for shape in fascia.shapes if isinstance(shape, Text))


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
