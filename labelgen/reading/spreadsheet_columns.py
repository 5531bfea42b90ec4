"""Which column of a spreadsheet holds what: as the builder said, by letter or heading, or as its headings say."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from labelgen.model.record import Record
from labelgen.places import Path, Places
from labelgen.problems import Problem
from labelgen.reading.near_names import did_you_mean
from labelgen.reading.spreadsheet_grid import Grid
from labelgen.spreadsheet_cells import column_letters, column_number

HEADING_ROWS = 20
"""Among so many rows the headings are looked for: above them there may be a title."""
_UNIT = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_LETTERS = re.compile(r"[A-Z]{1,2}")

WIRE_WORDS: Mapping[str, Sequence[str]] = {
    "number": ("number", "no", "nr", "num", "#", "wire no", "wire number", "wire"),
    "head": ("head",),
    "from": ("from", "from end", "start"),
    "from_side": ("from side",),
    "to": ("to", "to end", "end", "finish"),
    "to_side": ("to side",),
    "function": ("function", "use", "purpose"),
    "colour": ("colour", "color"),
    "size": ("size", "wire size", "gauge", "cross section"),
    "flags": ("flags", "flag", "flag form"),
    "length": ("length", "length mm"),
    "note": ("note", "notes", "remark", "remarks", "comment", "comments"),
}
DEVICE_WORDS: Mapping[str, Sequence[str]] = {
    "id": ("id", "device", "point"),
    "kind": ("kind", "type"),
    "name": ("name", "description"),
    "lever": ("lever", "switch"),
    "board": ("board", "baseboard"),
    "panel": ("panel",),
    "at": ("at", "position"),
    "x": ("x", "x mm"),
    "y": ("y", "y mm"),
    "supply": ("supply",),
    "strip": ("strip", "terminal strip"),
    "way": ("way", "first way"),
    "ways": ("ways",),
    "swapped": ("swapped",),
    "not_in_use": ("not in use",),
    "ohms": ("ohms",),
    "milliamps": ("milliamps", "ma"),
    "shown": ("shown", "painted"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Key: its columns from 1. `first` is the row of the first entry."""

    of: Mapping[str, tuple[int, ...]]
    first: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a list must say, what its headings may be, and where the description speaks of it."""

    path: Path
    places: Places
    given: Record | None
    """The builder's `columns`."""
    first_row: int | None
    words: Mapping[str, Sequence[str]]
    needed: tuple[str, ...]


Found = tuple[Columns | None, list[Problem]]


def find_columns(grid: Grid, wanted: Wanted) -> Found:
    """Reports unknown-name for a column that is not there, missing-key and bad-spreadsheet for one not said."""
    if wanted.given is None:
        return _by_own_headings(grid, wanted)
    asked = _asked(wanted.given)
    missing = [key for key in wanted.needed if key not in asked]
    if missing:
        message = f"`columns` does not say which column is `{missing[0]}`"
        hint = f"Add {missing[0]}: and its letter or its heading."
        place = wanted.places.of_key((*wanted.path, "columns"))
        return None, [Problem(code="missing-key", message=message, hint=hint, place=place)]
    return _as_asked(grid, wanted, asked)


def heading(text: str) -> str:
    """A heading as it is compared: small, without units in brackets and signs around it."""
    return " ".join(_UNIT.sub(" ", text).replace("_", " ").lower().split()).strip(" .:")


def _by_own_headings(grid: Grid, wanted: Wanted) -> Found:
    best: dict[str, tuple[int, ...]] = {}
    for row in range(1, min(HEADING_ROWS, len(grid.rows)) + 1):
        found = _recognised(grid, row, wanted.words)
        if all(key in found for key in wanted.needed):
            return Columns(of=found, first=wanted.first_row or row + 1), []
        best = max(best, found, key=len)
    missing = [key for key in wanted.needed if key not in best]
    message = f"no heading in the list says which column is `{missing[0]}`"
    example = ", ".join(f"{key}: {column_letters(at)}" for at, key in enumerate(wanted.needed, 1))
    hint = f"Name the columns by letter or heading, such as `columns: {{{example}}}`, or write headings in row 1."
    place = wanted.places.of_value((*wanted.path, "file"))
    return None, [Problem(code="bad-spreadsheet", message=message, hint=hint, place=place)]


def _recognised(grid: Grid, row: int, words: Mapping[str, Sequence[str]]) -> dict[str, tuple[int, ...]]:
    there: dict[str, int] = {}
    for column, cell in enumerate(grid.rows[row - 1], 1):
        there.setdefault(heading(cell), column)
    found = {key: next((there[word] for word in known if word in there), None) for key, known in words.items()}
    return {key: (column,) for key, column in found.items() if column is not None}


def _asked(given: Record) -> dict[str, tuple[str, ...]]:
    fields = type(given).model_fields
    columns = {(field.alias or name): getattr(given, name) for name, field in fields.items()}
    return {key: column for key, column in columns.items() if column is not None}


def _as_asked(grid: Grid, wanted: Wanted, asked: Mapping[str, tuple[str, ...]]) -> Found:
    names = [text for texts in asked.values() for text in texts]
    row = _heading_row(grid, [text for text in names if not _letter(text, grid)])
    there = {heading(cell): at for at, cell in reversed([*enumerate(grid.rows[row - 1], 1)])} if row else {}
    problems: list[Problem] = []
    found: dict[str, tuple[int, ...]] = {}
    for key, texts in asked.items():
        columns = [_letter(text, grid) or there.get(heading(text)) or _small_letter(text, grid) for text in texts]
        problems += [
            _unknown(wanted, (*wanted.path, "columns", key, number), text, grid, row)
            for number, (text, column) in enumerate(zip(texts, columns, strict=True))
            if not column or (key in wanted.needed and column > grid.width)
        ]
        found[key] = tuple(columns)
    if problems:
        return None, problems
    return Columns(of=found, first=wanted.first_row or _first(grid, wanted, found, row)), []


def _letter(text: str, grid: Grid) -> int:
    """A column by its letter in capitals; 0 when there is none of that name."""
    column = column_number(text) if _LETTERS.fullmatch(text) else 0
    return column if column <= max(grid.width, 26) else 0


def _small_letter(text: str, grid: Grid) -> int:
    return _letter(text.upper(), grid)


def _heading_row(grid: Grid, texts: Iterable[str]) -> int:
    """The first of the rows that hold most of the headings; 0 when none of them is there."""
    wanted = {heading(text) for text in texts}
    counts = [len(wanted & {heading(cell) for cell in row}) for row in grid.rows[:HEADING_ROWS]]
    most = max(counts, default=0)
    return counts.index(most) + 1 if most else 0


def _first(grid: Grid, wanted: Wanted, found: Mapping[str, tuple[int, ...]], heading_row: int) -> int:
    """The first row that is an entry: below the headings that were named or are known; or that have no digit.

    Nearly every wire, and every device with a place, has a digit in it; a heading has none.
    """
    if heading_row:
        return heading_row + 1
    known = _recognised(grid, 1, wanted.words) if grid.rows else {}
    used = [grid.text(1, column) for key, columns in found.items() if key != "note" for column in columns]
    titled = any(known.get(key) == columns[:1] for key, columns in found.items())
    return 2 if titled or not any(character.isdigit() for text in used for character in text) else 1


def _unknown(wanted: Wanted, path: Path, text: str, grid: Grid, row: int) -> Problem:
    headings = [cell for cell in grid.rows[row - 1 if row else 0] if cell] if grid.rows else []
    last = column_letters(max(grid.width, 1))
    there = f"The list has the columns A to {last}" + (f", headed {', '.join(headings[:12])}." if headings else ".")
    place = wanted.places.of_value(path)
    hint = f"{did_you_mean(text, headings)}{there}"
    return Problem(code="unknown-name", message=f"there is no column `{text}` in the list", hint=hint, place=place)
