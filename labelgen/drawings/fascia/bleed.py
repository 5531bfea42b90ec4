"""A fascia with its ground printed beyond the trim line, and marks outside of that where to cut."""

from collections.abc import Iterator
from dataclasses import replace

from labelgen.drawings.fascia.style import style_of
from labelgen.drawings.moving import moved
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Drawing, Line
from labelgen.model.look import Look
from labelgen.model.panel.form import Panel

MARK_MM, MARK_GAP_MM, MARK_WIDTH_MM = 4.0, 0.5, 0.1
"""Corner marks begin a little outside of the ground, so that none is left on the panel by a slip of the knife."""


def with_bleed(drawing: Drawing, panel: Panel, look: Look) -> Drawing:
    """The same fascia on a larger ground, when its panel asks for `bleed`; the trim line stays where it was."""
    bleed = panel.bleed
    if not bleed:
        return drawing
    out = bleed + MARK_GAP_MM + MARK_MM
    trim = Rectangle(out, out, drawing.width, drawing.height)
    ground = trim.inset(-bleed)
    paper = style_of(panel, look).paper
    under = [Box(x=ground.x, y=ground.y, width=ground.width, height=ground.height, fill=paper)] if paper else []
    return replace(
        drawing,
        width=drawing.width + 2 * out,
        height=drawing.height + 2 * out,
        shapes=(*under, *moved(drawing.shapes, out, out), *_marks(trim, bleed + MARK_GAP_MM)),
    )


def _marks(trim: Rectangle, off: float) -> Iterator[Line]:
    for x, way_x in ((trim.x, -1), (trim.right, 1)):
        for y, way_y in ((trim.y, -1), (trim.bottom, 1)):
            yield _mark(x + off * way_x, y, MARK_MM * way_x, 0)
            yield _mark(x, y + off * way_y, 0, MARK_MM * way_y)


def _mark(x: float, y: float, dx: float, dy: float) -> Line:
    return Line(x1=x, y1=y, x2=x + dx, y2=y + dy, width=MARK_WIDTH_MM)
