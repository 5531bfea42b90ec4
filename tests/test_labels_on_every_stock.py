"""All kinds of labels on all label sheets that we know: where they come to lie, and whether they can be read.

Pages are rendered by pdfium and measured; how far letters reach is read from the faces by fontTools. The limit of what
can be read: NUREG-0700 rev. 3, 15 minutes of arc, at 300 mm (`standards/legibility`, tested on its own).
"""

from collections.abc import Iterator
from ctypes import byref, c_double
from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import patch

import numpy as np
import pypdfium2
import pytest
from drawings.drawn_extents import Extent, advance, cap_height, extent
from pypdfium2 import raw

from labelgen.making import LABELS_INSET, LEAST_INSET, Checked, Request
from labelgen.model.drawing import Text
from labelgen.model.sheet import Document, Placed, Sheet, Stock
from labelgen.pipeline import check_file, make
from labelgen.problems import has_errors
from labelgen.reading.data_readers import stocks
from labelgen.rendering import pdf
from labelgen.standards.legibility import SMALLEST_CAP_MM

RAILWAY = """railway: Marram Quay
boards: {West: {size: [1200, 600], holes: {H1: {at: [300, 500], diameter: 12}}}, East: {at: [1200, 0]}}
plugs: {J1: {boards: [West, East], pins: 5, at: {West: [1190, 300], East: [10, 300]}}}
supplies: {PULSE: {kind: pulse, board: West, at: [50, 550], volts: 22}, CAB: {kind: track, board: West, at: [90, 550]}}
strips: {A1: {board: West, at: [300, 400], measured: 110}, B1: {board: East, at: [300, 400], measured: 110}}
points: {P5: {board: West, at: [500, 300], name: Wharf (sea)}, P16: {board: East, at: [500, 300]}}
devices: {YARD: {kind: section, lever: 11, board: West, at: [200, 200], supply: CAB}}
panels: {QUAY: {board: West, at: [600, 600]}}
"""
USES = ("markers", "flags", "tags", "plates", "places")
WRAPS_INSET = 0.6
"""mm of white at the edges of a wrap's printed zone; its tail is clear, and nothing is printed on it."""
NEAR = 0.05
"""mm that a label may lie beside its cell."""
DOTS = 10
"""To a mm of the rendered pages."""
STOCKS = stocks()
THICK = ("normal", "reverse", "feed", "return", "track", "track-return")
SIZES = ", ".join(f"{name}: {{size: 2.5 mm²}}" for name in THICK)
PRINTED_SO = {
    "fold": "printing: {flags: fold}\n",
    "wrap": "printing: {flags: wrap}\n",
    "thick wrap": f"printing: {{flags: wrap}}\nfunctions: {{{SIZES}}}\n",
}
LEAST = {
    "a4-1-full": {*USES},
    "a4-8-99x68": {*USES} - {"markers"},
    "a4-65-38x21": {"flags", "plates"},
    "a4-24-40x40-round": {"plates"},
    "roll-1-57x32": {"flags", "plates", "places"},
}
"""What can be printed on some of them, so that there is something to look at."""
Made = tuple[bytes, Document]


@pytest.fixture(scope="module")
def railways(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Checked]:
    """By the form of their flags."""
    return {form: _checked(tmp_path_factory.mktemp("quay"), more) for form, more in PRINTED_SO.items()}


def _checked(folder: Path, more: str) -> Checked:
    path = folder / "quay.yaml"
    path.write_text(RAILWAY + more, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems), problems
    return checked


def made(railways: dict[str, Checked], stock: Stock) -> dict[str, Made]:
    """By use: the PDF, and the pages of which it was made; of what can be printed on that stock."""
    form = "fold" if stock.print_zone is None else "wrap" if stock.print_zone < 10 else "thick wrap"
    found = {}
    # Markers are cut from whole sheets, for they are as long as their strips.
    for use in ("flags",) if form != "fold" else USES if stock.is_whole else USES[1:]:
        seen: list[Document] = []

        def spied(document: Document, seen: list[Document] = seen, write: Any = pdf.pdf_bytes) -> bytes:
            seen.append(document)
            return write(document)  # type: ignore[no-any-return]

        with patch.object(pdf, "pdf_bytes", spied):
            result = make(railways[form], Request(only=frozenset({use}), sheets={use: stock.id}))
        if not has_errors(result.problems):
            found[use] = (result.files[f"{use}.pdf"], seen[0])
    return found


@pytest.mark.parametrize("stock", STOCKS.values(), ids=STOCKS)
def test_labels_lie_in_their_cells_and_can_be_read(railways: dict[str, Checked], stock: Stock) -> None:
    on_it = made(railways, stock)
    assert on_it
    assert on_it.keys() >= LEAST.get(stock.id, set())
    for use, (content, document) in on_it.items():
        rendered = pypdfium2.PdfDocument(content)
        assert len(rendered) == len(document.pages)
        for page, sheet in zip(rendered, document.pages, strict=True):
            _lie_in_cells(sheet, stock, WRAPS_INSET if stock.print_zone else LABELS_INSET.get(use, LEAST_INSET))
            _nothing_beside_cells(page, stock)
            _letters_are_where_they_were_placed(page, sheet)


def _lie_in_cells(sheet: Sheet, stock: Stock, inset: float) -> None:
    """Every label in one cell, its texts as far from the cell's edge as a sheet's drift asks, and no letter too low."""
    assert sheet.placed
    for placed in sheet.placed:
        outline = placed.outline
        corners = (outline.x, outline.y, outline.right, outline.bottom)
        cell = stock.cell(stock.cell_at(outline.x + outline.width / 2, outline.y + outline.height / 2))
        safe = replace(cell, height=stock.print_zone) if stock.print_zone is not None else cell
        assert _reach(corners, cell_of(cell), stock) <= NEAR, placed.drawing.name
        for text, box in _texts(placed):
            assert cap_height(text) >= SMALLEST_CAP_MM - 1e-6, text
            assert _reach(box, cell_of(safe, 0.0 if stock.is_whole else inset), stock) <= NEAR, (
                placed.drawing.name,
                text,
            )


def cell_of(cell: Any, inset: float = 0.0) -> Extent:
    return cell.x + inset, cell.y + inset, cell.right - inset, cell.bottom - inset


def _reach(box: Extent, room: Extent, stock: Stock) -> float:
    """How many mm it reaches beyond the room; of a round cell, along its half axes."""
    if stock.shape != "round":
        return max(room[0] - box[0], room[1] - box[1], box[2] - room[2], box[3] - room[3])
    middle = (room[0] + room[2]) / 2, (room[1] + room[3]) / 2
    half = (room[2] - room[0]) / 2, (room[3] - room[1]) / 2
    corners = [((x - middle[0]) / half[0], (y - middle[1]) / half[1]) for x in box[::2] for y in box[1::2]]
    return (max(x * x + y * y for x, y in corners) ** 0.5 - 1) * min(half)


def _texts(placed: Placed) -> Iterator[tuple[Text, Extent]]:
    """Each, and where its ink is on the page."""
    for shape in placed.drawing.shapes:
        if isinstance(shape, Text):
            left, top, right, bottom = extent(shape)
            corners = [_on_page(placed, x, y) for x in (left, right) for y in (top, bottom)]
            xs, ys = zip(*corners, strict=True)
            yield shape, (min(xs), min(ys), max(xs), max(ys))


def _on_page(placed: Placed, x: float, y: float) -> tuple[float, float]:
    """A label that is turned lies with its own left edge on top."""
    return (placed.x + placed.outline.width - y, placed.y + x) if placed.turn == 90 else (placed.x + x, placed.y + y)


def _nothing_beside_cells(page: pypdfium2.PdfPage, stock: Stock) -> None:
    """Among the labels all ink lies in cells; the rule of 100 mm and the sheet's name are in the margins."""
    if stock.count == 1:
        return
    pixels = page.render(scale=25.4 * DOTS / 72, grayscale=True).to_numpy()
    ink = pixels.reshape(pixels.shape[0], pixels.shape[1]) < 128
    for index in range(stock.count):
        cell = stock.cell(index)
        top, bottom, left, right = (round(at * DOTS) for at in (cell.y, cell.bottom, cell.x, cell.right))
        white = stock.print_zone
        ink[top : bottom + 1 if white is None else round((cell.y + white) * DOTS) + 1, left : right + 1] = False
    last = stock.cell(stock.count - 1)
    across = slice(round(stock.left * DOTS), round(last.right * DOTS))
    assert not np.any(ink[round(stock.top * DOTS) : round(last.bottom * DOTS), across])


def _letters_are_where_they_were_placed(page: pypdfium2.PdfPage, sheet: Sheet) -> None:
    """The first letter of each text begins where it was placed, as pdfium reads it."""
    begun = _origins(page)
    for placed in sheet.placed:
        for shape in placed.drawing.shapes:
            if isinstance(shape, Text) and shape.turn == 0 and placed.turn == 0 and shape.text.strip():
                shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor]
                long = advance(shape.text, shape.face) * shape.size * shape.stretch
                x, y = _on_page(placed, shape.x - shift * long, shape.y)
                letter = shape.text[0]
                assert any(abs(x - u) <= NEAR and abs(y - v) <= NEAR for u, v in begun.get(letter, ())), (
                    placed.drawing.name,
                    shape.text,
                )


def _origins(page: pypdfium2.PdfPage) -> dict[str, list[tuple[float, float]]]:
    """Letter: where each of it begins on its baseline, mm from the top left."""
    text, height = page.get_textpage(), page.get_height()
    found: dict[str, list[tuple[float, float]]] = {}
    x, y = c_double(), c_double()
    for index in range(text.count_chars()):
        raw.FPDFText_GetCharOrigin(text.raw, index, byref(x), byref(y))
        letter = chr(raw.FPDFText_GetUnicode(text.raw, index))
        found.setdefault(letter, []).append((x.value * 25.4 / 72, (height - y.value) * 25.4 / 72))
    return found
