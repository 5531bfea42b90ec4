"""A booklet's cover: the railway's name, what it is, its panel, and the cautions. Sizes: mm."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.booklet.index import Contents
from labelgen.drawings.booklet.pages import SIDE, SOFT, Book
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.cells import Words
from labelgen.drawings.lists.writing import count
from labelgen.drawings.moving import moved, scaled
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, fit_lines
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Drawing, Line, Shape
from labelgen.model.look import Look
from labelgen.standards.cautions import CAUTIONS
from labelgen.typefaces import BOLD, REGULAR

NAME_CAP, NAME_HEIGHT, NAME_TOP, ALONE_TOP = 15.0, 44.0, 34.0, 62.0
LEAST_NAME_CAP = 5.0
ABOUT_CAP, FACTS_CAP, CAUTION_CAP = 3.9, 3.1, 2.9
PICTURE_AIR, PICTURE_MOST = 10.0, 96.0
WARNING, INSET, WHAT_SHARE, CAUTION_GAP = "Before you touch anything", 5.0, 0.33, 2.6
WARNING_CAP = 4.2
FOOT = 16.0


def cover(book: Book, about: str, facts: str, panel: Drawing | None, look: Look) -> Drawing:
    """`panel`: the face of a panel, which is drawn as large as there is room for it."""
    lettering, paper = book.lettering, book.paper
    top = NAME_TOP if panel is not None else ALONE_TOP
    room = Rectangle(SIDE, top, paper.width - 2 * SIDE, paper.height - top - FOOT)
    warning = list(_warning(room, look, lettering))
    top = min(shape.y for shape in warning if isinstance(shape, Box))
    shapes, y = _names(book, room, about, facts)
    if panel is not None:
        shapes += _picture(panel, Rectangle(room.x, y, room.width, top - y))
    return Drawing(
        width=paper.width,
        height=paper.height,
        shapes=(*shapes, *warning),
        name="booklet, cover",
        place=lettering.place,
    )


def facts_of(contents: Contents, boards: int) -> str:
    """`2 boards, 3 strips, 12 levers, 60 wires`."""
    counted = (
        (boards, "board"),
        (len(contents.strips), "strip"),
        (len(contents.levers), "lever"),
        (len(contents.plugs), "plug"),
        (len(contents.wires), "wire"),
    )
    return " · ".join(count(number, what) for number, what in counted if number)


def _names(book: Book, room: Rectangle, about: str, facts: str) -> tuple[list[Shape], float]:
    """And where they end."""
    lettering = book.lettering
    smallest = max(LEAST_NAME_CAP, lettering.smallest)
    lines = fit_lines(
        book.railway, width=room.width, height=NAME_HEIGHT, largest=NAME_CAP, smallest=smallest, face=BOLD
    ) or _broken(book.railway, room.width, smallest, BOLD, lettering)
    shapes: list[Shape] = []
    y = room.y
    for line in lines:
        y += line.cap if line is lines[0] else LINE_HEIGHT * 0.9 * line.cap
        shapes.append(line.at(room.x, y))
    y += 8.0
    shapes.append(Line(x1=room.x, y1=y, x2=room.right, y2=y, width=0.8))
    y += 4.0
    for text, cap, colour in ((about, ABOUT_CAP, "#000000"), (facts, FACTS_CAP, SOFT)):
        for line in _broken(text, room.width, max(cap, lettering.smallest), REGULAR, lettering):
            y += LINE_HEIGHT * line.cap
            shapes.append(line.at(room.x, y, colour=colour))
        y += 2.0
    return shapes, y


def _picture(panel: Drawing, place: Rectangle) -> list[Shape]:
    height = min(PICTURE_MOST, place.height - 2 * PICTURE_AIR)
    factor = min(place.width / panel.width, height / panel.height)
    x = place.x + (place.width - factor * panel.width) / 2
    y = place.y + (place.height - factor * panel.height) / 2
    return moved(scaled(panel.shapes, factor), x, y)


def _warning(room: Rectangle, look: Look, lettering: Lettering) -> Iterator[Shape]:
    """The cautions in a frame at the foot: on the left what to do, on the right why."""
    cap = max(CAUTION_CAP, lettering.smallest)
    width = room.width - 2 * INSET
    what_width = WHAT_SHARE * width
    pairs = [
        (
            _broken(look.says(what), what_width, cap, BOLD, lettering),
            _broken(look.says(why), width - what_width - INSET, cap, REGULAR, lettering),
        )
        for what, why in CAUTIONS
    ]
    step = LINE_HEIGHT * cap
    heights = [max(len(what), len(why)) * step + CAUTION_GAP for what, why in pairs]
    head = 2.6 * WARNING_CAP
    height = INSET + head + sum(heights) - CAUTION_GAP + INSET - 1.5
    y = room.bottom - height
    yield Box(x=room.x, y=y, width=room.width, height=height, stroke="#000000", stroke_width=0.7, radius=2)
    y += INSET
    for line in _broken(WARNING, width, max(WARNING_CAP, lettering.smallest), BOLD, lettering):
        yield line.at(room.x + INSET, y + line.cap)
    y += head
    for (what, why), tall in zip(pairs, heights, strict=True):
        yield from _column(what, room.x + INSET, y, step)
        yield from _column(why, room.x + 2 * INSET + what_width, y, step)
        y += tall


def _column(lines: Sequence[Fitted], x: float, y: float, step: float) -> Iterator[Shape]:
    yield from (line.at(x, y + index * step + line.cap) for index, line in enumerate(lines))


def _broken(text: str, width: float, cap: float, face: str, lettering: Lettering) -> list[Fitted]:
    return Words(text=lettering.known(text, face), bold=face == BOLD).lines(cap, width) if text else []
