"""Paints one drawing as SVG in real millimetres: one user unit is 1 mm (SVG 1.1, 7.10), so that no program guesses.

Where texts stay texts, the fonts are named, not embedded; `textLength` keeps each text as wide as it was set where
another font steps in. In a drawing in layers, for machines, they are outlines.
"""

import re
from itertools import pairwise
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

from labelgen.model.drawing import Box, Circle, Corner, Drawing, Line, Outline, Shape, Symbol, Text
from labelgen.model.panel.layers import LayeredDrawing
from labelgen.rendering.glyph_outlines import contours_of
from labelgen.typefaces import FACES, text_width

if TYPE_CHECKING:
    from svgwrite import Drawing as Canvas

Attributes = dict[str, Any]

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Everything outside of Char: XML 1.0, section 2.2."""
_FAMILIES = {
    "B612-Regular": ("'B612', 'DejaVu Sans Condensed', sans-serif", "normal"),
    "B612-Bold": ("'B612', 'DejaVu Sans Condensed', sans-serif", "bold"),
    "DejaVuSansCondensed": ("'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif", "normal"),
    "DejaVuSansCondensed-Bold": ("'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif", "bold"),
}
assert _FAMILIES.keys() == FACES.keys()


def svg_bytes(drawing: Drawing) -> bytes:
    """The drawing as an SVG file of its true size, UTF-8; the same drawing always gives the same bytes."""
    canvas = _painted(drawing)
    canvas.set_desc(title=_printable(drawing.name))
    return _written(canvas)


def layered_svg_bytes(drawing: LayeredDrawing) -> bytes:
    """The layers as groups with their names for ids, from the bottom up; no text in it, only outlines of letters."""
    canvas = _canvas(drawing.width, drawing.height)
    canvas.set_desc(title=_printable(drawing.name))
    for name, shapes in drawing.layers().items():
        group = canvas.add(canvas.g(id=name))
        for shape in shapes:
            if isinstance(shape, Text):
                if path := _letters_path(shape):
                    group.add(canvas.path(path, fill=shape.colour))
            else:
                _paint(canvas, shape, group)
    return _written(canvas)


def inline_svg(drawing: Drawing) -> str:
    """The drawing for the inside of an HTML page, where it only repeats what the text beside it says."""
    root = _painted(drawing).get_xml()
    for name in ("baseProfile", "version", "xmlns", "xmlns:ev", "xmlns:xlink"):
        root.attrib.pop(name)
    root.set("aria-hidden", "true")
    root.set("focusable", "false")
    return ET.tostring(root, encoding="unicode")


def _written(canvas: "Canvas") -> bytes:
    written: str = ET.tostring(canvas.get_xml(), encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{written}\n'.encode()


def _painted(drawing: Drawing) -> "Canvas":
    canvas = _canvas(drawing.width, drawing.height)
    for shape in drawing.shapes:
        _paint(canvas, shape, canvas)
    return canvas


def _canvas(width_mm: float, height_mm: float) -> "Canvas":
    import svgwrite

    width, height = _n(width_mm), _n(height_mm)
    canvas = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", profile="full", debug=False
    )
    canvas.elements.remove(canvas.defs)
    return canvas


def _paint(canvas: "Canvas", shape: Shape, into: Any) -> None:
    match shape:
        case Line():
            into.add(_line(canvas, shape))
        case Box():
            rounded = {"rx": _n(shape.radius)} if shape.radius else {}
            at, size = (_n(shape.x), _n(shape.y)), (_n(shape.width), _n(shape.height))
            into.add(canvas.rect(at, size, **_paint_of(shape), **rounded))
        case Circle():
            into.add(canvas.circle((_n(shape.x), _n(shape.y)), _n(shape.radius), **_paint_of(shape)))
        case Outline():
            if any(shape.runs):
                into.add(_outline(canvas, shape))
        case Symbol():
            if any(map(any, shape.rows)):
                into.add(canvas.path(_symbol_path(shape), fill="#000000", shape_rendering="crispEdges"))
        case _:
            into.add(_text(canvas, shape))


def _line(canvas: "Canvas", line: Line) -> Any:
    dash = {"stroke_dasharray": " ".join(map(_n, line.dash))} if line.dash else {}
    start, end = (_n(line.x1), _n(line.y1)), (_n(line.x2), _n(line.y2))
    return canvas.line(start, end, stroke=line.colour, stroke_width=_n(line.width), **dash)


def _outline(canvas: "Canvas", outline: Outline) -> Any:
    end = " Z" if outline.closed else ""
    runs = ("M" + " L".join(f"{_n(x)} {_n(y)}" for x, y in run) + end for run in outline.runs if run)
    rounded = {"stroke_linecap": "round", "stroke_linejoin": "round"} if outline.round_ends else {}
    return canvas.path(" ".join(runs), **_paint_of(outline), **rounded)


def _letters_path(text: Text) -> str:
    """The contours of a text's letters; SVG fills by the non-zero rule unless it is told otherwise (11.3)."""
    return "".join(f"{''.join(map(_step, range(len(c)), c))}Z" for c in contours_of(text))


def _step(index: int, segment: tuple[Corner, ...]) -> str:
    command = "Q" if len(segment) > 1 else "L" if index else "M"
    return command + " ".join(f"{_micrometres(x)} {_micrometres(y)}" for x, y in segment)


def _symbol_path(symbol: Symbol) -> str:
    """One path of the dark runs of each row, so that no hairs of white shine through between the modules."""
    parts, size = [], symbol.module
    for row, modules in enumerate(symbol.rows):
        edges = [i for i, (a, b) in enumerate(pairwise((False, *modules, False))) if a != b]
        for start, end in zip(edges[::2], edges[1::2], strict=True):
            x, y, width = symbol.x + start * size, symbol.y + row * size, (end - start) * size
            parts.append(f"M{_n(x)} {_n(y)}H{_n(x + width)}V{_n(y + size)}H{_n(x)}Z")
    return "".join(parts)


def _text(canvas: "Canvas", text: Text) -> Any:
    family, weight = _FAMILIES[text.face]
    moves = [f"translate({_n(text.x)} {_n(text.y)})"]
    if text.turn:
        moves.append(f"rotate({_n(text.turn)})")
    if text.stretch != 1:
        moves.append(f"scale({_n(text.stretch)} 1)")
    attributes: Attributes = {
        "transform": " ".join(moves),
        "font_family": family,
        "font_size": _n(text.size),
        "fill": text.colour,
        "textLength": _n(text_width(text.text, text.face, text.size)),
        "lengthAdjust": "spacingAndGlyphs",
    }
    if weight != "normal":
        attributes["font_weight"] = weight
    if text.anchor != "start":
        attributes["text_anchor"] = text.anchor
    element = canvas.text(_printable(text.text), **attributes)
    element.attribs["xml:space"] = "preserve"
    return element


def _paint_of(shape: Box | Circle | Outline) -> Attributes:
    attributes: Attributes = {"fill": shape.fill or "none"}
    if shape.stroke:
        attributes |= {"stroke": shape.stroke, "stroke_width": _n(shape.stroke_width)}
    return attributes


def _printable(text: str) -> str:
    """The text with what XML cannot hold replaced by the sign for it."""
    return _NOT_XML.sub("\N{REPLACEMENT CHARACTER}", text)


def _micrometres(number: float) -> str:
    """Letters have so many corners that a tenth of a micrometre would make the file half as large again."""
    return _n(round(number, 3))


def _n(number: float) -> str:
    """A length in mm, to a tenth of a micrometre, without an exponent."""
    written = f"{number:.4f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written
