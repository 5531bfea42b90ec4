"""What every maker is asked for and gives back: a checked description and a request in, files and problems out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from labelgen.model.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.sheet import Document, Sheet, Stock
from labelgen.places import Place
from labelgen.problems import Problem, has_errors
from labelgen.reading.data_readers import stocks
from labelgen.standards.legibility import SMALLEST_CAP_MM

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """One file that was made, in the builder's words."""

    name: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    files: Files
    made: tuple[Made, ...]
    problems: list[Problem]


class Job:
    """What one maker needs to know."""

    def __init__(self, checked: Checked, request: Request) -> None:
        self.description = checked.description
        self.netlist = checked.netlist
        self.request = request
        printing = self.description.printing
        self.look = Look(
            mono=request.mono or printing.mono,
            smallest_cap=printing.smallest_text or SMALLEST_CAP_MM,
            same_way_up=printing.markers == "same",
            grid=request.grid,
        )

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
        return stock_called(name, self.description.place_of("sheets", one))

    def wanted(self, drawings: Sequence[Drawing]) -> list[Drawing]:
        """Those of the board that is asked for."""
        board = self.request.board
        return [drawing for drawing in drawings if board is None or drawing.board == board]

    def printed(self, name: str, what: str, pages: tuple[Sheet, ...], problems: list[Problem]) -> Result:
        """One PDF; none when there is nothing on it."""
        from labelgen.rendering.pdf import pdf_bytes

        if not pages or has_errors(problems):
            return Result(files={}, made=(), problems=problems)
        title = f"{self.description.railway}: {name.removesuffix('.pdf')}"
        content = pdf_bytes(Document(title=title, pages=pages))
        return Result(files={name: content}, made=(Made(name=name, what=what),), problems=problems)


def stock_called(name: str, place: Place) -> tuple[Stock | None, list[Problem]]:
    """The label sheet of that id, or of the only id that begins so. Reports unknown-sheet."""
    from labelgen.imposition.sheet_grid import find_stock

    known = list(stocks().values())
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
    """What `check` can say of printing without making anything: sheets that are not known, a schedule's address."""
    from labelgen.drawings.tag_text import address_problem

    given = {use: getattr(description.sheets, use) for use in type(description.sheets).model_fields}
    problems = [
        problem
        for use, name in given.items()
        if name is not None
        for problem in stock_called(name, description.place_of("sheets", use))[1]
    ]
    address = address_problem(description)
    return [*problems, *([address] if address is not None else [])]


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
    return None


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
