"""The ways part of a strip marker: one cell for each way, exactly its pitch wide."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.swap_sign import swap_sign
from labelgen.drawings.text_fitting import centred, fit_in, fit_lines, stacked
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, WayPlan
from labelgen.typefaces import BOLD, REGULAR

HEIGHT = 10.0
NUMBER_TOP, NUMBER_BOTTOM, HEAD_TOP, HEAD_BOTTOM, BAND_TOP = 0.35, 2.4, 3.0, 7.25, 7.5
"""mm from the block's edge of the marker (0) to its wires' edge (10)."""
NUMBER_CAP, HEAD_CAP, WORDS_CAP = 1.55, 3.25, 2.0
DIVIDER = 0.15
GREY, FAINT = "#4d4d4d", "#9a9a9a"
WORTH_TURNING = 1.25
"""Texts are turned only when they become that much larger: level text is read faster."""
OUTLIER = 0.75
"""A text that would have to be that much smaller than the largest does not set the size for its whole row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """How all texts of one row are set, so that the row looks of a piece."""

    face: str
    cap: float
    turn: float


class Cells:
    """Cells from left to right as the marker is read; the first one starts at `start` mm."""

    def __init__(
        self,
        *,
        netlist: Netlist,
        look: Look,
        lettering: Lettering,
        ways: Sequence[WayPlan],
        pitch: float,
        start: float,
        scale: float,
        wires_below: bool,
    ) -> None:
        self.netlist, self.look, self.lettering, self.ways = netlist, look, lettering, ways
        self.pitch, self.start, self.scale, self.wires_below = pitch, start, scale, wires_below
        self.numbers = self._row(REGULAR, NUMBER_CAP, self._number_box, lambda way: str(way.number))
        self.heads = self._row(BOLD, HEAD_CAP, self._head_box, lambda way: way.head if way.state == "used" else "")

    def shapes(self) -> Iterator[Shape]:
        length, height = self.pitch * len(self.ways), HEIGHT * self.scale
        yield Box(x=self.start, y=0, width=length, height=height, fill="#ffffff")
        for index, way in enumerate(self.ways):
            yield from self._cell(index, way)
        for index in range(1, len(self.ways)):
            x = self.start + index * self.pitch
            yield Line(x1=x, y1=0, x2=x, y2=height, width=DIVIDER, colour=GREY)

    def _cell(self, index: int, way: WayPlan) -> Iterator[Shape]:
        number = str(way.number)
        yield from self._text(number, self._number_box(index), self.numbers, len(number))
        if way.state == "used":
            if (function := self.netlist.functions.get(way.function)) is not None:
                yield from mark(function, self._stretch(index, BAND_TOP, HEIGHT), self.look)
            if way.swap_with:
                band = self._stretch(index, BAND_TOP, HEIGHT)
                yield from swap_sign(str(way.swap_with), band, smallest=self.lettering.smallest, scale=self.scale)
            yield from self._text(way.head, self._head_box(index), self.heads, len(way.stem))
        elif way.state == "taken":
            yield from self._words(way.head, _narrowed(self._stretch(index, HEAD_TOP, HEIGHT - 0.6)))
        else:
            yield self._dash(self._head_box(index))
            yield from self._past(way.was, _narrowed(self._stretch(index, BAND_TOP, HEIGHT - 0.4)))

    def _stretch(self, index: int, top: float, bottom: float) -> Rectangle:
        """A part of one cell, given from its block's edge (0) to its wires' edge (10)."""
        y = top if self.wires_below else HEIGHT - bottom
        return Rectangle(self.start + index * self.pitch, y * self.scale, self.pitch, (bottom - top) * self.scale)

    def _number_box(self, index: int) -> Rectangle:
        return _narrowed(self._stretch(index, NUMBER_TOP, NUMBER_BOTTOM))

    def _head_box(self, index: int) -> Rectangle:
        return _narrowed(self._stretch(index, HEAD_TOP, HEAD_BOTTOM))

    def _row(
        self, face: str, largest: float, box: Callable[[int], Rectangle], text_of: Callable[[WayPlan], str]
    ) -> _Row:
        """One way round and one size for all: what the longest take, but for one that would shrink the others."""
        smallest = self.lettering.smallest
        largest = max(largest * self.scale, smallest)
        texts = [(text, box(index)) for index, way in enumerate(self.ways) if (text := text_of(way))]

        def caps(turn: float) -> list[float]:
            fitted = (
                fit_in(text, room, largest=largest, smallest=smallest, face=face, underline=True, turn=turn)
                for text, room in texts
            )
            return [found.cap * found.stretch if found else 0.0 for found in fitted]

        level, upright = caps(0), caps(-90)
        turn = -90 if min(upright, default=0) > WORTH_TURNING * min(level, default=0) else 0
        heights = upright if turn else level
        cap = min((height for height in heights if height > OUTLIER * max(heights)), default=largest)
        return _Row(face=face, cap=min(largest, max(cap, smallest)), turn=turn)

    def _text(self, text: str, box: Rectangle, row: _Row, digits: int) -> list[Shape]:
        """A text in its box; its first digits are underlined when upside down they would be another number."""
        underlined = digits if needs_underline(text[:digits]) else 0
        fitted = self.lettering.inside(text, box, largest=row.cap, face=row.face, turn=row.turn)
        if fitted is None:
            return []
        return centred(fitted, box, underlined=underlined, room_for_line=True, turn=row.turn)

    def _words(self, text: str, box: Rectangle) -> list[Shape]:
        """The builder's own words for what has taken the way: level, or upwards where that is clearly larger."""
        known, smallest = self.lettering.known(text, REGULAR), self.lettering.smallest
        largest = max(WORDS_CAP * self.scale, smallest)
        level = fit_lines(known, width=box.width, height=box.height, largest=largest, smallest=smallest)
        upright = fit_lines(known, width=box.height, height=box.width, largest=largest, smallest=smallest)
        if level and (not upright or upright[0].cap <= WORTH_TURNING * level[0].cap):
            return stacked(level, box)
        if upright:
            return stacked(upright, box, turn=-90)
        if known:
            self.lettering.too_long(text)
        return []

    def _past(self, head: str, box: Rectangle) -> list[Shape]:
        """What a way was before it was freed, small and grey; left out where it could not be read."""
        smallest = self.lettering.smallest
        fitted = fit_in(head, box, largest=smallest, smallest=smallest, face=REGULAR) if head else None
        return centred(fitted, box, colour=GREY) if fitted is not None else []

    def _dash(self, box: Rectangle) -> Line:
        """A spare way: a faint dash, and room for a pencil."""
        half = min(1.0, box.width / 4)
        x, y = box.x + box.width / 2, box.y + box.height / 2
        return Line(x1=x - half, y1=y, x2=x + half, y2=y, width=0.3, colour=FAINT)


def _narrowed(box: Rectangle) -> Rectangle:
    """Less a little at the sides, so that texts of neighbours never touch."""
    margin = min(0.4, 0.04 * box.width)
    return Rectangle(box.x + margin, box.y, box.width - 2 * margin, box.height)
