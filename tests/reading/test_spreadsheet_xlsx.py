"""Workbooks, whole and broken. What they hold was written by openpyxl, or by hand as ECMA-376 says."""

import datetime as dt
import re
import zipfile
from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Any

import pytest
from openpyxl import Workbook
from openpyxl.chart import BarChart

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_grid import Grid
from labelgen.reading.spreadsheet_sheet_xml import Merged, read_sheet_xml
from labelgen.reading.spreadsheet_xlsx import read_xlsx

HERE = Place(file="quay.yaml", line=9)
THERE = Place(file="quay.yaml", line=10)


def saved(book: Workbook) -> bytes:
    into = BytesIO()
    book.save(into)
    return into.getvalue()


def book_of(rows: Sequence[Sequence[Any]], more: Callable[[Any], None] = lambda _: None) -> bytes:
    book = Workbook()
    for row in rows:
        book.active.append(row)
    more(book.active)
    return saved(book)


def grid_of(data: bytes, sheet: str | None = None) -> Grid:
    grid, problems = read_xlsx(data, "wires.xlsx", sheet, HERE, THERE)
    assert problems == []
    assert grid is not None
    return grid


def problem_of(data: bytes, sheet: str | None = None) -> Problem:
    grid, (problem,) = read_xlsx(data, "wires.xlsx", sheet, HERE, THERE)
    assert grid is None
    return problem


def changed(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """The packed folder with one part changed."""
    into = BytesIO()
    with zipfile.ZipFile(BytesIO(data)) as packed, zipfile.ZipFile(into, "w") as new:
        for part in packed.namelist():
            content = packed.read(part)
            new.writestr(part, change(content) if part == name else content)
    return into.getvalue()


SHEET = "xl/worksheets/sheet1.xml"


def test_cells_are_read_as_they_are_shown() -> None:
    rows = [["08", 5, 5.0, 2.5, 0.1 + 0.2, True, False, None, " A1.1 ", "'08", "37N\nbis", 1e20]]
    assert grid_of(book_of(rows)).rows == [
        ("08", "5", "5", "2.5", "0.3", "yes", "no", "", "A1.1", "08", "37N bis", "1e+20")
    ]


def test_a_form_of_zeros_shows_its_zeros() -> None:
    def two_digits(sheet: Any) -> None:
        sheet["A1"].number_format = "00"
        sheet["B1"].number_format = "0.00"

    assert grid_of(book_of([[8, 8]], two_digits)).rows == [("08", "8")]


def test_empty_rows_keep_their_place_and_the_last_ones_go() -> None:
    grid = grid_of(book_of([["a"], [], [None, ""], ["b"], [" "], []]))
    assert [any(row) for row in grid.rows] == [True, False, False, True]
    assert grid.place(4, 1).cell == "A4"


def test_dates_and_errors_are_told_when_their_cell_is_wanted() -> None:
    row = [dt.datetime(2026, 7, 2), dt.date(2026, 2, 7), dt.time(12, 30), "#REF!", "x\u202ey"]
    grid = grid_of(book_of([row]))
    flaws = [grid.flaw(1, column) for column in range(1, 6)]
    assert [flaw.code if flaw else "" for flaw in flaws] == ["bad-cell"] * 4 + ["odd-character"]
    assert flaws[3] is not None
    assert "#REF!" in flaws[3].message
    assert grid.flaw(1, 6) is None


def test_a_duration_is_a_time() -> None:
    flaw = grid_of(book_of([[dt.timedelta(hours=30)]])).flaw(1, 1)
    assert flaw is not None
    assert flaw.code == "bad-cell"


def test_a_formula_is_what_it_comes_to() -> None:
    data = book_of([["=1+1", "=1+1", '=""', "=A1"]])

    def worked_out(xml: bytes) -> bytes:
        # As a spreadsheet saves it: ECMA-376 part 1, 18.3.1.40, the value beside the formula.
        for now, then in (
            (rb'r="A1"( t="n")?><f>1\+1</f><v ?/?>(</v>)?', rb'r="A1"><f>1+1</f><v>2</v>'),
            (rb'r="C1"( t="n")?><f>""</f><v ?/?>(</v>)?', rb'r="C1" t="str"><f>""</f><v></v>'),
            (rb'r="D1"( t="n")?><f>A1</f><v ?/?>(</v>)?', rb'r="D1"><f>A1</f>'),
        ):
            xml, count = re.subn(now, then, xml)
            assert count == 1
        return xml

    grid = grid_of(changed(data, SHEET, worked_out))
    assert grid.text(1, 1) == "2"
    assert [grid.flaw(1, column) is not None for column in (1, 2, 3, 4)] == [False, True, False, True]
    assert grid.flaws[1, 2].message == "this cell holds a formula that was never worked out"


def test_merged_cells() -> None:
    rows = [["Strip A1", None, None], ["TB1/A", 1, "L5.N"], [None, 2, "L5.F"], [None, 3], ["end", None, "x"]]

    def merge(sheet: Any) -> None:
        sheet.merge_cells("A1:C1")
        sheet.merge_cells("A2:A4")
        sheet.merge_cells("A5:B5")
        sheet.merge_cells("A40:B41")

    grid = grid_of(book_of(rows, merge))
    assert [grid.text(row, 1) for row in (2, 3, 4)] == ["TB1/A"] * 3
    assert grid.banners == {1}


def test_merged_cells_that_cannot_be() -> None:
    """Ranges over one another would have to be looked at again and again."""
    data = book_of([["a", "b"], ["c"], ["d"]], lambda sheet: sheet.merge_cells("A1:A2"))
    twice = changed(data, SHEET, lambda xml: xml.replace(b'ref="A1:A2"/>', b'ref="A1:A2"/><mergeCell ref="A2:A3"/>'))
    twice = changed(twice, SHEET, lambda xml: xml.replace(b'ref="A1:A2" />', b'ref="A1:A2" /><mergeCell ref="A2:A3"/>'))
    assert [row[0] for row in grid_of(twice).rows] == ["a", "a", "d"]


def test_hidden_rows_and_columns_are_read_and_hidden_sheets_are_not_the_first() -> None:
    book = Workbook()
    book.active.title = "Old"
    book.active["A1"] = "old"
    book.active.sheet_state = "hidden"
    sheet = book.create_sheet("As built")
    sheet.append(["a", "b"])
    sheet.row_dimensions[1].hidden = True
    sheet.column_dimensions["B"].hidden = True
    data = saved(book)
    assert grid_of(data).rows == [("a", "b")]
    assert grid_of(data).sheet == "As built"
    assert grid_of(data, " as BUILT").rows == [("a", "b")]
    assert grid_of(data, "Old").rows == [("old",)]


def test_a_sheet_that_is_not_there() -> None:
    problem = problem_of(book_of([["a"]]), "Shet")
    assert (problem.code, problem.place) == ("unknown-name", THERE)
    assert problem.hint.startswith("Did you mean Sheet?")


def test_a_book_without_cells() -> None:
    book = Workbook()
    book.create_chartsheet("Chart").add_chart(BarChart())
    book.remove(book.worksheets[0])
    assert "no sheet with cells" in problem_of(saved(book)).message


def test_what_a_library_warns_of_is_no_matter() -> None:
    def validation(xml: bytes) -> bytes:
        extension = b'<extLst><ext uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"/></extLst></worksheet>'
        return xml.replace(b"</worksheet>", extension)

    assert grid_of(changed(book_of([["a"]]), SHEET, validation)).rows == [("a",)]


def test_limits() -> None:
    assert "20000 rows" in problem_of(book_of([["x"]] * 20_001)).message
    assert "200 columns" in problem_of(book_of([["x"] * 201])).message
    assert grid_of(book_of([["x"] * 200])).width == 200


def test_a_cell_at_the_far_end_is_not_waited_for() -> None:
    def far(sheet: Any) -> None:
        sheet["XFD1"] = None
        sheet["A1048576"] = "x"

    assert problem_of(book_of([["a"]], far)).code == "bad-spreadsheet"


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("xl/workbook.xml", lambda xml: xml[:100]),
        (SHEET, lambda xml: xml[:-30]),
        (SHEET, lambda xml: xml.replace(b'r="A1"', b'r="nowhere"')),
        ("xl/styles.xml", lambda _: b"no XML"),
    ],
)
def test_broken_books(name: str, what: Callable[[bytes], bytes]) -> None:
    problem = problem_of(changed(book_of([["a", "b"]]), name, what))
    assert (problem.code, problem.place) == ("bad-spreadsheet", HERE)
    assert "damaged" in problem.message


PARTS = {
    "[Content_Types].xml": """<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="xml" ContentType="application/xml"/>
<Override PartName="/xl/workbook.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>
<Override PartName="/xl/worksheets/sheet1.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>
<Override PartName="/xl/sharedStrings.xml"
 ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"/></Types>""",
    "_rels/.rels": """<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rId1" Target="xl/workbook.xml"
 Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument"/></Relationships>""",
    "xl/_rels/workbook.xml.rels": """<Relationships
 xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rId1" Target="worksheets/sheet1.xml"
 Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet"/>
<Relationship Id="rId2" Target="sharedStrings.xml"
 Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings"/></Relationships>""",
    "xl/workbook.xml": """<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"
 xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">
<sheets><sheet name="As built" sheetId="1" r:id="rId1"/></sheets></workbook>""",
    "xl/sharedStrings.xml": """<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">
<si><t>08</t></si><si><r><t>37N </t></r><r><rPr><b/></rPr><t>bis</t></r></si></sst>""",
    SHEET: """<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="A1:XFD9"/>
<sheetData><row r="2"><c r="A2" t="s"><v>0</v></c><c r="C2" t="s"><v>1</v></c><c r="D2"><v>5</v></c>
<c r="E2" t="e"><f>A9</f><v>#N/A</v></c></row></sheetData></worksheet>""",
}
"""A workbook by hand, as ECMA-376 part 1 (12.3) asks for it: texts are kept apart from the cells."""


def test_a_book_as_other_programs_write_it() -> None:
    into = BytesIO()
    with zipfile.ZipFile(into, "w") as packed:
        for name, content in PARTS.items():
            packed.writestr(name, content)
    grid = grid_of(into.getvalue())
    assert grid.rows == [(), ("08", "", "37N bis", "5", "#N/A")]
    assert grid.flaw(2, 5) is not None
    assert "damaged" in problem_of(changed(into.getvalue(), "xl/sharedStrings.xml", lambda _: b"<sst/>")).message


def test_broken_packing() -> None:
    data = book_of([["a"]])
    assert "unpacked" in problem_of(data[:200]).message
    into = BytesIO()
    with zipfile.ZipFile(into, "w") as packed:
        packed.writestr("letter.txt", "no workbook")
    assert "no workbook" in problem_of(into.getvalue()).message


def test_a_bomb_is_not_unpacked() -> None:
    into = BytesIO()
    with zipfile.ZipFile(into, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/workbook.xml", b" " * 61_000_000)
    assert len(into.getvalue()) < 100_000
    assert "60 MB" in problem_of(into.getvalue()).message


def test_texts_that_multiply_are_refused() -> None:
    bomb = b'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>'
    data = changed(book_of([["a"]]), SHEET, lambda xml: bomb + xml)
    assert "no spreadsheet writes" in problem_of(data).message


MANY = 200_000
"""Of what would have to be looked at again from each of them: then no answer came within an hour."""


@pytest.mark.parametrize("text", ["<mergeCell ", '<c r="A1"', '<c r="A1"><f/>' + " " * 20])
@pytest.mark.parametrize(("around", "times"), [("<!-- {} -->", 4000), ("<x><![CDATA[{}]]></x>", MANY)])
def test_what_is_no_tag_is_not_read_as_one(text: str, around: str, times: int) -> None:
    harm = around.format(text * times + '<mergeCell ref="A1:A2"/><c r="A1"><f>1</f></c>').encode()
    data = book_of([["a", "b"], ["", "c"]])
    grid = grid_of(changed(data, SHEET, lambda xml: xml.replace(b"</worksheet>", harm + b"</worksheet>")))
    assert grid.rows == [("a", "b"), ("", "c")]
    assert not grid.flaws


def test_tags_may_have_a_prefix() -> None:
    """As some programs write them: Namespaces in XML 1.0, section 4."""
    rows = """<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>
<x:row r="1"><x:c r="A1" t="s"><x:v>0</x:v></x:c><x:c r="B1"><x:f>1+1</x:f></x:c></x:row>
<x:row r="2"><x:c r="B2"><x:f>1+1</x:f><x:v>2</x:v></x:c></x:row></x:sheetData>
<x:mergeCells><x:mergeCell ref="A1:A2"/></x:mergeCells></x:worksheet>"""
    into = BytesIO()
    with zipfile.ZipFile(into, "w") as packed:
        for name, content in {**PARTS, SHEET: rows}.items():
            packed.writestr(name, content)
    grid = grid_of(into.getvalue())
    assert grid.rows == [("08",), ("08", "2")]
    assert [*grid.flaws] == [(1, 2)]


@pytest.mark.parametrize("ref", ["", "A1", "A1:", "A1:B", "a1:b2", "A1:B2:C3", "A0" + "9" * 5000 + ":B2", "A1:ZZZZ9"])
def test_ranges_and_cells_that_are_none(ref: str) -> None:
    told = read_sheet_xml(
        f'<x><mergeCell ref="{ref}"/><mergeCell/><c r="{ref}?"><f/></c><c><f/></c><c r="A1"><v/></c></x>'.encode()
    )
    assert (told.merged, told.never_computed) == (set(), set())


@pytest.mark.parametrize(
    "harm",
    [
        "<!--" + " " * 5000 + "--><!DOCTYPE worksheet>",
        "<?xml version='1.0' encoding='utf-16'?><!DOCTYPE worksheet><worksheet/>",
        "<!--" + "> " * 5_000_000 + "-->",
        "<worksheet" + " " * 10_000_000 + "></worksheet>",
        "<worksheet></worksheet" + " " * 10_000_000 + ">",
        "<worksheet a='" + ">" * 10_000_000 + "'></worksheet>",
        "<?x " + "? " * 5_000_000 + "?>",
    ],
    ids=["late document type", "document type in UTF-16", "remark", "tag", "end tag", "value", "instruction"],
)
def test_what_no_spreadsheet_writes_is_refused(harm: str) -> None:
    """Before the library sees it: a tag that never ends it would read again and again from its beginning."""
    form = "utf-16" if "utf-16" in harm[:40] else "utf-8"
    problem = problem_of(changed(book_of([["a"]]), SHEET, lambda xml: harm.encode(form) + xml))
    assert "no spreadsheet writes" in problem.message


def test_a_long_text_is_no_tag() -> None:
    assert [len(text) for row in grid_of(book_of([["x" * 32_767] * 30])).rows for text in row] == [32_767] * 30


def test_wide_ranges_over_every_row() -> None:
    """From each column to the last, and down all rows: each row is looked at once, not once for each range."""
    merged = Merged({(left, 1, 200, 5000) for left in range(1, 200)})
    rows = [("",) * 198 + ("x", "y")] * 4999 + [("",) * 198 + ("x",)]
    assert merged.banners(rows) == {5000}
