"""How far shapes really reach: glyph outlines read by fontTools, not by the code under test."""

from functools import cache
from math import cos, radians, sin

from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from labelgen.data_files import font_file
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Shape, Text

Extent = tuple[float, float, float, float]


@cache
def _font(face: str) -> TTFont:
    return TTFont(str(font_file(f"{face}.ttf")))


@cache
def glyph(face: str, character: str) -> tuple[Extent | None, float]:
    """Bounds (left, bottom, right, top; y up) and advance, per em. A character that the face lacks is a failure."""
    font = _font(face)
    cmap = font.getBestCmap()
    assert ord(character) in cmap, f"{face} would draw a box for {character!r}"
    glyphs, em = font.getGlyphSet(), font["head"].unitsPerEm
    shape = glyphs[cmap[ord(character)]]
    pen = BoundsPen(glyphs)
    shape.draw(pen)
    bounds = tuple(value / em for value in pen.bounds) if pen.bounds else None
    return bounds, shape.width / em  # type: ignore[return-value]


def ink(text: str, face: str) -> Extent:
    """Of a text that starts at the origin, per em, y up."""
    x, boxes = 0.0, [(0.0, 0.0, 0.0, 0.0)]
    for character in text:
        bounds, advance = glyph(face, character)
        if bounds:
            boxes.append((x + bounds[0], bounds[1], x + bounds[2], bounds[3]))
        x += advance
    left, bottom, right, top = zip(*boxes, strict=True)
    return min(left), min(bottom), max(right), max(top)


def advance(text: str, face: str) -> float:
    return sum(glyph(face, character)[1] for character in text)


def text_extent(text: Text) -> Extent:
    """Left, top, right, bottom of the ink of a text shape, y down."""
    left, bottom, right, top = ink(text.text, text.face)
    wide, size = text.size * text.stretch, text.size
    shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * advance(text.text, text.face) * wide
    corners = [(u * wide - shift, -v * size) for u in (left, right) for v in (bottom, top)]
    turn = radians(text.turn)
    turned = [(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in corners]
    xs, ys = [text.x + x for x, _ in turned], [text.y + y for _, y in turned]
    return min(xs), min(ys), max(xs), max(ys)


def extent(shape: Shape) -> Extent:
    """Left, top, right, bottom, strokes included; a line has butt ends."""
    match shape:
        case Text():
            return text_extent(shape)
        case Box():
            half = shape.stroke_width / 2 if shape.stroke else 0
            return shape.x - half, shape.y - half, shape.x + shape.width + half, shape.y + shape.height + half
        case Circle():
            reach = shape.radius + (shape.stroke_width / 2 if shape.stroke else 0)
            return shape.x - reach, shape.y - reach, shape.x + reach, shape.y + reach
        case Line():
            across, down = shape.x1 == shape.x2, shape.y1 == shape.y2
            dx, dy = (shape.width / 2 if across else 0), (shape.width / 2 if down else 0)
            xs, ys = sorted((shape.x1, shape.x2)), sorted((shape.y1, shape.y2))
            return xs[0] - dx, ys[0] - dy, xs[1] + dx, ys[1] + dy
        case Outline():
            points = [point for run in shape.runs for point in run]
            half = shape.stroke_width / 2 if shape.stroke else 0
            xs, ys = [x for x, _ in points], [y for _, y in points]
            return min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half
    raise AssertionError(f"no extent for {shape}")


def assert_within(shape: Shape, room: Extent, slack: float = 1e-6) -> None:
    left, top, right, bottom = extent(shape)
    assert left >= room[0] - slack, (shape, room)
    assert top >= room[1] - slack, (shape, room)
    assert right <= room[2] + slack, (shape, room)
    assert bottom <= room[3] + slack, (shape, room)


def assert_all_inside(drawing: Drawing) -> None:
    for shape in drawing.shapes:
        assert_within(shape, (0, 0, drawing.width, drawing.height))


def texts(drawing: Drawing) -> list[Text]:
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


def cap_height(text: Text) -> float:
    """Of a text shape in mm, from the outline of its face's H."""
    bounds, _ = glyph(text.face, "H")
    assert bounds
    return bounds[3] * text.size
