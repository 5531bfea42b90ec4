"""The printed list of the routes: of each matrix its board with every diode, its inputs, its outputs, a test."""

from collections.abc import Iterator

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Column, Row, Setting, paragraph, space, table, title
from labelgen.drawings.lists.cells import CAP
from labelgen.drawings.lists.diode_blocks import PULSE_DIODES
from labelgen.drawings.lists.matrix_board import board_parts, board_piece
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import UNSAID, Writer, count, writer_on
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.matrix_wires import Joined, MatrixWires
from labelgen.model.panel.routes import Matrix, MatrixRow
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

TITLE = "routes"
CAUTION = (
    "Switch off, isolate and unplug every supply before you work. Discharge the capacitor bank of the pulse supply, and"
    " measure."
)
BOARD = (
    "The board at true size, seen from the side of its parts; the dots are its holes, 2.54 mm apart. Full lines lie on"
    " this side, broken ones on the other. Each diode stands with its plain end in its row and its band towards the"
    " outputs. That is right when the supply's feed is its plus; if it is the minus, turn every diode round."
)
IN_PARTS = (
    "It is too large for one page, so it is drawn in parts: make a board of each, and join terminals of the same letter"
    " or number."
)
TEST = (
    "Before the outputs are wired to the levers, for the coils would join all columns: with a meter set to test diodes,"
    " its plus on a row and its minus on a column, there must be a diode at each position in the list of inputs, and"
    " nothing at any other. The other way round there must be nothing anywhere."
)


def route_pages(
    description: Description, netlist: Netlist, look: Look, paper: Paper
) -> tuple[list[Drawing], list[Problem]]:
    """The pages of the routes, each as large as its paper; none without routes.

    Problems: text-does-not-fit, character-missing.
    """
    if not netlist.matrices:
        return [], []
    hint = "Give it a shorter name, or the lever a shorter `shown:`."
    lettering = Lettering(label="list of routes", place=description.place_of_key("routes"), look=look, hint=hint)
    on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=TITLE)
    pieces = list(route_pieces(netlist, writer_on(on, lettering, look, CAP)))
    return list_pages(pieces, on, lettering), list(dict.fromkeys(lettering.problems))


def route_pieces(netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    """The same in pieces, for pages that hold more than them."""
    routes = _Routes(netlist, writer)
    for matrix in netlist.matrices:
        yield from routes.pieces(matrix)


class _Routes:
    def __init__(self, netlist: Netlist, writer: Writer) -> None:
        self._netlist, self._writer = netlist, writer
        self._names = {lever.id: lever.name for lever in netlist.levers}

    def pieces(self, matrix: Matrix) -> Iterator[Piece]:
        setting, wires = self._writer.setting, MatrixWires(matrix, self._netlist)
        behind = f" behind panel {self._netlist.shown_id(matrix.panel)}" if matrix.panel is not None else ""
        yield title(self._writer.known(f"{matrix.id}{behind}"), setting)
        yield paragraph(self._summary(matrix), setting)
        yield paragraph(CAUTION, setting)
        yield space(1)
        parts = board_parts(matrix, setting)
        yield paragraph(BOARD if len(parts) == 1 else f"{BOARD} {IN_PARTS}", setting, keeps=True)
        yield Piece(height=2, paint=lambda _: (), keeps=True)
        for part in parts:
            yield board_piece(part, wires, setting)
            yield space(3)
        yield paragraph(PULSE_DIODES, setting)
        yield from self._inputs(matrix, wires, setting)
        yield from self._outputs(matrix, wires, setting)
        yield from self._feeds(matrix, wires, setting)
        yield space(3)
        yield title("Test", setting)
        yield paragraph(TEST, setting)
        yield space(6)

    def _summary(self, matrix: Matrix) -> str:
        diodes = sum(len(row.columns) for row in matrix.rows)
        supply = self._netlist.shown_id(matrix.supply)
        routes, coils = count(len(matrix.rows), "route"), count(len(matrix.columns), "coil")
        return self._writer.known(f"{routes}, {coils}, {count(diodes, 'diode')}, fed by {supply}.")

    def _inputs(self, matrix: Matrix, wires: MatrixWires, setting: Setting) -> Iterator[Piece]:
        yield title("Inputs: one for each route", setting)
        columns = (
            Column(heading="row"),
            Column(heading="no.", align="end"),
            Column(heading="route", grows=True),
            Column(heading="sets", most=48),
            Column(heading="diodes at", most=48),
            Column(heading="from"),
            Column(heading="wire", align="end"),
        )
        yield from table(columns, [self._input(row, wires) for row in matrix.rows], setting)

    def _input(self, row: MatrixRow, wires: MatrixWires) -> Row:
        joined = wires.at(row.letter)
        said = (
            row.route,
            " ".join(wires.head(column) for column in row.columns),
            " ".join(f"{row.letter}{column}" for column in row.columns),
            *_far(joined),
        )
        words = self._writer.words
        return Row(cells=(words(row.letter, bold=True), words(row.number, bold=True), *map(words, said)))

    def _outputs(self, matrix: Matrix, wires: MatrixWires, setting: Setting) -> Iterator[Piece]:
        yield space(3)
        yield title("Outputs: one for each coil", setting)
        columns = (
            Column(heading="column"),
            Column(heading="head"),
            Column(heading="coil", grows=True),
            Column(heading="diodes", align="end"),
            Column(heading="to"),
            Column(heading="wire", align="end"),
        )
        words = self._writer.words
        rows = []
        for column in matrix.columns:
            diodes = sum(column.number in row.columns for row in matrix.rows)
            lever = self._names.get(column.lever) or f"lever {column.lever}"
            said = (f"{lever}, {column.lie}", diodes, *_far(wires.at(column.number)))
            first = (words(column.number, bold=True), words(wires.head(column.number), bold=True))
            rows.append(Row(cells=(*first, *map(words, said))))
        yield from table(columns, rows, setting)

    def _feeds(self, matrix: Matrix, wires: MatrixWires, setting: Setting) -> Iterator[Piece]:
        yield space(3)
        yield title("Feed", setting)
        if any(row.stud for row in matrix.rows):
            yield paragraph("The studs have their feed from the panel's probe.", setting)
        if not wires.feeds:
            return
        columns = (
            Column(heading="head"),
            Column(heading="from"),
            Column(heading="to", grows=True),
            Column(heading="wire", align="end"),
        )
        words = self._writer.words
        rows = [
            Row(
                cells=(
                    words(wire.head, bold=True),
                    words(wire.start.shown),
                    words(wire.finish.shown),
                    words(wire.number),
                )
            )
            for wire in wires.feeds
        ]
        yield from table(columns, rows, setting)


def _far(joined: Joined | None) -> tuple[object, object]:
    """The other end and the number of a wire; a listed wire may have taken it elsewhere."""
    return (joined.far.shown, joined.wire.number) if joined is not None else (UNSAID, UNSAID)
