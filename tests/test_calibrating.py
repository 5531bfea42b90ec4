"""The whole way: a test page through a bad printer, measured, typed in, and a sheet of labels through the same one."""

from dataclasses import replace

import cv2
import numpy as np
import pypdfium2
import pytest

from labelgen.calibrating import calibrated, proof_page
from labelgen.imposition.sheet_filling import fill
from labelgen.imposition.stock_page import stock_page
from labelgen.model.correction import Correction
from labelgen.model.drawing import Box, Drawing
from labelgen.model.sheet import Document, Stock
from labelgen.places import Place
from labelgen.reading.data_readers import stocks
from labelgen.rendering.pdf import pdf_bytes

DOTS = (2481 / 210, 3508 / 297)
"""A mm, across and down: A4 at 300 dots an inch, in whole dots."""
SCALE, SHIFT = (0.9962, 0.9951), (0.83, -0.42)
"""What the printer of this test does: smaller across and still smaller down, to the right and up."""


def printed(document: bytes) -> np.ndarray:
    """Ink from 0 to 1, at 300 dots an inch, as the bad printer puts it on paper."""
    (page,) = list(pypdfium2.PdfDocument(document))
    ink = 1 - np.asarray(page.render(scale=300 / 72).to_pil().convert("L"), dtype=np.float32) / 255
    # Dots are counted from the middle of the first one.
    shift = [DOTS[n] * SHIFT[n] + (SCALE[n] - 1) / 2 for n in (0, 1)]
    assert ink.shape == (3508, 2481)
    matrix = np.array([[SCALE[0], 0, shift[0]], [0, SCALE[1], shift[1]]], dtype=np.float64)
    return cv2.warpAffine(ink, matrix, ink.shape[::-1], flags=cv2.INTER_LINEAR)


def line_at(ink: np.ndarray, near: float, band: tuple[float, float], axis: int, reach: float = 2.5) -> float:
    """Where a line lies that crosses a band, in mm along an axis (0 across, 1 down): the middle of its ink."""
    low, high = (round((near + way * reach) * DOTS[axis]) for way in (-1, 1))
    start, end = (round(edge * DOTS[1 - axis]) for edge in band)
    window = ink[start:end, low:high] if axis == 0 else ink[low:high, start:end]
    profile = window.mean(axis=axis)
    profile = np.where(profile > 0.5 * profile.max(), profile, 0)
    return float((low + (np.arange(high - low) + 0.5) @ profile / profile.sum()) / DOTS[axis])


STOCK = stocks()["a4-65-38x21"]


def measured_page(stock: Stock) -> tuple[str, str]:
    """What somebody with a good loupe reads off the printed test page, to a hundredth of a mm."""
    page = stock_page(stock)
    ink = printed(proof_page(stock))
    wide = next(m for m in page.sheet.marks if getattr(m, "x2", 0) - getattr(m, "x1", 0) == page.rules[0])
    high = next(m for m in page.sheet.marks if getattr(m, "y2", 0) - getattr(m, "y1", 0) == page.rules[1])
    across = [line_at(ink, x, (wide.y1 - 3.2, wide.y1 - 1.8), 0) for x in (wide.x1, wide.x2)]  # type: ignore[union-attr]
    down = [line_at(ink, y, (high.x1 - 2.4, high.x1 - 1.8), 1) for y in (high.y1, high.y2)]  # type: ignore[union-attr]
    x, y = page.cross
    cross = _cross(ink, x, y)
    return f"{across[1] - across[0]:.2f}x{down[1] - down[0]:.2f}", f"{cross[0] - x:.2f},{cross[1] - y:.2f}"


def _cross(ink: np.ndarray, x: float, y: float) -> tuple[float, float]:
    """By its lower and left arm, where its number does not stand."""
    return line_at(ink, x, (y + 0.3, y + 0.5), 0, 0.95), line_at(ink, y, (x - 0.2, x - 0.1), 1, 0.95)


def farthest(stock: Stock, correction: Correction) -> float:
    """How far from its cell the edge of a label comes out at most, in mm: of the labels at the sheet's corners."""
    box = Box(x=0, y=0, width=stock.width, height=stock.height, stroke="#000000", stroke_width=0.2)
    label = Drawing(width=stock.width, height=stock.height, shapes=(box,), name="label", place=Place(file=""))
    sheets, _ = fill([label] * stock.count, stock)
    ink = printed(pdf_bytes(Document(title="t", pages=(replace(sheets[0], correction=correction),))))
    off = []
    for index in (0, 4, 60, 64):
        cell = stock.cell(index)
        level, plumb = (cell.y + 8, cell.y + 12), (cell.x + 15, cell.x + 25)
        off += [line_at(ink, x, level, 0, 1.15) - x for x in (cell.x, cell.right)]
        off += [line_at(ink, y, plumb, 1) - y for y in (cell.y, cell.bottom)]
    return max(map(abs, off))


def test_a_bad_printer_puts_every_label_where_it_belongs_once_it_is_measured() -> None:
    rules, off = measured_page(STOCK)
    assert [float(one) for one in rules.split("x")] == pytest.approx([200 * SCALE[0], 280 * SCALE[1]], abs=0.03)
    found = calibrated(STOCK, rules, off)
    assert isinstance(found, Correction)
    assert farthest(STOCK, Correction()) > 0.7
    assert farthest(STOCK, found) < 0.05


def test_the_page_for_a_kept_printer_shows_that_it_is_right() -> None:
    found = calibrated(STOCK, "199.24x278.63", "0.74,-0.52")
    assert isinstance(found, Correction)
    ink = printed(proof_page(STOCK, found))
    x, y = stock_page(STOCK).cross
    assert _cross(ink, x, y) == pytest.approx((x, y), abs=0.05)


def test_what_is_not_said_is_right() -> None:
    only_off = calibrated(STOCK, None, "1,-2")
    assert isinstance(only_off, Correction)
    assert (only_off.scale, only_off.shift) == ((1, 1), (-1, 2))
    only_rules = calibrated(STOCK, " 199 × 280 ", None)
    assert isinstance(only_rules, Correction)
    assert only_rules.scale == pytest.approx((200 / 199, 1))
    assert only_rules.at(*stock_page(STOCK).cross) == pytest.approx(stock_page(STOCK).cross), "it was where it belongs"


@pytest.mark.parametrize(
    ("rules", "off", "words"),
    [
        ("100x100", None, "the rules of this page are 200 and 280 mm long"),
        ("199.2", None, "--measured"),
        ("199,2x280", None, "--measured"),
        ("x", None, "--measured"),
        (None, "0.8", "--off"),
        (None, "30,0", "--off"),
        (None, "a,b", "--off"),
    ],
)
def test_what_cannot_have_been_measured_is_said(rules: str | None, off: str | None, words: str) -> None:
    said = calibrated(STOCK, rules, off)
    assert isinstance(said, str)
    assert words in said


def test_a_roll_has_a_correction_of_its_own() -> None:
    found = calibrated(stocks()["roll-1-57x32"], "50x20.1", None)
    assert isinstance(found, Correction)
    assert found.papers == ((57, 32),)
