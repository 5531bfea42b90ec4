"""Puts a printed list on pages: running heads, page numbers, what is said again where a table goes on. Sizes: mm."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.cells import Words
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

MARGIN = 12.0
HEAD_CAP = 2.6
HEAD_GAP = 8.0
"""Between the title and the page's number."""
HEAD_BASELINE, HEAD_RULE, TOP = 14.0, 16.5, 20.5
"""From the paper's top: the running head, the line below it, and where the list begins."""
AIR_AT_FOOT = 0.3
"""The last line's own weight."""
LEAST_LINES = 3
"""Of a table on its last page, where it has more than twice as many before: one alone would be overlooked."""
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A part of a list that is never divided between pages, as wide as the page's room."""

    height: float
    paint: Callable[[float], Sequence[Shape]]
    """Its shapes, when its top edge is at that y."""
    keeps: bool = False
    """It stays on one page with the piece behind it."""
    again: tuple["Piece", ...] = ()
    """What is said again above it when a page begins with it."""
    stop: str = ""
    """Its name, when something in the same document leads to it."""
    bookmark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPaper:
    """The paper of a list, and the words of its running head."""

    paper: Paper
    railway: str
    title: str

    @property
    def room(self) -> Rectangle:
        """Where the list itself stands on each page."""
        paper = self.paper
        return Rectangle(MARGIN, TOP, paper.width - 2 * MARGIN, paper.height - MARGIN - TOP)


def list_pages(pieces: Sequence[Piece], on: ListPaper, lettering: Lettering) -> list[Drawing]:
    """The pages of a list, upright, each as large as its paper. Problems go to the lettering."""
    pages = list(filled(pieces, on.room.height))
    return [
        Drawing(
            width=on.paper.width,
            height=on.paper.height,
            shapes=(*_running_head(on, f"page {number} of {len(pages)}", lettering), *_painted(page, on.room)),
            name=f"{on.title}, page {number}",
            place=lettering.place,
        )
        for number, page in enumerate(pages, 1)
    ]


def filled(pieces: Sequence[Piece], height: float) -> Iterator[list[Piece]]:
    """The pages piece by piece; a table that goes on on the last one has more there than a line or two."""
    pages: list[list[list[Piece]]] = []
    used = 0.0
    for run in _runs(pieces):
        tall = _height(run)
        if not pages or used + tall > height - AIR_AT_FOOT + _HAIR:
            used = _height(run[0].again) if pages else 0.0
            pages.append([])
        pages[-1].append(run)
        used += tall
    if len(pages) > 1:
        _without_a_lone_line(pages[-2], pages[-1])
    for page in pages:
        again = page[0][0].again if page is not pages[0] else ()
        yield [*again, *(piece for run in page for piece in run)]


def _without_a_lone_line(before: list[list[Piece]], last: list[list[Piece]]) -> None:
    while len(last) < LEAST_LINES < len(before) - LEAST_LINES and last[0][0].again and before[-1][0].again:
        last.insert(0, before.pop())


def _runs(pieces: Sequence[Piece]) -> Iterator[list[Piece]]:
    """What stays on one page."""
    run: list[Piece] = []
    for piece in pieces:
        run.append(piece)
        if not piece.keeps:
            yield run
            run = []
    if run:
        yield run


def _height(pieces: Sequence[Piece]) -> float:
    return sum(piece.height for piece in pieces)


def _painted(page: Sequence[Piece], room: Rectangle) -> Iterator[Shape]:
    y = room.y
    for piece in page:
        yield from piece.paint(y)
        y += piece.height


def _running_head(on: ListPaper, page: str, lettering: Lettering) -> Iterator[Shape]:
    left, right = on.room.x, on.room.right
    cap = max(HEAD_CAP, lettering.smallest)
    number = Words(text=page)
    title = f"{on.railway}: {on.title}"
    width = on.room.width - number.width(cap) - HEAD_GAP
    name = lettering.line(title, width=width, largest=cap, face=BOLD)
    if name is not None:
        yield name.at(left, HEAD_BASELINE)
    yield from (line.at(right, HEAD_BASELINE, anchor="end") for line in number.lines(cap, on.room.width))
    yield Line(x1=left, y1=HEAD_RULE, x2=right, y2=HEAD_RULE, width=0.3)
