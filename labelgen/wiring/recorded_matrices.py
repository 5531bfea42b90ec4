"""Matrices as they are built: each keeps its id, what is soldered stays, and what is new comes behind it."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import count

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.panel.routes import is_matrix, matrix_id, row_letter, row_position

MatrixKey = tuple[str | None, str]
"""Panel and supply."""


class RecordedMatrices:
    """Reads from the record which ids matrices have, and from its wires which terminal of one each of its ends has."""

    def __init__(self, record: BuiltRecord) -> None:
        self._ids = {(matrix.panel or None, matrix.supply): matrix.id for matrix in record.matrices}
        self._of_route = {route.name: route.matrix for route in record.routes}
        self._terminals: dict[tuple[str, str], str] = {}
        self._used: dict[str, set[str]] = {}
        ends = [(wire.start, wire.finish) for wire in (*record.retired, *record.wires)]
        ends += [(passage.start, passage.finish) for passage in record.pins]
        for start, finish in ends:
            for here, far in ((start, finish), (finish, start)):
                thing, _, terminal = here.rpartition(".")
                if is_matrix(thing):
                    self._used.setdefault(thing, set()).add(terminal)
                    self._terminals[thing, far] = terminal

    def ids(self, wanted: Mapping[MatrixKey, Iterable[str]]) -> dict[MatrixKey, str]:
        """The id of each matrix. `wanted`: by panel and supply, the names of its routes.

        One whose panel or supply is called otherwise now is known by its routes. A new one gets an id that none had.
        """
        found = {key: self._ids[key] for key in wanted if key in self._ids}
        for key, routes in wanted.items():
            if key not in found and (known := self._by_routes(routes, {*found.values()})) is not None:
                found[key] = known
        used = {*self._ids.values(), *found.values()}
        free = (id_ for id_ in map(matrix_id, count()) if id_ not in used)
        return {key: found[key] if key in found else next(free) for key in wanted}

    def _by_routes(self, routes: Iterable[str], taken: set[str]) -> str | None:
        """The matrix, if it is still to be had, on which most of these routes are."""
        known = Counter(matrix for name in routes if (matrix := self._of_route.get(name)) is not None)
        return next((matrix for matrix, _ in known.most_common() if matrix not in taken), None)

    def columns(self, matrix: str, far_ends: Sequence[str]) -> list[int]:
        """The number of the column of each end to which the matrix leads."""
        return self._positions(matrix, far_ends, lambda terminal: int(terminal) if terminal.isdecimal() else None)

    def rows(self, matrix: str, far_ends: Sequence[str]) -> list[str]:
        """The letter of the row of each end from which the matrix is reached."""
        return [row_letter(position - 1) for position in self._positions(matrix, far_ends, row_position)]

    def _positions(self, matrix: str, far_ends: Sequence[str], position_of: Callable[[str], int | None]) -> list[int]:
        """From 1; each once: where two ends are recorded at one terminal, the second is new."""
        used = [position for terminal in self._used.get(matrix, ()) if (position := position_of(terminal))]
        following = max(used, default=0) + 1
        found: list[int] = []
        for far in far_ends:
            position = position_of(self._terminals.get((matrix, far), ""))
            if position is None or position in found:
                position, following = following, following + 1
            found.append(position)
        return found
