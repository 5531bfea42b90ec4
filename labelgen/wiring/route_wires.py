"""The wires of the routes: feed to the buttons, buttons to their matrix, matrix to the levers' contacts.

All of them lie behind the panel, so a strip does not know of its routes: nothing on it is changed.
"""

from collections.abc import Iterator, Mapping, Sequence

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.netlist import Diode, End, EndKind, Function
from labelgen.model.panel.routes import FEED, OUTPUT, ROUTE_FUNCTION, Matrix, MatrixColumn
from labelgen.wiring.circuits import WantedCircuit
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends
from labelgen.wiring.listed_joints import Joint
from labelgen.wiring.marks import Head
from labelgen.wiring.route_feeds import button_feeds, recorded_steps

FEED_FUNCTION, SUPPLY_FEED = "feed", "feed"


class RouteWires:
    """Makes the wires and diodes of all matrices. Each net stays a tree: every wire brings one new end to it."""

    def __init__(
        self,
        ends: Ends,
        functions: Mapping[str, Function],
        circuits: Sequence[WantedCircuit],
        painted_levers: Mapping[str, str],
        lever_panels: Mapping[str, str | None],
        *,
        record: BuiltRecord,
    ) -> None:
        self._ends = ends
        self._functions = functions
        self._circuits = {circuit.lever: circuit for circuit in circuits if circuit.lever is not None}
        self._painted_levers = painted_levers
        self._lever_panels = lever_panels
        self._record = record

    def all(
        self, matrices: Sequence[Matrix], feed_heads: Mapping[str, Head], listed: Sequence[Joint] = ()
    ) -> list[DraftWire]:
        """Matrix by matrix: feeds, inputs, outputs. `feed_heads`: what the feed chain of each supply is called.

        `listed`: what the builder's own wires join.
        """
        return [
            wire
            for matrix in matrices
            for wires in (
                self._feeds(matrix, feed_heads[matrix.supply], listed),
                self._inputs(matrix),
                self._outputs(matrix),
            )
            for wire in wires
        ]

    def diodes(self, matrices: Sequence[Matrix]) -> tuple[Diode, ...]:
        return tuple(
            Diode(
                circuit=matrix.id,
                anode=self._ends.matrix(matrix.id, diode.row),
                cathode=self._ends.matrix(matrix.id, str(diode.column)),
            )
            for matrix in matrices
            for diode in matrix.diodes
        )

    def _feeds(self, matrix: Matrix, head: Head, listed: Sequence[Joint]) -> Iterator[DraftWire]:
        """From a contact that has the feed already, button to button. Studs get it from the probe."""
        buttons = {self._ends.route(row.number, FEED): row for row in matrix.rows if not row.stud}
        known = recorded_steps(self._record, matrix.supply) + [(one.start.name, one.finish.name) for one in listed]
        for start, finish in button_feeds(self._source(matrix), self._fed(matrix.supply), [*buttons], known):
            row = buttons.get(finish) or buttons[start]
            yield DraftWire(
                circuit=matrix.supply, function=FEED_FUNCTION, head=head, start=start, finish=finish, path=row.path
            )

    def _fed(self, supply: str) -> list[End]:
        """All that has the feed of a supply behind the panels, and the supply itself."""
        found = {lever: self._fed_contact(lever, supply) for lever in self._circuits}
        contacts = [self._ends.lever(lever, contact) for lever, contact in found.items() if contact is not None]
        return [self._ends.supply(supply, SUPPLY_FEED), *contacts]

    def _source(self, matrix: Matrix) -> End:
        """The feed contact of the first lever of the routes on this panel, else of the first; else the supply."""
        levers = dict.fromkeys(column.lever for column in matrix.columns)
        fed = [(lever, contact) for lever in levers if (contact := self._fed_contact(lever, matrix.supply))]
        fed.sort(key=lambda found: self._lever_panels.get(found[0]) != matrix.panel)
        return self._ends.lever(*fed[0]) if fed else self._ends.supply(matrix.supply, SUPPLY_FEED)

    def _fed_contact(self, lever: str, supply: str) -> str | None:
        """The contact of a lever that the supply's feed reaches, by the strip or behind the panel."""
        circuit = self._circuits[lever]
        rows = [(row.contact, row.chain) for _, row in circuit.rows()]
        rows += [(row.contact, row.supply) for _, row in circuit.chain_rows()]
        for contact, chain in rows:
            if contact is not None and chain is not None and circuit.first.fed_from(chain) == (supply, SUPPLY_FEED):
                return contact
        return None

    def _inputs(self, matrix: Matrix) -> Iterator[DraftWire]:
        code = self._functions[ROUTE_FUNCTION].code
        for row in matrix.rows:
            yield DraftWire(
                circuit=matrix.id,
                function=ROUTE_FUNCTION,
                head=Head(stem=row.number, painted=row.number, code=code),
                start=self._ends.route(row.number, OUTPUT),
                finish=self._ends.matrix(matrix.id, row.letter),
                path=row.path,
            )

    def _outputs(self, matrix: Matrix) -> Iterator[DraftWire]:
        """Each belongs to its lever's circuit, and is called as all wires to that coil are."""
        for column in matrix.columns:
            yield DraftWire(
                circuit=column.lever,
                function=column.function,
                head=self._coil_head(column),
                start=self._ends.matrix(matrix.id, str(column.number)),
                finish=self._ends.lever(column.lever, column.contact),
                path=matrix.rows[self._first_row(matrix, column)].path,
            )

    def _coil_head(self, column: MatrixColumn) -> Head:
        rows = [row for _, row in self._circuits[column.lever].rows() if row.contact == column.contact]
        painted = self._painted_levers.get(column.lever, column.lever)
        code = self._functions[column.function].code
        return Head(stem=column.lever, painted=painted, code=code, mark=rows[0].mark)

    @staticmethod
    def _first_row(matrix: Matrix, column: MatrixColumn) -> int:
        return next(index for index, row in enumerate(matrix.rows) if column.number in row.columns)


def boards_of_routes(matrices: Sequence[Matrix]) -> dict[tuple[str, str], str | None]:
    """(kind of end, thing): the board it is on."""
    boards: dict[tuple[str, str], str | None] = {(EndKind.MATRIX, matrix.id): matrix.board for matrix in matrices}
    return boards | {(EndKind.ROUTE, row.number): matrix.board for matrix in matrices for row in matrix.rows}
