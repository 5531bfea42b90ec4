"""What every maker is asked for and gives back: a checked description and a request in, files and problems out."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeVar, cast

from labelgen.accepting import Acceptance
from labelgen.labelling import Cells, Choice, Labelling
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.built.record_printing import MadeNow, Scope
from labelgen.model.correction import Correction
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.figures import Figures
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.sheet import Document, Sheet, Stock
from labelgen.model.stock_form import stock_of
from labelgen.places import Place
from labelgen.problems import Problem, has_errors
from labelgen.reading.data_readers import stocks
from labelgen.standards.legibility import SMALLEST_CAP_MM

T = TypeVar("T")
Files = dict[str, bytes]
"""Name inside the folder: content."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Checked:
    """A description that was read, and what its wiring comes to."""

    description: Description
    netlist: Netlist
    before: BuiltRecord
    """The as-built record, in today's names; an empty one where nothing was ever made."""
    built: BuiltRecord
    """What it will be once this is made."""
    record_seen: bytes | None = None
    """What the record's file held; None where there is none."""
    acceptances: tuple[Acceptance, ...] = ()
    """What was found, and is accepted beside the thing it is about."""
    figures: Figures = field(default_factory=Figures)
    """Electrical ones; none of a description with errors."""
    worked_out: dict[object, object] = field(default_factory=dict, compare=False, repr=False)
    """What several makers need, kept for the next of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What is wanted of `make`."""

    only: frozenset[str] = frozenset()
    """Kinds of thing to make; empty for all."""
    board: str | None = None
    sheets: Mapping[str, str] = field(default_factory=dict)
    """Over the description's own: what is printed on which label sheet."""
    start: Mapping[str, int] = field(default_factory=dict)
    """The first cell that is still there on a part-used sheet, from 1."""
    mono: bool = False
    grid: bool = False
    """Fascias show their squares with the numbers of these."""
    correction: Correction | None = None
    """What a printer needs that was named; over the description's own."""
    changed: bool = False
    """Only labels that are new, or say something else than those that are printed; and what is to be done with them."""
    again: Mapping[str, Cells] = field(default_factory=dict)
    """Cells of what was made last that are to be printed once more."""

    @property
    def scope(self) -> Scope:
        """The same, as the record notes it."""
        return Scope(only=self.only, board=self.board or "", changed=self.changed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One file that was made, in the builder's words."""

    name: str
    what: str
    picture: str = ""
    """Of a sheet that was begun: which of its cells are used, a letter for each."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    files: Files
    made: tuple[Made, ...]
    problems: list[Problem]
    now: MadeNow = field(default_factory=MadeNow)
    """What of it is stuck on, for the record."""
    pages: int = 0
    """Sheets of labels and paper, lists apart."""


class Job:
    """What one maker needs to know."""

    def __init__(self, checked: Checked, request: Request) -> None:
        self.description = checked.description
        self.netlist = checked.netlist
        self.figures = checked.figures
        self._worked_out = checked.worked_out
        self.request = request
        printing = self.description.printing
        self.look = Look(
            mono=request.mono or printing.mono,
            smallest_cap=printing.smallest_text or SMALLEST_CAP_MM,
            same_way_up=printing.markers == "same",
            grid=request.grid,
            words=self.description.words,
        )
        choice = Choice(board=request.board, changed=request.changed, again=request.again, start=request.start)
        self.labelling = Labelling(self.description, self.netlist, checked.built, choice, self.look)

    def once(self, what: str, work: Callable[[], T]) -> T:
        """What several makers need: worked out by the first of them, for the same board and look."""
        key = (what, self.request.board, self.look)
        if key not in self._worked_out:
            self._worked_out[key] = work()
        return cast("T", self._worked_out[key])

    @property
    def paper(self) -> str:
        return self.description.printing.paper or ("letter" if self.description.words == "american" else "a4")

    def stock(self, use: str) -> tuple[Stock | None, list[Problem]]:
        """The label sheet on which something is printed. Reports unknown-sheet.

        `flags` stands for those of the overall form, which may be called by their form as well.
        """
        uses = (use, self.description.printing.flags) if use == "flags" else (use,)
        asked = [(self.request.sheets.get(one), one) for one in uses]
        written = [(getattr(self.description.sheets, one), one) for one in uses]
        said = [(name, one) for name, one in (*asked, *written) if name]
        name, one = said[0] if said else (DEFAULT_SHEETS[self.paper][uses[-1]], use)
        return stock_called(name, self.description.place_of("sheets", one), self.stocks)

    @property
    def stocks(self) -> list[Stock]:
        """Every label sheet that may be named."""
        return known_stocks(self.description)

    @property
    def correction(self) -> Correction:
        """By which all pages are painted."""
        printing = self.description.printing
        return self.request.correction or Correction(scale=printing.scale, shift=printing.shift)

    @property
    def stale(self) -> list[Problem]:
        """nothing-made: what is to be printed again is no longer what it was."""
        if not self.labelling.is_stale:
            return []
        return [
            Problem(
                code="nothing-made",
                message="the description has changed since these cells were made, and would fill them otherwise",
                hint="Make what is new or changed, with `labelgen make --changed`; or all of them.",
                place=self.description.place_of_key("railway"),
            )
        ]

    def wanted(self, drawings: Sequence[Drawing]) -> list[Drawing]:
        """Those of the board that is asked for."""
        board = self.request.board
        return [drawing for drawing in drawings if board is None or drawing.board == board]

    def printed(
        self,
        name: str,
        what: str,
        pages: tuple[Sheet, ...],
        problems: list[Problem],
        picture: str = "",
        *,
        bound: bool = False,
    ) -> Result:
        """One PDF, corrected for its printer; none when there is nothing on it. `bound`: it is a book."""
        from labelgen.rendering.pdf import pdf_bytes

        if not pages or has_errors(problems):
            return Result(files={}, made=(), problems=problems)
        self.labelling.pages += len(pages)
        title = f"{self.description.railway}: {name.removesuffix('.pdf')}"
        pages = tuple(replace(page, correction=self.correction.for_page(page.width, page.height)) for page in pages)
        about = self.description.about if bound else ""
        content = pdf_bytes(Document(title=title, pages=pages, about=about, both_sides=bound))
        return Result(files={name: content}, made=(Made(name=name, what=what, picture=picture),), problems=problems)


def known_stocks(description: Description | None) -> list[Stock]:
    """The label sheets that we know, and those of a description; its own stands in for one of ours of that id."""
    own = description.stocks if description is not None else {}
    return list((stocks() | {id_: stock_of(id_, form) for id_, form in own.items()}).values())


def stock_called(name: str, place: Place, known: Sequence[Stock]) -> tuple[Stock | None, list[Problem]]:
    """The label sheet of that id, or of the only id that begins so. Reports unknown-sheet."""
    from labelgen.imposition.sheet_grid import find_stock

    found = find_stock(name, known)
    if isinstance(found, Stock):
        return found, []
    message = f"`{name}` may be one of several label sheets" if found.several else f"there is no label sheet `{name}`"
    near = ", ".join(found.candidates[:6])
    hint = f"Write more of it: {near}." if found.several else "`labelgen sheets` lists those that are known."
    if near and not found.several:
        hint = f"Did you mean {near}? {hint}"
    return None, [Problem(code="unknown-sheet", message=message, hint=hint, place=place)]


def print_problems(description: Description) -> list[Problem]:
    """What `check` can say of printing without making anything.

    Label stock that does not add up, sheets that are not known or whose labels reach into the paper's edge, a
    schedule's address that cannot be one.
    """
    from labelgen.drawings.tags.text import address_problem
    from labelgen.imposition.sheet_grid import stock_problems

    own = [
        problem
        for id_, form in description.stocks.items()
        for problem in stock_problems(stock_of(id_, form), description.place_of_key("stocks", id_))
    ]
    chosen = [problem for use in type(description.sheets).model_fields for problem in _chosen_sheet(description, use)]
    address = address_problem(description)
    return [*own, *chosen, *([address] if address is not None else [])]


def _chosen_sheet(description: Description, use: str) -> list[Problem]:
    """Reports unknown-sheet and near-paper-edge."""
    from labelgen.imposition.sheet_grid import near_edge, near_edge_problem, stock_problems

    name = getattr(description.sheets, use)
    if name is None:
        return []
    place = description.place_of("sheets", use)
    stock, problems = stock_called(name, place, known_stocks(description))
    if stock is None or stock.is_whole or stock_problems(stock, place):
        return problems
    cells = near_edge(stock, LABELS_INSET.get(use, LEAST_INSET))
    return [near_edge_problem(stock, cells, place)] if cells else []


def untold(problems: Sequence[Problem], told: Sequence[Problem]) -> list[Problem]:
    """Those that were not told before: what comes near the paper's edge is known by a check, and again by the ink."""
    edges = {problem.place for problem in told if problem.code == "near-paper-edge"}
    return [one for one in problems if one.code != "near-paper-edge" or one.place not in edges]


def misuse(checked: Checked, request: Request) -> str | None:
    """What is wrong with the words of a command, when something is."""
    boards = checked.description.boards
    if request.board is not None and request.board not in boards:
        return f"--board: there is no board {request.board}; there are {', '.join(boards) or 'none'}"
    for use in {**request.sheets, **request.start}:
        stock, problems = Job(checked, request).stock(use)
        if stock is None and use in request.sheets:
            return f"--sheet: {problems[0].message}. {problems[0].hint}"
        if stock is not None and request.start.get(use, 1) > stock.count:
            return f"--start: {stock.id} has {stock.count} cells, so there is no cell {request.start[use]}"
    return next(filter(None, (_again_misused(checked, use, cells) for use, cells in request.again.items())), None)


def on_the_same_sheets(checked: Checked, request: Request) -> Request:
    """With cells that are printed once more on the label sheets on which they were made."""
    made = {one.use: one.stock for one in checked.built.made_sheets if one.use in request.again}
    return replace(request, sheets={**request.sheets, **made})


def _again_misused(checked: Checked, use: str, cells: Cells) -> str | None:
    """Why cells of a sheet cannot be printed once more."""
    made = [one for one in checked.built.made_sheets if one.use == use]
    if not made:
        return f"--again: no {use} were made last in the cells of a label sheet"
    stock = next((one for one in known_stocks(checked.description) if one.id == made[0].stock), None)
    if stock is None or cells.last > stock.count:
        has = f"has {stock.count} cells" if stock is not None else "is no longer known"
        return f"--again: {made[0].stock}, on which the {use} were made, {has}"
    return None


LABELS_INSET = {"plates": 1.5}
"""Use: mm of its own edge that each of its labels keeps white, or fills with nothing that would be missed."""
LEAST_INSET = 0.8
"""The same of every other use."""

DEFAULT_SHEETS = {
    "a4": {
        "markers": "a4-1-full",
        "fold": "a4-65-38x21",
        "wrap": "a4-70-25x25",
        "sleeve": "a4-1-full",
        "tags": "a4-8-99x68",
        "plates": "a4-65-38x21",
        "places": "a4-8-99x68",
    },
    "letter": {
        "markers": "us-1-full",
        "fold": "us-80-44x13",
        "wrap": "us-70-25x25",
        "sleeve": "us-1-full",
        "tags": "us-10-102x51",
        "plates": "us-30-67x25",
        "places": "us-6-102x85",
    },
}


def counted(number: int, what: str) -> str:
    """So many of something, in words."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
