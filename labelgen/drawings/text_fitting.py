"""The largest size at which a text fits its place; condensed before shrunk below what reads well; never clipped."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from unicodedata import combining, normalize

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape, Text
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for, size_for_cap, text_width

NARROWEST = 0.8
"""A text is condensed to 80 % of its width at most: beyond that letters close up. Common practice, no source."""

LINE_HEIGHT = 1.6
"""From baseline to baseline, in cap heights. Common practice, no source."""

UNDERLINE_GAP, UNDERLINE_WEIGHT = 0.2, 0.1
"""Of the line that keeps 6 from being read as 9, in cap heights. Our own choice."""
UNDERLINE_REACH = UNDERLINE_GAP + UNDERLINE_WEIGHT

_STANDING = frozenset("ABCDEFGHIKLMNOPRSTUVWXYZ0123456789acemnorstuvwxziı .:-–'\"#%*+<=>?!~^")
"""What neither goes below the baseline nor is taller than a capital, measured from the glyphs of our faces."""
_TALL, _LOW = frozenset("bdfhkl&"), frozenset("gpqyjJQ,;_")
"""What is a little taller; what goes below the baseline."""
_CAPITAL, _TALLEST, _DIP, _HIGHER, _STACKED = 0.785, 0.825, 0.02, 0.06, 0.2
"""Per em: top of a round capital, top of `_TALL`, how far a round letter dips, how much
some accents rise above that of É, what a second accent adds."""
_BELOW_LEFT, _BELOW, _ABOVE = 202, 220, 230
"""Combining classes (The Unicode Standard, 4.3): cedilla and ogonek, marks below, marks above."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A text at the size it takes."""

    text: str
    face: str
    size: float
    stretch: float

    @property
    def width(self) -> float:
        return text_width(self.text, self.face, self.size) * self.stretch

    @property
    def cap(self) -> float:
        return FACES[self.face].cap * self.size

    @property
    def descent(self) -> float:
        return FACES[self.face].descent * self.size

    @property
    def above(self) -> float:
        """How far the ink of this very text reaches above the baseline."""
        return reach(self.text, self.face)[0] * self.size

    @property
    def below(self) -> float:
        """How far the ink of this very text reaches below the baseline."""
        return reach(self.text, self.face)[1] * self.size

    def at(self, x: float, y: float, *, anchor: str = "start", colour: str = "#000000", turn: float = 0) -> Text:
        """The shape, with its baseline at y."""
        return _text(self, x, y, anchor, colour, turn)


@lru_cache(maxsize=2048)
def _text(fitted: Fitted, x: float, y: float, anchor: str, colour: str, turn: float) -> Text:  # noqa: PLR0917
    """Labels that follow one another often say the same in the same place: they share it."""
    return Text(
        x=x,
        y=y,
        text=fitted.text,
        face=fitted.face,
        size=fitted.size,
        stretch=fitted.stretch,
        anchor=anchor,  # type: ignore[arg-type]
        colour=colour,
        turn=turn,
    )


@lru_cache(maxsize=2048)
def fit(text: str, *, width: float, largest: float, smallest: float, face: str = REGULAR) -> Fitted | None:
    """The text at the largest cap height from `largest` down to `smallest` mm that is no wider than `width` mm.

    From `largest` it first shrinks to the geometric middle of the two heights, then is condensed, then shrinks on.
    None when even the smallest, fully condensed, is too wide.
    """
    chosen = face_for(text, face)
    middle = (largest * smallest) ** 0.5
    per_cap = text_width(text, chosen, size_for_cap(1.0, chosen)) or 1e-9
    cap = min(largest, max(middle, width / per_cap))
    stretch = min(1.0, width / (per_cap * cap))
    if stretch < NARROWEST:
        stretch = NARROWEST
        cap = width / (per_cap * NARROWEST)
    if cap < smallest * (1 - 1e-9):
        return None
    return Fitted(text=text, face=chosen, size=size_for_cap(cap, chosen), stretch=stretch)


def fit_head(
    text: str, *, width: float, largest: float, wanted: float, smallest: float, face: str = BOLD
) -> Fitted | None:
    """A head or an id, which is read from further away: condensed before it is lower than `wanted` mm."""
    wanted = min(wanted, largest)
    fitted = fit(text, width=width, largest=largest, smallest=wanted, face=face) if wanted > smallest else None
    return fitted or fit(text, width=width, largest=largest, smallest=smallest, face=face)


def break_lines(text: str, *, width: float, cap: float, face: str = REGULAR) -> list[str]:
    """The text over as many lines as it takes at that cap height, broken at spaces only."""
    chosen = face_for(text, face)
    size = size_for_cap(cap, chosen)
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, chosen, size) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def fit_lines(
    text: str, *, width: float, height: float, largest: float, smallest: float, face: str = REGULAR
) -> Sequence[Fitted] | None:
    """The text over one or more lines, all of one size, in a place of that width and height.

    None when it cannot be legible there.
    """
    for cap in _caps(largest, smallest):
        lines = even_lines(text, width=width, cap=cap, face=face)
        fitted = [fit(line, width=width, largest=cap, smallest=cap, face=face) for line in lines]
        whole = [line for line in fitted if line is not None]
        if whole and len(whole) == len(lines) and _block_height(whole) <= height + 1e-9:
            return whole
    return None


def even_lines(text: str, *, width: float, cap: float, face: str) -> list[str]:
    """No more lines than the width asks for, but as even as can be: no word is left alone on the last one."""
    lines = break_lines(text, width=width, cap=cap, face=face)
    for share in range(97, 40, -3):
        closer = break_lines(text, width=width * share / 100, cap=cap, face=face)
        if len(closer) > len(lines):
            break
        lines = closer
    return lines


def _block_height(lines: Sequence[Fitted]) -> float:
    """From the top of the first line's ink to the bottom of the last line's."""
    return lines[0].above + (len(lines) - 1) * LINE_HEIGHT * lines[0].cap + lines[-1].below


def _caps(largest: float, smallest: float) -> Iterator[float]:
    """Cap heights to try, 3 % apart, the smallest itself last."""
    cap = largest
    while cap > smallest:
        yield cap
        cap *= 0.97
    yield smallest


@lru_cache(maxsize=2048)
def reach(text: str, face: str) -> tuple[float, float]:
    """How far a text's ink reaches above and below its baseline, per em; never less than it does."""
    reaches = [_reach(character, face) for character in set(text)]
    return max((above for above, _ in reaches), default=_CAPITAL), max((below for _, below in reaches), default=_DIP)


@lru_cache(maxsize=4096)
def _reach(character: str, face: str) -> tuple[float, float]:
    """The same of one character, and of a round capital."""
    letter, *marks = list(normalize("NFD", character))
    known = letter in _STANDING or letter in _TALL or letter in _LOW
    over = sum(combining(mark) == _ABOVE for mark in marks) if known else 1
    under = not known or letter in _LOW or any(combining(mark) in (_BELOW_LEFT, _BELOW) for mark in marks)
    highest = FACES[face].ascent + _HIGHER + _STACKED * (over - 1) if over else _TALLEST if letter in _TALL else 0.0
    return max(_CAPITAL, highest), max(_DIP, FACES[face].descent + _DIP if under else 0.0)


def fit_in(
    text: str,
    box: Rectangle,
    *,
    largest: float,
    smallest: float,
    face: str = REGULAR,
    underline: bool = False,
    turn: float = 0,
) -> Fitted | None:
    """The text at the largest cap height with which all its ink lies in the box; None when it cannot be legible.

    `turn` -90: it runs upwards. `underline`: room is left for the line below it.
    """
    width, height = (box.width, box.height) if turn == 0 else (box.height, box.width)
    chosen = face_for(text, face)
    above, below = (part / FACES[chosen].cap for part in reach(text, chosen))
    room = height / (above + (max(below, UNDERLINE_REACH) if underline else below))
    return fit(text, width=width, largest=min(largest, room), smallest=smallest, face=face)


def centred(
    fitted: Fitted,
    box: Rectangle,
    *,
    colour: str = "#000000",
    underlined: int = 0,
    room_for_line: bool = False,
    turn: float = 0,
) -> list[Shape]:
    """The text in the middle of the box, its first `underlined` characters with a line below them.

    Capitals stand in the middle; what reaches further down or up moves the text only when it would leave the box.
    `room_for_line`: it stands where it would if it were underlined, so that a row of texts keeps one baseline.
    """
    height = box.height if turn == 0 else box.width
    below = UNDERLINE_REACH * fitted.cap if underlined or room_for_line else 0.0
    lowest = height - max(below, fitted.below)
    baseline = min(lowest, max(fitted.above, (height - below + fitted.cap) / 2))
    if turn == 0:
        x, y = box.x + box.width / 2, box.y + baseline
    else:
        x, y = box.x + baseline, box.y + box.height / 2
    shapes: list[Shape] = [fitted.at(x, y, anchor="middle", colour=colour, turn=turn)]
    if underlined:
        shapes.append(underline(fitted, x, y, characters=underlined, colour=colour, turn=turn))
    return shapes


def underline(fitted: Fitted, x: float, y: float, *, characters: int, colour: str = "#000000", turn: float = 0) -> Line:
    """The line below the first characters of a text whose middle is at (x, y), on its baseline."""
    start = -fitted.width / 2
    length = text_width(fitted.text[:characters], fitted.face, fitted.size) * fitted.stretch
    inset = 0.04 * length
    down = (UNDERLINE_GAP + UNDERLINE_WEIGHT / 2) * fitted.cap
    a, b = start + inset, start + length - inset
    width = UNDERLINE_WEIGHT * fitted.cap
    if turn == 0:
        return Line(x1=x + a, y1=y + down, x2=x + b, y2=y + down, width=width, colour=colour)
    return Line(x1=x + down, y1=y - a, x2=x + down, y2=y - b, width=width, colour=colour)


def stacked(lines: Sequence[Fitted], box: Rectangle, *, colour: str = "#000000", turn: float = 0) -> list[Shape]:
    """Lines of one size, one below the other, in the middle of the box; with `turn` -90 they run upwards."""
    height = box.height if turn == 0 else box.width
    step = LINE_HEIGHT * lines[0].cap
    first = (height - (len(lines) - 1) * step - lines[-1].below + lines[0].above) / 2
    shapes: list[Shape] = []
    for index, line in enumerate(lines):
        down = first + index * step
        if turn == 0:
            x, y = box.x + box.width / 2, box.y + down
        else:
            x, y = box.x + down, box.y + box.height / 2
        shapes.append(line.at(x, y, anchor="middle", colour=colour, turn=turn))
    return shapes
