"""Lines of a flag that run along the wire: words in several weights, and an arrow; sized together. Sizes are mm."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.text_fitting import NARROWEST, Fitted, reach
from labelgen.model.drawing import Line, Outline, Shape
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for, size_for_cap

ARROW_LENGTH, ARROW_HEAD, ARROW_HALF, ARROW_WEIGHT = 1.25, 0.62, 0.38, 0.16
"""In cap heights."""
GAP = 0.5
"""Between the words of a line, in cap heights; twice that where a head ends."""
SHRINKS_BY = 0.97
HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A word of a line; an arrow to the right stands before one that says where the wire goes."""

    text: str
    bold: bool = False
    arrow: bool = False

    @property
    def face(self) -> str:
        return face_for(self.text, BOLD if self.bold else REGULAR)


@dataclass(frozen=True, slots=True, kw_only=True)
class FlagLine:
    said: tuple[Said, ...]

    def width(self, cap: float, stretch: float) -> float:
        *_, (_, last, fitted) = self._places(0.0, cap, stretch)
        return last + fitted.width

    def rises(self) -> float:
        """How far its ink reaches above the baseline, in cap heights."""
        return max(reach(word.text, word.face)[0] / FACES[word.face].cap for word in self.said)

    def dips(self) -> float:
        return max(reach(word.text, word.face)[1] / FACES[word.face].cap for word in self.said)

    def shapes(self, x: float, baseline: float, cap: float, stretch: float) -> Iterator[Shape]:
        """From x on."""
        for word, at, fitted in self._places(x, cap, stretch):
            if word.arrow:
                yield from _arrow(at - ARROW_LENGTH * cap - GAP * cap, baseline - cap / 2, cap)
            yield fitted.at(at, baseline)

    def _places(self, x: float, cap: float, stretch: float) -> Iterator[tuple[Said, float, Fitted]]:
        """Each word, where it begins, and at its size."""
        for word in self.said:
            x += (ARROW_LENGTH + GAP) * cap if word.arrow else 0.0
            fitted = Fitted(text=word.text, face=word.face, size=size_for_cap(cap, word.face), stretch=stretch)
            yield word, x, fitted
            x += fitted.width + (2 * GAP if word.bold else GAP) * cap


def largest(lines: Sequence[FlagLine], *, width: float, most: float, least: float) -> tuple[float, float] | None:
    """The cap height, from `most` down to `least`, and the stretch at which all the lines are no wider than that.

    Condensed before shrunk, as far as letters stay apart; None when even the least is too wide.
    """
    cap = max(most, least)
    while True:
        natural = max(line.width(cap, 1.0) for line in lines)
        if natural <= width + HAIR:
            return cap, 1.0
        narrow = max(line.width(cap, NARROWEST) for line in lines)
        if narrow <= width + HAIR:
            # a line's width grows evenly with the stretch of its letters
            shares = [(width - line.width(cap, 0.0)) / (line.width(cap, 1.0) - line.width(cap, 0.0)) for line in lines]
            return cap, min(1.0, *shares)
        if cap <= least:
            return None
        cap = max(least, cap * SHRINKS_BY)


def _arrow(x: float, y: float, cap: float) -> list[Shape]:
    tip, neck, half = x + ARROW_LENGTH * cap, x + (ARROW_LENGTH - ARROW_HEAD) * cap, ARROW_HALF * cap
    return [
        Line(x1=x, y1=y, x2=neck, y2=y, width=ARROW_WEIGHT * cap),
        Outline(runs=(((tip, y), (neck, y - half), (neck, y + half)),), closed=True, fill="#000000"),
    ]
