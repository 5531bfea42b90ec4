"""The wire list as a workbook, read with openpyxl and as the packed XML that ECMA-376 describes."""

import re
import zipfile
from io import BytesIO
from typing import Any

from drawings.strip_railway import DEVICE, Wirer, end, harbour
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import load_workbook

from labelgen.model.netlist import Netlist
from labelgen.rendering.workbook import wires_xlsx
from labelgen.spreadsheet_cells import COLUMNS, read_cell


def sheet_of(netlist: Netlist) -> Any:
    return load_workbook(BytesIO(wires_xlsx(netlist))).active


def one_wire(**more: object) -> Netlist:
    wirer = Wirer()
    wirer.wire("5", "lamp", end(DEVICE, "D", "A"), end(DEVICE, "D", "B"), **more)
    return wirer.netlist()


def by_heading(netlist: Netlist) -> dict[str, Any]:
    """The cells of the first wire."""
    sheet = sheet_of(netlist)
    return {sheet.cell(1, column).value: sheet.cell(2, column) for column in range(1, len(COLUMNS) + 1)}


def test_one_row_a_wire_under_the_headings() -> None:
    netlist = harbour(points=2)
    sheet = sheet_of(netlist)
    rows = list(sheet.values)
    assert rows[0] == COLUMNS
    assert len(rows) == 1 + 14  # 7 wires a point: common practice, no source
    assert dict(zip(rows[0], rows[1], strict=True)) == {
        "number": 1, "head": "1N", "circuit": "1", "function": "normal", "code": "N", "colour": "YE", "size": "16/0.2",
        "from": "L1.N", "from side": None, "to": "A1.1", "to side": "panel", "link": "no", "board": "WEST",
        "holes": None, "length": 300, "note": None,
    }  # fmt: skip


def test_numbers_are_numbers_and_ids_are_texts() -> None:
    cells = by_heading(harbour(points=1))
    assert {name for name, cell in cells.items() if cell.data_type == "n" and cell.value is not None} == {
        "number",
        "length",
    }
    assert (cells["circuit"].data_type, cells["circuit"].number_format) == ("s", "@")


def test_what_looks_like_something_else_stays_the_text_it_is() -> None:
    for text in ("08", "=1+1", "#N/A", "1-2", "1e3", "TRUE", "-5", "@x", " x ", "12:30"):
        cells = by_heading(one_wire(number=text, note=text, head=text))
        for name in ("number", "note", "head"):
            assert (cells[name].value, cells[name].data_type, cells[name].number_format) == (text, "s", "@")


def test_an_apostrophe_is_kept_by_a_second_one() -> None:
    assert by_heading(one_wire(note="'08"))["note"].value == "''08"


def test_what_xml_cannot_hold_is_replaced() -> None:
    assert by_heading(one_wire(note="a\x00b\x1fc"))["note"].value == "a\ufffdb\ufffdc"


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff"), max_size=20))
def test_any_text_comes_back(text: str) -> None:
    value = by_heading(one_wire(note=text))["note"].value
    assert read_cell(value or "") == text


def test_headings_stay_in_view_and_filter() -> None:
    netlist = harbour(points=2)
    sheet = sheet_of(netlist)
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:P15"
    assert sheet["A1"].font.bold
    assert sheet.print_title_rows == "$1:$1"


def test_columns_are_as_wide_as_what_is_in_them() -> None:
    sheet = sheet_of(one_wire(note="n" * 300, head="5L"))
    widths = [sheet.column_dimensions[letter].width for letter in "ABCDEFGHIJKLMNOP"]
    assert widths[COLUMNS.index("note")] == 40
    assert all(6 <= width <= 40 for width in widths)
    # A digit of the common typeface is one unit wide (ECMA-376 part 1, 18.3.1.13): headings fit beside their filter.
    assert all(width >= len(heading) + 3 for heading, width in zip(COLUMNS, widths, strict=True))


def test_the_same_netlist_gives_the_same_bytes_and_no_date() -> None:
    data = wires_xlsx(harbour())
    assert data == wires_xlsx(harbour())
    with zipfile.ZipFile(BytesIO(data)) as packed:
        assert {part.date_time for part in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = packed.read("docProps/core.xml").decode()
    assert set(re.findall(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", core)) == {"1980-01-01T00:00:00Z"}
    assert core.count("1980-01-01") == 2


def test_an_empty_railway_has_headings() -> None:
    assert list(sheet_of(Wirer().netlist()).values) == [COLUMNS]
