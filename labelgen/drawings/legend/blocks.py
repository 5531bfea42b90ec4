"""The blocks of a legend: functions two by two, and rows of what is seen beside what it means. Sizes: mm."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.function_marks import code_block
from labelgen.drawings.legend.signs import Sign
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, break_lines, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.typefaces import BOLD, REGULAR

BLOCK_WIDTH, BLOCK_HEIGHT, BLOCK_GAP = 9.0, 6.8, 1.8
COLUMN_GAP = 4.0
FUNCTION_HEIGHT = 8.4
SAMPLE = 19.0
"""The column of what is seen; behind it, what it means."""
ROW_AIR = 0.75
SIGN_HEIGHT, SIGN_AIR = 3.4, 1.3
LEAST_SAMPLE = 0.8
"""Of the usual height: what is seen is never smaller beside its meaning."""
HEADING_AIR, HEADING_HEIGHT = 2.4, 6.9
GREY = "#4d4d4d"


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where the card's texts stand, how large they are, who is told what does not fit."""

    left: float
    width: float
    cap: float
    look: Look
    lettering: Lettering

    @property
    def line(self) -> float:
        return LINE_HEIGHT * self.cap


def heading(text: str, setting: Setting) -> Piece:
    """A small title with a thin line above it."""

    def paint(y: float) -> list[Shape]:
        rule = y + HEADING_AIR / 2
        fitted = fit(text, width=setting.width, largest=setting.cap, smallest=setting.lettering.smallest, face=BOLD)
        line = Line(x1=setting.left, y1=rule, x2=setting.left + setting.width, y2=rule, width=0.2, colour=GREY)
        return [line, *([fitted.at(setting.left, y + HEADING_HEIGHT - 2.0)] if fitted else [])]

    return Piece(height=HEADING_HEIGHT, paint=paint, keeps=True)


def functions(used: Sequence[Function], setting: Setting) -> Iterator[Piece]:
    """Two beside each other: code, colour and pattern as on a flag; the name; colour and size in words."""
    half = (len(used) + 1) // 2
    height = max(FUNCTION_HEIGHT, 2.2 * setting.line)
    above = (height - FUNCTION_HEIGHT) / 2
    for row in range(half):
        pair = used[row::half]

        def paint(y: float, pair: Sequence[Function] = pair) -> list[Shape]:
            width = (setting.width - COLUMN_GAP) / 2
            lefts = (setting.left, setting.left + width + COLUMN_GAP)
            return [
                shape
                for function, x in zip(pair, lefts, strict=False)
                for shape in _function(function, Rectangle(x, y + above, width, FUNCTION_HEIGHT), setting)
            ]

        yield Piece(height=height, paint=paint)


def _function(function: Function, place: Rectangle, setting: Setting) -> Iterator[Shape]:
    yield from code_block(function, Rectangle(place.x, place.y, BLOCK_WIDTH, BLOCK_HEIGHT), setting.look)
    x = place.x + BLOCK_WIDTH + BLOCK_GAP
    width = place.right - x
    name = setting.lettering.line(function.name, width=width, largest=setting.cap, face=BOLD)
    about = setting.lettering.line(_about(function, setting.look), width=width, largest=setting.cap)
    first = place.y + (BLOCK_HEIGHT - setting.line - setting.cap) / 2 + setting.cap
    yield from (text.at(x, y) for text, y in ((name, first), (about, first + setting.line)) if text is not None)


def _about(function: Function, look: Look) -> str:
    """`yellow YE, 16/0.2`."""
    letters = letters_of(function.colour) or ()
    colour = look.says("-".join(COLOURS[each].word for each in letters))
    return ", ".join(part for part in (f"{colour} {''.join(letters)}".strip(), function.size) if part)


def row(sample: str, means: str, setting: Setting) -> Piece:
    """What is written on a label, and what it means: beside it, or below it where it is long."""
    known = setting.lettering.known(sample, BOLD)
    seen = fit(known, width=SAMPLE - 2.0, largest=setting.cap, smallest=LEAST_SAMPLE * setting.cap, face=BOLD)
    above = [] if seen is not None else _lines(sample, setting.width, setting, face=BOLD)
    found = _lines(means, setting.width - SAMPLE, setting)

    def paint(y: float) -> list[Shape]:
        line = Rectangle(setting.left, y, 0, setting.line)
        first = _beside([seen] if seen is not None else above, line, setting)
        below = Rectangle(setting.left + SAMPLE, y + len(above) * setting.line, 0, setting.line)
        return [*first, *_beside(found, below, setting)]

    return Piece(height=(len(above) + len(found)) * setting.line + ROW_AIR, paint=paint)


def pictures(signs: Sequence[Sign], setting: Setting) -> Iterator[Piece]:
    """What is drawn on a label, and what it means."""
    for sign in signs:
        found = _lines(setting.look.says(sign.means), setting.width - SAMPLE, setting)

        def paint(y: float, sign: Sign = sign, found: Sequence[Fitted] = found) -> list[Shape]:
            seen = sign.paint(Rectangle(setting.left, y, SAMPLE - 2.0, SIGN_HEIGHT))
            return [*seen, *_beside(found, Rectangle(setting.left + SAMPLE, y, 0, SIGN_HEIGHT), setting)]

        yield Piece(height=SIGN_HEIGHT + (len(found) - 1) * setting.line + SIGN_AIR, paint=paint)


def _beside(found: Sequence[Fitted], place: Rectangle, setting: Setting) -> list[Shape]:
    """The first line's capitals in the middle of the place, further ones below it."""
    first = place.y + (place.height + setting.cap) / 2
    return [line.at(place.x, first + index * setting.line) for index, line in enumerate(found)]


def lines(text: str, setting: Setting) -> Piece:
    """Words over the whole width."""
    fitted = _lines(text, setting.width, setting)

    def paint(y: float) -> list[Shape]:
        return [line.at(setting.left, y + setting.cap + index * setting.line) for index, line in enumerate(fitted)]

    return Piece(height=len(fitted) * setting.line + 0.5 * setting.cap, paint=paint)


def _lines(text: str, width: float, setting: Setting, face: str = REGULAR) -> list[Fitted]:
    known, smallest = setting.lettering.known(text, face), setting.lettering.smallest
    broken = break_lines(known, width=width, cap=setting.cap, face=face)
    fitted = [fit(line, width=width, largest=setting.cap, smallest=smallest, face=face) for line in broken]
    if any(line is None for line in fitted):
        setting.lettering.too_long(text)
    return [line for line in fitted if line is not None]
