"""Binds chapters into a booklet: pages with running heads, their numbers, contents, and where bookmarks lead. mm."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Setting
from labelgen.drawings.lists.cells import Words
from labelgen.drawings.lists.pages import HEAD_BASELINE, HEAD_RULE, Piece, filled
from labelgen.drawings.shortening import shortened
from labelgen.drawings.text_fitting import LINE_HEIGHT, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.model.sheet import Stop
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD, REGULAR

CAP = 2.8
"""Height of a capital, about 10.5 points: for eyes over sixty, at arm's length. Common practice, no source."""
SIDE, TOP, FOOT = 16.0, 22.0, 14.0
"""Margins. Filing holes are 6 mm wide and 12 mm from the edge (ISO 838), so that 16 mm stay clear of them."""
NUMBER_CAP, HEAD_CAP, HEAD_GAP = 3.4, 2.6, 8.0
NAME_SHARE = 0.45
"""Of a running head's width, for the railway's name at most."""
OPENING_CAP, OPENING_BASELINE, OPENING_HEIGHT, OPENING_LINE = 7.0, 9.5, 14.0, 1.45
UNDER_CAP, UNDER_HEIGHT = 3.2, 8.0
BOUND_EDGE, BOUND_FOOT, BOUND_CAP = 10.0, 5.5, 2.6
ABOVE_STOP = 2.0
"""How far above a stop a reader's window opens."""
SOFT = "#4d4d4d"


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """What begins on a page of its own, and is found in the contents and among the bookmarks."""

    title: str
    stop: str
    sections: tuple[Sequence[Piece], ...]
    """Each of them begins on a new page."""
    bound: Sequence[Drawing] = ()
    """Pages that were made elsewhere, and are bound in behind these as they are."""
    note: str = ""
    """What the contents say of it besides."""
    part: str = ""
    """The part of the book to which it belongs, with others; "" of one that stands alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BookPage:
    drawing: Drawing
    stops: tuple[Stop, ...]


@dataclass(frozen=True, kw_only=True)
class Book:
    """The paper and the type of a booklet. `numbers`, stop: page, is filled when the pages are laid out."""

    paper: Paper
    railway: str
    lettering: Lettering
    numbers: dict[str, int] = field(default_factory=dict)

    @property
    def room(self) -> Rectangle:
        return Rectangle(SIDE, TOP, self.paper.width - 2 * SIDE, self.paper.height - TOP - FOOT)

    @property
    def setting(self) -> Setting:
        cap = max(CAP, self.lettering.smallest)
        return Setting(cap=cap, left=self.room.x, width=self.room.width, lettering=self.lettering, patient=True)

    def bound(self, cover: Drawing, chapters: Sequence[Chapter]) -> list[BookPage]:
        """The pages in order: the cover is page 1. Every page number is known before anything is painted."""
        laid = [page for chapter in chapters for page in self._laid(chapter)]
        first = Stop(name="cover", y=0, bookmark=self.railway)
        stops = [tuple(self._stops(page, before)) for before, page in pairwise((None, *laid)) if page is not None]
        for number, own in enumerate(stops, 2):
            self.numbers.update((stop.name, number) for stop in own)
        inner = [
            BookPage(drawing=self._page(page, number), stops=own)
            for number, (page, own) in enumerate(zip(laid, stops, strict=True), 2)
        ]
        return [BookPage(drawing=cover, stops=(first,)), *inner]

    def _laid(self, chapter: Chapter) -> Iterator["_Laid"]:
        pages = [page for section in chapter.sections for page in filled(section, self.room.height)]
        yield from (_Laid(chapter=chapter, first=page is pages[0], pieces=page) for page in pages)
        for place, drawing in enumerate(chapter.bound):
            yield _Laid(chapter=chapter, first=place == 0 and not pages, pieces=(), drawing=drawing)

    def _stops(self, page: "_Laid", before: "_Laid | None") -> Iterator[Stop]:
        chapter = page.chapter
        level = int(bool(chapter.part))
        if page.first:
            if chapter.part and (before is None or before.chapter.part != chapter.part):
                yield Stop(name=f"part {chapter.part}", y=0, bookmark=chapter.part)
            yield Stop(name=chapter.stop, y=0, bookmark=chapter.title, level=level)
        y = self.room.y
        for piece in page.pieces:
            if piece.stop:
                yield Stop(name=piece.stop, y=y - ABOVE_STOP, bookmark=piece.bookmark, level=level + 1)
            y += piece.height

    def _page(self, page: "_Laid", number: int) -> Drawing:
        if page.drawing is not None:
            return self._bound_in(page.drawing, number)
        shapes: list[Shape] = [*self._head("" if page.first else page.chapter.title, number)]
        y = self.room.y
        for piece in page.pieces:
            shapes += piece.paint(y)
            y += piece.height
        return Drawing(
            width=self.paper.width,
            height=self.paper.height,
            shapes=tuple(shapes),
            name=f"booklet, page {number}",
            place=self.lettering.place,
        )

    def _bound_in(self, drawing: Drawing, number: int) -> Drawing:
        """With its number in the corner, below all that is on it."""
        x, y = drawing.width - BOUND_EDGE, drawing.height - BOUND_FOOT
        cap, smallest = max(BOUND_CAP, self.lettering.smallest), self.lettering.smallest
        line = fit(str(number), width=20, largest=cap, smallest=smallest, face=BOLD)
        corner = [line.at(x, y, anchor="end")] if line is not None else []
        return replace(drawing, shapes=(*drawing.shapes, *corner))

    def _head(self, title: str, number: int) -> Iterator[Shape]:
        """A page that opens with its title in large letters does not say it twice."""
        room, smallest = self.room, self.lettering.smallest
        line = fit(str(number), width=20, largest=max(NUMBER_CAP, smallest), smallest=smallest, face=BOLD)
        if line is not None:
            yield line.at(room.right, HEAD_BASELINE, anchor="end")
        right = room.right - HEAD_GAP - (line.width if line is not None else 0)
        cap = max(HEAD_CAP, smallest)
        name = shortened(self.railway, width=NAME_SHARE * room.width, largest=cap, smallest=cap)
        if name is not None:
            yield name.at(right, HEAD_BASELINE, anchor="end", colour=SOFT)
            right -= name.width + HEAD_GAP
        known, width = self.lettering.known(title, BOLD), right - room.x
        said = shortened(known, width=width, largest=cap, smallest=cap, face=BOLD) if title else None
        if said is not None:
            yield said.at(room.x, HEAD_BASELINE)
        yield Line(x1=room.x, y1=HEAD_RULE, x2=room.right, y2=HEAD_RULE, width=0.3)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """A page whose pieces are known."""

    chapter: Chapter
    first: bool
    pieces: Sequence[Piece]
    drawing: Drawing | None = None
    """It was made elsewhere."""


def opening(text: str, setting: Setting, under: str = "") -> Piece:
    """The title with which a chapter opens, and a line under it; broken over lines where they are long."""
    cap, under_cap = max(OPENING_CAP, setting.cap), max(UNDER_CAP, setting.cap)
    lines = Words(text=setting.lettering.known(text, BOLD), bold=True).lines(cap, setting.width)
    below = Words(text=setting.lettering.known(under, REGULAR)).lines(under_cap, setting.width) if under else []
    step, under_step = OPENING_LINE * cap, LINE_HEIGHT * under_cap
    first = OPENING_HEIGHT + (len(lines) - 1) * step

    def paint(y: float) -> list[Shape]:
        titles = [line.at(setting.left, y + OPENING_BASELINE + i * step) for i, line in enumerate(lines)]
        down = y + first + under_cap + 0.6
        return [*titles, *(line.at(setting.left, down + i * under_step, colour=SOFT) for i, line in enumerate(below))]

    height = first + (UNDER_HEIGHT + (len(below) - 1) * under_step if below else 0) + 2
    return Piece(height=height, paint=paint, keeps=True)
