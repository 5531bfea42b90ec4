"""Rows of a CSV file: comma, semicolon or tab; UTF-8, or an old code page, which is said."""

import csv
from io import StringIO
from pathlib import PurePath

from labelgen.model.paper_lists import COLUMN_LIMIT, ROW_LIMIT
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_grid import Flaw, Grid, Row, odd_character, tidied
from labelgen.spreadsheet_cells import read_cell

OLD_CODE_PAGE = "cp1252"
SNIFFED_ROWS = 200
DELIMITERS = ("\t", ";", ",")
"""Where nothing else decides, a comma is more likely to be one of a number than a semicolon, and a tab is no text."""
_MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
_UTF8 = "In the spreadsheet, choose “CSV UTF-8” when you save the list, or UTF-8 as its character set."

Found = tuple[Grid | None, list[Problem]]


def read_csv(data: bytes, file: str, at: Place) -> Found:
    """The rows of a file. `at`: where the description names it, for what is wrong with the whole of it.

    Reports windows-1252, not-utf8 and bad-spreadsheet.
    """
    encoding = _encoding(data)
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        message = f"`{bare(file)}` is saved in a form of characters that cannot be told"
        return None, [Problem(code="not-utf8", message=message, hint=_UTF8, place=at)]
    if "\0" in text:
        return None, [bad(f"`{bare(file)}` is no list of texts", "Save it as CSV or as .xlsx.", at)]
    delimiter, text = _delimiter(text)
    try:
        rows = _rows(text, delimiter)
    except csv.Error:
        message = f"a quote that opens a text in `{bare(file)}` is never closed"
        return None, [bad(message, 'Look for a cell that begins with "; save the list anew from a spreadsheet.', at)]
    while rows and not any(cell.strip() for cell in rows[-1]):
        rows.pop()
    problem = too_large(rows, file, at)
    if problem is not None:
        return None, [problem]
    grid = _grid(rows, file, encoding, delimiter)
    return grid, _old_code_page(grid) if encoding == OLD_CODE_PAGE else []


def bare(file: str) -> str:
    """A file's name without its folder."""
    return PurePath(file).name


def bad(message: str, hint: str, at: Place) -> Problem:
    """A spreadsheet that cannot be used."""
    return Problem(code="bad-spreadsheet", message=message, hint=hint, place=at)


def too_large(rows: list[Row], file: str, at: Place) -> Problem | None:
    """What is wrong with a list that is longer or wider than anybody's."""
    width = max((len(row) for row in rows), default=0)
    if len(rows) > ROW_LIMIT:
        message = f"`{bare(file)}` has more than {ROW_LIMIT} rows"
    elif width > COLUMN_LIMIT:
        message = f"`{bare(file)}` has more than {COLUMN_LIMIT} columns"
    else:
        return None
    return bad(message, "See whether it is the right file, or divide it.", at)


def _encoding(data: bytes) -> str:
    marked = next((name for mark, name in _MARKS if data.startswith(mark)), None)
    if marked is not None:
        return marked
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return OLD_CODE_PAGE
    return "utf-8"


def _delimiter(text: str) -> tuple[str, str]:
    """What stands between the cells: said by a first line `sep=;`, else what most rows have, and most often.

    A line `sep=` stays a row, with nothing in it, so that rows keep their numbers.
    """
    first, _, rest = text.partition("\n")
    said = first.strip().lower().removeprefix("sep=")
    if first.lower().startswith("sep=") and said in DELIMITERS:
        return said, f"\n{rest}"
    lines = _bare_lines(text)
    counts = {mark: [line.count(mark) for line in lines] for mark in DELIMITERS}
    rank = {mark: (sum(count > 0 for count in counts[mark]), sum(counts[mark])) for mark in DELIMITERS}
    best = max(DELIMITERS, key=lambda mark: rank[mark])
    return best if any(counts[best]) else ",", text


def _bare_lines(text: str) -> list[str]:
    """The first lines, without what stands in quotes."""
    parts = text[: SNIFFED_ROWS * 500].split('"')
    return "".join(parts[::2]).splitlines()[:SNIFFED_ROWS]


def _rows(text: str, delimiter: str) -> list[Row]:
    """`csv.Error` when a quote is never closed. A quote in the midst of a text is a sign like any other."""
    try:
        return [tuple(row) for row in csv.reader(StringIO(text, newline=""), delimiter=delimiter, strict=True)]
    except csv.Error as error:
        if "unexpected end" in str(error):
            raise
    return [tuple(row) for row in csv.reader(StringIO(text, newline=""), delimiter=delimiter)]


def _grid(rows: list[Row], file: str, encoding: str, delimiter: str) -> Grid:
    tidy = [tuple(tidied(read_cell(cell)) for cell in row) for row in rows]
    flaws: dict[tuple[int, int], Flaw] = {}
    for number, row in enumerate(tidy, 1):
        for column, cell in enumerate(row, 1):
            flaw = odd_character(cell) if not cell.isprintable() else None
            if flaw is not None:
                flaws[number, column] = flaw
    return Grid(file=file, rows=tidy, flaws=flaws, encoding=encoding, delimiter=delimiter)


def _old_code_page(grid: Grid) -> list[Problem]:
    """Said once, at the first cell that might have come out wrong."""
    cells = ((row, column) for row, cells in enumerate(grid.rows, 1) for column in range(1, len(cells) + 1))
    row, column = next((at for at in cells if not grid.text(*at).isascii()), (1, 1))
    cell = grid.text(row, column)
    message = f"this list is not saved as UTF-8; read as Windows-1252, this cell says `{cell}`"
    hint = f"If that is what you typed, all is well. {_UTF8}"
    return [Problem(code="windows-1252", message=message, hint=hint, place=grid.place(row, column))]
