"""The page to hold against a label sheet: read back from the PDF, every outline lies on its cell."""

import io
from dataclasses import replace
from itertools import pairwise
from typing import Any

import cv2
import numpy as np
import pdfplumber
import pytest

from labelgen.imposition.stock_page import stock_page
from labelgen.model.drawing import Line, Text
from labelgen.model.sheet import Document, Stock
from labelgen.reading.data_readers import stocks
from labelgen.rendering.pdf import pdf_bytes

MM = 72 / 25.4
ALL = list(stocks().values())


def read_back(stock: Stock) -> tuple[Any, str]:
    document = pdf_bytes(Document(title=stock.id, pages=(stock_page(stock).sheet,)))
    (page,) = pdfplumber.open(io.BytesIO(document)).pages
    return page, page.extract_text()


@pytest.mark.parametrize("stock", ALL, ids=lambda stock: stock.id)
def test_every_cell_is_outlined_and_its_cross_stands_in_its_middle(stock: Stock) -> None:
    page, _ = read_back(stock)
    assert (float(page.width), float(page.height)) == pytest.approx(
        (stock.paper_width * MM, stock.paper_height * MM), abs=0.01
    )
    outlines = [[one[key] / MM for key in ("x0", "top", "x1", "bottom")] for one in [*page.curves, *page.rects]]
    lines = [[one[key] / MM for key in ("x0", "top", "x1", "bottom")] for one in page.lines]
    middles = {(round((x0 + x1) / 2, 1), round((top + bottom) / 2, 1)) for x0, top, x1, bottom in lines}
    for index in range(stock.count):
        cell = stock.cell(index)
        sides = [cell.x, cell.y, cell.right, cell.bottom]
        assert any(max(abs(a - b) for a, b in zip(sides, one, strict=True)) < 0.05 for one in outlines), index
        middle = cell.x + cell.width / 2, cell.y + cell.height / 2
        assert any(abs(x - middle[0]) < 0.11 and abs(y - middle[1]) < 0.11 for x, y in middles), index


@pytest.mark.parametrize("stock", ALL, ids=lambda stock: stock.id)
def test_the_rules_are_as_long_as_they_say_and_hide_neither_each_other_nor_the_first_cross(stock: Stock) -> None:
    page = stock_page(stock)
    lines = [mark for mark in page.sheet.marks if isinstance(mark, Line) and mark.width == 0.2]
    texts = {mark.text for mark in page.sheet.marks if isinstance(mark, Text)}
    across = next(line for line in lines if abs(line.x2 - line.x1 - page.rules[0]) < 1e-9)
    down = next(line for line in lines if abs(line.y2 - line.y1 - page.rules[1]) < 1e-9)
    assert {"0", str(page.rules[0]), str(page.rules[1])} <= texts
    for start, end, paper in ((across.x1, across.x2, stock.paper_width), (down.y1, down.y2, stock.paper_height)):
        assert stock.edge <= start + 1e-9
        assert end <= paper - stock.edge + 1e-9
        assert paper - 2 * stock.edge - (end - start) < 10, "no longer one of whole centimetres would do"
    ends = [(across.x1, across.y1), (across.x2, across.y1)]
    for x, y in ends:
        assert any(line.x1 == line.x2 == pytest.approx(x) and line.y2 == pytest.approx(y) for line in lines)
    for y in (down.y1, down.y2):
        assert any(line.y1 == line.y2 == pytest.approx(y) and line.x2 == pytest.approx(down.x1) for line in lines)
    cell = stock.cell(0)
    assert page.cross == (cell.x + cell.width / 2, cell.y + cell.height / 2)
    assert not page.cross[1] - 2.4 < across.y1 < page.cross[1] + 7.3
    assert not page.cross[0] - 1.5 < down.x1 < page.cross[0] + 12.3


def test_a_millimetre_is_a_tick() -> None:
    page, words = read_back(stocks()["a4-65-38x21"])
    upright = sorted(line["x0"] / MM for line in page.lines if abs(line["x0"] - line["x1"]) < 1e-6)
    steps = [b - a for a, b in pairwise(upright)]
    assert sum(abs(step - 1) < 0.01 for step in steps) > 100
    assert "cross 1 stands 23.8 mm from the left edge of the paper, 21.3 mm from the upper one" in words
    assert "labelgen sheets a4-65-38x21 --measured 200x280" in words


def test_a_circle_and_an_oval_are_outlined_as_they_are() -> None:
    """Every place of the outline at (x/a)² + (y/b)² = 1, read back from the PDF."""
    for width, height in ((40.0, 40.0), (44.0, 20.0)):
        stock = replace(stocks()["a4-24-40x40-round"], width=width, height=height)
        page, _ = read_back(stock)
        (outline,) = [one for one in page.curves if one["x0"] < 60 * MM and one["top"] < 50 * MM]
        cell = stock.cell(0)
        middle = cell.x + width / 2, cell.y + height / 2
        shape = cv2.minEnclosingCircle(np.array(outline["pts"], dtype="float32"))
        assert shape[0] == pytest.approx((middle[0] * MM, middle[1] * MM), abs=0.05)
        ends = [(x / MM - middle[0], y / MM - middle[1]) for x, y in outline["pts"]]
        on_it = [x**2 / (width / 2) ** 2 + y**2 / (height / 2) ** 2 for x, y in ends]
        assert min(on_it) == pytest.approx(1, abs=0.002)
        assert sum(abs(one - 1) < 0.002 for one in on_it) >= 4


def test_a_roll_has_no_room_for_words() -> None:
    _, words = read_back(stocks()["roll-1-57x32"])
    assert "labelgen" not in words
