"""Rows of a workbook (.xlsx). With the rendering of workbooks, the only place that knows openpyxl.

A workbook may be broken, or made to harm, in ways without number: it is looked at as a packed folder first, and what
the library says about the rest becomes one problem.
"""

import warnings
from collections.abc import Iterator
from io import BytesIO
from typing import Any
from zipfile import BadZipFile, ZipFile

from labelgen.model.paper_lists import COLUMN_LIMIT, ROW_LIMIT
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.near_names import did_you_mean, listed
from labelgen.reading.spreadsheet_csv import Found, bad, bare, too_large
from labelgen.reading.spreadsheet_grid import Flaw, Grid, Row, odd_character, tidied
from labelgen.reading.spreadsheet_sheet_xml import Merged, as_spreadsheets_write, read_sheet_xml
from labelgen.spreadsheet_cells import read_cell

UNPACKED_LIMIT = 60_000_000
"""Bytes: several times what 20 000 rows take. A file made to harm unpacks to thousands of times its size."""
_SAVE_ANEW = "Open it in the spreadsheet and save it as .xlsx or as CSV (UTF-8)."
_NEVER_COMPUTED = Flaw(
    code="bad-cell",
    message="this cell holds a formula that was never worked out",
    hint="Open the list in the spreadsheet and save it, or type the text itself.",
)
_DATE = Flaw(
    code="bad-cell",
    message="the spreadsheet holds a date or a time in this cell, not what was typed",
    hint="Make the cell one for text, and type it anew: an apostrophe before it does the same.",
)


def read_xlsx(data: bytes, file: str, wanted: str | None, at: Place, sheet_at: Place) -> Found:
    """The rows of one sheet: the first that is not hidden, unless one is named.

    Reports bad-spreadsheet, and unknown-name for a sheet that is not there.
    """
    problem = _unfit(data, file, at)
    if problem is not None:
        return None, [problem]
    with warnings.catch_warnings():
        # About drop-down lists and the like: nothing that a list of wires needs.
        warnings.simplefilter("ignore")
        try:
            return _read(data, file, wanted, at, sheet_at)
        except Exception:  # a broken workbook raises whatever it was that was not there
            return None, [bad(f"`{bare(file)}` is damaged: it cannot be read to its end", _SAVE_ANEW, at)]


def _unfit(data: bytes, file: str, at: Place) -> Problem | None:
    """What is wrong with the packed folder that a workbook is, before anyone unpacks it."""
    try:
        with ZipFile(BytesIO(data)) as packed:
            if sum(part.file_size for part in packed.infolist()) > UNPACKED_LIMIT:
                message = f"`{bare(file)}` unpacks to more than {UNPACKED_LIMIT // 1_000_000} MB"
                return bad(message, "See whether it is the right file; take pictures and other sheets out of it.", at)
            names = packed.namelist()
            if "xl/workbook.xml" not in names and "[Content_Types].xml" not in names:
                return bad(f"`{bare(file)}` is no workbook of the form .xlsx", _SAVE_ANEW, at)
            parts = [name for name in names if name.endswith((".xml", ".rels"))]
            if not all(_is_fit(packed, name) for name in parts):
                return bad(f"`{bare(file)}` holds what no spreadsheet writes", _SAVE_ANEW, at)
    except (BadZipFile, OSError, NotImplementedError, RuntimeError, EOFError, ValueError):
        return bad(f"`{bare(file)}` is damaged: it cannot be unpacked", _SAVE_ANEW, at)
    return None


def _is_fit(packed: ZipFile, name: str) -> bool:
    with packed.open(name) as part:
        return as_spreadsheets_write(part)


def _read(data: bytes, file: str, wanted: str | None, at: Place, sheet_at: Place) -> Found:
    from openpyxl import load_workbook

    book = load_workbook(BytesIO(data), read_only=True, data_only=True, keep_links=False)
    sheets = {sheet.title: sheet for sheet in book.worksheets}
    shown = [title for title, sheet in sheets.items() if sheet.sheet_state == "visible"]
    title = _title(list(sheets), shown, wanted)
    if title is None:
        return None, [_no_sheet(file, wanted, list(sheets), at, sheet_at)]
    flaws: dict[tuple[int, int], Flaw] = {}
    rows = _rows(sheets[title], flaws)
    problem = too_large(rows, file, at)
    if problem is not None:
        return None, [problem]
    with ZipFile(BytesIO(data)) as packed:
        told = read_sheet_xml(packed.read(sheets[title]._worksheet_path))
    flaws |= dict.fromkeys(told.never_computed, _NEVER_COMPUTED)
    merged = Merged(told.merged)
    rows = merged.filled(rows)
    return Grid(file=file, rows=rows, flaws=flaws, banners=merged.banners(rows), sheet=title), []


def _title(titles: list[str], shown: list[str], wanted: str | None) -> str | None:
    if wanted is None:
        return next(iter(shown), next(iter(titles), None))
    return next((title for title in titles if title.strip().lower() == wanted.strip().lower()), None)


def _no_sheet(file: str, wanted: str | None, titles: list[str], at: Place, sheet_at: Place) -> Problem:
    if wanted is None:
        return bad(f"`{bare(file)}` has no sheet with cells", _SAVE_ANEW, at)
    message = f"there is no sheet `{wanted}` in `{bare(file)}`"
    hint = f"{did_you_mean(wanted, titles)}Its sheets: {listed(sorted(titles, key=natural))}."
    return Problem(code="unknown-name", message=message, hint=hint, place=sheet_at)


def _rows(sheet: Any, flaws: dict[tuple[int, int], Flaw]) -> list[Row]:
    """Its cells as texts, without the empty rows at the end; stops soon after the most that are allowed."""
    sheet.reset_dimensions()  # what a file says of its own size may be wrong
    rows: list[Row] = []
    empty = 0
    nothing: Any = None
    for number, cells in enumerate(sheet.iter_rows(max_col=COLUMN_LIMIT + 1), 1):
        if cells is nothing:  # the library gives the same one for each of a million rows that are not there
            empty += 1
            continue
        row = tuple(_text(cell, (number, column), flaws) for column, cell in _filled(cells))
        if not any(row):
            empty += 1
            nothing = cells
            continue
        rows += [()] * empty
        empty = 0
        rows.append(row)
        if len(rows) > ROW_LIMIT:
            break
    return rows


def _filled(cells: tuple[Any, ...]) -> Iterator[tuple[int, Any]]:
    """Column and cell, as far as the last that is not empty."""
    last = next((number for number in range(len(cells), 0, -1) if cells[number - 1].value is not None), 0)
    yield from enumerate(cells[:last], 1)


def _text(cell: Any, at: tuple[int, int], flaws: dict[tuple[int, int], Flaw]) -> str:
    """What a cell shows: a number as it is counted, a text as it stands."""
    value = cell.value
    if value is None:
        return ""
    if cell.data_type == "e":
        hint = "Mend the formula, or type the text itself."
        flaws[at] = Flaw(code="bad-cell", message=f"the spreadsheet reports {value} in this cell", hint=hint)
        return str(value)
    if cell.data_type == "d" or hasattr(value, "isoformat") or hasattr(value, "total_seconds"):
        flaws[at] = _DATE
        return str(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return _number(value, cell.number_format)
    text = tidied(read_cell(str(value)))
    flaw = odd_character(text) if not text.isprintable() else None
    if flaw is not None:
        flaws[at] = flaw
    return text


def _number(value: float, form: str) -> str:
    """A whole number without a point, and with the zeros before it that a form such as `00` shows."""
    if abs(value) >= 1e15 or value != int(value):
        return f"{value:.15g}"
    text = str(int(value))
    return text.zfill(len(form)) if form and not form.strip("0") else text
