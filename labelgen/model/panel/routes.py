"""Routes as they are wired: for each panel and pulse supply a matrix of diodes, from a button per route to the coils.

Rows are inputs, columns are outputs. A diode lets current through from its row to its column, never back.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase

from labelgen.model.panel.route_form import Lie
from labelgen.places import Path

ROUTE_FUNCTION = "route"
"""Of the wires from the buttons to the matrix."""
FEED, OUTPUT = "F", "M"
"""The two contacts of a route's button: from the supply's feed, and to the matrix. A stud has only the second."""
MATRIX_IDS = re.compile(r"MATRIX([2-9]|[1-9]\d+)?")
ROW_LETTERS = "".join(letter for letter in ascii_uppercase if letter not in "IO")
"""ISO 5457, grid references: rows by letters, without I and O, which look like 1 and 0; columns by numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixColumn:
    """An output: one coil of the points of one lever."""

    number: int
    """From 1; also its terminal."""
    lever: str
    lie: Lie
    function: str
    contact: str
    """Of the lever: it leads to that coil."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixRow:
    """An input: one route."""

    letter: str
    """A, B, C …; also its terminal."""
    route: str
    """Its name."""
    number: str
    """What is written beside its button or stud."""
    stud: bool
    columns: tuple[int, ...]
    """Where it has diodes, from left to right."""
    path: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixDiode:
    """From a row to a column: its band, the cathode, points to the column."""

    row: str
    column: int

    @property
    def position(self) -> str:
        return f"{self.row}{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Matrix:
    """A board with diodes behind a panel."""

    id: str
    panel: str | None
    board: str | None
    """The board that the panel is on."""
    supply: str
    rows: tuple[MatrixRow, ...]
    columns: tuple[MatrixColumn, ...]

    @property
    def diodes(self) -> Iterator[MatrixDiode]:
        """Row by row, from left to right."""
        return (MatrixDiode(row=row.letter, column=column) for row in self.rows for column in row.columns)

    @property
    def terminals(self) -> tuple[str, ...]:
        return (*(row.letter for row in self.rows), *(str(column.number) for column in self.columns))


def row_letter(index: int) -> str:
    """A to Z without I and O, then AA, AB …; from 0."""
    letters, rest = "", index + 1
    while rest:
        rest, letter = divmod(rest - 1, len(ROW_LETTERS))
        letters = ROW_LETTERS[letter] + letters
    return letters


def row_position(letters: str) -> int | None:
    """1 for A; None for what is no row."""
    position = 0
    for letter in letters:
        if letter not in ROW_LETTERS:
            return None
        position = position * len(ROW_LETTERS) + ROW_LETTERS.index(letter) + 1
    return position or None


def is_matrix(thing: str) -> bool:
    """Whether an id is one that matrices have, whatever its case."""
    return MATRIX_IDS.fullmatch(thing.upper()) is not None


def matrix_id(index: int) -> str:
    """`MATRIX`, `MATRIX2`, `MATRIX3` …"""
    return "MATRIX" if index == 0 else f"MATRIX{index + 1}"
