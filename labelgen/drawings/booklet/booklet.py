"""The booklet: everything about one railway's wiring, bound for the workshop and the show."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from labelgen.drawings.booklet.contents import contents_chapter
from labelgen.drawings.booklet.cover import cover, facts_of
from labelgen.drawings.booklet.figures import FiguresChapter
from labelgen.drawings.booklet.index import Contents, Index, contents_of
from labelgen.drawings.booklet.pages import Book, BookPage, Chapter, opening
from labelgen.drawings.booklet.plugs import PlugChapters
from labelgen.drawings.booklet.strips import StripChapters
from labelgen.drawings.booklet.things import ThingChapters
from labelgen.drawings.booklet.wiring import WiringChapter
from labelgen.drawings.booklet.work import Issues, Work
from labelgen.drawings.legend.blocks import Setting as LegendSetting
from labelgen.drawings.legend.facts import LegendFacts
from labelgen.drawings.legend.legend import legend_pieces
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.cut_list_pages import cut_list_pieces
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.route_pages import route_pieces
from labelgen.drawings.lists.writing import Writer
from labelgen.drawings.testing.chart import parts_of_tests
from labelgen.drawings.testing.words import CAP as TEST_CAP
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.figure_views import FigureViews
from labelgen.model.figures import Figures
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.test_plan import TestPlan
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

LEGEND_AIR = 1.2
"""mm: there is more room than on a card."""
HINT = "Shorten it, or give it a shorter `shown:`."


@dataclass(frozen=True, kw_only=True)
class BookletOf:
    """What a booklet is made of."""

    description: Description
    netlist: Netlist
    look: Look
    paper: Paper
    figures: Figures
    issues: Issues = field(default_factory=dict)
    board: str | None = None
    """Only what is of that board."""
    tests: TestPlan | None = None
    plans: Mapping[str, Sequence[Drawing]] = field(default_factory=dict)
    """Board: the pages of its plan."""
    faces: Callable[[], Mapping[str, Drawing]] = dict
    """Panel: its fascia. Asked for only where one is drawn on the cover."""


def booklet(of: BookletOf) -> tuple[list[BookPage], list[Problem]]:
    """Its pages, each as large as its paper: the cover is page 1.

    Problems: text-does-not-fit, character-missing.
    """
    place = of.description.place_of_key("railway")
    lettering = Lettering(label="booklet", place=place, look=of.look, hint=HINT)
    book = Book(paper=of.paper, railway=lettering.known(of.description.railway, BOLD), lettering=lettering)
    contents = contents_of(of.description, of.netlist, of.board)
    chapters = list(_Chapters(of, book, contents).all())
    boards = len(of.description.boards) if of.board is None else 1
    front = cover(book, of.description.about, facts_of(contents, boards), _face(of), of.look)
    pages = book.bound(front, [contents_chapter(chapters, book), *chapters])
    return pages, list(dict.fromkeys(lettering.problems))


def _face(of: BookletOf) -> Drawing | None:
    """Of the panel with the largest diagram; of one that has none, there is nothing to see."""
    panels = {id_: panel for id_, panel in of.description.panels.items() if panel.tracks}
    if not panels:
        return None
    largest = max(panels, key=lambda id_: len(panels[id_].points))
    return of.faces().get(largest)


class _Chapters:
    def __init__(self, of: BookletOf, book: Book, contents: Contents) -> None:
        self._of, self._book, self._contents = of, book, contents
        self._writer = Writer(look=of.look, setting=book.setting)
        self._work = Work(
            description=of.description,
            netlist=of.netlist,
            contents=contents,
            index=Index(of.netlist, contents),
            book=book,
            writer=self._writer,
            issues=of.issues,
        )

    def all(self) -> Iterator[Chapter]:
        of, netlist = self._of, self._of.netlist
        views = FigureViews(of.figures, netlist)
        strips, things = StripChapters(self._work, views), ThingChapters(self._work)
        yield WiringChapter(self._work).chapter()
        yield from self._legend()
        yield from (strips.chapter(netlist.strip_by_id[id_]) for id_ in self._contents.strips)
        yield from things.levers(views)
        yield from things.devices()
        yield from things.supplies()
        yield from PlugChapters(self._work).all()
        yield from self._cut_list()
        yield FiguresChapter(self._work, of.figures).chapter()
        yield from self._routes()
        yield from self._tests()
        yield from self._plans()

    def _legend(self) -> Iterator[Chapter]:
        of, setting = self._of, self._book.setting
        strips = [of.netlist.strip_by_id[id_] for id_ in self._contents.strips]
        facts = LegendFacts(description=of.description, netlist=of.netlist, wires=self._contents.wires, strips=strips)
        legend = LegendSetting(
            left=setting.left, width=setting.width, cap=setting.cap, look=of.look, lettering=setting.lettering
        )
        name = of.look.says("Colours, letters and signs")
        explained = [replace(one, height=one.height + LEGEND_AIR) for one in legend_pieces(facts, of.netlist, legend)]
        pieces = [opening(name, setting), *explained]
        yield Chapter(title=name, stop="legend", sections=(pieces,))

    def _cut_list(self) -> Iterator[Chapter]:
        if self._contents.wires:
            netlist = replace(self._of.netlist, wires=self._contents.wires)
            pieces = cut_list_pieces(self._of.description, netlist, self._of.look, self._writer)
            yield self._plain("Cut list", "cut-list", list(pieces))

    def _routes(self) -> Iterator[Chapter]:
        if self._of.netlist.matrices:
            yield self._plain("Routes", "routes", list(route_pieces(self._of.netlist, self._writer)))

    def _tests(self) -> Iterator[Chapter]:
        of = self._of
        if of.tests is None:
            return
        setting = replace(self._writer.setting, cap=max(TEST_CAP, self._writer.setting.cap))
        for part in parts_of_tests(of.description, of.netlist, of.tests, of.board):
            name = part.title[0].upper() + part.title[1:]
            writer = replace(self._writer, setting=setting)
            under = part.heading if part.under is None else part.under
            pieces = [opening(writer.known(name), setting, under), *part.pieces(writer)]
            yield Chapter(title=name, stop=f"test {name}", sections=(pieces,), part="Test sheets")

    def _plans(self) -> Iterator[Chapter]:
        for board, drawings in self._of.plans.items():
            shown, name = self._of.netlist.shown_id(board), self._of.description.boards[board].name
            yield Chapter(
                title=f"Plan of {shown}", stop=f"plan {board}", note=name, sections=(), bound=drawings, part="Plans"
            )

    def _plain(self, name: str, stop: str, pieces: Sequence[Piece]) -> Chapter:
        return Chapter(title=name, stop=stop, sections=([opening(name, self._writer.setting), *pieces],))
