"""All files that are made of a panel, read by readers that are not ours: they speak of the same holes.

Truth: the list of holes; pdfplumber reads PDF, lxml SVG, ezdxf DXF, the csv module the table. 0.02 mm apart at most.
"""

import csv
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from io import BytesIO, StringIO
from pathlib import Path
from shutil import which
from typing import Any

import ezdxf
import pdfplumber
import pytest
from lxml import etree

from labelgen.lengths import POINTS_PER_MM
from labelgen.making import Checked, Request
from labelgen.model.panel.holes import panel_holes
from labelgen.pipeline import check_file, make
from labelgen.standards.drills import DRILLS_MM

SVG = {"s": "http://www.w3.org/2000/svg"}
CLOSE_MM = 0.02
KINDS = frozenset({"fascia", "back", "drilling"})
Hole = tuple[float, float, float]
RAILWAY = """
railway: Marram Quay
boards: {B1: {size: [1200, 600]}}
supplies:
  DRIVE: {kind: dc, board: B1, at: [50, 50], volts: 12, amps: 1, feed_at: panel}
  CAB: {kind: track, board: B1, at: [50, 150]}
  CAB2: {kind: track, board: B1, at: [50, 250]}
  PULSE: {kind: pulse, board: B1, at: [50, 350], feed_at: panel}
strips:
  S1: {board: B1, at: [300, 300], ways: 24, measured: 230}
  S2: {board: B1, at: [600, 300], ways: 24, measured: 230}
  S3: {board: B1, at: [900, 300], ways: 24, measured: 230}
levers: {"2": {normal: down}, "3": {normal: left}, "9": {spare: yes}}
points:
  P1: {kind: stall-motor-lamps, board: B1, supplies: {drive: DRIVE, rails: CAB, lamps: DRIVE}, name: Harbour}
  P2: {kind: stall-motor, board: B1, supplies: {drive: DRIVE, rails: CAB}, name: Loop}
  P3: {kind: twin-coil, board: B1, name: Yard}
devices:
  SIG: {kind: signal-3-aspect, board: B1, lever: 6, supply: DRIVE}
  UNC: {kind: uncoupler, board: B1, lever: 7}
  SEC: {kind: cab-selector, board: B1, lever: 8, supplies: {cab1: CAB, cab2: CAB2}}
  DOOR: {kind: uncoupler, board: B1, lever: 10, supply: DRIVE}
panels:
  BOX:
    board: B1
    size: [270, 150]
    screws: yes
    thickness: 6
    style: %s
    tracks: {main: [[1, 4], [26, 4]], loop: [P1, [8, 7], [26, 7]]}
    points: {P1: [5, 4], P2: [14, 7]}
    levers: {"3": [20, 2], "6": [10, 12], "7": [16, 12.5], "8": [21, 12], "9": [25, 13], "10": [4.25, 11.5]}
    lamps: {P1.normal: [8, 4], P1.reverse: [8, 6.5], CAB: [[24, 2], [25, 2]]}
    hardware: {"8": miniature-toggle, "10": passing-lever}
"""


@pytest.fixture(scope="module", params=["light", "dark"])
def checked(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Checked:
    path = tmp_path_factory.mktemp("box") / "box.yaml"
    path.write_text(RAILWAY % request.param, encoding="utf-8")
    found, _ = check_file(path)
    assert found is not None
    return found


@pytest.fixture(scope="module")
def files(checked: Checked) -> Mapping[str, bytes]:
    result = make(checked, Request(only=KINDS))
    assert result.problems == []
    return result.files


@pytest.fixture(scope="module")
def holes(checked: Checked) -> list[Hole]:
    found = panel_holes(checked.description, checked.netlist, "BOX")
    assert len(found) > 15
    return [(hole.at.x, hole.at.y, hole.diameter) for hole in found]


def pdf_circles(content: bytes) -> Iterator[tuple[float, float, float]]:
    """Every circle on the first page, which holds the whole panel, from its middle: (x, y, diameter) in mm.

    The path's own corners, so that line widths do not matter.
    """
    with pdfplumber.open(BytesIO(content)) as pdf:
        page = pdf.pages[0]
        left, top = (float(page.width) / 2, float(page.height) / 2)
        for curve in page.curves:
            xs, ys = [x for x, _ in curve["pts"]], [y for _, y in curve["pts"]]
            width, height = max(xs) - min(xs), max(ys) - min(ys)
            if abs(width - height) < 0.001:
                x, y = (min(xs) + max(xs)) / 2 - left, (min(ys) + max(ys)) / 2 - top
                yield x / POINTS_PER_MM, y / POINTS_PER_MM, width / POINTS_PER_MM


def assert_holds(found: list[Hole], holes: list[Hole], *, mirrored: bool = False) -> None:
    """Each hole is among the circles; from the panel's middle."""
    for x, y, diameter in holes:
        wanted = ((135 - x) if mirrored else (x - 135), y - 75, diameter)
        assert min(max(abs(a - b) for a, b in zip(one, wanted, strict=True)) for one in found) <= CLOSE_MM, wanted


def test_the_fascia_has_them(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    assert_holds(list(pdf_circles(files["fascia-BOX.pdf"])), holes)


def test_the_template_has_them_and_no_other_circle(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    found = list(pdf_circles(files["drilling-BOX.pdf"]))
    assert len(found) == len(holes)
    assert_holds(found, holes)


def test_crosses_lie_on_the_middles(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    with pdfplumber.open(BytesIO(files["drilling-BOX.pdf"])) as pdf:
        page = pdf.pages[0]
        middle = (float(page.width) / 2, float(page.height) / 2)
        thin = [line for line in page.lines if line["stroking_color"] in ((0,), (0, 0, 0), 0)]
        level = {(round(float(line["x0"] + line["x1"]) / 2 - middle[0], 1), round(float(line["top"]) - middle[1], 1))
                 for line in thin if abs(line["top"] - line["bottom"]) < 0.01}  # fmt: skip
    for x, y, _ in holes:
        at = (round((x - 135) * POINTS_PER_MM, 1), round((y - 75) * POINTS_PER_MM, 1))
        assert any(abs(a - at[0]) <= 0.1 and abs(b - at[1]) <= 0.1 for a, b in level), at


def test_the_back_is_its_exact_mirror(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    back = list(pdf_circles(files["back-BOX.pdf"]))
    assert_holds(back, holes, mirrored=True)
    fascia = [hole for hole in pdf_circles(files["fascia-BOX.pdf"]) if any(abs(hole[2] - d) < 0.001 for *_, d in holes)]
    for x, y, diameter in fascia:
        same = [one for one in back if abs(one[2] - diameter) <= CLOSE_MM]
        if any(abs(x + 135 - hx) < CLOSE_MM and abs(y + 75 - hy) < CLOSE_MM for hx, hy, _ in holes):
            assert min(max(abs(-x - a), abs(y - b)) for a, b, _ in same) <= CLOSE_MM


def test_words_on_the_back_are_not_mirrored(files: Mapping[str, bytes]) -> None:
    with pdfplumber.open(BytesIO(files["back-BOX.pdf"])) as pdf:
        matrices = {tuple(round(part, 2) for part in char["matrix"][:4]) for char in pdf.pages[0].chars}
        words = pdf.pages[0].extract_text()
    assert all(a * d - b * c > 0 for a, b, c, d in matrices)
    assert "DRIVE.feed" in words
    assert "P1.normal" in words


def test_the_table_has_them(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    rows = list(csv.DictReader(StringIO(files["drilling-BOX.csv"].decode("ascii"))))
    assert list(rows[0]) == ["hole", "x", "y", "diameter"]
    assert [tuple(float(row[key]) for key in ("x", "y", "diameter")) for row in rows] == [
        pytest.approx(hole, abs=0.0006) for hole in holes
    ]
    marks = [row["hole"] for row in rows]
    assert len(set(marks)) == len(marks)
    assert {"L1", "L10", "LAMP1", "LAMP4", "SCREW4"} <= set(marks)
    assert {float(row["diameter"]) for row in rows} <= set(DRILLS_MM)


def test_the_drill_layer_has_them(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    root = etree.fromstring(files["fascia-BOX.svg"])
    circles = root.xpath("s:g[@id='drill']/s:circle", namespaces=SVG)
    found = [(float(c.get("cx")), float(c.get("cy")), 2 * float(c.get("r"))) for c in circles]
    assert found == [pytest.approx(hole, abs=CLOSE_MM) for hole in holes]
    assert (root.get("width"), root.get("viewBox")) == ("270mm", "0 0 270 150")


def test_the_cut_layer_has_slots_and_the_edge_once(files: Mapping[str, bytes]) -> None:
    root = etree.fromstring(files["fascia-BOX.svg"])
    assert not root.xpath("//s:text", namespaces=SVG)
    boxes = root.xpath("s:g[@id='cut']/*", namespaces=SVG)
    assert {box.tag for box in boxes} == {f"{{{SVG['s']}}}rect"}
    found = [tuple(float(box.get(key)) for key in ("x", "y", "width", "height")) for box in boxes]
    assert found == [(40.5, 102, 4, 26), (0, 0, 270, 150)]
    assert len(set(found)) == len(found)


def test_the_dxf_has_them(files: Mapping[str, bytes], holes: list[Hole]) -> None:
    document: Any = ezdxf.read(StringIO(files["fascia-BOX.dxf"].decode()))  # type: ignore[attr-defined]
    auditor = document.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    drill = [e for e in document.modelspace() if e.dxf.layer == "drill"]
    found = [(e.dxf.center.x, 150 - e.dxf.center.y, 2 * e.dxf.radius) for e in drill]
    assert found == [pytest.approx(hole, abs=CLOSE_MM) for hole in holes]
    cut = [e for e in document.modelspace() if e.dxf.layer == "cut"]
    assert all(e.closed for e in cut)
    assert [sorted(e.get_points("xy")) for e in cut][-1] == [(0, 0), (0, 150), (270, 0), (270, 150)]
    assert all(e.closed for e in document.modelspace() if e.dxf.layer == "engrave")


def test_a_browser_shows_the_layers(files: Mapping[str, bytes], holes: list[Hole], tmp_path: Path) -> None:
    """What the browser lays out is as large and where it should be: 96 pixels to the inch (CSS Values, 5.2)."""
    path = tmp_path / "fascia.svg"
    path.write_bytes(files["fascia-BOX.svg"])
    said: list[str] = []
    with browser() as started:
        page = started.new_page()
        page.on("console", lambda message: said.append(message.text))
        page.on("pageerror", lambda error: said.append(str(error)))
        page.goto(path.as_uri())
        script = """() => [...document.querySelectorAll('#drill circle')].map(c => {
            const b = c.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2]})"""
        middles = page.evaluate(script)
        texts = page.evaluate("document.querySelectorAll('text').length")
        inked = page.evaluate("[...document.querySelectorAll('#engrave path')].every(p => p.getBBox().width > 0)")
    assert (said, texts, inked) == ([], 0, True)
    pixels = 96 / 25.4
    assert middles == [pytest.approx([x * pixels, y * pixels], abs=CLOSE_MM * pixels) for x, y, _ in holes]


def test_the_lists_name_every_hole_and_every_wire(files: Mapping[str, bytes], checked: Checked) -> None:
    with pdfplumber.open(BytesIO(files["drilling-BOX.pdf"])) as pdf:
        said = " ".join(page.extract_text() for page in pdf.pages[1:])
    rows = list(csv.DictReader(StringIO(files["drilling-BOX.csv"].decode())))
    assert all(re.search(rf"\b{row['hole']}\b.* {float(row['x']):.2f} {float(row['y']):.2f} ", said) for row in rows)
    assert "6 mm thick" in said  # and the toggles' bushes hold 5
    with pdfplumber.open(BytesIO(files["back-BOX.pdf"])) as pdf:
        listed = " ".join(page.extract_text() for page in pdf.pages[1:])
    wires = [wire for wire in checked.netlist.wires for end in wire.ends if end.kind == "lever"]
    assert len(wires) > 30
    for wire in wires:
        far = [end.shown for end in wire.ends]
        assert any(f"{wire.head} {wire.number} {end}" in listed for end in far), wire


def test_same_railway_same_bytes(files: Mapping[str, bytes], checked: Checked) -> None:
    assert make(checked, Request(only=KINDS)).files == files


def test_the_grid_is_not_engraved(files: Mapping[str, bytes], checked: Checked) -> None:
    again = make(checked, Request(only=frozenset({"fascia"}), grid=True)).files
    before, after = (etree.fromstring(made["fascia-BOX.svg"]) for made in (files, again))
    same = {
        name: etree.tostring(before.find(f"s:g[@id='{name}']", SVG))
        == etree.tostring(after.find(f"s:g[@id='{name}']", SVG))
        for name in ("engrave", "print", "cut", "drill")
    }
    assert same == {"engrave": True, "print": False, "cut": True, "drill": True}


def test_a_board_without_the_panel_has_none_of_it(checked: Checked) -> None:
    assert make(checked, Request(only=KINDS, board="NONE")).files == {}


@contextmanager
def browser() -> Iterator[Any]:
    from playwright.sync_api import sync_playwright

    path = which("chromium") or which("chromium-browser") or which("google-chrome")
    with sync_playwright() as play:
        started = play.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])
        try:
            yield started
        finally:
            started.close()
