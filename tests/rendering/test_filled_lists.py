"""A builder's own list with its blanks filled, and nothing else changed."""

import csv
from dataclasses import replace
from io import BytesIO, StringIO
from typing import Any

from drawings.strip_railway import harbour
from openpyxl import Workbook, load_workbook
from openpyxl.styles import Font

from labelgen.model.netlist import Netlist
from labelgen.model.paper_lists import PaperList
from labelgen.rendering.filled_lists import filled, filled_files


def listed(*wires: int, **more: Any) -> Netlist:
    """The harbour; the wires of those numbers, from 1, stand in the description's list in that order."""
    netlist = harbour(points=2)
    changed = list(netlist.wires)
    for position, number in enumerate(wires):
        changed[number - 1] = replace(changed[number - 1], listed=position, **more)
    return replace(netlist, wires=tuple(changed))


def paper(content: bytes, columns: dict[str, tuple[int, ...]], rows: dict[int, int | str], **more: Any) -> PaperList:
    of = {row: ("wires" if isinstance(thing, int) else "points", thing) for row, thing in rows.items()}
    values: dict[str, Any] = {"key": "wire_list", "file": "lists/wires.csv", "in_place": True}
    return PaperList(content=content, columns=columns, rows=of, **(values | more))


def rows_of(data: bytes, delimiter: str = ",") -> list[list[str]]:
    return list(csv.reader(StringIO(data.decode("utf-8-sig"), newline=""), delimiter=delimiter))


WIRES = {"number": (1,), "from": (2,), "to": (3,), "colour": (4,), "size": (6,), "length": (7,), "head": (8,)}
LIST = "No,From,To,Colour,Mine,Size\r\n,L1.N,A1.1,,keep,\r\nW2,A1.1,P1.N, red ,,32/0.2\r\n,A1.9,,,,\r\n"


def test_only_blanks_are_filled() -> None:
    rows = rows_of(filled(paper(LIST.encode(), WIRES, {2: 0, 3: 1}), listed(1, 2)))
    assert rows == [
        ["No", "From", "To", "Colour", "Mine", "Size"],
        ["1", "L1.N", "A1.1", "YE", "keep", "16/0.2", "300", "1N"],
        ["W2", "A1.1", "P1.N", " red ", "", "32/0.2", "350", "1N"],
        ["", "A1.9", "", "", "", ""],  # it became no wire
    ]


def test_what_has_no_value_stays_blank() -> None:
    rows = rows_of(filled(paper(LIST.encode(), WIRES, {2: 0, 3: 7}), listed(1, colour="", size="", length=None)))
    assert rows[1] == ["1", "L1.N", "A1.1", "", "keep", "", "", "1N"]
    assert rows[2][:3] == ["W2", "A1.1", "P1.N"]


def test_texts_that_a_spreadsheet_would_change_are_guarded() -> None:
    rows = rows_of(filled(paper(LIST.encode(), WIRES, {2: 0}), listed(1, number="08")))
    assert rows[1][0] == "'08"


def test_columns_that_are_joined_are_left_alone() -> None:
    columns = {**WIRES, "number": (1, 5)}
    rows = rows_of(filled(paper(LIST.encode(), columns, {2: 0}), listed(1)))
    assert rows[1][0] == ""


def test_its_form_is_kept() -> None:
    text = "No;From;To;Note\nW1;L1.N;A1.1;Molé\n;A1.1;P1.N;\n"
    old = paper(text.encode("cp1252"), WIRES, {3: 1}, encoding="cp1252", delimiter=";")
    assert filled(old, listed(1, 2)).decode("cp1252") == text.replace(
        "\n;A1.1;P1.N;", "\n2;A1.1;P1.N;YE;;16/0.2;350;1N"
    )
    marked = paper(text.encode("utf-8-sig"), {"number": (1,)}, {3: 1}, encoding="utf-8-sig", delimiter=";")
    assert filled(marked, listed(1, 2)) == text.replace("\n;A1.1", "\n2;A1.1").encode("utf-8-sig")


def test_a_sign_that_the_old_code_page_lacks_makes_it_utf8() -> None:
    old = paper(LIST.replace("keep", "é").encode("cp1252"), WIRES, {2: 0}, encoding="cp1252")
    rows = rows_of(filled(old, listed(1, head="Ł5N")))
    assert (rows[1][4], rows[1][7]) == ("é", "Ł5N")


DEVICES = {"id": (1,), "kind": (2,), "lever": (3,), "board": (4,), "strip": (5,), "way": (6,), "ways": (7,)}


def test_devices() -> None:
    text = "id,kind,lever,board,strip,way,ways\nP2,,,,,,\nP1,mine,,,,,\nLAMP,,,,,,\n"
    given = paper(text.encode(), DEVICES, {2: "P2", 3: "P1", 4: "LAMP"}, key="device_list")
    netlist = harbour(points=2)
    first, second = netlist.circuits
    apart = replace(first, groups=(replace(first.groups[0], ways={0: 1, 1: 7, 2: 3}),))
    netlist = replace(netlist, circuits=(apart, second))
    assert rows_of(filled(given, netlist))[1:] == [
        ["P2", "twin-coil", "2", "WEST", "A1", "4", "'4, 5, 6"],
        ["P1", "mine", "1", "WEST", "A1", "", "'1, 7, 3"],
        ["LAMP", "", "", "", "", "", ""],
    ]
    homeless = replace(netlist, circuits=(replace(first, groups=()), second))
    assert rows_of(filled(given, homeless))[2] == ["P1", "mine", "1", "", "", "", ""]


def book() -> bytes:
    made = Workbook()
    sheet = made.active
    sheet.title = "As built"
    for row in (["No", "From", "To", "Colour"], [None, "L1.N", "A1.1", None], [None, "A1.1", "P1.N", " "]):
        sheet.append(row)
    sheet["B2"].font = Font(italic=True)
    sheet.merge_cells("A2:A3")
    made.create_sheet("Other")["A1"] = "=1+1"
    into = BytesIO()
    made.save(into)
    return into.getvalue()


def test_a_workbook_keeps_its_looks_and_its_other_sheets() -> None:
    given = paper(book(), WIRES, {2: 0, 3: 1}, file="lists/wires.xlsx", sheet="As built")
    data = filled(given, listed(1, 2))
    assert data == filled(given, listed(1, 2))
    found = load_workbook(BytesIO(data))
    sheet = found["As built"]
    assert [cell.value for cell in sheet[2]] == [1, "L1.N", "A1.1", "YE", None, "16/0.2", 300, "1N"]
    # The merged cell is one, and was filled with the first of its wires.
    assert [cell.value for cell in sheet[3]] == [None, "A1.1", "P1.N", "YE", None, "16/0.2", 350, "1N"]
    assert sheet["B2"].font.italic
    assert found["Other"]["A1"].value == "=1+1"


def test_names() -> None:
    rows = {2: 0}
    papers = [
        paper(LIST.encode(), WIRES, rows),
        paper(LIST.encode(), WIRES, rows, file="more/wires.csv"),
        paper(LIST.encode(), WIRES, rows, file="quiet.csv", in_place=False),
        paper(book(), WIRES, rows, file="all.xlsx", sheet="As built"),
        paper(book(), {"number": (2,)}, {4: 1}, file="all.xlsx", sheet="Other", key="device_list"),
    ]
    files = filled_files(papers, listed(1, 2))
    assert list(files) == ["wires-filled.csv", "more-wires-filled.csv", "all-filled.xlsx"]
    both = load_workbook(BytesIO(files["all-filled.xlsx"]))
    assert (both["As built"]["A2"].value, both["Other"]["B4"].value) == (1, 2)
