"""The PDF read back by programs that did not write it: pdfplumber, pikepdf, pypdfium2."""

import hashlib
import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
import pikepdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from painted_shapes import CHECKS, EVERYTHING, drawing

from labelgen.lengths import MM_PER_INCH, POINTS_PER_MM, Rectangle
from labelgen.model.correction import Correction
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Symbol, Text
from labelgen.model.sheet import Document, Placed, Sheet, Stop
from labelgen.rendering.pdf import pdf_bytes
from labelgen.typefaces import FACES, REGULAR, text_width


def page_of(placed: Drawing, x: float = 10, y: float = 20, turn: int = 0, **more: Any) -> Sheet:
    return Sheet(width=210, height=297, placed=(Placed(x=x, y=y, drawing=placed, turn=turn),), **more)


def document(*pages: Sheet) -> Document:
    return Document(title="Marram Quay – Ürüf", pages=pages)


def read(content: bytes) -> Any:
    return pdfplumber.open(BytesIO(content)).pages[0]


def rectangle_of(thing: dict[str, Any]) -> Rectangle:
    """What pdfplumber found, in mm from the top left."""
    left, top = thing["x0"] / POINTS_PER_MM, thing["top"] / POINTS_PER_MM
    right, bottom = thing["x1"] / POINTS_PER_MM, thing["bottom"] / POINTS_PER_MM
    return Rectangle(left, top, right - left, bottom - top)


def assert_same(found: Rectangle, wanted: Rectangle, within: float = 0.001) -> None:
    for name in ("x", "y", "width", "height"):
        assert getattr(found, name) == pytest.approx(getattr(wanted, name), abs=within), name


def pixels(content: bytes, dpi: float = 300, page: int = 0) -> np.ndarray:
    return np.asarray(pypdfium2.PdfDocument(content)[page].render(scale=dpi / 72).to_pil().convert("L"))


def test_it_asks_to_be_printed_at_actual_size_on_one_side() -> None:
    """ISO 32000-1, table 150."""
    content = pdf_bytes(document(page_of(EVERYTHING)))
    assert content.startswith(b"%PDF-1.7")
    with pikepdf.open(BytesIO(content)) as pdf:
        preferences = pdf.Root.ViewerPreferences
        assert preferences.PrintScaling == "/None"
        assert preferences.Duplex == "/Simplex"
        assert str(pdf.docinfo["/Title"]) == "Marram Quay – Ürüf"
        assert str(pdf.docinfo["/Creator"]) == "labelgen"
        assert not {"/CreationDate", "/ModDate"} & set(pdf.docinfo.keys())


def test_pages_have_their_own_sizes() -> None:
    """A4 and US Letter in points: 595.2756 × 841.8898 and 612 × 792."""
    content = pdf_bytes(document(Sheet(width=210, height=297), Sheet(width=279.4, height=215.9)))
    with pikepdf.open(BytesIO(content)) as pdf:
        sizes = [[float(number) for number in page.MediaBox] for page in pdf.pages]
    assert sizes[0] == pytest.approx([0, 0, 595.2756, 841.8898], abs=0.001)
    assert sizes[1] == pytest.approx([0, 0, 792, 612], abs=0.001)


def test_only_our_fonts_are_in_it_embedded_and_subset() -> None:
    with pikepdf.open(BytesIO(pdf_bytes(document(page_of(EVERYTHING))))) as pdf:
        fonts = pdf.pages[0].Resources.Font
        names = {str(font.BaseFont) for font in fonts.values()}
        assert names == {"/AAAAAA+B612-Regular", "/AAAAAA+B612-Bold", "/AAAAAA+DejaVuSansCondensed"}
        for font in fonts.values():
            assert len(bytes(font.FontDescriptor.FontFile2.read_bytes())) < 60_000
    with pikepdf.open(BytesIO(pdf_bytes(document(Sheet(width=210, height=297))))) as pdf:
        assert "/Font" not in pdf.pages[0].Resources or not pdf.pages[0].Resources.Font.keys()


@given(
    x=st.floats(0, 150),
    y=st.floats(0, 200),
    width=st.floats(0.5, 40),
    height=st.floats(0.5, 40),
    turn=st.sampled_from([0, 90]),
)
@settings(max_examples=25)
def test_a_box_is_where_it_is_placed(x: float, y: float, width: float, height: float, turn: int) -> None:
    inner = Rectangle(1, 2, width, height)
    placed = drawing(50, 60, Box(x=1, y=2, width=width, height=height, fill="#000000"))
    (rect,) = read(pdf_bytes(document(page_of(placed, x, y, turn)))).rects
    # turned clockwise, the drawing's left lower corner comes to the left upper one
    wanted = (
        Rectangle(x + inner.x, y + inner.y, width, height)
        if not turn
        else Rectangle(x + 60 - inner.bottom, y + inner.x, height, width)
    )
    assert_same(rectangle_of(rect), wanted)


def test_circles_and_lines_are_exact() -> None:
    placed = drawing(50, 50, Circle(x=25, y=25, radius=3.25, stroke="#000000"), Line(x1=5, y1=6, x2=45, y2=6))
    page = read(pdf_bytes(document(page_of(placed, 0, 0))))
    (circle,), (line,) = page.curves, page.lines
    assert_same(rectangle_of(circle), Rectangle(21.75, 21.75, 6.5, 6.5))
    assert_same(rectangle_of(line), Rectangle(5, 6, 40, 0))
    assert line["linewidth"] == pytest.approx(0.2 * POINTS_PER_MM, abs=0.001)


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("stretch", [1.0, 0.8])
@pytest.mark.parametrize("turn", [0, 90])
def test_text_comes_back_at_its_anchor_as_wide_as_it_was_set(anchor: str, stretch: float, turn: int) -> None:
    words, face, size = "A1.3 5N", "B612-Regular", 4.0
    text = Text(x=30, y=20, text=words, face=face, size=size, anchor=anchor, stretch=stretch, turn=turn)  # type: ignore[arg-type]
    chars = read(pdf_bytes(document(page_of(drawing(60, 60, text))))).chars
    assert "".join(c["text"] for c in chars) == words
    width = text_width(words, face, size) * stretch
    begin = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    low, high = ("x0", "x1") if turn == 0 else ("top", "bottom")
    start, end = min(c[low] for c in chars) / POINTS_PER_MM, max(c[high] for c in chars) / POINTS_PER_MM
    assert start == pytest.approx(40 - begin, abs=0.01)
    assert end - start == pytest.approx(width, abs=0.01)


def test_texts_turned_clockwise_read_downwards() -> None:
    """On paper: H stands above I, and their heads point to the right."""
    text = Text(x=30, y=20, text="HI", face="B612-Regular", size=10, turn=90)
    first, second = read(pdf_bytes(document(page_of(drawing(60, 60, text))))).chars
    assert first["top"] < second["top"]
    assert first["matrix"][:4] == pytest.approx((0, -1, 1, 0))
    dark = np.argwhere(pixels(pdf_bytes(document(page_of(drawing(60, 60, text))))) < 128) * MM_PER_INCH / 300
    cap = FACES["B612-Regular"].cap * 10
    assert dark[:, 1].min() == pytest.approx(40, abs=0.15)
    assert dark[:, 1].max() == pytest.approx(40 + cap, abs=0.15)


def test_colours_black_as_grey_alone_and_others_as_they_are() -> None:
    yellow, circle, triangle = read(pdf_bytes(document(page_of(EVERYTHING)))).curves
    assert yellow["non_stroking_color"] == pytest.approx((0xFD / 255, 0xE6 / 255, 0x0E / 255), abs=1e-5)
    assert not yellow["stroke"]
    assert circle["stroking_color"] == 0
    assert (triangle["non_stroking_color"], triangle["stroking_color"]) == (pytest.approx(0.8), 0)


def test_dashes_and_ends_hold_for_their_own_shape_only() -> None:
    plain = {"x1": 0.0, "x2": 10.0}
    placed = drawing(
        20,
        20,
        Line(y1=1, y2=1, dash=(2, 1), **plain),
        Line(y1=2, y2=2, dash=(1, 1), **plain),
        Line(y1=3, y2=3, **plain),
        Outline(runs=(((0, 5), (10, 5)),), stroke="#000000", stroke_width=2, round_ends=True),
        Outline(runs=(((0, 10), (10, 10)),), stroke="#000000", stroke_width=2),
    )
    image = pixels(pdf_bytes(document(page_of(placed))), dpi=MM_PER_INCH * 20)  # twenty pixels a millimetre
    dark = image < 128
    row = {y: dark[int((20 + y) * 20), 200:400] for y in (1, 2, 3)}
    assert int(np.diff(row[1].astype(int)).clip(0).sum()) + 1 == 4
    assert int(np.diff(row[2].astype(int)).clip(0).sum()) + 1 == 5
    assert row[3].all()
    assert dark[500, 190:195].all()  # the round end reaches 1 mm beyond
    assert not dark[600, 180:198].any()


def test_a_symbol_is_one_path_and_crisp() -> None:
    module = 5 * MM_PER_INCH / 300  # five dots of a 300 dpi printer
    placed = drawing(20, 20, Symbol(x=2, y=2, module=module, rows=CHECKS))
    at = 20 * MM_PER_INCH / 300
    content = pdf_bytes(document(page_of(placed, at, at)))
    image = pixels(content)
    start = 20 + 2 / MM_PER_INCH * 300
    middles = [round(start + (i + 0.5) * 5) for i in range(21)]
    found = tuple(tuple(bool(image[y, x] < 128) for x in middles) for y in middles)
    assert found == CHECKS
    solid = [i for i, row in enumerate(CHECKS) if all(row)]
    assert all(image[middles[i], middles[0] : middles[-1]].max() == 0 for i in solid)  # no hair of white within a run


def test_what_is_placed_is_clipped_to_the_window_and_marks_are_not() -> None:
    black = drawing(100, 100, Box(x=0, y=0, width=100, height=100, fill="#000000"))
    page = page_of(
        black, 50, 50, window=Rectangle(60, 70, 20, 10), marks=(Box(x=10, y=10, width=5, height=5, fill="#ff0000"),)
    )
    image = pixels(pdf_bytes(document(page)), dpi=MM_PER_INCH * 10)  # ten pixels a millimetre
    assert image[705:795, 605:795].max() == 0
    assert image[805:1400, 500:1400].min() == 255
    assert image[105:145, 105:145].max() < 128


def test_boxes_without_paint_and_empty_outlines_leave_nothing() -> None:
    placed = drawing(10, 10, Box(x=1, y=1, width=5, height=5), Symbol(x=0, y=0, module=1, rows=((False,),)))
    assert pixels(pdf_bytes(document(page_of(placed)))).min() == 255


def test_a_document_without_pages_is_a_fault_of_the_caller() -> None:
    with pytest.raises(ValueError, match="no pages"):
        pdf_bytes(Document(title="none", pages=()))


def test_the_variable_of_the_environment_is_put_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    with_it = pdf_bytes(document(page_of(EVERYTHING)))
    assert os.environ["SOURCE_DATE_EPOCH"] == "86400"
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert pdf_bytes(document(page_of(EVERYTHING))) == with_it
    assert "SOURCE_DATE_EPOCH" not in os.environ


PROGRAM = """
import sys, hashlib
sys.path.insert(0, {here!r})
from test_pdf import EVERYTHING, document, page_of
from labelgen.rendering.pdf import pdf_bytes
print(hashlib.sha256(pdf_bytes(document(page_of(EVERYTHING), page_of(EVERYTHING, turn=90)))).hexdigest())
"""


def test_the_bytes_are_the_same_in_every_process() -> None:
    here = pdf_bytes(document(page_of(EVERYTHING), page_of(EVERYTHING, turn=90)))
    wanted = hashlib.sha256(here).hexdigest()
    for settings_of in (
        {"PYTHONHASHSEED": "1", "TZ": "UTC"},
        {"PYTHONHASHSEED": "77", "TZ": "Asia/Tokyo", "SOURCE_DATE_EPOCH": "1700000000"},
        {"PYTHONHASHSEED": "3", "SOURCE_DATE_EPOCH": "not a number"},
    ):
        program = [sys.executable, "-c", PROGRAM.format(here=str(Path(__file__).parent))]
        done = subprocess.run(program, env={**os.environ, **settings_of}, capture_output=True, text=True, check=True)
        assert done.stdout.strip() == wanted, settings_of


def test_stops_and_links_lead_where_they_say_on_a_corrected_page_too() -> None:
    """ISO 32000-1, 12.3.2 and 12.5.6.5; read by pikepdf. The stretched page moves the link with its text."""
    text = Text(x=10, y=20, text="S1.4", face=REGULAR, size=4, leads_to="way S1.4")
    stop = Stop(name="way S1.4", y=100, bookmark="Way 4", level=0)
    first = page_of(drawing(60, 40, text), correction=Correction(scale=(1.1, 1.1)))
    content = pdf_bytes(document(first, page_of(EVERYTHING, stops=(stop,))))
    with pikepdf.open(BytesIO(content)) as pdf, pdf.open_outline() as outline:
        (note,) = pdf.pages[0].Annots
        assert note.Dest[0].objgen == pdf.pages[1].obj.objgen
        assert float(note.Dest[3]) == pytest.approx((297 - 100) * POINTS_PER_MM)
        assert [item.title for item in outline.root] == ["Way 4"]
        x0, y0, x1, y1 = (float(corner) for corner in note.Rect)
    word = pdfplumber.open(BytesIO(content)).pages[0].extract_words()[0]
    assert x0 == pytest.approx(word["x0"], abs=0.1)
    assert x1 == pytest.approx(word["x1"], abs=0.1)
    height = 297 * POINTS_PER_MM
    assert height - y1 < word["top"] + 5 < word["bottom"] - 3 < height - y0


def test_a_link_to_nowhere_is_a_bug() -> None:
    lost = Text(x=10, y=20, text="S1.4", face=REGULAR, size=4, leads_to="nowhere")
    with pytest.raises(ValueError, match="nowhere"):
        pdf_bytes(document(page_of(drawing(60, 40, lost))))


def test_a_book_says_its_subject_and_may_be_printed_on_both_sides() -> None:
    """ISO 32000-1, tables 150 and 317."""
    book = Document(title="Book", pages=(page_of(EVERYTHING),), about="A harbour", both_sides=True)
    with pikepdf.open(BytesIO(pdf_bytes(book))) as pdf:
        assert str(pdf.docinfo["/Subject"]) == "A harbour"
        assert pdf.Root.ViewerPreferences.Duplex == "/DuplexFlipLongEdge"
        assert "/PageMode" not in pdf.Root or pdf.Root.PageMode == "/UseNone"
