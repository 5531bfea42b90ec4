"""Whether a phone reads the tags: printed at 300 and 600 dots an inch, and photographed badly.

The photographs are made by OpenCV, the reader is zxing-cpp; neither knows how the symbols are made. What share of the
symbols must be read is stated beside each spoiling, and was found by trying: all of them, but for the two worst blurs
and grains, in which one or two of the three long texts are lost. The three short addresses are always read.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import cv2
import numpy as np
import pypdfium2
import pytest
import zxingcpp

from labelgen.data_files import layouts
from labelgen.drawings.tags.tags import tag_drawings
from labelgen.making import Job, Request
from labelgen.model.drawing import Drawing, Symbol
from labelgen.model.look import CellSize
from labelgen.model.sheet import Document, Placed, Sheet
from labelgen.pipeline import check_file
from labelgen.rendering.pdf import pdf_bytes

Photo = np.ndarray
QUIET = 4
"""Modules of white around a symbol: ISO/IEC 18004, clause 9.1."""
CAMERA_DOTS = 5
"""A module: a phone of 12 megapixels held so that an A4 page fills its picture sees 300 dots an inch at least."""


@cache
def symbols() -> tuple[tuple[Drawing, str], ...]:
    """Each symbol of the example's tags, as addresses and as texts, with its quiet zone; and what it says."""
    checked, _ = check_file(layouts("railways") / "marram-quay.yaml")
    assert checked is not None
    found = []
    for holds in ("address", "text"):
        job = Job(checked, Request())
        printing = job.description.printing.model_copy(update={"tags": holds})
        schedule = "https://example.org/quay" if holds == "address" else ""
        description = job.description.model_copy(update={"printing": printing, "schedule": schedule})
        tags, problems = tag_drawings(description, job.netlist, job.look, CellSize(width=99.1, height=67.7))
        assert tags
        assert not problems
        found += [cut_out(tag, shape) for tag in tags for shape in tag.shapes if isinstance(shape, Symbol)]
    return tuple(found)


def cut_out(tag: Drawing, symbol: Symbol) -> tuple[Drawing, str]:
    edge = QUIET * symbol.module
    side = len(symbol.rows) * symbol.module + 2 * edge
    alone = replace(tag, width=side, height=side, shapes=(replace(symbol, x=edge, y=edge),))
    big = np.where(np.pad(np.array(symbol.rows), QUIET), 0, 255).astype("uint8").repeat(8, 0).repeat(8, 1)
    return alone, read(big) or ""


def read(photo: Photo) -> str | None:
    found = zxingcpp.read_barcodes(np.ascontiguousarray(photo), formats=zxingcpp.BarcodeFormat.QRCode)
    return found[0].text if found else None


@cache
def printed(dots_per_inch: int) -> tuple[tuple[Photo, str, float], ...]:
    """Every symbol as a printer makes it, on a white page with room around; what it says, and dots a module."""
    found = []
    for drawing, text in symbols():
        side = drawing.width + 20
        page = Sheet(width=side, height=side, placed=(Placed(x=10, y=10, drawing=drawing),))
        document = pypdfium2.PdfDocument(pdf_bytes(Document(title="t", pages=(page,))))
        grey = np.asarray(document[0].render(scale=dots_per_inch / 72).to_pil().convert("L"))
        symbol = next(shape for shape in drawing.shapes if isinstance(shape, Symbol))
        found.append((np.where(grey < 128, 0, 255).astype("uint8"), text, symbol.module * dots_per_inch / 25.4))
    return tuple(found)


@pytest.mark.parametrize("dots_per_inch", [300, 600])
def test_every_symbol_is_read_as_it_is_printed(dots_per_inch: int) -> None:
    assert len(printed(dots_per_inch)) >= 6
    assert all(text for _, text, _ in printed(dots_per_inch))
    for photo, text, _ in printed(dots_per_inch):
        assert read(photo) == text


def photographed(photo: Photo, module: float) -> Photo:
    """From so far away that a module takes `CAMERA_DOTS`, in ordinary light: grey ink on paper that is not white."""
    part = CAMERA_DOTS / module
    small = cv2.resize(photo, None, fx=part, fy=part, interpolation=cv2.INTER_AREA)
    return (30 + small * (200 / 255)).astype("uint8")


def noisy(photo: Photo, deviation: float) -> Photo:
    noise = np.random.default_rng(7).normal(0, deviation, photo.shape)
    return np.clip(photo + noise, 0, 255).astype("uint8")


def turned(photo: Photo, degrees: float) -> Photo:
    side = photo.shape[0]
    matrix = cv2.getRotationMatrix2D((side / 2, side / 2), degrees, 1)
    return cv2.warpAffine(photo, matrix, (side, side), borderValue=230)


def slanted(photo: Photo, part: float) -> Photo:
    """Seen from below: its upper edge is shorter by `part` on either side, and nearer."""
    side = photo.shape[0]
    square = np.array([[0, 0], [side, 0], [side, side], [0, side]], dtype="float32")
    seen = square + side * part * np.array([[1, 0.5], [-1, 0.5], [0, 0], [0, 0]], dtype="float32")
    return cv2.warpPerspective(photo, cv2.getPerspectiveTransform(square, seen), (side, side), borderValue=230)


def dim(photo: Photo, light: float) -> Photo:
    """Under a board: little light, less of it to one side, and the grain that a camera then makes."""
    falling = np.linspace(1, 0.4, photo.shape[1])[None, :]
    return noisy(np.asarray(photo * light * falling), 3)


SPOILT: dict[str, tuple[Callable[[Photo], Photo], float]] = {
    "as it is": (lambda photo: photo, 1.0),
    "out of focus by two fifths of a module": (lambda photo: cv2.GaussianBlur(photo, (0, 0), CAMERA_DOTS * 0.4), 1.0),
    "out of focus by half a module": (lambda photo: cv2.GaussianBlur(photo, (0, 0), CAMERA_DOTS / 2), 5 / 6),
    "grainy": (lambda photo: noisy(photo, 25), 1.0),
    "very grainy": (lambda photo: noisy(photo, 45), 4 / 6),
    "turned by 10 degrees": (lambda photo: turned(photo, 10), 1.0),
    "turned by 30 degrees": (lambda photo: turned(photo, -30), 1.0),
    "seen from below": (lambda photo: slanted(photo, 0.12), 1.0),
    "seen from far below": (lambda photo: slanted(photo, 0.2), 1.0),
    "dim": (lambda photo: dim(photo, 0.3), 1.0),
    "nearly dark": (lambda photo: dim(photo, 0.15), 1.0),
    "all at once": (
        lambda photo: dim(cv2.GaussianBlur(slanted(turned(photo, 15), 0.08), (0, 0), CAMERA_DOTS / 4), 0.4),
        1.0,
    ),
}


@pytest.mark.parametrize("name", SPOILT)
def test_a_bad_photograph_is_read(name: str) -> None:
    spoil, least = SPOILT[name]
    photos = [(spoil(photographed(photo, module)), text) for photo, text, module in printed(600)]
    assert all(read(photo) == text for photo, text in photos if text.startswith("https"))
    read_well = sum(read(photo) == text for photo, text in photos)
    assert read_well >= least * len(photos), f"{read_well} of {len(photos)}"


def test_a_photograph_can_be_too_bad() -> None:
    """So that the rates above are of something: out of focus by two modules, nothing is read."""
    photo, _, module = printed(600)[0]
    assert read(cv2.GaussianBlur(photographed(photo, module), (0, 0), 2 * CAMERA_DOTS)) is None
