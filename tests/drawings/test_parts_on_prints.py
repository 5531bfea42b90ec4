"""Diodes, resistors and bridges stand on all that is printed: read back from the PDFs by a reader that is not ours."""

import re
from io import BytesIO

import pytest
from pypdfium2 import PdfDocument
from read_pages import Page

from labelgen.drawings.back.list import back_list
from labelgen.drawings.lists.cells import TICK_BOX
from labelgen.drawings.tags.text import schedule_text, split
from labelgen.making import Checked, Request
from labelgen.model.drawing import Box, Drawing, Text
from labelgen.model.lamp_resistors import ohms_in_words
from labelgen.model.look import Look
from labelgen.model.way_diodes import diodes_to_buy, ends_said
from labelgen.pipeline import check_file, make
from labelgen.probing.charts import plan_of_tests
from labelgen.problems import has_errors
from labelgen.standards.paper_sizes import PAPERS

RAILWAY = """
railway: Samphire Flats
boards: {B1: {size: [1200, 600], at: [0, 0]}}
supplies:
  PULSE: {kind: pulse, board: B1, at: [60, 60], volts: 22, microfarads: 10000}
  AC: {kind: ac, board: B1, at: [60, 160], volts: 16, amps: 1, fuse: 1}
  LIGHT: {kind: dc, board: B1, at: [60, 260], volts: 12, amps: 1, fuse: 1}
  CAB: {kind: track, board: B1, at: [60, 360], volts: 12, amps: 1, fuse: 1}
strips:
  S1: {board: B1, at: [300, 300], ways: 12, measured: 110, bridges: [[1, 9]]}
  S2: {board: B1, at: [600, 300], ways: 24, measured: 230}
panels: {BOX: {board: B1, at: [600, 600], size: [300, 100], levers: {row: 3}}}
points:
  P3: {kind: three-way, name: Quay roads, board: B1, at: [300, 100], strip: S1, way: 1, supply: PULSE}
  P4: {kind: stall-motor-one-wire, board: B1, at: [500, 100], strip: S2, supply: AC}
  P5: {kind: stall-motor-lamps, board: B1, at: [600, 100], strip: S2, lamp_volts: 2, lamp_milliamps: 10,
       supplies: {drive: LIGHT, lamps: LIGHT, rails: CAB}}
devices:
  H2: {kind: signal-3-aspect, lever: H2, board: B1, at: [800, 100], strip: S2, lamp_volts: 2, supply: LIGHT}
"""
SIX = [("S1.2", "S1.6"), ("S1.2", "S1.8"), ("S1.3", "S1.6"), ("S1.3", "S1.7"), ("S1.4", "S1.5"), ("S1.4", "S1.7")]
"""Of the three-way: left is B and D, centre B and C, right A and C (its kind's notes); A to D are ways 5 to 8."""


@pytest.fixture(scope="module")
def railway(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    path = tmp_path_factory.mktemp("parts") / "railway.yaml"
    path.write_text(RAILWAY, encoding="utf-8")
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems), problems
    return found


@pytest.fixture(scope="module")
def files(railway: Checked) -> dict[str, bytes]:
    wanted = frozenset({"lists", "tests", "plan", "schedule", "booklet", "places"})
    result = make(railway, Request(only=wanted))
    assert not has_errors(result.problems), result.problems
    return dict(result.files)


def text_of(content: bytes) -> str:
    with PdfDocument(BytesIO(content)) as document:
        return "\n".join(page.get_textpage().get_text_range() for page in document).replace("\r", "")


def words_of(drawings: list[Drawing]) -> list[str]:
    return [shape.text for drawing in drawings for shape in drawing.shapes if isinstance(shape, Text)]


def test_the_cut_list_buys_them_and_says_where_each_goes(railway: Checked, files: dict[str, bytes]) -> None:
    bought = diodes_to_buy(railway.description, railway.netlist)
    assert [(one.count, one.strips, one.rating.surge) for one in bought] == [(2, ("S2",), False), (6, ("S1",), True)]
    said = text_of(files["cut-list.pdf"])
    assert "1 A or more, 30 A for an instant 50 V or more 6 S1" in said
    assert "To fit on the strips: 8 diodes" in said
    rows = re.findall(r"^(S\d\.\d+) \S+ (S\d\.\d+) \S+ P3 Quay roads$", said, re.MULTILINE)
    assert rows == SIX
    assert "if it is the minus, turn every diode round" in said


def test_the_test_sheets_read_each_both_ways(files: dict[str, bytes]) -> None:
    said = text_of(files["tests.pdf"])
    assert "Diodes: 16 readings" in said
    rows = re.findall(r"^(S1\.\d+) (S1\.\d+) 0\.4 to 0\.8 nothing$", said, re.MULTILINE)
    assert rows == SIX


def test_no_lead_of_a_test_is_held_at_a_way_without_a_name(railway: Checked) -> None:
    plan = plan_of_tests(railway.description, railway.netlist)
    near = [reading for reading in plan.apart if "S1.9" in reading.shown]
    assert near, "the bridged way has neighbours"
    assert all(name for reading in plan.apart for name in reading.what.split(" and "))


def test_the_strip_page_has_them_at_both_ways(files: dict[str, bytes]) -> None:
    page = Page(files["schedule/S1/index.html"])
    text = page.words()
    for plain, band in SIX:
        assert f"diode to {band} (band there)" in text
        assert f"diode from {plain} (band here)" in text
    assert page.words("way-9") == "Way 9 F, bridged to 1"
    assert "spare" in text, "ways 10 to 12"


def test_the_pages_of_lever_and_device_name_them(files: dict[str, bytes]) -> None:
    for path in ("schedule/lever/3/index.html", "schedule/board/B1/index.html"):
        text = Page(files[path]).words()
        assert "6 diodes on the strip, band last:" in text, path
        assert all(re.search(rf"{plain} to {band}\b", text) for plain, band in SIX), path


def test_the_pages_say_where_each_resistor_is(files: dict[str, bytes]) -> None:
    """10 V at 10 mA: 1 kilohm of E24."""
    lever = Page(files["schedule/lever/5/index.html"]).words()
    assert re.search(r"L5\.lamp-C 1 kΩ in series here", lever)
    assert "P5.lamp" not in lever
    board = Page(files["schedule/board/B1/index.html"])
    assert all("1 kΩ in series here" in board.words(f"device-H2.{terminal}") for terminal in "RYG")
    assert "series" not in board.words("device-H2.C")


def test_the_booklet_says_all_of_it(files: dict[str, bytes]) -> None:
    said = text_of(files["schedule.pdf"])
    assert "diodes to S1.6, S1.8 (band there)" in said
    assert "diodes from S1.2, S1.3 (band here)" in said
    assert "F, bridged to way 1" in said
    assert "In series with its lamps a resistor of 1 kilohm, at L5.lamp-C." in said
    assert "In series with its lamps a resistor each of 1 kilohm, at H2.R, H2.Y, H2.G." in said


def test_the_plan_and_the_tag(railway: Checked, files: dict[str, bytes]) -> None:
    plan = text_of(files["plan-B1.pdf"])
    assert "S1, bridged: 1+9" in plan.replace("\n", " ")
    assert "2 to 6, 2 to 8, 3 to 6, 3 to 7, 4 to 5, 4 to 7" in plan
    (part,) = split(railway.netlist.strip_by_id["S1"], 1)
    lines = schedule_text(part, "Samphire Flats").splitlines()
    assert "S1.9 bridged to S1.1" in lines
    assert lines[-3:] == ["Bridged: 1+9", "Diodes, band last: 2>6, 2>8, 3>6, 3>7, 4>5, 4>7", "Spare: 10-12"]


def test_the_back_of_the_panel(railway: Checked) -> None:
    drawings, _ = back_list(railway.description, railway.netlist, Look(), PAPERS["a4"], "BOX")
    said = words_of(drawings)
    assert said.count("jumper") == 2, "of the one changeover lever"
    assert "from P, lower left, to the free tab, upper right" in said
    assert "from M, lower right, to the free tab, upper left" in said
    assert "1 kilohm for both, in series" in said
    contacts = [wire for wire in railway.netlist.wires for end in wire.ends if end.kind.value == "lever"]
    boxes = [shape for page in drawings for shape in page.shapes if isinstance(shape, Box) and shape.width == TICK_BOX]
    links = 2  # from button to button of the three-way
    assert len(boxes) == len(contacts) + links + 2 + 1


def test_the_tag_of_a_signal(files: dict[str, bytes]) -> None:
    said = text_of(files["places.pdf"])
    assert "1 kilohm in" in said
    assert "series at R, Y, G" in said


def test_words() -> None:
    assert [ohms_in_words(ohms) for ohms in (1, 510, 1000, 2200)] == [  # type: ignore[arg-type]
        "1 ohm", "510 ohms", "1 kilohm", "2.2 kilohms",
    ]  # fmt: skip


def test_what_a_way_says_of_its_diodes(railway: Checked) -> None:
    ways = railway.netlist.strip_by_id["S1"].ways
    assert ends_said(ways[4]) == ("diode from S1.4 (band here)",)
    assert ends_said(ways[0]) == ()
    # Of the slow motor: from N's way to the motor's, and from there to R's.
    motor = next(way for way in railway.netlist.strip_by_id["S2"].ways if way.function == "drive-a" and way.diodes)
    before, behind = f"S2.{motor.number - 1}", f"S2.{motor.number + 1}"
    assert ends_said(motor) == (f"diode from {before} (band here)", f"diode to {behind} (band there)")
