import csv
from dataclasses import replace
from io import StringIO

import pytest
from drawings.strip_railway import harbour

from labelgen.model.netlist import Netlist
from labelgen.rendering.cut_list import CUT_COLUMNS, cut_list_csv
from labelgen.spreadsheet_cells import read_cell


def table(netlist: Netlist) -> list[dict[str, str]]:
    return list(csv.DictReader(StringIO(cut_list_csv(netlist).decode("utf-8-sig"), newline="")))


def test_one_line_a_wire_in_order_of_pulling() -> None:
    netlist = harbour(points=2)
    rows = table(netlist)
    assert tuple(rows[0]) == CUT_COLUMNS
    assert [row["order"] for row in rows] == [str(number) for number in range(1, len(netlist.wires) + 1)]
    assert rows[0] == {
        "order": "1", "strip": "A1", "holes": "", "number": "1", "head": "1N", "colour": "YE", "size": "16/0.2",
        "length": "300", "reel": "", "ferrule": "0.5 mm²", "bare end": "8", "from": "L1.N", "to": "A1.1",
        "flags": "2", "link": "no", "tag": "1 flag each end",
    }  # fmt: skip
    assert [row["link"] for row in rows] == ["no"] * 13 + ["yes"]
    assert rows[-1]["flags"] == "0"


def test_a_length_that_is_not_known_is_left_open() -> None:
    (feed,) = [row for row in table(harbour(points=1)) if row["from"] == "PULSE.feed"]
    assert feed["length"] == ""


def test_what_is_painted_on_the_railway_is_what_the_list_says() -> None:
    row = table(harbour(points=1, shown={"A1": "TB1/A"}))[0]
    assert (row["strip"], row["to"]) == ("TB1/A", "TB1/A.1")


def test_the_reel_where_there_are_several() -> None:
    netlist = harbour(points=1)
    wires = [replace(wire, length=9_000) for wire in netlist.wires]
    rows = {row["head"] + row["from"]: row for row in table(replace(netlist, wires=tuple(wires)))}
    assert (rows["1NL1.N"]["reel"], rows["1NA1.1"]["reel"]) == ("1", "2")


def test_a_wire_of_no_size_has_no_ferrule() -> None:
    netlist = harbour(points=1)
    row = table(replace(netlist, wires=(replace(netlist.wires[0], size=""),)))[0]
    assert (row["size"], row["ferrule"], row["bare end"]) == ("", "", "")


@pytest.mark.parametrize("number", ["=1+1", "08", "@x", "1-2"])
def test_what_a_spreadsheet_would_change_comes_through(number: str) -> None:
    netlist = harbour(points=1)
    cell = table(replace(netlist, wires=(replace(netlist.wires[0], number=number),)))[0]["number"]
    assert read_cell(cell) == number
    assert cell != number


@pytest.mark.parametrize(("number", "size"), [("37N bis", "0.5 mm²"), ("W 17", "16/0.2")])
def test_what_no_spreadsheet_would_change_stands_as_it_is(number: str, size: str) -> None:
    netlist = harbour(points=1)
    row = table(replace(netlist, wires=(replace(netlist.wires[0], number=number, size=size),)))[0]
    assert (row["number"], row["size"]) == (number, size)


def test_marked_as_utf8_with_windows_line_ends() -> None:
    data = cut_list_csv(harbour())
    assert data.startswith(b"\xef\xbb\xbf")  # or accents are garbled
    assert data.count(b"\r\n") == data.count(b"\n")


def test_the_same_netlist_gives_the_same_bytes() -> None:
    assert cut_list_csv(harbour()) == cut_list_csv(harbour())
