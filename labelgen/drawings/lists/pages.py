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
    """The pieces page by page."""
    page: list[Piece] = []
    for run in _runs(pieces):
        if page and _height([*page, *run]) > height - AIR_AT_FOOT + _HAIR:
            yield page
            page = list(run[0].again)
        page += run
    if page:
        yield page


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
