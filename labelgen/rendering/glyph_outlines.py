"""Texts as the outlines of their letters, for machines that have none of our typefaces. Millimetres, y down."""

from collections.abc import Iterator
from functools import cache
from math import ceil, cos, radians, sin, sqrt
from typing import Any

from labelgen.data_files import font_file
from labelgen.model.drawing import Corner, Text
from labelgen.typefaces import text_width

FLAT_MM = 0.01
"""How far a flattened curve strays from the true one at most: less than the step of any engraver."""
_MOST_STEPS = 24
_POINTS_OF_NOTHING = 2
"""So few corners enclose nothing: some fonts keep a place for accents so."""

Segment = tuple[Corner, ...]
"""A corner of a contour: by itself at the end of a straight line, or behind the one corner that bends the line."""
Contour = tuple[Segment, ...]
"""Closed; its first segment is a lone corner."""


def contours_of(text: Text) -> tuple[Contour, ...]:
    """The closed contours of a text's letters, where the text stands; filled by the non-zero rule."""
    letters = _letters(text.face)
    scale = text.size / letters.units_per_em
    moved = _Placing(text)
    along = 0.0
    found: list[Contour] = []
    for character in text.text:
        name = letters.names.get(ord(character), ".notdef")
        found += (
            tuple(tuple(moved(along + x * scale, -y * scale) for x, y in part) for part in contour)
            for contour in letters.contours(name)
        )
        along += letters.advances[name][0] * scale
    return tuple(found)


def flattened(contour: Contour) -> tuple[Corner, ...]:
    """The corners of a contour with its curves in straight pieces; the last is not the first again."""
    corners: list[Corner] = [contour[0][-1]]
    for segment in contour[1:]:
        corners += _pieces(corners[-1], *segment) if len(segment) > 1 else segment
    corners = [corner for corner, before in zip(corners, [None, *corners], strict=False) if corner != before]
    return tuple(corners[:-1] if len(corners) > 1 and corners[0] == corners[-1] else corners)


def _pieces(start: Corner, bend: Corner, end: Corner) -> Iterator[Corner]:
    """A parabola strays from its chord by a quarter of the second difference; n pieces stray 1/n² of that."""
    stray = sqrt((start[0] - 2 * bend[0] + end[0]) ** 2 + (start[1] - 2 * bend[1] + end[1]) ** 2) / 4
    steps = min(_MOST_STEPS, max(1, ceil(sqrt(stray / FLAT_MM))))
    for step in range(1, steps):
        t = step / steps
        a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
        yield a * start[0] + b * bend[0] + c * end[0], a * start[1] + b * bend[1] + c * end[1]
    yield end


class _Placing:
    """From along and below a text's own baseline to a place on the drawing."""

    def __init__(self, text: Text) -> None:
        width = text_width(text.text, text.face, text.size)
        self._back = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
        self._text = text
        self._cos, self._sin = cos(radians(text.turn)), sin(radians(text.turn))

    def __call__(self, along: float, down: float) -> Corner:
        along = (along - self._back) * self._text.stretch
        return (
            self._text.x + along * self._cos - down * self._sin,
            self._text.y + along * self._sin + down * self._cos,
        )


class _Letters:
    """The letters of one typeface, in the units of its file, y up."""

    def __init__(self, face: str) -> None:
        from fontTools.ttLib import TTFont

        font: Any = TTFont(font_file(f"{face}.ttf"), lazy=True)
        self.units_per_em: int = font["head"].unitsPerEm
        self.names: dict[int, str] = font.getBestCmap()
        self.advances = font["hmtx"]
        self._glyphs = font.getGlyphSet()
        self._known: dict[str, tuple[Contour, ...]] = {}

    def contours(self, glyph: str) -> tuple[Contour, ...]:
        if glyph not in self._known:
            self._known[glyph] = tuple(self._drawn(glyph))
        return self._known[glyph]

    def _drawn(self, glyph: str) -> Iterator[Contour]:
        from fontTools.pens.recordingPen import DecomposingRecordingPen

        pen = DecomposingRecordingPen(self._glyphs)
        self._glyphs[glyph].draw(pen)
        parts: list[Segment] = []
        for step, corners in pen.value:
            if step == "closePath":
                if sum(map(len, parts)) > _POINTS_OF_NOTHING:
                    yield tuple(parts)
                parts = []
            elif step == "qCurveTo":
                parts += _bends(corners)
            else:
                parts.append(tuple(corners))


@cache
def _letters(face: str) -> _Letters:
    return _Letters(face)


def _bends(corners: tuple[Any, ...]) -> Iterator[Segment]:
    """TrueType leaves out the corners that lie half way between two bends, even all of a contour (None at its end)."""
    from fontTools.pens.basePen import decomposeQuadraticSegment

    if corners[-1] is None:
        (x1, y1), (x2, y2) = corners[-2], corners[0]
        start = ((x1 + x2) / 2, (y1 + y2) / 2)
        yield (start,)
        corners = (*corners[:-1], start)
    yield from (tuple(segment) for segment in decomposeQuadraticSegment(corners))
