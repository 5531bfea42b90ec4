"""Paints shapes onto a page of a PDF: the one place where y turns over and millimetres become points.

What there is much of, texts and straight lines, is written as operators at once (ISO 32000-1, 8.5 and 9.4).
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, radians, sin
from typing import TYPE_CHECKING

from labelgen.lengths import POINTS_PER_MM as PT
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Line, Outline, Shape, Symbol, Text
from labelgen.model.sheet import Placed
from labelgen.rendering.pdf_letters import PdfLetters
from labelgen.rendering.pdf_links import Lead
from labelgen.typefaces import FACES, text_width

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

_PAINTS = {(0, 0): "n", (1, 0): "S", (0, 1): "f*", (1, 1): "B*"}
"""Stroke and fill: the operator, with the even-odd rule."""


class PdfPen:
    """Paints shapes through a placing; remembers what is set, so that nothing is set twice."""

    def __init__(self, canvas: "Canvas", page_height: float, letters: PdfLetters, leads: list[Lead]) -> None:
        """`leads`: is filled with the texts that lead somewhere."""
        from reportlab.lib.rl_accel import fp_str

        self._numbers = fp_str
        self._canvas, self._letters_of, self._leads = canvas, letters.of, leads
        self._write = canvas.addLiteral
        self._page_height = page_height
        self._left, self._top, self._turn = 0.0, 0.0, 0
        self._fill, self._stroke = "#000000", "#000000"
        self._stroke_form: tuple[float, tuple[float, ...], bool] = (0.0, (), False)
        self._text: list[str] | None = None
        self._font: tuple[str, float] | None = None
        self._subset = -1

    def clip(self, window: Rectangle) -> None:
        """From here on nothing is painted outside of the window, until the canvas's state is restored."""
        path = self._canvas.beginPath()
        path.rect(*self._rect(window.x, window.y, window.width, window.height))
        self._canvas.clipPath(path, stroke=0, fill=0)

    def draw_placed(self, all_placed: tuple[Placed, ...]) -> None:
        for placed in all_placed:
            self._turn = placed.turn
            self._left, self._top = placed.x, placed.y
            if placed.turn == 90:
                self._left += placed.drawing.height
            for shape in placed.drawing.shapes:
                self.draw(shape)
        self._left, self._top, self._turn = 0.0, 0.0, 0
        self.end_text()

    def draw(self, shape: Shape) -> None:
        if isinstance(shape, Text):
            self._draw_text(shape)
            return
        self.end_text()
        match shape:
            case Line():
                self._draw_line(shape)
            case Box():
                self._draw_box(shape)
            case Circle():
                self._draw_circle(shape)
            case Outline():
                self._draw_outline(shape)
            case _:
                self._draw_symbol(shape)

    def end_text(self) -> None:
        if self._text is not None:
            self._write(" ".join((*self._text, "ET")))
            self._text = self._font = None

    def _at(self, x: float, y: float) -> tuple[float, float]:
        """A place of the drawing, in points from the lower left corner of the page."""
        if self._turn == 90:
            x, y = -y, x
        return (self._left + x) * PT, (self._page_height - self._top - y) * PT

    def _rect(self, x: float, y: float, width: float, height: float) -> tuple[float, float, float, float]:
        """Lower left corner and size, in points."""
        x1, y1 = self._at(x, y)
        x2, y2 = self._at(x + width, y + height)
        return min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1)

    def _draw_line(self, line: Line) -> None:
        self._set_stroke(line.colour, line.width, line.dash)
        start, end = self._at(line.x1, line.y1), self._at(line.x2, line.y2)
        self._write(f"n {self._numbers(*start)} m {self._numbers(*end)} l S")

    def _draw_box(self, box: Box) -> None:
        stroke, fill = self._set_paint(box.stroke, box.fill, box.stroke_width)
        rect = self._rect(box.x, box.y, box.width, box.height)
        if box.radius > 0:
            self._canvas.roundRect(*rect, box.radius * PT, stroke=stroke, fill=fill)
        elif stroke or fill:
            self._write(f"n {self._numbers(*rect)} re {_PAINTS[stroke, fill]}")

    def _draw_circle(self, circle: Circle) -> None:
        stroke, fill = self._set_paint(circle.stroke, circle.fill, circle.stroke_width)
        self._canvas.circle(*self._at(circle.x, circle.y), circle.radius * PT, stroke=stroke, fill=fill)

    def _draw_outline(self, outline: Outline) -> None:
        stroke, fill = self._set_paint(outline.stroke, outline.fill, outline.stroke_width, rounded=outline.round_ends)
        pieces = ["n"]
        for run in outline.runs:
            pieces += self._run(run)
            if outline.closed and run:
                pieces.append("h")
        if any(outline.runs):
            self._write(" ".join(pieces))
            self._write(_PAINTS[stroke, fill])

    def _run(self, run: Sequence[tuple[float, float]]) -> Iterator[str]:
        numbers, operator = self._numbers, "m"
        left, top = self._left, self._page_height - self._top
        for x, y in ((-y, x) for x, y in run) if self._turn == 90 else run:
            yield f"{numbers((left + x) * PT, (top - y) * PT)} {operator}"
            operator = "l"

    def _draw_symbol(self, symbol: Symbol) -> None:
        """One path for the whole symbol: between paths painted one by one, viewers let hairs of white shine through."""
        self._set_fill("#000000")
        size, pieces = symbol.module, ["n"]
        for row, modules in enumerate(symbol.rows):
            for start, end in _runs(modules):
                rect = self._rect(symbol.x + start * size, symbol.y + row * size, (end - start) * size, size)
                pieces.append(f"{self._numbers(rect)} re")
        if len(pieces) > 1:
            self._write(" ".join(pieces))
            self._write(_PAINTS[0, 1])

    def _draw_text(self, text: Text) -> None:
        if text.colour != self._fill:
            self.end_text()
            self._set_fill(text.colour)
        if self._text is None:
            self._text = ["BT 1 0 0 1 0 0 Tm"]
        if self._font != (text.face, text.size):
            self._font, self._subset = (text.face, text.size), -1
        c, s = _direction(text.turn + self._turn)
        back = _before_anchor(text)
        x, y = self._at(text.x, text.y)
        placed = (text.stretch * c, -text.stretch * s, s, c, x - back * PT * c, y + back * PT * s)
        self._text.append(f"{self._numbers(*placed)} Tm")
        self._text.append(" ".join(self._letters(text)))
        if text.leads_to:
            self._lead(text, back)

    def _letters(self, text: Text) -> Iterator[str]:
        for subset, name, shown in self._letters_of(text.text, text.face):
            if subset != self._subset:
                yield f"{name} {self._numbers(text.size * PT)} Tf 0 TL"
                self._subset = subset
            yield shown

    def _lead(self, text: Text, back: float) -> None:
        """A level text can be touched: from below its letters to above them."""
        size = FACES[text.face].cap * text.size
        width = text_width(text.text, text.face, text.size) * text.stretch
        x, y, wide, high = self._rect(text.x - back, text.y - 1.5 * size, width, 2 * size)
        at = self._canvas.absolutePosition
        self._leads.append(((*at(x, y), *at(x + wide, y + high)), text.leads_to))

    def _set_fill(self, colour: str) -> None:
        if colour != self._fill:
            red, green, blue = _parts(colour)
            if red == green == blue:  # as grey, so that a printer takes its black alone
                self._canvas.setFillGray(red)
            else:
                self._canvas.setFillColorRGB(red, green, blue)
            self._fill = colour

    def _set_stroke(self, colour: str, width: float, dash: tuple[float, ...] = (), *, rounded: bool = False) -> None:
        if colour != self._stroke:
            red, green, blue = _parts(colour)
            if red == green == blue:
                self._canvas.setStrokeGray(red)
            else:
                self._canvas.setStrokeColorRGB(red, green, blue)
            self._stroke = colour
        if (width, dash, rounded) != self._stroke_form:
            old_width, old_dash, old_rounded = self._stroke_form
            if width != old_width:
                self._canvas.setLineWidth(width * PT)
            if dash != old_dash:
                self._canvas.setDash([length * PT for length in dash])
            if rounded != old_rounded:
                self._canvas.setLineCap(int(rounded))
                self._canvas.setLineJoin(int(rounded))
            self._stroke_form = (width, dash, rounded)

    def _set_paint(
        self, stroke: str | None, fill: str | None, width: float, *, rounded: bool = False
    ) -> tuple[int, int]:
        """What reportlab calls stroke and fill: 1 or 0."""
        if fill is not None:
            self._set_fill(fill)
        if stroke is not None:
            self._set_stroke(stroke, width, rounded=rounded)
        return int(stroke is not None), int(fill is not None)


@lru_cache(maxsize=1024)
def _direction(degrees: float) -> tuple[float, float]:
    """Cosine and sine. Positive angles turn clockwise on paper, where y runs down; in a PDF y runs up."""
    angle = radians(degrees)
    return round(cos(angle), 9), round(sin(angle), 9)


def _before_anchor(text: Text) -> float:
    """How far before its anchor, in mm along its own line, a text begins."""
    if text.anchor == "start":
        return 0.0
    width = text_width(text.text, text.face, text.size) * text.stretch
    return width / 2 if text.anchor == "middle" else width


def _parts(colour: str) -> tuple[float, float, float]:
    """`#rrggbb` as three parts of 1."""
    red, green, blue = bytes.fromhex(colour[1:])
    return red / 255, green / 255, blue / 255


def _runs(modules: tuple[bool, ...]) -> Iterator[tuple[int, int]]:
    """The dark runs of a row, as (first, behind the last)."""
    edges = [i for i, (a, b) in enumerate(pairwise((False, *modules, False))) if a != b]
    return zip(edges[::2], edges[1::2], strict=True)
