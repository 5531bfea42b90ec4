"""Where rows and columns of matrices are as built: what is soldered stays, and what is new comes behind it."""

from collections.abc import Callable, Sequence

from labelgen.model.built_record import BuiltRecord
from labelgen.model.routes import is_matrix, row_letter, row_position


class RecordedMatrices:
    """Reads from the recorded wires which terminal of a matrix each of its ends has."""

    def __init__(self, record: BuiltRecord) -> None:
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
