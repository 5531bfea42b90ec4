"""One maker for each kind of thing that is printed: drawings, then sheets, then bytes.

Heavy libraries are imported by the maker that needs them, so that `check` and `wires` stay quick.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from labelgen.lengths import Rectangle
from labelgen.model.built_record import BuiltRecord
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Function, Netlist
from labelgen.model.sheet import Document, Placed, Sheet, Stock
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
        )

    @property
    def paper(self) -> str:
        return self.description.printing.paper or ("letter" if self.description.words == "american" else "a4")

    def stock(self, use: str) -> tuple[Stock | None, list[Problem]]:
        """The label sheet on which something is printed. Reports unknown-sheet."""
        given: str | None = getattr(self.description.sheets, use)
        name = self.request.sheets.get(use) or given or DEFAULT_SHEETS[self.paper][use]
        return stock_called(name, self.description.place_of("sheets", use))

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
        "flags": "a4-65-38x21",
        "tags": "a4-8-99x68",
        "plates": "a4-65-38x21",
        "places": "a4-8-99x68",
    },
    "letter": {
        "markers": "us-1-full",
        "flags": "us-80-44x13",
        "tags": "us-10-102x51",
        "plates": "us-30-67x25",
        "places": "us-6-102x85",
    },
}

DrawingsOf = Callable[[Description, Netlist, Look, CellSize], tuple[list[Drawing], list[Problem]]]


def _labels(job: Job, use: str, what: str, draw: DrawingsOf) -> Result:
    """Labels that fill the cells of a label sheet, in order."""
    from labelgen.imposition.sheet_filling import fill

    stock, problems = job.stock(use)
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    drawings, drawing_problems = draw(
        job.description, job.netlist, job.look, CellSize(width=stock.width, height=stock.height)
    )
    wanted = job.wanted(drawings)
    printing = job.description.printing
    pages, filling_problems = fill(
        wanted,
        stock,
        start=job.request.start.get(use, 1),
        scale=printing.scale,
        shift=printing.shift,
        stocks=list(stocks().values()),
    )
    words = f"{_count(len(wanted), what)} on {_count(len(pages), 'sheet')} {stock.id}"
    problems += _where_chosen(job, use, [*drawing_problems, *filling_problems])
    return job.printed(f"{use}.pdf", words, pages, problems)


def _where_chosen(job: Job, use: str, problems: Sequence[Problem]) -> list[Problem]:
    """What is wrong between labels and their sheet, shown where the description chose the sheet, if it did."""
    if use in job.request.sheets or getattr(job.description.sheets, use) is None:
        return list(problems)
    place = job.description.place_of("sheets", use)
    of_sheets = {"label-too-large", "near-paper-edge"}
    return [replace(problem, place=place) if problem.code in of_sheets else problem for problem in problems]


def _markers(job: Job) -> Result:
    from labelgen.drawings.markers import marker_drawings
    from labelgen.imposition.strip_packing import pack

    stock, problems = job.stock("markers")
    if stock is None:
        return Result(files={}, made=(), problems=problems)
    drawings, drawing_problems = marker_drawings(job.description, job.netlist, job.look)
    wanted = job.wanted(drawings)
    title = f"{job.description.railway}: strip markers"
    pages, packing_problems = pack(wanted, stock, title=title, shift=job.description.printing.shift)
    words = f"{_count(len(wanted), 'strip marker')} on {_count(len(pages), 'sheet')} {stock.id}"
    return job.printed("markers.pdf", words, pages, [*problems, *drawing_problems, *packing_problems])


def _flags(job: Job) -> Result:
    from labelgen.drawings.flags import flag_drawings

    return _labels(job, "flags", "wire-end flag", flag_drawings)


def _tags(job: Job) -> Result:
    from labelgen.drawings.tags import tag_drawings

    return _labels(job, "tags", "strip tag", tag_drawings)


def _plates(job: Job) -> Result:
    from labelgen.drawings.plates import plate_drawings

    return _labels(job, "plates", "lever plate", plate_drawings)


def _places(job: Job) -> Result:
    from labelgen.drawings.places import place_drawings

    return _labels(job, "places", "plug and hole label", place_drawings)


def _fascia(job: Job) -> Result:
    from labelgen.drawings.fascia import fascia_drawings
    from labelgen.imposition.tiling import tile
    from labelgen.rendering.svg import svg_bytes
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = fascia_drawings(job.description, job.netlist, job.look)
    files: Files = {}
    made: list[Made] = []
    for panel, drawing in drawings.items():
        if not job.wanted([drawing]):
            continue
        pages = tile(drawing, PAPERS[job.paper])
        printed = job.printed(f"fascia-{panel}.pdf", f"panel {panel} on {_count(len(pages), 'sheet')}", pages, [])
        svg = f"fascia-{panel}.svg"
        files |= {**printed.files, svg: svg_bytes(drawing)}
        made += [*printed.made, Made(name=svg, what=f"panel {panel} as a drawing in mm")]
    return Result(files=files, made=tuple(made), problems=problems)


def _lists(job: Job) -> Result:
    from labelgen.rendering.tables import wires_csv

    words = f"{_count(len(job.netlist.wires), 'wire')} for a spreadsheet"
    files: Files = {"wires.csv": wires_csv(job.netlist)}
    made = [Made(name="wires.csv", what=words)]
    if job.description.printing.wires == "xlsx":
        from labelgen.rendering.workbook import wires_xlsx

        files["wires.xlsx"] = wires_xlsx(job.netlist)
        made.append(Made(name="wires.xlsx", what=f"{words}, with filters"))
    if any(paper.in_place for paper in job.description.papers):
        from labelgen.rendering.filled_lists import filled_files

        for name, content in filled_files(job.description.papers, job.netlist).items():
            files[name] = content
            made.append(Made(name=name, what="your own list with its blanks filled"))
    cuts, routes = _cut_list(job), _routes(job)
    files |= cuts.files | routes.files
    return Result(files=files, made=(*made, *cuts.made, *routes.made), problems=[*cuts.problems, *routes.problems])


def _routes(job: Job) -> Result:
    from labelgen.drawings.route_pages import route_pages
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = route_pages(job.description, job.netlist, job.look, PAPERS[job.paper])
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    diodes = _count(sum(1 for matrix in job.netlist.matrices for _ in matrix.diodes), "diode")
    return job.printed("routes.pdf", f"the matrix of the routes with its {diodes}", pages, problems)


def _cut_list(job: Job) -> Result:
    from labelgen.drawings.cut_list_pages import cut_list_pages
    from labelgen.rendering.cut_list import cut_list_csv
    from labelgen.standards.paper_sizes import PAPERS

    drawings, problems = cut_list_pages(job.description, job.netlist, job.look, PAPERS[job.paper])
    pages = tuple(Sheet(width=d.width, height=d.height, placed=(Placed(x=0, y=0, drawing=d),)) for d in drawings)
    words = f"what to buy, cut and thread, on {_count(len(pages), 'page')}"
    printed = job.printed("cut-list.pdf", words, pages, problems)
    made = Made(name="cut-list.csv", what="the same wires in order of pulling, for a spreadsheet")
    files = {**printed.files, "cut-list.csv": cut_list_csv(job.netlist)}
    return Result(files=files, made=(*printed.made, made), problems=printed.problems)


def _schedule(job: Job) -> Result:
    from labelgen.rendering.html_pages import schedule_pages
    from labelgen.rendering.svg import inline_svg

    marks = {name: inline_svg(_swatch(function, job.look)) for name, function in job.netlist.functions.items()}
    pages = schedule_pages(job.description, job.netlist, marks)
    words = f"an index, and a page for each of {_count(len(job.netlist.strips), 'strip')}"
    return Result(files=pages, made=(Made(name="schedule/index.html", what=words),), problems=[])


SWATCH = Rectangle(0, 0, 6, 4)
"""mm: about the height of a line on a page."""


def _swatch(function: Function, look: Look) -> Drawing:
    from labelgen.drawings.function_marks import mark

    shapes = tuple(mark(function, SWATCH, look))
    name = f"swatch {function.name}"
    return Drawing(width=SWATCH.width, height=SWATCH.height, shapes=shapes, name=name, place=Place(file=""))


MAKERS: dict[str, Callable[[Job], Result]] = {
    "markers": _markers,
    "flags": _flags,
    "tags": _tags,
    "plates": _plates,
    "places": _places,
    "fascia": _fascia,
    "lists": _lists,
    "schedule": _schedule,
}
"""What can be made, in the order in which it is."""


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
