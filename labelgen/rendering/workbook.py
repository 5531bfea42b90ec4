"""The wire list as a workbook (.xlsx), and workbooks that come out the same on every day and machine."""

import re
from io import BytesIO
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from labelgen.model.netlist import Netlist
from labelgen.rendering.tables import wire_row
from labelgen.spreadsheet_cells import COLUMNS, GUARD

WIDEST, NARROWEST = 40, 6
"""Of a column, in characters of the common typeface."""
HEADING_FILL = "E7E6E1"
AS_TEXT = "@"
"""The form of a cell whose text no spreadsheet may take for something else."""
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest that a packed folder can say; there is no clock here."""
_DATES = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*")
_UNSEEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f]")


def wires_xlsx(netlist: Netlist) -> bytes:
    """One wire a row under a row of headings that stays in view and filters; numbers as numbers, ids as texts."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font, PatternFill
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.active
    sheet.title = "wires"
    rows: list[tuple[str | int | None, ...]] = [COLUMNS, *(wire_row(wire) for wire in netlist.wires)]
    for number, row in enumerate(rows, 1):
        for column, value in enumerate(row, 1):
            put(sheet.cell(number, column), value)
    for cell in sheet[1]:
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor=HEADING_FILL)
        cell.alignment = Alignment(vertical="center")
    for column, heading in enumerate(COLUMNS):
        longest = max(len(str(row[column] or "")) for row in rows)
        # A heading needs room for the sign of its filter besides.
        width = max(NARROWEST, len(heading) + 4, min(WIDEST, longest + 2))
        sheet.column_dimensions[get_column_letter(column + 1)].width = width
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(COLUMNS))}{len(rows)}"
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    book.properties.title = f"{netlist.railway}: wires"
    book.properties.creator = "labelgen"
    return settled(book)


def put(cell: Any, value: str | int | None) -> None:
    """A number as a number; any text as a text, though it look like a formula, a date or an error."""
    if value is None or value == "":
        return
    if isinstance(value, int):
        cell.value = value
        return
    text = _UNSEEN.sub("\ufffd", value)
    # Readers take one apostrophe away, for spreadsheets that were filled from CSV have it in the cell.
    cell.value = f"{GUARD}{text}" if text.startswith(GUARD) else text
    cell.data_type = "s"
    cell.number_format = AS_TEXT


def settled(book: Any) -> bytes:
    """A workbook's bytes, without the time of day that the library writes into them."""
    made, settled_bytes = BytesIO(), BytesIO()
    book.save(made)
    with ZipFile(made) as packed, ZipFile(settled_bytes, "w", ZIP_DEFLATED) as into:
        for name in packed.namelist():
            content = packed.read(name)
            if name == "docProps/core.xml":
                content = _DATES.sub(rb"\g<1>1980-01-01T00:00:00Z", content)
            part = ZipInfo(name, _FIRST_DAY)
            part.compress_type = ZIP_DEFLATED
            part.external_attr = 0o600 << 16
            into.writestr(part, content)
    return settled_bytes.getvalue()
