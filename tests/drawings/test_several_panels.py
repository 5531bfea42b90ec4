"""Several panels on one railway, one of them 1.2 m long with 60 levers. Judges: shapely, pdfplumber, lxml, ezdxf."""

import csv
from collections.abc import Iterator, Mapping
from io import BytesIO, StringIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import pdfplumber
import pytest
from lxml import etree
from overlap_judge import overlapping

from labelgen.drawings.drilling.drilling import drilling_drawings
from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.imposition.tiling import tile
from labelgen.lengths import POINTS_PER_MM
from labelgen.making import Checked, Request
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.pipeline import check_file, make
from labelgen.standards.paper_sizes import PAPERS

CLOSE_MM = 0.02
SVG = {"s": "http://www.w3.org/2000/svg"}
SIZES = {"LONG": (1200, 260), "YARD": (300, 160), "FRAME": (400, 90)}
LEVERS = {"LONG": 60, "YARD": 3, "FRAME": 12}


def railway() -> str:
    """A throat of 60 points on the long panel; a three-way on buttons on another; a frame with spares on a third."""
    points, drawn, tracks = [], [], ["main: [[2, 8], [118, 8]]", "goods: [[2, 18], [118, 18]]"]
    for n in range(1, 61):
        x, y, way = 4 + 3.8 * ((n - 1) % 30), 8 if n <= 30 else 18, -1 if n % 2 else 1
        points.append(f"  P{n}: {{board: B1, strip: S{1 + (n - 1) // 30}}}")
        drawn.append(f"      P{n}: [{x:g}, {y}]")
        tracks.append(f"t{n}: [P{n}, [{x + 2:g}, {y + 2 * way}], [{x + 3:g}, {y + 2 * way}]]")
    frame = [f"  {n}: {{panel: FRAME, spare: yes}}" for n in range(71, 83) if n != 75] + ["  75: {panel: FRAME}"]
    return "\n".join(
        [
            "railway: Marram Quay",
            "boards: {B1: {size: [1200, 600]}}",
            "supplies: {PULSE: {kind: pulse, board: B1}}",
            "strips:",
            *(f"  S{n}: {{board: B1, ways: 120}}" for n in (1, 2, 3)),
            "levers:",
            *frame,
            "points:",
            *points,
            "  P61: {kind: three-way, board: B1, strip: S3, name: Fan}",
            "  P62: {board: B1, strip: S3, name: Coal road}",
            "  P63: {board: B1, strip: S3, name: Slip}",
            "  P75: {board: B1, strip: S3, name: Far away}",
            "panels:",
            "  LONG:",
            "    size: [1200, 260]",
            "    tracks:",
            *(f"      {track}" for track in tracks),
            "    points:",
            *drawn,
            "  YARD:",
            "    size: [300, 160]",
            "    lamps: yes",
            "    tracks: {main: [[2, 8], [28, 8]], l: [P61, [12, 5], [20, 5]], r: [P61, [12, 11], [20, 11]],",
            "             coal: [P62, [24, 11], [28, 11]], slip: [P63, [27, 5], [28, 5]]}",
            "    points: {P61: [9, 8], P62: [21, 8], P63: [24, 8]}",
            "  FRAME: {size: [400, 90], levers: {row: 5}}",
        ]
    ) + "\n"  # fmt: skip


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    path: Path = tmp_path_factory.mktemp("panels") / "quay.yaml"
    path.write_text(railway(), encoding="utf-8")
    found, problems = check_file(path)
    assert found is not None, problems
    return found


@pytest.fixture(scope="module")
def files(checked: Checked) -> Mapping[str, bytes]:
    return make(checked, Request(only=frozenset({"fascia", "drilling"}))).files


@pytest.fixture(scope="module")
def fascias(checked: Checked) -> dict[str, Drawing]:
    drawings, problems = fascia_drawings(checked.description, checked.netlist, Look())
    assert problems == []
    return drawings


def holes_of(checked: Checked, panel: str) -> tuple[PanelHole, ...]:
    return panel_holes(checked.description, checked.netlist, panel)


@pytest.mark.parametrize("panel", SIZES)
def test_each_panel_has_its_own_levers(checked: Checked, panel: str) -> None:
    levers = {hole.thing for hole in holes_of(checked, panel) if hole.use == "lever"}
    assert len(levers) == LEVERS[panel]
    others = {
        hole.thing for other in SIZES if other != panel for hole in holes_of(checked, other) if hole.use == "lever"
    }
    assert not levers & others


def test_a_frame_numbers_its_levers_from_left_to_right_with_the_spares_among_them(checked: Checked) -> None:
    holes = holes_of(checked, "FRAME")
    assert [hole.thing for hole in sorted(holes, key=lambda hole: hole.at.x)] == [str(n) for n in range(71, 83)]
    assert {hole.at.y for hole in holes} == {50}


def test_a_three_way_on_buttons_has_three_in_a_row(checked: Checked) -> None:
    row = [hole for hole in holes_of(checked, "YARD") if hole.thing == "61"]
    assert [hole.contact for hole in row] == ["left", "centre", "right"]
    assert [b.at.x - a.at.x for a, b in pairwise(row)] == [13, 13]
    lamps = {hole.thing for hole in holes_of(checked, "YARD") if hole.use == "lamp"}
    assert {"P61.normal", "P61.reverse", "P61.third"} <= lamps


@pytest.mark.parametrize("panel", SIZES)
def test_nothing_overlaps(checked: Checked, fascias: dict[str, Drawing], panel: str) -> None:
    assert list(overlapping(checked.description, checked.netlist, fascias[panel], panel)) == []


@pytest.mark.parametrize("panel", SIZES)
def test_the_files_agree(checked: Checked, files: Mapping[str, bytes], panel: str) -> None:
    wanted = [pytest.approx((h.at.x, h.at.y, h.diameter), abs=CLOSE_MM) for h in holes_of(checked, panel)]
    root = etree.fromstring(files[f"fascia-{panel}.svg"])
    circles = root.xpath("s:g[@id='drill']/s:circle", namespaces=SVG)
    assert [(float(c.get("cx")), float(c.get("cy")), 2 * float(c.get("r"))) for c in circles] == wanted
    document: Any = ezdxf.read(StringIO(files[f"fascia-{panel}.dxf"].decode()))  # type: ignore[attr-defined]
    auditor, drill = document.audit(), [e for e in document.modelspace() if e.dxf.layer == "drill"]
    assert (auditor.errors, auditor.fixes) == ([], [])
    height = SIZES[panel][1]
    assert [(e.dxf.center.x, height - e.dxf.center.y, 2 * e.dxf.radius) for e in drill] == wanted
    rows = list(csv.DictReader(StringIO(files[f"drilling-{panel}.csv"].decode("ascii"))))
    assert [(float(row["x"]), float(row["y"]), float(row["diameter"])) for row in rows] == wanted
    assert len({row["hole"] for row in rows}) == len(rows)


@pytest.mark.parametrize("panel", SIZES)
def test_every_hole_is_whole_on_one_of_the_tiles(
    checked: Checked, files: Mapping[str, bytes], fascias: dict[str, Drawing], panel: str
) -> None:
    """Read back from each page, from where the panel's corner lies on it."""
    templates = drilling_drawings(checked.description, checked.netlist, Look())
    for kind, drawing in (("fascia", fascias[panel]), ("drilling", templates[panel])):
        found = list(circles_on(files[f"{kind}-{panel}.pdf"], drawing))
        for hole in holes_of(checked, panel):
            wanted = (hole.at.x, hole.at.y, hole.diameter)
            assert min(max(abs(a - b) for a, b in zip(one, wanted, strict=True)) for one in found) <= CLOSE_MM, hole


def circles_on(content: bytes, drawing: Drawing) -> Iterator[tuple[float, float, float]]:
    sheets = tile(drawing, PAPERS["a4"])
    with pdfplumber.open(BytesIO(content)) as pdf:
        for page, sheet in zip(pdf.pages, sheets, strict=False):
            left, top = sheet.placed[0].x, sheet.placed[0].y
            for curve in page.curves:
                xs, ys = ([value / POINTS_PER_MM for value in axis] for axis in zip(*curve["pts"], strict=True))
                x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
                window = sheet.window
                if window is None or (window.x <= min(xs) and max(xs) <= window.right):
                    yield x - left, y - top, max(xs) - min(xs)
