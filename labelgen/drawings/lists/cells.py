"""What stands in the cells of a printed list: words, boxes to tick, a colour, a line to write on. Sizes are mm."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from labelgen.drawings.function_marks import mark
from labelgen.drawings.text_fitting import LINE_HEIGHT, NARROWEST, Fitted, even_lines, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.typefaces import BOLD, REGULAR, face_for, size_for_cap, text_width

CAP = 2.6
"""Height of a capital: read at half an arm's length in poor light. Never below 2.5 mm (common practice, no source)."""
TICK_BOX, TICK_GAP = 3.6, 1.6
SWATCH_WIDTH, SWATCH_HEIGHT, SWATCH_GAP = 8.0, 4.0, 1.4
WRITE_IN = 12.0
SENTENCE = 7
"""A text with so many blanks is rather broken than condensed: a squeezed line among others looks like another voice."""
BOX_COLOUR, WRITE_COLOUR = "#000000", "#555555"

Align = Literal["start", "end"]
_PIECES = re.compile(r"[^ ./:_-]*[ ./:_-]*")
"""Where a name may be broken: behind a blank, a point, a stroke."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    text: str
    bold: bool = False
    leads_to: str = ""
    """A stop of the same document."""

    @property
    def face(self) -> str:
        return face_for(self.text, BOLD if self.bold else REGULAR)

    def width(self, cap: float) -> float:
        return text_width(self.text, self.face, size_for_cap(cap, self.face))

    def lines(self, cap: float, width: float) -> list[Fitted]:
        """In one line, condensed if need be; else in several, broken where a name has joints, else anywhere."""
        return _lines(self.text, self.face, cap, width)

    def shapes(self, place: Rectangle, cap: float, align: Align) -> Iterator[Shape]:
        """The first line's capitals in the middle of `place`, further lines below it."""
        if not self.text:
            return
        x = place.x if align == "start" else place.right
        baseline = place.y + (place.height + cap) / 2
        for index, line in enumerate(self.lines(cap, place.width)):
            text = line.at(x, baseline + index * LINE_HEIGHT * cap, anchor=align)
            yield replace(text, leads_to=self.leads_to) if self.leads_to else text


@lru_cache(maxsize=65536)
def _lines(text: str, face: str, cap: float, width: float) -> list[Fitted]:
    """A list says the same sizes and colours over and over, and each cell is measured before it is painted."""
    whole = fit(text, width=width, largest=cap, smallest=cap, face=face)
    if whole is not None and (whole.stretch == 1 or text.count(" ") < SENTENCE):
        return [whole]
    if text.count(" ") >= SENTENCE:
        fitted = [
            fit(line, width=width, largest=cap, smallest=cap, face=face)
            for line in even_lines(text, width=width, cap=cap, face=face)
        ]
        if all(fitted):
            return [line for line in fitted if line is not None]
    parts = [each for piece in _PIECES.findall(text) for each in _halved(piece, face, cap, width)]
    lines: list[str] = []
    for part in parts:
        longer = f"{lines[-1]}{part}" if lines else part
        fits = text_width(longer.rstrip(), face, size_for_cap(cap, face)) <= width
        lines = [*lines[:-1], longer] if lines and fits else [*lines, part]
    fitted = [fit(line.rstrip(), width=width, largest=cap, smallest=cap, face=face) for line in lines]
    return [line for line in fitted if line is not None]


def _halved(text: str, face: str, cap: float, width: float) -> list[str]:
    """The text in pieces that are no wider than that."""
    if len(text) < 2 or text_width(text, face, size_for_cap(cap, face)) * NARROWEST <= width:
        return [text]
    middle = len(text) // 2
    return [piece for half in (text[:middle], text[middle:]) for piece in _halved(half, face, cap, width)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ticks:
    """Boxes to tick."""

    count: int = 1
    size: float = TICK_BOX

    def width(self, _cap: float) -> float:
        return self.count * (self.size + TICK_GAP) - TICK_GAP

    def shapes(self, place: Rectangle, _cap: float, _align: Align) -> Iterator[Shape]:
        y = place.y + (place.height - self.size) / 2
        for index in range(self.count):
            x = place.x + index * (self.size + TICK_GAP)
            yield Box(x=x, y=y, width=self.size, height=self.size, stroke=BOX_COLOUR, stroke_width=0.25)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A wire's colour, with the function's pattern, and the colour's letters behind it."""

    function: Function
    letters: str
    look: Look

    @property
    def words(self) -> Words:
        return Words(text=self.letters)

    def width(self, cap: float) -> float:
        return SWATCH_WIDTH + SWATCH_GAP + self.words.width(cap)

    def shapes(self, place: Rectangle, cap: float, align: Align) -> Iterator[Shape]:
        y = place.y + (place.height - SWATCH_HEIGHT) / 2
        yield from mark(self.function, Rectangle(place.x, y, SWATCH_WIDTH, SWATCH_HEIGHT), self.look)
        beside = SWATCH_WIDTH + SWATCH_GAP
        words = Rectangle(place.x + beside, place.y, place.width - beside, place.height)
        yield from self.words.shapes(words, cap, align)


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteIn:
    """A line on which to write what is not known."""

    length: float = WRITE_IN

    def width(self, _cap: float) -> float:
        return self.length

    def shapes(self, place: Rectangle, cap: float, _align: Align) -> Iterator[Shape]:
        y = place.y + (place.height + cap) / 2 + 0.4
        x = place.right - min(self.length, place.width)
        yield Line(x1=x, y1=y, x2=place.right, y2=y, width=0.2, colour=WRITE_COLOUR)


@dataclass(frozen=True, slots=True, kw_only=True)
class PageNumber:
    """The page on which a stop is; nothing, where the document has no such stop."""

    stop: str
    numbers: Mapping[str, int]
    """Stop: page. May be filled after the cell is made, and before it is painted."""
    digits: int = 3
    bold: bool = False

    def width(self, cap: float) -> float:
        return Words(text="0" * self.digits, bold=self.bold).width(cap)

    def shapes(self, place: Rectangle, cap: float, align: Align) -> Iterator[Shape]:
        if self.stop in self.numbers:
            words = Words(text=str(self.numbers[self.stop]), bold=self.bold)
            yield from words.shapes(place, cap, align)


Cell = Words | Ticks | Swatch | WriteIn | PageNumber
NOTHING = Words(text="")
