"""A description whose wires and devices are kept in spreadsheets: what is read, and where its problems are shown."""

from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook

from labelgen.model.description import Description
from labelgen.problems import Problem
from labelgen.reading.description_reader import read_description, read_description_text

TOP = """\
railway: Marram Quay
boards: {West: {size: [1200, 600], shown: Board 1}}
supplies: {PULSE: {kind: pulse}, LIGHT: {kind: dc, shown: Light box}}
strips: {A1: {measured: 110, shown: "TB1/A"}}
"""
HEADED = "number,from,to,function,colour,size,note\n"


def read(folder: Path, yaml: str, **lists: str | bytes) -> tuple[Description | None, list[Problem]]:
    """`wires_csv="…"` is written as `wires.csv`."""
    for name, content in lists.items():
        file = folder / name.replace("_", ".")
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
    path = folder / "quay.yaml"
    path.write_text(f"{TOP}{yaml}\n", encoding="utf-8")
    return read_description(path)


def good(folder: Path, yaml: str, **lists: str | bytes) -> Description:
    description, problems = read(folder, yaml, **lists)
    assert problems == []
    assert description is not None
    return description


def told(problems: list[Problem]) -> list[tuple[str, str, str]]:
    """Code, file, and cell or line of each."""
    return [(one.code, Path(one.place.file).name, one.place.cell or str(one.place.line)) for one in problems]


def workbook(**sheets: list[list[str | int | None]]) -> bytes:
    book = Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    into = BytesIO()
    book.save(into)
    return into.getvalue()


# Wires.


def test_the_form_of_a_wire_s_flags(tmp_path: Path) -> None:
    """A cut list of ours has a column of that name that says how many: it is passed over."""
    rows = "from,to,function,flags\nL5.N,A1.1,normal,Wrap\nL6.N,A1.4,normal,\nL7.N,A1.7,normal,2\n"
    description = good(tmp_path, "wire_list: wires.csv", wires_csv=rows)
    assert [wire.flags for wire in description.wires] == ["wrap", None, None]
    rows = "von,nach,f,Art\nL5.N,A1.1,normal,wrop\n"
    yaml = "wire_list: {file: wires.csv, columns: {from: von, to: nach, function: f, flags: Art}}"
    _, problems = read(tmp_path, yaml, wires_csv=rows)
    assert told(problems) == [("unknown-choice", "wires.csv", "D2")]


def test_rows_become_wires_behind_the_builders_own(tmp_path: Path) -> None:
    rows = HEADED + "37N bis,L5.N,A1.1,,YE,16/0.2,\n08,A1.2,A1.3/layout,feed,,,behind the mole\n"
    description = good(
        tmp_path, "points: {P5: }\nwires: [{from: A1.1, to: P5.N}]\nwire_list: wires.csv", wires_csv=rows
    )
    own, first, second = description.wires
    assert (own.start, own.number) == ("A1.1", None)
    assert (first.number, first.start, first.finish, first.function) == ("37N bis", "L5.N", "A1.1", None)
    assert (first.colour, first.size, first.note) == ("YE", "16/0.2", "")
    assert (second.number, second.finish, second.function, second.note) == (
        "08",
        "A1.3/layout",
        "feed",
        "behind the mole",
    )
    (paper,) = description.papers
    assert (paper.rows, paper.file, paper.in_place) == ({2: ("wires", 1), 3: ("wires", 2)}, "wires.csv", False)


def test_the_place_of_each_value_is_its_cell(tmp_path: Path) -> None:
    rows = HEADED + "W1,L5.N,A1.1,,YE,,\n"
    description = good(tmp_path, "points: {P5: }\nwire_list: wires.csv", wires_csv=rows)
    assert description.place_of("wires", 0, "to").cell == "C2"
    assert description.place_of("wires", 0, "colour").source == "W1 | L5.N | A1.1 |  | YE"
    assert description.place_of("wires", 0, "size").cell == "B2"  # not written: the wire itself
    assert description.place_of_key("wires", 0).cell == "B2"
    assert description.place_of("strips", "A1").line == 4
    assert description.place_of_key("railway").cell == ""


def test_wrong_values_are_shown_at_their_cell(tmp_path: Path) -> None:
    rows = HEADED + "W1,L5.N,A1.1,bell,mauve,20 inch,\n"
    _, problems = read(tmp_path, "points: {P5: }\nwire_list: wires.csv", wires_csv=rows)
    assert told(problems) == [
        ("unknown-name", "wires.csv", "D2"),
        ("bad-colour", "wires.csv", "E2"),
        ("bad-size", "wires.csv", "F2"),
    ]


def test_columns_by_letter_are_joined_and_names_are_mapped(tmp_path: Path) -> None:
    rows = [
        ["Wiring of the quay", None, None, None, None, None],
        ["Nr", "alt", "Klemme", "Weg", "Ziel", "Kontakt"],
        ["37N bis", "x", "TB1/A", 1, "Hebel 5", "N"],
        ["W2", "x", "Strip one", 1, "Motor 5 links", None],
        ["W3", "x", "Strip one.2", None, "Hebel 5", "F"],
    ]
    yaml = """\
points: {P5: }
wire_list:
  file: wiring.xlsx
  sheet: Wires
  columns: {number: A, from: [C, D], to: [E, F]}
  first_row: 3
  names: {"Strip one": A1, "Hebel 5": L5, "Motor 5 links": P5.N}
"""
    description = good(tmp_path, yaml, wiring_xlsx=workbook(Wires=rows))
    ends = [(wire.number, wire.start, wire.finish) for wire in description.wires]
    assert ends == [("37N bis", "TB1/A.1", "L5.N"), ("W2", "A1.1", "P5.N"), ("W3", "A1.2", "L5.F")]
    assert description.place_of("wires", 0, "to").cell == "E3"


def test_sides_in_columns_of_their_own(tmp_path: Path) -> None:
    rows = "from,from side,to,to side\nL5.N,,A1.1,Panel\nA1.1/layout,panel,P5.N,\n"
    description = good(tmp_path, "points: {P5: }\nwire_list: wires.csv", wires_csv=rows)
    assert [(wire.start, wire.finish) for wire in description.wires] == [
        ("L5.N", "A1.1/panel"),
        ("A1.1/layout", "P5.N"),
    ]


def test_a_wire_that_goes_nowhere_is_left_out_and_said(tmp_path: Path) -> None:
    rows = HEADED + "1,L5.N,A1.1,,,,\n2,L5.R,,,,,\n3,,A1.9,,,,\n4,,,,,,spare number\n,,,,,,\n"
    description, problems = read(tmp_path, "points: {P5: }\nwire_list: wires.csv", wires_csv=rows)
    assert description is not None
    assert [wire.number for wire in description.wires] == ["1"]
    assert told(problems) == [("wire-without-end", "wires.csv", "B3"), ("wire-without-end", "wires.csv", "C4")]
    assert problems[0].message == "the wire of row 3 goes from L5.R to nowhere"
    assert "column C" in problems[0].hint
    assert problems[1].message == "the wire of row 4 comes from nowhere to A1.9"
    (paper,) = description.papers
    assert (paper.one_ended, paper.endless) == (2, 1)


def test_of_many_such_wires_the_first_are_said(tmp_path: Path) -> None:
    rows = HEADED + "".join(f"{n},L5.N,,,,,\n" for n in range(30))
    description, problems = read(tmp_path, "points: {P5: }\nwire_list: wires.csv", wires_csv=rows)
    assert len(problems) == 20
    assert problems[-1].message.endswith("more rows like it")
    assert description is not None
    assert description.papers[0].one_ended == 30


def test_a_flaw_of_a_cell_that_is_wanted(tmp_path: Path) -> None:
    book = workbook(Wires=[["from", "to", "size", "date"], ["L5.N", "A1.1", "#REF!", "#REF!"]])
    description, problems = read(tmp_path, "points: {P5: }\nwire_list: wires.xlsx", wires_xlsx=book)
    assert told(problems) == [("bad-cell", "wires.xlsx", "C2")]
    assert description is not None
    assert description.wires == ()


def test_a_heading_merged_over_the_row_is_no_wire(tmp_path: Path) -> None:
    book = Workbook()
    for row in (["from", "to", "size"], ["Strip A1"], ["L5.N", "A1.1", "16/0.2"]):
        book.active.append(row)
    book.active.merge_cells("A2:C2")
    into = BytesIO()
    book.save(into)
    assert len(good(tmp_path, "points: {P5: }\nwire_list: wires.xlsx", wires_xlsx=into.getvalue()).wires) == 1


def test_wires_that_are_no_list_are_told_as_ever(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "wires: none\nwire_list: wires.csv", wires_csv=HEADED + "1,A1.1,A1.2,,,,\n")
    assert [problem.code for problem in problems] == ["wrong-type"]


def test_a_cell_of_two_columns_that_is_half_there(tmp_path: Path) -> None:
    rows = [["strip", "way", "to"], [None, None, None, "x"], [None, "A1.1", "P5.N"], ["A1", None, "P5.R"]]
    yaml = "points: {P5: }\nwire_list: {file: wires.xlsx, columns: {from: [strip, way], to: C}}"
    description = good(tmp_path, yaml, wires_xlsx=workbook(Wires=rows))
    assert [wire.start for wire in description.wires] == ["A1.1", "A1"]  # the wiring says that A1 is no end
    assert description.place_of("wires", 0, "from").cell == "B3"


# Devices.

DEVICES = """\
id;name;kind;lever;x;y;supply;strip;ways;shown
P5;harbour siding;;;400;200;PULSE;TB1/A;3, 9, 4;Point 5
P6A;coal road;twin-coil;6;800;250.5;;;;
LAMPS;quay lamps;lamps;;;;Light box;;;
"""


def test_rows_become_points_and_devices(tmp_path: Path) -> None:
    description = good(tmp_path, "points: {P1: {at: [1, 2]}}\ndevice_list: points.csv", points_csv=DEVICES)
    assert [*description.points] == ["P1", "P5", "P6A"]
    assert [*description.devices] == ["LAMPS"]
    five, six, lamps = description.points["P5"], description.points["P6A"], description.devices["LAMPS"]
    assert (five.name, five.at, five.strip, five.ways, five.shown) == (
        "harbour siding", (400, 200), "A1", (3, 9, 4), "Point 5",
    )  # fmt: skip
    assert (six.lever, six.at, six.kind) == ("6", (800, 250.5), "twin-coil")
    assert (lamps.supply, lamps.at) == ("LIGHT", None)
    assert description.papers[0].rows == {2: ("points", "P5"), 3: ("points", "P6A"), 4: ("devices", "LAMPS")}


def test_places_of_devices(tmp_path: Path) -> None:
    description = good(tmp_path, "device_list: points.csv", points_csv=DEVICES)
    assert description.place_of_key("points", "P5").cell == "A2"
    assert description.place_of("points", "P5").cell == "A2"
    assert description.place_of("points", "P5", "at").cell == "E2"
    assert description.place_of("points", "P5", "at", 1).cell == "F2"
    assert description.place_of("points", "P5", "ways", 2).cell == "I2"
    assert description.place_of("devices", "LAMPS", "kind").cell == "C4"
    assert description.place_of("devices", "LAMPS", "lever").cell == "A4"


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("P5;;;;4oo;200;;;;", [("bad-number", "E2")]),
        ("P5;;;;400;;;;;", [("missing-key", "E2")]),
        ("P5;;;;;200;;;;", [("missing-key", "F2")]),
        ("P 5;;;;;;;;;", [("bad-id", "A2")]),
        ("P5;;twin;;;;;;;", [("unknown-name", "C2")]),
        ("P5;;;;;;PULS;A9;;", [("unknown-name", "G2"), ("unknown-name", "H2")]),
        ("P5;;;;;;;;1 x;", [("bad-number", "I2")]),
        ("P5;;;l/5;;;;;;", [("bad-id", "D2")]),
        ("A1;;;;;;;;;", [("repeated-id", "A2")]),
    ],
)
def test_wrong_cells_of_devices(tmp_path: Path, row: str, found: list[tuple[str, str]]) -> None:
    rows = DEVICES.splitlines()[0] + f"\n{row}\n"
    _, problems = read(tmp_path, "device_list: points.csv", points_csv=rows)
    assert told(problems) == [(code, "points.csv", cell) for code, cell in found]


@pytest.mark.parametrize(
    ("id_", "first"),
    [
        ("p5", "the point on line 5 of the description"),
        ("West", "the board on line 2 of the description"),
        ("H1", "the hole on line 6 of the description"),
        ("p7", "the point in row 2 of this list"),
    ],
)
def test_an_id_that_is_taken(tmp_path: Path, id_: str, first: str) -> None:
    yaml = "points: {P5: {at: [1, 2]}}\nboards: {West: {holes: {H1: {at: [1, 2]}}}}\ndevice_list: points.csv"
    (tmp_path / "points.csv").write_text(f"id\nP7\n{id_}\n", encoding="utf-8")
    path = tmp_path / "quay.yaml"
    path.write_text(f"{TOP}{yaml}\n".replace("boards: {West: {size: [1200, 600], shown: Board 1}}", "about: x"))
    if id_ == "West":
        path.write_text(f"{TOP}device_list: points.csv\n")
    _, problems = read_description(path)
    (problem,) = [one for one in problems if one.code == "repeated-id"]
    assert told([problem]) == [("repeated-id", "points.csv", "A3")]
    assert problem.message == f"`{id_}` is taken: it is {first}"


def test_levers_that_differ_in_capitals_alone(tmp_path: Path) -> None:
    rows = "id,lever\nP5,a\nP6,A\n"
    _, (problem,) = read(tmp_path, "device_list: points.csv", points_csv=rows)
    assert told([problem]) == [("repeated-id", "points.csv", "B3")]
    assert "in cell B2" in problem.message


def test_what_makes_a_row_a_point(tmp_path: Path) -> None:
    rows = "id,kind\nX1,\nX2,lamps\nP3,lamps\nX4,twin-coil\nPIER,lamps\nX5,lamps\n"
    yaml = "panels: {QUAY: {points: {X5: [1, 2]}}, B2: }\ndevice_list: points.csv"
    description, _ = read(tmp_path, yaml, points_csv=rows)
    assert description is not None
    assert [*description.points] == ["X1", "P3", "X4", "X5"]
    assert [*description.devices] == ["X2", "PIER"]


def test_one_column_for_both_coordinates(tmp_path: Path) -> None:
    description = good(tmp_path, "device_list: points.csv", points_csv='id,at\nP5,"[400, 200]"\nP6,800 250\n')
    assert [device.at for device in description.points.values()] == [(400, 200), (800, 250)]
    joined = good(
        tmp_path,
        "device_list: {file: points.csv, columns: {id: Point, at: [Across, Along]}}",
        points_csv="Point,Across,Along\nP5,400,200\n",
    )
    assert joined.points["P5"].at == (400, 200)
    assert joined.place_of("points", "P5", "at", 1).cell == "C2"


def test_rows_without_an_id_and_flaws(tmp_path: Path) -> None:
    rows = "id,name\n,nobody\nP5,b\u202ed\nP\u202e6,x\n"
    description, problems = read(tmp_path, "device_list: points.csv", points_csv=rows)
    assert told(problems) == [("odd-character", "points.csv", "B3"), ("odd-character", "points.csv", "A4")]
    assert description is not None
    assert [*description.points] == ["P5"]
    assert description.papers[0].endless == 1


def test_both_lists_in_one_workbook(tmp_path: Path) -> None:
    book = workbook(Points=[["id", "x", "y"], ["P5", 400, 200]], Wires=[["from", "to"], ["A1.1", "P5.N"]])
    yaml = "device_list: {file: all.xlsx, sheet: points}\nwire_list: {file: all.xlsx, sheet: wires}"
    description = good(tmp_path, yaml, all_xlsx=book)
    assert description.points["P5"].at == (400, 200)
    assert description.wires[0].finish == "P5.N"
    assert {paper.sheet for paper in description.papers} == {"Points", "Wires"}


def test_points_that_are_no_table_are_told_as_ever(tmp_path: Path) -> None:
    _, problems = read(tmp_path, "points: none\ndevice_list: points.csv", points_csv="id\nP5\n")
    assert [problem.code for problem in problems] == ["wrong-type"]


# The keys themselves.


def test_the_form_of_the_keys_is_told_at_the_description(tmp_path: Path) -> None:
    yaml = "wire_list: {file: wires.csv, colums: {from: A}}\ndevice_list: {sheet: x}"
    _, problems = read(tmp_path, yaml, wires_csv=HEADED)
    assert told(problems) == [("unknown-key", "quay.yaml", "5"), ("missing-key", "quay.yaml", "6")]
    assert "`columns`" in problems[0].hint
    _, problems = read(tmp_path, "wire_list: {file: wires.csv, columns: {from: [], to: [A, [B]], size: {}}}")
    assert told(problems) == [("wrong-type", "quay.yaml", "5")] * 3


def test_nothing_follows_from_a_device_list_that_is_missing(tmp_path: Path) -> None:
    yaml = "panels: {QUAY: {points: {P5: [1, 2]}, levers: {5: [1, 2]}}}\ndevice_list: pionts.csv"
    description, (problem,) = read(tmp_path, yaml, points_csv="id\nP5\n")
    assert told([problem]) == [("file-missing", "quay.yaml", "6")]
    assert problem.hint == "Did you mean `points.csv`?"
    assert description is None


def test_without_a_wire_list_the_rest_is_still_looked_at(tmp_path: Path) -> None:
    description, (problem,) = read(tmp_path, "wire_list: {file: wires.csv}")
    assert told([problem]) == [("file-missing", "quay.yaml", "5")]
    assert problem.place.column == 19
    assert description is not None


def test_a_text_has_no_folder() -> None:
    description, (problem,) = read_description_text(f"{TOP}wire_list: wires.csv\n")
    assert (problem.code, problem.place.line) == ("bad-spreadsheet", 5)
    assert description is not None


def test_a_key_with_nothing_behind_it_names_no_list(tmp_path: Path) -> None:
    assert good(tmp_path, "wire_list:\ndevice_list:").papers == ()


def test_thousands_of_rows(tmp_path: Path) -> None:
    rows = "id,x,y\n" + "".join(f"D{n},{n},1\n" for n in range(20_001))
    _, (problem,) = read(tmp_path, "device_list: points.csv", points_csv=rows)
    assert problem.code == "bad-spreadsheet"
    rows = "id,x,y\n" + "".join(f"D{n},{n},1\n" for n in range(19_999))
    _, (problem,) = read(tmp_path, "points: {A: , B: }\ndevice_list: points.csv", points_csv=rows)
    assert problem.code == "too-many-devices"


def test_a_decimal_comma_where_semicolons_part_the_cells(tmp_path: Path) -> None:
    """Only in columns of numbers and sizes; and with commas between the cells it stays a mistake."""
    lists = {
        "devices_csv": "id;name;x;y;ohms\nP5;quay 1,5 m;40,5;12;4,25\n",
        "wires_csv": "from;to;size;note\nL5.N;A1.1;0,5 mm2;1,5\n",
    }
    description = good(tmp_path, "device_list: devices.csv\nwire_list: wires.csv", **lists)
    point = description.points["P5"]
    assert (point.at, point.ohms, point.name) == ((40.5, 12), 4.25, "quay 1,5 m")
    assert (description.wires[0].size, description.wires[0].note) == ("0.5 mm2", "1,5")
    _, problems = read(tmp_path, "device_list: devices.csv", devices_csv='id,x,y\nP5,"40,5",12\n')
    assert told(problems) == [("bad-number", "devices.csv", "B2")]


def test_rows_of_two_sheets_are_told_apart(tmp_path: Path) -> None:
    data = workbook(
        devices=[["id", "x", "y"], ["P5", 400, 200], ["P6", 500, 200]],
        wires=[["from", "to"], ["A1.1", "P5.N"], ["A1.2", "P6.N"]],
    )
    yaml = "device_list: {file: l.xlsx, sheet: devices}\nwire_list: {file: l.xlsx, sheet: wires}\n"
    description = good(tmp_path, yaml, l_xlsx=data)
    for path in (("points", "P5"), ("points", "P6"), ("wires", 0), ("wires", 1)):
        assert description.places.path_at(description.place_of(*path)) == path
