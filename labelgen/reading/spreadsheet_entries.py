"""Rows of a wire list or a device list as entries of a description, and where each of their values stands."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from labelgen.places import Path, Place, Places
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_columns import Columns
from labelgen.reading.spreadsheet_grid import Grid
from labelgen.spreadsheet_cells import column_letters

_BETWEEN = re.compile(r"[,;\s]+")
_SIDES = ("panel", "layout")
_OWN_WORDS = frozenset({"number", "note", "name", "shown", "not_in_use", "x", "y", "at"})
"""Columns in which nothing is a name for a thing."""
_NUMBERS = frozenset({"x", "y", "ohms", "milliamps", "size"})
"""Columns in which a comma between two digits is that of a decimal."""
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_NEVER_READ = frozenset({"head", "length"})
TOLD_AT_MOST = 20
"""Rows of one kind of mistake: enough to see what is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One row: what the description gets, and the column of each of its values."""

    row: int
    value: dict[str, Any]
    columns: Mapping[Path, int]
    """Of values by their path below the entry."""


@dataclass(slots=True, kw_only=True)
class Entries:
    found: list[Entry] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    one_ended: int = 0
    endless: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list whose columns are known."""

    grid: Grid
    columns: Columns
    names: Mapping[str, str]
    """What the spreadsheet calls a thing: what the description does."""

    def rows(self) -> Iterator[tuple[int, dict[str, str]]]:
        """Row, and the text of each key that has one; without rows in which nothing is said."""
        for row in range(self.columns.first, len(self.grid.rows) + 1):
            if row in self.grid.banners:
                continue
            texts = {key: self._text(key, row) for key in self.columns.of if key not in _NEVER_READ}
            if any(texts.values()):
                yield row, {key: text for key, text in texts.items() if text}

    def column(self, key: str, row: int) -> int:
        """The first of a key's columns in which something stands."""
        columns = self.columns.of[key]
        return next((column for column in columns if self.grid.text(row, column)), columns[0])

    def flaws(self, row: int, keys: Mapping[str, str]) -> Iterator[tuple[str, Problem]]:
        for key in keys:
            for column in self.columns.of[key]:
                problem = self.grid.flaw(row, column)
                if problem is not None:
                    yield key, problem

    def place(self, key: str, row: int) -> Place:
        return self.grid.place(row, self.column(key, row))

    def _text(self, key: str, row: int) -> str:
        texts = [text for column in self.columns.of[key] if (text := self.grid.text(row, column))]
        if key in _NUMBERS and self.grid.delimiter == ";":
            # Where semicolons stand between the cells, the spreadsheet writes its decimals with a comma.
            texts = [_DECIMAL_COMMA.sub(".", text) for text in texts]
        if key in _OWN_WORDS:
            return " ".join(texts)
        parts = [self.names.get(text, text) for text in texts]
        if key not in ("from", "to"):
            return " ".join(parts)
        whole = ".".join(parts)
        thing, dot, terminal = whole.rpartition(".")
        return self.names.get(whole) or f"{self.names.get(thing, thing)}{dot}{terminal}"


def wire_entries(listed: Listed) -> Entries:
    """Reports wire-without-end for a row with one end, and the flaws of its cells."""
    entries = Entries()
    for row, texts in listed.rows():
        flaws = [problem for _, problem in listed.flaws(row, texts)]
        ends = [key for key in ("from", "to") if key in texts]
        if flaws:
            entries.problems += flaws
        elif len(ends) == 2:
            entries.found.append(_wire(listed, row, texts))
        elif ends:
            entries.one_ended += 1
            entries.problems += _without_end(listed, row, ends[0], texts, entries.one_ended)
        else:
            entries.endless += 1
    return entries


def _wire(listed: Listed, row: int, texts: dict[str, str]) -> Entry:
    value = {key: text for key, text in texts.items() if key not in ("from_side", "to_side")}
    if "flags" in value:
        value["flags"] = value["flags"].lower()
    if value.get("flags", "").isdigit():  # in a cut list of ours: how many, not in which form
        del value["flags"]
    for key in ("from", "to"):
        side = texts.get(f"{key}_side", "")
        if side and not value[key].endswith(tuple(f"/{one}" for one in _SIDES)):
            value[key] += f"/{side.lower()}"
    columns: dict[Path, int] = {(key,): listed.column(key, row) for key in value}
    return Entry(row=row, value=value, columns={(): columns["from",], **columns})


def _without_end(listed: Listed, row: int, there: str, texts: Mapping[str, str], count: int) -> list[Problem]:
    if count > TOLD_AT_MOST:
        return []
    other = "to" if there == "from" else "from"
    letters = " and ".join(column_letters(column) for column in listed.columns.of[other])
    message = f"the wire of row {row} goes from {texts[there]} to nowhere"
    if there == "to":
        message = f"the wire of row {row} comes from nowhere to {texts[there]}"
    if count == TOLD_AT_MOST:
        message += "; and perhaps more rows like it"
    hint = f"Write its other end in column {letters}. Until then it is left out."
    return [Problem(code="wire-without-end", message=message, hint=hint, place=listed.place(there, row))]


def device_entries(listed: Listed) -> Entries:
    """The id is among an entry's values, under `id`. Reports missing-key and the flaws of its cells."""
    entries = Entries()
    for row, texts in listed.rows():
        if "id" not in texts:
            entries.endless += 1
            continue
        for key, problem in listed.flaws(row, dict(texts)):
            entries.problems.append(problem)
            texts.pop(key, None)
        if "id" in texts:
            entries.problems += _half_a_place(listed, row, texts)
            entries.found.append(_device(listed, row, texts))
    return entries


def _half_a_place(listed: Listed, row: int, texts: Mapping[str, str]) -> list[Problem]:
    axes = [key for key in ("x", "y") if key in texts]
    if len(axes) != 1:
        return []
    other = "y" if axes == ["x"] else "x"
    message = f"`{texts['id']}` has {axes[0]} and no {other}"
    hint = "Write both, in mm, or neither."
    return [Problem(code="missing-key", message=message, hint=hint, place=listed.place(axes[0], row))]


def _device(listed: Listed, row: int, texts: Mapping[str, str]) -> Entry:
    value: dict[str, Any] = {key: text for key, text in texts.items() if key not in ("x", "y", "at", "ways")}
    columns: dict[Path, int] = {(key,): listed.column(key, row) for key in value}
    if "ways" in texts:
        value["ways"] = _parts(texts["ways"])
        columns["ways",] = listed.column("ways", row)
    if "x" in texts and "y" in texts:
        value["at"] = [texts["x"], texts["y"]]
        columns |= {("at",): listed.column("x", row), ("at", 1): listed.column("y", row)}
    elif "at" in texts:
        value["at"] = _parts(texts["at"])
        columns["at",] = listed.column("at", row)
        columns |= {("at", number): column for number, column in enumerate(listed.columns.of["at"])}
    return Entry(row=row, value=value, columns={(): columns["id",], **columns})


def _parts(text: str) -> list[str]:
    return [part for part in _BETWEEN.split(text.strip("[]() ")) if part]


class SpreadsheetPlaces:
    """The places of a description, some of whose entries stand in spreadsheets."""

    def __init__(self, written: Places) -> None:
        self._written = written
        self._entries: dict[Path, tuple[Grid, Entry]] = {}
        self._rows: dict[tuple[str, str, int], Path] = {}

    def add(self, path: Path, grid: Grid, entry: Entry) -> None:
        self._entries[path] = (grid, entry)
        self._rows[grid.file, grid.sheet or "", entry.row] = path

    def of_key(self, path: Path) -> Place:
        return self._cell(path) or self._written.of_key(path)

    def of_value(self, path: Path) -> Place:
        return self._cell(path) or self._written.of_value(path)

    def path_at(self, place: Place) -> Path:
        """Of a cell, the path of its row's entry."""
        if place.mark is None:
            return self._written.path_at(place)
        return self._rows.get((place.file, place.sheet, place.line), ())

    def _cell(self, path: Path) -> Place | None:
        """The cell of a value; of what is in no cell, that of the nearest above it, at last the row's own."""
        found = self._entries.get(path[:2])
        if found is None:
            return None
        grid, entry = found
        below = next(path[2:end] for end in range(len(path), 1, -1) if path[2:end] in entry.columns)
        return grid.place(entry.row, entry.columns[below])
