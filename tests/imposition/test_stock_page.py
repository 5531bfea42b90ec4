"""The page to hold against a label sheet: read back from the PDF, every outline lies on its cell."""

import io

import pdfplumber
import pytest

from labelgen.imposition.stock_page import stock_page
from labelgen.model.sheet import Document
from labelgen.reading.data_readers import stocks
from labelgen.rendering.pdf import pdf_bytes

MM = 72 / 25.4


@pytest.mark.parametrize("id_", ["a4-65-38x21", "us-30-67x25", "a4-1-full"])
def test_every_cell_is_outlined_and_numbered(id_: str) -> None:
    stock = stocks()[id_]
    with pdfplumber.open(io.BytesIO(pdf_bytes(Document(title=id_, pages=(stock_page(stock),))))) as document:
        page = document.pages[0]
        words = page.extract_text()
        outlines = [*page.curves, *page.rects]
    assert (float(page.width), float(page.height)) == pytest.approx(
        (stock.paper_width * MM, stock.paper_height * MM), abs=0.01
    )
    for index in range(stock.count):
        cell = stock.cell(index)
        assert any(
            abs(shape["x0"] / MM - cell.x) < 0.05
            and abs(shape["top"] / MM - cell.y) < 0.05
            and abs(shape["x1"] / MM - cell.right) < 0.05
            and abs(shape["bottom"] / MM - cell.bottom) < 0.05
            for shape in outlines
        ), index
    assert str(stock.count) in words
    assert "100 mm" in words
