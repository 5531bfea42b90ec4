"""From a description to the printed page and back: what is read off the PDFs is what the wiring says."""

import json
import re
from collections import Counter
from pathlib import Path

import cv2
import numpy as np
import pdfplumber
import pypdfium2
import pytest
import short_railway
import zxingcpp
from typer.testing import CliRunner

from labelgen.command_line import app
from labelgen.data_files import layouts

MM = 72 / 25.4
DOTS_PER_INCH = 300

Wires = list[dict[str, object]]


class Printed:
    """One railway, made into a folder."""

    def __init__(self, description: Path, folder: Path, painted: dict[str, str]) -> None:
        self.folder = folder
        self.painted = painted
        made = CliRunner().invoke(app, ["make", str(description), "--into", str(folder)])
        assert made.exit_code == 0, made.stderr
        self.wires: Wires = json.loads(CliRunner().invoke(app, ["wires", str(description), "--json"]).stdout)["wires"]

    def pages(self, name: str) -> list[np.ndarray]:
        document = pypdfium2.PdfDocument(self.folder / name)
        rendered = [page.render(scale=DOTS_PER_INCH / 72).to_numpy() for page in document]
        return [np.ascontiguousarray(page[..., :3].mean(axis=2).astype("uint8")) for page in rendered]


@pytest.fixture(scope="module", params=["gull-sands", "marram-quay"])
def printed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Printed:
    folder = tmp_path_factory.mktemp("printed")
    if request.param == "marram-quay":
        painted = {"PULSE.feed": "PULSE.+", "PULSE.return": "PULSE.-"}
        copied = folder / "marram-quay.yaml"  # the as-built record is written beside it
        copied.write_bytes((layouts("railways") / "marram-quay.yaml").read_bytes())
        return Printed(copied, folder / "out", painted)
    description = folder / "gull-sands.yaml"
    description.write_text(short_railway.TEXT, encoding="utf-8")
    return Printed(description, folder / "out", {})


def strips_of(printed: Printed) -> dict[str, set[tuple[str, str]]]:
    """Strip: (way, other end as painted) of every wire that lands on it, straight from the wire list."""
    found: dict[str, set[tuple[str, str]]] = {}
    for wire in printed.wires:
        for end, other in (("from", "to"), ("to", "from")):
            if wire[f"{end}_side"] is not None:
                way = str(wire[end])
                far = printed.painted.get(str(wire[other]), str(wire[other]))
                found.setdefault(way.partition(".")[0], set()).add((way, far))
    return found


def test_every_tag_decodes_to_what_the_wiring_says(printed: Printed) -> None:
    texts = [code.text for page in printed.pages("tags.pdf") for code in zxingcpp.read_barcodes(page, try_invert=False)]
    strips = strips_of(printed)
    assert len(texts) == len(strips)
    for strip, ends in strips.items():
        text = next(text for text in texts if re.search(rf"^{strip}\.1 ", text, re.MULTILINE))
        lines = [line.split() for line in text.splitlines() if line.startswith(f"{strip}.")]
        assert {(way, end) for way, *others in lines for end in others} == ends


def test_opencv_reads_the_tags_too(printed: Printed) -> None:
    read = 0
    for page in printed.pages("tags.pdf"):
        for code in zxingcpp.read_barcodes(page, try_invert=False):
            corners = code.position
            xs = [corner.x for corner in (corners.top_left, corners.top_right, corners.bottom_left)]
            ys = [corner.y for corner in (corners.top_left, corners.top_right, corners.bottom_left)]
            crop = page[max(0, min(ys) - 40) : max(ys) + 40, max(0, min(xs) - 40) : max(xs) + 40]
            assert cv2.QRCodeDetector().detectAndDecode(np.ascontiguousarray(crop))[0] == code.text
            read += 1
    assert read == len(strips_of(printed))


def test_two_flags_for_every_wire_that_is_no_link(printed: Printed) -> None:
    numbers: Counter[str] = Counter()
    with pdfplumber.open(printed.folder / "flags.pdf") as document:
        for page in document.pages:
            numbers.update(re.findall(r"#(\d+)", page.extract_text()))
    assert numbers == {str(wire["number"]): 2 for wire in printed.wires if not wire["link"]}


def test_markers_are_as_long_as_their_strips(printed: Printed) -> None:
    """Each strip twice: a rectangle of ways × pitch, within 0.05 mm (the goal of true print)."""
    pitches = {"T1": 8, "T2": 10, "S1": 110.5 / 11, "S2": 110.5 / 11, "S3": 110.5 / 11}
    strips = sorted(strips_of(printed))
    with pdfplumber.open(printed.folder / "markers.pdf") as document:
        sides = [
            side / MM for page in document.pages for rect in page.rects for side in (rect["width"], rect["height"])
        ]
    for strip in strips:
        assert sum(abs(side - 12 * pitches[strip]) < 0.05 for side in sides) >= 2, strip


def test_pages_ask_for_actual_size(printed: Printed) -> None:
    paths = sorted(printed.folder.glob("*.pdf"))
    assert {"flags.pdf", "markers.pdf", "plates.pdf", "tags.pdf"} <= {path.name for path in paths}
    for path in paths:
        assert b"/PrintScaling /None" in path.read_bytes(), path.name
