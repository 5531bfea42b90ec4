"""The stock files of `layouts/sheets/`: each adds up to its paper, and every label of it lands on its cell."""

import re
from dataclasses import replace
from io import BytesIO

import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.imposition.sheet_filling import fill
from labelgen.imposition.sheet_grid import Unsure, find_stock, stock_problems, stocks_that_hold
from labelgen.lengths import POINTS_PER_MM
from labelgen.model.drawing import Box, Drawing
from labelgen.model.sheet import Document, Stock
from labelgen.places import Place
from labelgen.reading.data_readers import stocks
from labelgen.rendering.pdf import pdf_bytes

STOCKS = stocks()
ALL = list(STOCKS.values())
PLACE = Place(file="stock")
a_stock = pytest.mark.parametrize("stock", ALL, ids=list(STOCKS))


def half_up(length: float) -> int:
    return int(length + 0.5)


@a_stock
def test_a_stock_adds_up_to_its_paper(stock: Stock) -> None:
    """2 × margin + (count - 1) × pitch + size = paper, within 0.15 mm: print facts, section 2."""
    across = 2 * stock.left + (stock.columns - 1) * stock.pitch_x + stock.width
    down = 2 * stock.top + (stock.rows - 1) * stock.pitch_y + stock.height
    assert across == pytest.approx({"a4": 210, "letter": 215.9, "roll": stock.width}[stock.paper], abs=0.15)
    assert down == pytest.approx({"a4": 297, "letter": 279.4, "roll": stock.height}[stock.paper], abs=0.15)
    assert stock_problems(stock, PLACE) == []


@a_stock
def test_a_stock_is_named_by_paper_count_and_size(stock: Stock) -> None:
    paper, count, size = stock.id.removesuffix("-round").split("-")
    assert stock.id.endswith("-round") == (stock.shape == "round")
    assert paper == {"a4": "a4", "letter": "us", "roll": "roll"}[stock.paper]
    assert int(count) == stock.count
    whole = f"{half_up(stock.width)}x{half_up(stock.height)}"
    assert size in (whole, f"{stock.width:g}x{stock.height:g}", "full")
    assert (size == "full") == (stock.is_whole and stock.width == stock.paper_width)


@a_stock
def test_a_stock_says_how_sure_it_is(stock: Stock) -> None:
    assert re.fullmatch(r"[A-Z].*\.", stock.seen)
    assert 0 <= stock.corner <= 3


def test_there_are_enough_for_both_papers() -> None:
    assert sum(stock.paper == "a4" for stock in ALL) >= 12
    assert sum(stock.paper == "letter" for stock in ALL) >= 5
    assert {"a4-1-full", "us-1-full"} <= STOCKS.keys()


@pytest.mark.parametrize(
    ("name", "size", "left_top"),
    [
        ("a4-21-64x38", (63.5, 38.1), (7.25, 15.15)),
        ("us-30-67x25", (66.675, 25.4), (4.7625, 12.7)),
        ("a4-189-25x10", (25.4, 10), (8.6, 13.5)),
    ],
)
def test_stocks_that_were_met_in_public_text(
    name: str, size: tuple[float, float], left_top: tuple[float, float]
) -> None:
    """Margins and sizes from print facts, section 2, the rows marked `full S`."""
    stock = STOCKS[name]
    assert ((stock.width, stock.height), (stock.left, stock.top)) == (size, left_top)


@a_stock
def test_every_label_of_the_pdf_lies_on_its_cell(stock: Stock) -> None:
    """Read back by pdfplumber; a label may be 0.05 mm off."""
    width, height = stock.room
    box = Box(x=0, y=0, width=width, height=height, fill="#000000")
    label = Drawing(width=width, height=height, shapes=(box,), name="label", place=PLACE)
    sheets, _ = fill([label] * stock.count, stock)
    (page,) = pdfplumber.open(BytesIO(pdf_bytes(Document(title="t", pages=sheets)))).pages
    assert float(page.width) == pytest.approx(stock.paper_width * POINTS_PER_MM, abs=0.001)
    assert len(page.rects) == stock.count
    for index, rect in enumerate(page.rects):
        row, column = divmod(index, stock.columns)
        x = stock.left + column * stock.pitch_x + (stock.width - width) / 2
        y = stock.top + row * stock.pitch_y + (stock.height - height) / 2
        found = [rect[key] / POINTS_PER_MM for key in ("x0", "top", "x1", "bottom")]
        assert found == pytest.approx([x, y, x + width, y + height], abs=0.05)
    last = page.rects[-1]
    assert float(page.width) - last["x1"] == pytest.approx(page.rects[0]["x0"], abs=0.15 * POINTS_PER_MM)
    assert float(page.height) - last["bottom"] == pytest.approx(page.rects[0]["top"], abs=0.15 * POINTS_PER_MM)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"left": 5.0}, "across, .* = 210.5 mm, but the paper has 210 mm"),
        ({"top": 9.0}, "down, .* = 293.6 mm, but the paper has 297 mm"),
        ({"pitch_x": 38.0, "left": 9.95}, "would overlap"),
        ({"id": "a4-60-38x21"}, "says 60 labels, but 5 columns of 13 are 65"),
        ({"id": "mine", "print_zone": 22.0}, "no clear tail is left"),
        ({"id": "mine", "paper": "roll"}, "a roll has one label after the other"),
    ],
)
def test_what_does_not_add_up_is_said(change: dict[str, object], words: str) -> None:
    stock = replace(STOCKS["a4-65-38x21"], **change)  # type: ignore[arg-type]
    (problem,) = stock_problems(stock, PLACE)
    assert problem.code == "sheet-does-not-add-up"
    assert re.search(words, problem.message)
    assert problem.place == PLACE


def test_rounding_of_published_figures_is_no_fault() -> None:
    assert stock_problems(replace(STOCKS["a4-21-64x38"], left=7.2), PLACE) == []


def test_a_stock_of_the_builder_may_have_any_name() -> None:
    assert stock_problems(replace(STOCKS["a4-65-38x21"], id="mine"), PLACE) == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a4-65", "a4-65-38x21"),
        ("a4-65-38x21", "a4-65-38x21"),
        ("A4-65-38.1×21.2 ", "a4-65-38x21"),
        ("a4-24-63.5x33.9", "a4-24-63.5x33.9"),
        ("a4-24-64x34", "a4-24-64x34"),
        ("a4-24-64.6x33.8", "a4-24-65x34"),
        ("us-30-66.7x25.4", "us-30-67x25"),
        ("us-30-66.675x25.4", "us-30-67x25"),
        ("a4-1-f", "a4-1-full"),
        ("us-1", "us-1-full"),
        ("a4-18", "a4-189-25x10"),
        ("a4-40-48", "a4-40-49x25"),
    ],
)
def test_a_stock_is_found_by_what_names_only_it(text: str, found: str) -> None:
    stock = find_stock(text, ALL)
    assert isinstance(stock, Stock)
    assert stock.id == found


def test_what_may_be_several_names_them() -> None:
    found = find_stock("a4-24", ALL)
    several = ("a4-24-40x40-round", "a4-24-63.5x33.9", "a4-24-64x34", "a4-24-65x34", "a4-24-70x36")
    assert found == Unsure(candidates=several, several=True)
    assert find_stock("a4-1", ALL) == Unsure(candidates=("a4-1-200x289", "a4-1-full"), several=True)


def test_what_is_unknown_names_what_looks_like_it() -> None:
    found = find_stock("a4-56-38x21", ALL)
    assert isinstance(found, Unsure)
    assert not found.several
    assert "a4-65-38x21" in found.candidates
    assert find_stock("", ALL) == Unsure(candidates=(), several=False)
    wrong_size = find_stock("a4-65-40x21", ALL)
    assert isinstance(wrong_size, Unsure)
    assert wrong_size.candidates[0] == "a4-65-38x21"


@given(st.sampled_from(ALL), st.integers(1, 20))
def test_a_shortened_name_never_means_a_stock_that_it_does_not_begin(stock: Stock, length: int) -> None:
    found = find_stock(stock.id[:length], ALL)
    if isinstance(found, Stock):
        begun = f"{found.id.rpartition('-')[0]}-{found.width:g}x{found.height:g}"
        assert found.id.startswith(stock.id[:length]) or begun.startswith(stock.id[:length])
    else:
        assert stock.id in found.candidates
    assert find_stock(stock.id, ALL) is stock


def test_stocks_that_would_do_are_of_the_same_paper_first_and_small_first() -> None:
    found = [stock.id for stock in stocks_that_hold(60, 30, ALL, "a4")]
    assert found[:2] == ["a4-24-63.5x33.9", "a4-24-64x34"]
    assert found.index("us-14-102x34") > found.index("a4-1-200x289")
    assert stocks_that_hold(300, 300, ALL, "a4") == []
