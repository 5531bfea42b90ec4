import csv
import json
import re
from dataclasses import replace
from io import StringIO

import pytest
from drawings.strip_railway import DEVICE, Wirer, end, harbour
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.netlist import Netlist, Side
from labelgen.rendering.tables import wires_csv, wires_json
from labelgen.spreadsheet_cells import COLUMNS, read_cell, write_cell

# What a spreadsheet makes of a cell on opening a CSV: as documented for the import of the two in common use.
EVALUATED = re.compile(
    r"""
    [=+\-@].*                                               # a formula
    | [+-]?[$£€]?\s*\d[\d,.\s]*%?                           # a number, an amount, a percentage
    | [+-]?\d*\.?\d+[eEdD][+-]?\d+                          # a power of ten
    | \d{1,4}[-/.]\d{1,2}([-/.]\d{1,4})?                    # a date or a fraction
    | \d{1,2}:\d{2}(:\d{2})?(\s*[ap]m?)? | \d{1,2}\s*[ap]m? # a time
    | \d{0,2}[\s-]?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[\s-]?\d+
    | true | false
    """,
    re.VERBOSE | re.IGNORECASE | re.DOTALL,
)
CHANGED = [
    "08", "1e3", "5E3", "1E-3", "=1+1", "-5", "+1", "@x", "1-2", "3/4", "1/2", "TRUE", "false", "Wahr", "12:30", "1.5",
    "1,5", "1.50", " 5N", "5N ", "\t5N", "\r5N", "\n", "'5N", "'", "12345678901234567890", "1234567890", "MAR1",
    "sept 2", "2-Sep", "5 mai", "5A", "5 p", "5pm", "50 %", "(5)", "$5", "€5", "EUR 5", "kr 5", "#N/A", '"x"', ".5",
    "２", "−5", "1_000", "00", "3. März 2024", "1/2/2024 5 pm", "5 kr",
    "2024-01-05T10:00", "1 000", "2024-01-05", "5e3", "\x00",
]  # fmt: skip
UNCHANGED = ["", "5N", "08N", "7Lg", "5F", "A1.3", "L08.F", "PULSE.feed", "RDBU", "16/0.2", "0", "5", "12", "normal",
             "Marram Quay", "TB1/A.4", "–", "J1.7", "May", "Kölner Straße", "yes", "0.5 mm²", "37N bis", "20 AWG",
             "2 lamps", "0.5 A", "37N/2", "(bell)", "(bell 2)", "siding 2, since May"]  # fmt: skip


def table(netlist: Netlist) -> list[dict[str, str]]:
    text = wires_csv(netlist).decode("utf-8-sig")
    return list(csv.DictReader(StringIO(text, newline="")))


@pytest.mark.parametrize("text", CHANGED)
def test_what_a_spreadsheet_would_change_is_guarded(text: str) -> None:
    assert write_cell(text) == f"'{text}"


@pytest.mark.parametrize("text", UNCHANGED)
def test_what_it_leaves_alone_is_written_as_it_is(text: str) -> None:
    assert write_cell(text) == text


@given(st.text())
def test_reading_undoes_writing(text: str) -> None:
    assert read_cell(str(write_cell(text))) == text


NEAR_NUMBERS = st.text("0123456789eEdDaApPmM+-=@/.,:% $€'MARjanTRUEfalse \t", max_size=12)


@given(NEAR_NUMBERS)
def test_no_written_cell_is_evaluated(text: str) -> None:
    written = str(write_cell(text))
    assert written.isdecimal() or not EVALUATED.fullmatch(written)
    assert not written.isdecimal() or written == str(int(written))
    assert written == written.strip() or written.startswith("'")


def test_numbers_stay_numbers() -> None:
    assert write_cell(7) == 7
    assert write_cell(None) == ""


def test_the_whole_file_goes_round_unharmed() -> None:
    wirer = Wirer()
    odd = ["1e3", "=1+1", "08", "-5", 'say "x", then\r\ny', "Łódź → ¼", " "]
    for text in odd:
        wirer.wire("08", "lamp", end(DEVICE, text, text), end(DEVICE, "D", "B"), number=text, head="5E3", note=text)
    rows = table(wirer.netlist())
    assert [read_cell(row["number"]) for row in rows] == odd
    assert [read_cell(row["note"]) for row in rows] == odd
    assert [read_cell(row["from"]) for row in rows] == [f"{text}.{text}" for text in odd]
    assert {read_cell(row["head"]) for row in rows} == {"5E3"}
    assert {read_cell(row["circuit"]) for row in rows} == {"08"}


def test_one_line_a_wire_under_the_headings() -> None:
    netlist = harbour(points=2)
    data = wires_csv(netlist)
    assert data.startswith(b"\xef\xbb\xbf")  # or accents are garbled
    assert data.count(b"\r\n") == data.count(b"\n") == 1 + len(netlist.wires)
    rows = table(netlist)
    assert tuple(rows[0]) == COLUMNS
    assert rows[0] == {
        "number": "1", "head": "1N", "circuit": "1", "function": "normal", "code": "N", "colour": "YE",
        "size": "16/0.2", "from": "L1.N", "from side": "", "to": "A1.1", "to side": "panel", "link": "no",
        "board": "WEST", "holes": "", "length": "300", "note": "",
    }  # fmt: skip
    link = next(row for row in rows if row["link"] == "yes")
    assert (link["from"], link["from side"], link["to"], link["to side"]) == ("A1.2", "layout", "A1.5", "layout")
    assert next(row for row in rows if row["from"] == "PULSE.feed")["length"] == ""


def test_numbers_stand_bare_and_texts_in_quotes() -> None:
    first = wires_csv(harbour(points=1)).decode("utf-8-sig").split("\r\n")[1]
    assert first.startswith('1,"1N","1"')
    assert first.endswith(',300,""')


def test_what_is_painted_on_the_railway_is_what_the_table_says() -> None:
    rows = table(harbour(points=1, shown={"A1": "TB1/A"}))
    assert rows[0]["to"] == "TB1/A.1"


def test_json_as_the_format_says() -> None:
    netlist = harbour(points=2)
    listed = replace(netlist.wires[0], number="W-08", length=None, holes=("H1", "H2"), colour="", size="")
    netlist = replace(netlist, wires=(listed, *netlist.wires[1:]))
    said = json.loads(wires_json(netlist))
    assert list(said) == ["railway", "wires"]
    assert said["railway"] == "Marram Quay"
    first, second = said["wires"][:2]
    assert list(first) == ["number", "circuit", "function", "code", "head", "colour", "size", "from", "to",
                           "from_side", "to_side", "link", "board", "holes", "length"]  # fmt: skip
    assert first == {
        "number": "W-08", "circuit": "1", "function": "normal", "code": "N", "head": "1N", "colour": "", "size": "",
        "from": "L1.N", "to": "A1.1", "from_side": None, "to_side": "panel", "link": False, "board": "WEST",
        "holes": ["H1", "H2"], "length": None,
    }  # fmt: skip
    assert (second["number"], second["length"], second["from_side"]) == (2, 350, "layout")
    assert len(said["wires"]) == 14  # 7 wires a point: common practice, no source


def test_json_names_ids_where_the_table_names_what_is_painted() -> None:
    said = json.loads(wires_json(harbour(points=1, shown={"A1": "TB1/ä"})))
    assert said["wires"][0]["to"] == "A1.1"


def test_the_same_netlist_gives_the_same_bytes() -> None:
    assert wires_csv(harbour()) == wires_csv(harbour())
    assert wires_json(harbour()) == wires_json(harbour())


def test_sides_of_ways_only() -> None:
    wirer = Wirer()
    wirer.strip("A1")
    wirer.wire("X", "lamp", wirer.way("A1", 1, Side.LAYOUT), end(DEVICE, "X", "1"))
    wire = json.loads(wires_json(wirer.netlist()))["wires"][0]
    assert (wire["from_side"], wire["to_side"]) == ("layout", None)
