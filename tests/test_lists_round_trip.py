"""What labelgen writes for a spreadsheet it reads back to the same wiring; and what it asks for in place it fills."""

import csv
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from labelgen.data_files import layouts
from labelgen.making import Request
from labelgen.model.netlist import Netlist, Wire
from labelgen.pipeline import check_file, make
from labelgen.problems import has_errors

RAILWAY = """\
railway: Marram Quay
boards: {West: {size: [1200, 600]}, East: {size: [1200, 600], right_of: West}}
supplies:
  PULSE: {kind: pulse, board: West, shown: Bank 1, terminals: {feed: "+"}}
  LIGHT: {kind: dc, board: East}
strips:
  A1: {board: West, measured: 110, shown: "TB1/A"}
  B1: {board: East, measured: 110}
levers: {08: {shown: "8*"}}
points:
  P5: {board: West, at: [400, 200], shown: "=5", terminals: {N: red, R: "1"}}
  P08: {board: West}
  P9A: {board: East}
  P9B: {board: East}
devices: {LAMPS: {kind: lamps, board: East}}
functions: {bell: {code: E, colour: pink, size: 20 AWG}}
"""
EXTRA = """\
wires:
  - {from: A1.11, to: A1.12/panel, function: bell, number: 37N bis, colour: red/blue, size: 0.5 mm2, note: "'=1+1"}
  - {from: L5.N, to: A1.1, number: "08", colour: GN}
  - {from: PULSE.return, to: B1.12, number: 1e3, note: "two, parts; here"}
"""


def wired(path: Path) -> Netlist:
    checked, problems = check_file(path)
    assert not has_errors(problems), problems
    assert checked is not None
    return checked.netlist


def made(path: Path) -> dict[str, bytes]:
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems), problems
    return make(checked, Request(only=frozenset({"lists"}))).files


def essence(wire: Wire) -> tuple[object, ...]:
    """All that a reader of the list can tell. A number that came back is the text that it was."""
    ends = frozenset((end.name, end.side) for end in wire.ends)
    return (str(wire.number), ends, wire.head, wire.function, wire.colour, wire.size, wire.length, wire.link, wire.note)


def lived_through(folder: Path, written: str, ending: str) -> tuple[Netlist, Netlist]:
    """The wiring of a description, and that of the same one with its wires from the list that was made of it."""
    first, again = folder / "first.yaml", folder / "again.yaml"
    first.write_text(f"{RAILWAY}printing: {{wires: xlsx}}\n{written}", encoding="utf-8")
    (folder / f"list.{ending}").write_bytes(made(first)[f"wires.{ending}"])
    again.write_text(f"{RAILWAY}wire_list: list.{ending}\n", encoding="utf-8")
    return wired(first), wired(again)


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_what_is_written_reads_back_to_the_same_wiring(tmp_path: Path, ending: str) -> None:
    before, after = lived_through(tmp_path, EXTRA, ending)
    assert [essence(wire) for wire in after.wires] == [essence(wire) for wire in before.wires]
    assert [wire.number for wire in before.wires if isinstance(wire.number, str)] == ["08", "37N bis", "1e3"]
    assert [[way.head for way in strip.ways] for strip in after.strips] == [
        [way.head for way in strip.ways] for strip in before.strips
    ]


TEXTS = st.text(
    st.characters(exclude_categories=["Cs", "Cc", "Cf", "Zl", "Zp", "Zs", "Co", "Cn"]), min_size=1, max_size=9
)


@st.composite
def listed_wires(draw: st.DrawFn) -> str:
    """A wire of the builder's own, as a description says it."""
    quoted = ["'" + draw(TEXTS).replace("'", "''") + "'" for _ in range(2)]
    start = draw(st.sampled_from(["A1.10", "TB1/A.9/layout", "P5.red", "=5.1", "Bank 1.+", "L8*.F", "LAMPS.C"]))
    finish = draw(st.sampled_from(["A1.11", "TB1/A.12/panel", "B1.11/layout", "B1.12"]))
    colour = draw(st.sampled_from(["RD", "red/blue", "turquoise"]))
    size = draw(st.sampled_from(["16/0.2", "0.5 mm2", "24 AWG"]))
    wire = f"from: {start}, to: {finish}, number: {quoted[0]}, note: {quoted[1]}, colour: {colour}, size: {size}"
    return f"wires: [{{{wire}}}]\n"


@settings(max_examples=40)  # each makes and reads two railways
@given(wire=listed_wires(), ending=st.sampled_from(["csv", "xlsx"]))
def test_whatever_it_is_called(tmp_path_factory: pytest.TempPathFactory, wire: str, ending: str) -> None:
    before, after = lived_through(tmp_path_factory.mktemp("round"), wire, ending)
    assert [essence(one) for one in after.wires] == [essence(one) for one in before.wires]


def test_the_builders_own_list_comes_back_filled(tmp_path: Path) -> None:
    text = "Nr;von;Weg;nach;Kontakt;Farbe;Länge\n;L5.N;;TB1/A;1;;\nW2;TB1/A;2;L5;F;rot;\n;TB1/A;9;;;;\n"
    (tmp_path / "alt.csv").write_text(text, encoding="utf-8")
    path = tmp_path / "quay.yaml"
    columns = "{number: Nr, from: [von, Weg], to: [nach, Kontakt], colour: Farbe, length: Länge}"
    wire_list = f"{{file: alt.csv, in_place: yes, names: {{rot: red}}, columns: {columns}}}"
    path.write_text(f"{RAILWAY}wire_list: {wire_list}\n", encoding="utf-8")
    files = made(path)
    rows = list(csv.reader(StringIO(files["alt-filled.csv"].decode(), newline=""), delimiter=";"))
    numbers = {wire.listed: wire.number for wire in wired(path).wires}
    assert rows == [
        ["Nr", "von", "Weg", "nach", "Kontakt", "Farbe", "Länge"],
        [str(numbers[0]), "L5.N", "", "TB1/A", "1", "YE", ""],
        ["W2", "TB1/A", "2", "L5", "F", "rot", ""],
        ["", "TB1/A", "9", "", "", "", ""],
    ]


def test_a_list_that_came_back_filled_changes_nothing(tmp_path: Path) -> None:
    (tmp_path / "points.csv").write_text(
        "id,board,kind,strip,ways,lever\nP1,West,,,,\nX,East,lamps,,,\n", encoding="utf-8"
    )
    path = tmp_path / "quay.yaml"
    path.write_text(f"{RAILWAY}device_list: {{file: points.csv, in_place: yes}}\n", encoding="utf-8")
    before, files = wired(path), made(path)
    rows = list(csv.reader(StringIO(files["points-filled.csv"].decode(), newline="")))
    assert rows[1] == ["P1", "West", "twin-coil", "A1", "'1, 2, 3", "1"]
    (tmp_path / "points.csv").write_bytes(files["points-filled.csv"])
    assert [essence(wire) for wire in wired(path).wires] == [essence(wire) for wire in before.wires]
    assert made(path)["points-filled.csv"] == files["points-filled.csv"]


def test_a_workbook_is_made_when_it_is_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    path.write_text(RAILWAY, encoding="utf-8")
    assert "wires.xlsx" not in made(path)
    path.write_text(f"{RAILWAY}printing: {{wires: xlsx}}\n", encoding="utf-8")
    assert {"wires.csv", "wires.xlsx"} <= set(made(path))


def test_the_example_as_it_was_really_wired_comes_in_by_its_list(tmp_path: Path) -> None:
    """Its whole list, with the return and the feed of the motors threaded backwards from their ends to the supply."""
    example = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
    (tmp_path / "first.yaml").write_text(example, encoding="utf-8")
    text = made(tmp_path / "first.yaml")["wires.csv"].decode("utf-8-sig")
    rows = list(csv.DictReader(StringIO(text, newline="")))
    for head, last in (("PULSEC", "P7.C"), ("PULSEF", "S3.10")):
        chain = [row for row in rows if row["head"] == head and "ROUTE" not in row["to"]]
        stops = [row["to"] for row in chain]
        assert stops[-1] == last
        for row, start, finish in zip(chain, [chain[0]["from"], *stops[:0:-1]], stops[::-1], strict=True):
            row |= {"from": start, "to": finish, "from side": "", "to side": ""}
    listed = [{**row, "number": f"W{row['number']}"} for row in rows]
    with (tmp_path / "list.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, listed[0].keys())
        writer.writeheader()
        writer.writerows(listed)
    (tmp_path / "again.yaml").write_text(f"{example}\nwire_list: list.csv\n", encoding="utf-8")
    wires = {str(wire.number): {end.name for end in wire.ends} for wire in wired(tmp_path / "again.yaml").wires}
    painted = {"PULSE.+": "PULSE.feed", "PULSE.-": "PULSE.return"}
    expected = {row["number"]: {painted.get(row[end], row[end]) for end in ("from", "to")} for row in listed}
    assert wires == expected
