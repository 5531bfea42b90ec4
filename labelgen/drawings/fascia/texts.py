"""Texts of a fascia: one or more lines of one size, which know the room that their ink takes."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.drawings.text_fitting import LINE_HEIGHT, UNDERLINE_REACH, Fitted, fit, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Shape
from labelgen.typefaces import BOLD, REGULAR

_ENDLESS = 1e6
"""A width that every text fits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Lines of one size. `underlined`: with the line that keeps 6 from being read as 9; `foot`: with room for it."""

    lines: tuple[Fitted, ...]
    underlined: bool = False
    foot: bool = False

    @property
    def width(self) -> float:
        return max(line.width for line in self.lines)

    @property
    def drop(self) -> float:
        """What lies below the last baseline."""
        last = self.lines[-1]
        return max(last.below, UNDERLINE_REACH * last.cap if self.foot else 0.0)

    @property
    def height(self) -> float:
        first = self.lines[0]
        return first.above + (len(self.lines) - 1) * LINE_HEIGHT * first.cap + self.drop

    @property
    def size(self) -> tuple[float, float]:
        return self.width, self.height

    def around(self, x: float, y: float) -> Rectangle:
        """Its place when it stands in the middle of (x, y)."""
        return Rectangle(x - self.width / 2, y - self.height / 2, self.width, self.height)

    def shapes(self, place: Rectangle, colour: str, anchor: str = "middle") -> list[Shape]:
        """The block in a place of its own size."""
        x = place.x + (place.width / 2 if anchor == "middle" else 0 if anchor == "start" else place.width)
        drawn: list[Shape] = []
        for index, line in enumerate(self.lines):
            baseline = place.bottom - self.drop - (len(self.lines) - 1 - index) * LINE_HEIGHT * line.cap
            drawn.append(line.at(x, baseline, anchor=anchor, colour=colour))
            if self.underlined:
                drawn.append(underline(line, x, baseline, characters=len(line.text), colour=colour))
        return drawn


def number(text: str, cap: float, *, underlined: bool, foot: bool) -> Block:
    """A lever's number, bold. `foot`: leave room below, so that numbers with and without a line stand on one height."""
    return Block(lines=_fitted([text], cap, BOLD), underlined=underlined, foot=foot)


def line(text: str, cap: float, face: str = REGULAR) -> Block:
    return Block(lines=_fitted([text], cap, face))


def lines(texts: Sequence[str], cap: float, face: str = REGULAR) -> Block:
    """Each text on a line of its own."""
    return Block(lines=_fitted(texts, cap, face))


def forms(text: str, cap: float, face: str = REGULAR) -> tuple[Block, ...]:
    """The text on one line and, where it has a space, on two that are as alike as can be."""
    words = text.split()
    blocks = [line(" ".join(words), cap, face)]
    halves = [(" ".join(words[:cut]), " ".join(words[cut:])) for cut in range(1, len(words))]
    if halves:
        blocks.append(min((Block(lines=_fitted(half, cap, face)) for half in halves), key=lambda b: b.width))
    return tuple(blocks)


def _fitted(texts: Sequence[str], cap: float, face: str) -> tuple[Fitted, ...]:
    found = (fit(text, width=_ENDLESS, largest=cap, smallest=cap, face=face) for text in texts)
    return tuple(one for one in found if one is not None)
