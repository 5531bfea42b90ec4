"""Where something stands in a file that the builder wrote."""

from dataclasses import dataclass, field
from typing import Protocol

from labelgen.spreadsheet_cells import column_letters

Path = tuple[str | int, ...]
"""The way from the top of a description to a value: keys and list positions (from 0)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One stretch of one line. Line and column count from 1, in characters."""

    file: str
    line: int = 1
    column: int = 1
    length: int = 1
    source: str = ""
    """The whole source line, without its end, so that it can be shown with the stretch marked."""
    mark: int | None = None
    """In a spreadsheet, where `line` and `column` are those of a cell: the character of `source` at which it begins,
    from 1."""

    sheet: str = ""
    """Of a workbook, the sheet that it stands in."""

    @property
    def cell(self) -> str:
        """What a spreadsheet calls this cell: `C14`; "" in a file of lines."""
        return f"{column_letters(self.column)}{self.line}" if self.mark is not None else ""


class Places(Protocol):
    """Finds the place of a key or a value by its path; of a path that is not there, the nearest above it."""

    def of_key(self, path: Path) -> Place: ...

    def of_value(self, path: Path) -> Place: ...

    def path_at(self, place: Place) -> Path:
        """The path of what stands at a place: the innermost; () for a place in another file."""
        ...


@dataclass(frozen=True, slots=True)
class NoPlaces:
    """For descriptions that were made in memory: everything stands at the top of one named file."""

    file: str = field(default="description")

    def of_key(self, path: Path) -> Place:  # noqa: ARG002
        return Place(file=self.file)

    def of_value(self, path: Path) -> Place:  # noqa: ARG002
        return Place(file=self.file)

    def path_at(self, place: Place) -> Path:  # noqa: ARG002
        return ()
