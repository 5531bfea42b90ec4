"""The contents of a booklet: chapter by chapter the page on which it begins."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from labelgen.drawings.booklet.pages import SOFT, Book, Chapter, opening
from labelgen.drawings.lists.blocks import Band, Column, Setting, grid, space
from labelgen.drawings.lists.cells import PageNumber, Words
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.shortening import shortened
from labelgen.drawings.text_fitting import fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.typefaces import BOLD, REGULAR

NAME = "Contents"
CAP, UNDER_CAP = 3.6, 3.1
LINE, UNDER_LINE, INDENT = 9.4, 7.4, 8.0
LEADER = (0.35, 1.6)
MOST_IN_LINES = 12
"""Of the chapters of a part: more of them stand side by side."""


def contents_chapter(chapters: Sequence[Chapter], book: Book) -> Chapter:
    """Its page numbers are known when it is painted."""
    pieces = [opening(NAME, book.setting), space(2), *_pieces(chapters, book)]
    return Chapter(title=NAME, stop="contents", sections=(pieces,))


def _pieces(chapters: Sequence[Chapter], book: Book) -> Iterator[Piece]:
    for part, group in groupby(chapters, key=lambda chapter: chapter.part):
        own = list(group)
        if part and len(own) > MOST_IN_LINES:
            yield from _side_by_side(part, own, book)
            continue
        if part:
            yield replace(_line(part, f"part {part}", book, under=False), keeps=True)
        for chapter in own:
            yield _line(chapter.title, chapter.stop, book, under=bool(part), note=chapter.note)


def _line(text: str, stop: str, book: Book, *, under: bool, note: str = "") -> Piece:
    """Title, dots, page."""
    setting = book.setting
    cap, height, indent = (UNDER_CAP, UNDER_LINE, INDENT) if under else (CAP, LINE, 0.0)
    cap = max(cap, setting.cap)
    number = PageNumber(stop=stop, numbers=book.numbers, bold=not under)
    room = setting.width - indent - number.width(cap) - 6

    def paint(y: float) -> list[Shape]:
        baseline = y + (height + cap) / 2
        face = REGULAR if under else BOLD
        known = setting.lettering.known(text, face)
        line = shortened(known, width=room, largest=cap, smallest=cap, face=face)
        place = Rectangle(setting.left, y, setting.width, height)
        x, shapes = setting.left + indent, list(number.shapes(place, cap, "end"))
        if line is None:
            return shapes
        said = fit(note, width=room - line.width - 10, largest=cap, smallest=cap) if note else None
        end = x + line.width + (4 + said.width if said is not None else 0)
        shapes += [said.at(x + line.width + 4, baseline, colour=SOFT)] if said is not None else []
        return [replace(line.at(x, baseline), leads_to=stop), *_dots(end + 2, baseline, setting), *shapes]

    return Piece(height=height, paint=paint)


def _dots(start: float, baseline: float, setting: Setting) -> Iterator[Shape]:
    end = setting.right - 12
    if end > start:
        yield Line(x1=start, y1=baseline - 0.3, x2=end, y2=baseline - 0.3, width=0.35, colour="#8a8a8a", dash=LEADER)


def _side_by_side(part: str, chapters: Sequence[Chapter], book: Book) -> Iterator[Piece]:
    entries = [
        (
            Words(text=chapter.title, leads_to=chapter.stop),
            PageNumber(stop=chapter.stop, numbers=book.numbers, digits=4),
        )
        for chapter in chapters
    ]
    columns = (Column(heading=""), Column(heading="", align="end"))
    yield from grid(Band(text=part), columns, entries, book.setting)
    yield space(4)
