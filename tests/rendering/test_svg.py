import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from painted_shapes import EVERYTHING, drawing

from labelgen.model.drawing import Box, Text
from labelgen.rendering.svg import inline_svg, svg_bytes
from labelgen.typefaces import text_width

SVG = "{http://www.w3.org/2000/svg}"


def elements(content: bytes, name: str) -> list[ET.Element]:
    return ET.fromstring(content).findall(f".//{SVG}{name}")


def test_one_user_unit_is_one_millimetre() -> None:
    """SVG 1.1, 7.10: width and height with units, and a viewBox of the same numbers."""
    root = ET.fromstring(svg_bytes(drawing(360, 99.5)))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("360mm", "99.5mm", "0 0 360 99.5")


def test_shapes_stand_where_they_are_drawn() -> None:
    content = svg_bytes(EVERYTHING)
    first, rounded, empty = elements(content, "rect")
    assert [first.get(key) for key in ("x", "y", "width", "height", "fill")] == ["0.5", "0.5", "59", "29", "none"]
    assert rounded.get("rx") == "1"
    assert empty.get("stroke") is None
    (circle,) = elements(content, "circle")
    assert [circle.get(key) for key in ("cx", "cy", "r", "stroke-width")] == ["50", "8", "5", "0.4"]
    (line,) = elements(content, "line")
    assert line.get("stroke-dasharray") == "1 0.5"
    triangle, open_runs, symbol = (path.get("d") or "" for path in elements(content, "path"))
    assert triangle == "M20 15 L25 25 L30 15 Z"
    assert open_runs == "M1 12 L4 14 M6 12 L9 14"
    assert symbol.startswith("M38 15H48.5V15.5H38Z")


def test_a_symbol_covers_each_dark_module_once() -> None:
    from painted_shapes import CHECKS

    symbol = elements(svg_bytes(EVERYTHING), "path")[-1].get("d") or ""
    covered = []
    for x, y, right in re.findall(r"M([\d.]+) ([\d.]+)H([\d.]+)V", symbol):
        row, first, last = (float(y) - 15) / 0.5, (float(x) - 38) / 0.5, (float(right) - 38) / 0.5
        covered += [(round(row), column) for column in range(round(first), round(last))]
    assert sorted(covered) == [(r, c) for r, row in enumerate(CHECKS) for c, dark in enumerate(row) if dark]


def test_texts_keep_their_words_place_and_width() -> None:
    plain, middle, turned = elements(svg_bytes(EVERYTHING), "text")
    assert (plain.text, middle.text, turned.text) == ("5N 1Il", "mid & <5N>", "Łódź")
    assert plain.get("transform") == "translate(3 22)"
    assert middle.get("transform") == "translate(30 10) scale(0.8 1)"
    assert turned.get("transform") == "translate(57 28) rotate(90)"
    assert (plain.get("text-anchor"), middle.get("text-anchor"), turned.get("text-anchor")) == (None, "middle", "end")
    assert middle.get("font-weight") == "bold"
    assert (plain.get("font-family") or "").endswith("sans-serif")
    assert float(plain.get("textLength") or 0) == pytest.approx(text_width("5N 1Il", "B612-Regular", 4), abs=1e-4)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert svg_bytes(EVERYTHING) == svg_bytes(EVERYTHING)


def test_a_swatch_for_a_page_hides_from_screen_readers_and_has_no_header() -> None:
    swatch = inline_svg(drawing(8, 4, Box(x=0, y=0, width=8, height=4, fill="#AA26F0")))
    assert swatch == (
        '<svg height="4mm" viewBox="0 0 8 4" width="8mm" aria-hidden="true" focusable="false">'
        '<rect fill="#AA26F0" height="4" width="8" x="0" y="0" /></svg>'
    )


@given(st.text())
def test_any_text_makes_well_formed_xml_and_comes_back(words: str) -> None:
    text = Text(x=0, y=5, text=words, face="B612-Regular", size=3)
    content = svg_bytes(drawing(10, 10, text, name=words))
    (element,) = elements(content, "text")
    expected = "".join(c if c in "\t\n\r" or c >= " " else "\ufffd" for c in words)
    expected = re.sub("[\ud800-\udfff\ufffe\uffff]", "\ufffd", expected)
    assert (element.text or "") == expected.replace("\r\n", "\n").replace("\r", "\n")  # XML 1.0, 2.11


@given(st.floats(-1e5, 1e5))
def test_numbers_have_no_exponent(x: float) -> None:
    content = svg_bytes(drawing(10, 10, Box(x=x, y=0, width=1, height=1, fill="#000000")))
    (rect,) = elements(content, "rect")
    assert re.fullmatch(r"-?\d+(\.\d{1,4})?", rect.get("x") or "")
    assert float(rect.get("x") or "") == pytest.approx(x, abs=1e-4)
    assert rect.get("x") != "-0"
