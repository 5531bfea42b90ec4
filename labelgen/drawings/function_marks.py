"""How a function looks: its colour, its pattern, its code letter.

Colours by the letters of IEC 60757; the pattern says the same again to those who see no colour, and to a
black-and-white printer.
"""

from functools import lru_cache

from labelgen.drawings.mark_patterns import PATTERN_RUNS, Run, core, cut, plain
from labelgen.drawings.moving import moved
from labelgen.drawings.text_fitting import centred, fit_in
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.standards.colour_letters import COLOURS, Colour, letters_of
from labelgen.typefaces import BOLD

WHITE = COLOURS["WH"]
RIM_COLOUR = "#1a1a1a"
RIM = 0.15
"""mm: the thin dark outline that every mark has, so that white and yellow do not melt into the paper."""

BAND_SHARE = 0.27
"""How much of a code block's height the pattern takes; at most `BAND_MOST` mm, so that the letter has the rest."""
BAND_MOST = 2.2
LETTER_OF_PATCH = 0.8
LETTER_SHARE = 0.57
"""Of a code block's height: at least so high is its letter, where it is wide enough for it."""


def colours_of(function: Function, look: Look) -> tuple[Colour, ...]:
    """One colour, or the two of a two-coloured wire; white where there is none, or on a black-and-white printer."""
    letters = None if look.mono else letters_of(function.colour)
    return tuple(COLOURS[each] for each in letters) if letters else (WHITE,)


def mark(function: Function, rectangle: Rectangle, look: Look) -> list[Shape]:
    """Colour and pattern in a rectangle (mm), with a thin dark outline that stays inside it."""
    return list(_mark_at(function, rectangle, look))


@lru_cache(maxsize=512)
def _mark_at(function: Function, rectangle: Rectangle, look: Look) -> tuple[Shape, ...]:
    """Labels of one size have it at one place: most of them share its shapes."""
    return tuple(moved(_mark(function, rectangle.width, rectangle.height, look), rectangle.x, rectangle.y))


@lru_cache(maxsize=1024)
def _mark(function: Function, width: float, height: float, look: Look) -> list[Shape]:
    """The mark with its corner at the origin: a railway has few of them, many times over."""
    rectangle = Rectangle(0, 0, width, height)
    colours = colours_of(function, look)
    shapes: list[Shape] = []
    for part, colour in zip(_parts(rectangle, len(colours)), colours, strict=True):
        shapes += _painted(function.pattern, rectangle, part, colour, look)
    return [*shapes, rim(rectangle)]


def code_block(function: Function, rectangle: Rectangle, look: Look) -> list[Shape]:
    """The code letter on a plain patch of the colour, the pattern in a band below it."""
    return list(_code_block_at(function, rectangle, look))


@lru_cache(maxsize=512)
def _code_block_at(function: Function, rectangle: Rectangle, look: Look) -> tuple[Shape, ...]:
    return tuple(moved(_code_block(function, rectangle.width, rectangle.height, look), rectangle.x, rectangle.y))


@lru_cache(maxsize=1024)
def _code_block(function: Function, width: float, height: float, look: Look) -> list[Shape]:
    rectangle = Rectangle(0, 0, width, height)
    colours = colours_of(function, look)
    upper, lower = colours[0], colours[-1]
    band_height = min(BAND_MOST, BAND_SHARE * rectangle.height)
    patch = Rectangle(rectangle.x, rectangle.y, rectangle.width, rectangle.height - band_height)
    band = Rectangle(rectangle.x, patch.bottom, rectangle.width, band_height)
    return [
        _filled(patch, upper.paint),
        *_painted(function.pattern, band, band, lower, look),
        *_divider(patch, upper, function.pattern),
        *_letter(function.code, patch, upper.ink),
        rim(rectangle),
    ]


def rim(rectangle: Rectangle) -> Box:
    """The thin dark outline of a mark, inside the rectangle."""
    inner = rectangle.inset(RIM / 2)
    return Box(
        x=inner.x, y=inner.y, width=inner.width, height=inner.height, stroke=RIM_COLOUR, stroke_width=RIM, fill=None
    )


def _parts(rectangle: Rectangle, count: int) -> list[Rectangle]:
    """The rectangle itself, or its two halves along the longer side, like the tracer on a two-coloured wire."""
    if count == 1:
        return [rectangle]
    x, y, width, height = rectangle.x, rectangle.y, rectangle.width, rectangle.height
    if height > width:
        return [Rectangle(x, y, width / 2, height), Rectangle(x + width / 2, y, width / 2, height)]
    return [Rectangle(x, y, width, height / 2), Rectangle(x, y + height / 2, width, height / 2)]


def _filled(rectangle: Rectangle, paint: str) -> Box:
    return Box(x=rectangle.x, y=rectangle.y, width=rectangle.width, height=rectangle.height, fill=paint)


def _painted(pattern: str, whole: Rectangle, part: Rectangle, colour: Colour, look: Look) -> list[Shape]:
    """One part of a mark: its fill, and as much of the whole mark's pattern as falls into it."""
    shapes: list[Shape] = [_filled(part, colour.paint)]
    runs = [run for run in (cut(run, part) for run in _runs(pattern, whole, colour, look)) if run]
    if runs:
        shapes.append(Outline(runs=tuple(runs), closed=True, fill=colour.ink))
    return shapes


def _runs(pattern: str, whole: Rectangle, colour: Colour, look: Look) -> list[Run]:
    """`solid` comes out dark and `plain` light on a photocopy, whatever their colour: a block says so where needed."""
    dark = colour.ink == WHITE.paint
    if pattern == "solid" and not look.mono:
        return list(plain(whole) if dark else core(whole))
    if pattern == "plain" and dark:
        return list(core(whole))
    return list(PATTERN_RUNS.get(pattern, plain)(whole))


def _divider(patch: Rectangle, colour: Colour, pattern: str) -> list[Shape]:
    if pattern == "plain":
        return []
    y = patch.bottom
    return [Line(x1=patch.x, y1=y, x2=patch.right, y2=y, width=RIM, colour=colour.ink)]


def _letter(code: str, patch: Rectangle, ink: str) -> list[Shape]:
    """The code as large as its patch allows."""
    room = patch.inset(min(0.25, patch.width / 12, patch.height / 12))
    fitted = fit_in(code, room, largest=LETTER_OF_PATCH * patch.height, smallest=0.1, face=BOLD)
    return list(centred(fitted, room, colour=ink)) if fitted else []
