"""A spreadsheet as rows of texts, which know their places. Rows and columns count from 1, as the builder's do."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.file_text import ODD

BETWEEN = " | "
"""What stands between the cells of a row that is shown."""
_BREAKS = re.compile(r"[\t\r\n\v\f\x85\u2028\u2029]")

Row = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flaw:
    """Why what stands in a cell cannot be used."""

    code: str
    message: str
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """The texts of one sheet, tidied; row 1 first, each row as wide as it was written."""

    file: str
    rows: Sequence[Row]
    flaws: Mapping[tuple[int, int], Flaw] = field(default_factory=dict)
    """(row, column): found there, and a problem only if the cell is wanted."""
    banners: frozenset[int] = frozenset()
    """Rows in which nothing stands but a heading that was merged over several columns."""
    sheet: str | None = None
    encoding: str = "utf-8"
    delimiter: str = ","

    def text(self, row: int, column: int) -> str:
        cells = self.rows[row - 1] if 1 <= row <= len(self.rows) else ()
        return cells[column - 1] if 1 <= column <= len(cells) else ""

    @property
    def width(self) -> int:
        return max((len(row) for row in self.rows), default=0)

    def place(self, row: int, column: int) -> Place:
        """The place of a cell; its source is the whole row."""
        cells = [*self.rows[row - 1]]
        cells += [""] * (column - len(cells))
        while len(cells) > column and not cells[-1]:
            cells.pop()
        return Place(
            file=self.file,
            line=row,
            column=column,
            length=max(1, len(cells[column - 1])),
            source=BETWEEN.join(cells),
            mark=1 + sum(len(cell) + len(BETWEEN) for cell in cells[: column - 1]),
            sheet=self.sheet or "",
        )

    def flaw(self, row: int, column: int) -> Problem | None:
        """The problem of a cell that is wanted; None when there is none."""
        flaw = self.flaws.get((row, column))
        if flaw is None:
            return None
        return Problem(code=flaw.code, message=flaw.message, hint=flaw.hint, place=self.place(row, column))


def tidied(text: str) -> str:
    """A cell's text on one line, without the blanks around it."""
    if not text:
        return ""
    parts = _BREAKS.split(text.replace("\xa0", " "))
    return " ".join(bare for part in parts if (bare := part.strip()))


def odd_character(text: str) -> Flaw | None:
    """What is wrong with a tidied text that holds what cannot be seen."""
    found = ODD.search(text)
    if found is None:
        return None
    message = f"a character that cannot be seen stands in this cell (U+{ord(found[0]):04X})"
    return Flaw(code="odd-character", message=message, hint="Empty the cell and type its text anew.")
