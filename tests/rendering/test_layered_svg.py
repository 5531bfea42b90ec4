"""Drawings in layers, read back by an XML parser that is not the writer's."""

import re

from layered_panel import PANEL, WORDS
from lxml import etree

from labelgen.rendering.svg import layered_svg_bytes
from labelgen.typefaces import text_width

SVG = {"s": "http://www.w3.org/2000/svg"}
ROOT = etree.fromstring(layered_svg_bytes(PANEL))


def layer(name: str) -> list[etree._Element]:
    (group,) = ROOT.xpath(f"s:g[@id='{name}']", namespaces=SVG)
    return list(group)


def test_layers_are_groups_and_hold_everything() -> None:
    assert [group.get("id") for group in ROOT.xpath("s:g", namespaces=SVG)] == ["engrave", "print", "cut", "drill"]
    assert [(ROOT.get(key)) for key in ("width", "height", "viewBox")] == ["120mm", "60mm", "0 0 120 60"]
    assert [len(layer(name)) for name in ("engrave", "print", "cut", "drill")] == [2, 5, 1, 2]
    assert ROOT.findtext("s:title", namespaces=SVG) == "fascia <1>"


def test_there_is_no_text_only_outlines() -> None:
    assert not ROOT.xpath("//s:text", namespaces=SVG)
    letters = layer("engrave")[0]
    assert (letters.get("fill"), letters.get("stroke")) == ("#000000", None)
    xs = [float(x) for x, _ in re.findall(r"(-?[\d.]+) (-?[\d.]+)", letters.get("d"))]
    width = text_width(WORDS.text, WORDS.face, WORDS.size)
    assert 10 <= min(xs) <= 11
    assert abs(max(xs) - 10 - width) < 0.3  # the last letter's own air
    assert letters.get("d").count("M") == letters.get("d").count("Z")


def test_holes_are_circles_and_cuts_are_hairlines() -> None:
    assert [[float(hole.get(key)) for key in ("cx", "cy", "r")] for hole in layer("drill")] == [
        [40, 32, 3.25],
        [100.5, 7.25, 1.7],
    ]
    for line in (*layer("cut"), *layer("drill")):
        assert line.get("fill") == "none"
        assert float(line.get("stroke-width")) == 0.05  # below a quarter point: read as a cut, not as an engraving


def test_same_drawing_same_bytes() -> None:
    assert layered_svg_bytes(PANEL) == layered_svg_bytes(PANEL)
