"""The band on a lever plate: the lever's colour with the name of what it works, so that it survives black and white."""

from collections.abc import Iterator

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import centred
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Corner, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.panel.lever_looks import LeverLook
from labelgen.standards.colour_letters import COLOURS, Colour
from labelgen.standards.lever_colours import said
from labelgen.typefaces import BOLD

BAND_MM, SECOND_MM = 4.4, 1.5
"""Height of a band; of its lower part in a second colour or pattern."""
WORDS_CAP = 2.1
BAR_MM, LETTERS_MM = 2.4, 4.0
"""Width of the bar that a low plate has in its place."""
_RIM_MM, _RIM = 0.15, "#1a1a1a"
_INSET_MM = 0.5
_STRIPE_MM = 2.0


def band(lever: LeverLook, place: Rectangle, look: Look, lettering: Lettering) -> Iterator[Shape]:
    """The words on the first colour, below them the second one where there are two; in black and white, in words."""
    colours = [] if look.mono else [COLOURS[letters] for letters in lever.colours]
    second = len(colours) > 1
    patch = Rectangle(place.x, place.y, place.width, place.height - (SECOND_MM if second else 0))
    ink = "#000000"
    if colours:
        ink = colours[0].ink
        yield _box(patch, colours[0].paint)
    if second:
        yield from _second(lever, Rectangle(place.x, patch.bottom, place.width, SECOND_MM), colours[0], colours[1])
    edge = place.inset(_RIM_MM / 2)
    yield Box(x=edge.x, y=edge.y, width=edge.width, height=edge.height, stroke=_RIM, stroke_width=_RIM_MM)
    words = _words(lever, look)
    if words:
        room = Rectangle(patch.x, patch.y, patch.width, patch.height).inset(_INSET_MM / 2)
        fitted = lettering.inside(words, room, largest=max(WORDS_CAP, lettering.smallest), face=BOLD)
        yield from centred(fitted, room, colour=ink) if fitted else ()


def bar(lever: LeverLook, place: Rectangle) -> Iterator[Shape]:
    """The colours alone, one above the other, for a plate too low for words on them."""
    colours = [COLOURS[letters] for letters in lever.colours]
    height = place.height / len(colours)
    for index, colour in enumerate(colours):
        yield _box(Rectangle(place.x, place.y + index * height, place.width, height), colour.paint)
    edge = place.inset(_RIM_MM / 2)
    yield Box(x=edge.x, y=edge.y, width=edge.width, height=edge.height, stroke=_RIM, stroke_width=_RIM_MM)


def lettered(lever: LeverLook, place: Rectangle, lettering: Lettering) -> Iterator[Shape]:
    """What it works in two letters, for a plate in black and white that is too low and too short for words."""
    edge = place.inset(_RIM_MM / 2)
    yield Box(x=edge.x, y=edge.y, width=edge.width, height=edge.height, stroke=_RIM, stroke_width=_RIM_MM)
    fitted = lettering.inside(letters_of_role(lever.words), place.inset(_INSET_MM / 2), largest=WORDS_CAP, face=BOLD)
    yield from centred(fitted, place, colour="#000000") if fitted else ()


def letters_of_role(words: str) -> str:
    """The first two letters of one word, the first letters of several: Po, HD."""
    first, *others = words.replace(",", " ").split()
    return f"{first[0]}{others[-1][0]}".upper() if others else first[:2].capitalize()


def _words(lever: LeverLook, look: Look) -> str:
    """On a black-and-white printer the colour is said, so that the lever can be painted by its plate."""
    if not (look.mono and lever.colours) or lever.role == "spare":
        return lever.words
    colours = look.says(said(lever.colours))
    return f"{lever.words}, {colours}" if lever.words else colours


def _second(lever: LeverLook, place: Rectangle, first: Colour, second: Colour) -> Iterator[Shape]:
    if not lever.mark:
        yield _box(place, second.paint)
        return
    yield _box(place, first.paint)
    count = int(place.width / (2 * _STRIPE_MM))
    step = place.width / count
    runs = [_piece(lever.mark, place, place.x + index * step, step / 2) for index in range(count)]
    yield Outline(runs=tuple(runs), closed=True, fill=second.paint)


def _piece(mark: str, place: Rectangle, x: float, width: float) -> tuple[Corner, ...]:
    """One stripe, or one chevron that points up or down; to and fro in turn where it is for both."""
    top, foot, far = place.y, place.bottom, x + width
    if mark == "stripes":
        return ((x, top), (far, top), (far, foot), (x, foot))
    if mark == "chevrons-down":
        return ((x, top), (far, top), (x + width / 2, foot))
    if mark == "chevrons-up":
        return ((x, foot), (far, foot), (x + width / 2, top))
    return ((x + width / 2, top), (far, (top + foot) / 2), (x + width / 2, foot), (x, (top + foot) / 2))


def _box(place: Rectangle, paint: str) -> Box:
    return Box(x=place.x, y=place.y, width=place.width, height=place.height, fill=paint)
