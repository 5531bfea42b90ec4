"""The ways of a strip as a plan shows them: number, function and head of each. Millimetres on paper."""

from collections.abc import Iterator

from labelgen.drawings.function_marks import code_block, colours_of
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import centred, fit_in
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, WayPlan
from labelgen.typefaces import BOLD, REGULAR

INK, SOFT = "#1a1a1a", "#6b7480"
HAIR = 0.15
NUMBER_CAP, HEAD_CAP = 2.2, 2.6
NUMBER_HIGH, HEAD_HIGH, NUMBER_WIDE = 3.7, 4.4, 5.4
CODE_HIGH, CODE_WIDE = 5.4, 6.4
EMPTY = {"spare": "–", "kept": "×"}


class Cells:
    """Paints ways in their cells."""

    def __init__(self, netlist: Netlist, look: Look, lettering: Lettering) -> None:
        self._netlist, self._look, self._lettering = netlist, look, lettering

    def full(self, way: WayPlan, cell: Rectangle, *, upright: bool) -> Iterator[Shape]:
        """Number, code with colour and pattern, head: one below the other; on an upright strip side by side."""
        number, code, head = _parts(cell, upright=upright)
        yield Box(
            x=cell.x, y=cell.y, width=cell.width, height=cell.height, fill="#ffffff", stroke=INK, stroke_width=HAIR
        )
        quiet = way.state in EMPTY and not way.head
        yield from self._text(str(way.number), number, NUMBER_CAP, BOLD, SOFT if quiet else INK)
        if way.function:
            yield from code_block(self._netlist.functions[way.function], code.inset(0.35), self._look)
        elif quiet:
            yield from self._text(EMPTY[way.state], code, NUMBER_CAP, REGULAR, SOFT)
        yield from self._text(way.head, head, HEAD_CAP, BOLD, INK)

    def _text(self, text: str, box: Rectangle, cap: float, face: str, colour: str) -> list[Shape]:
        known = self._lettering.known(text, face)
        room = Rectangle(box.x + 0.4, box.y, box.width - 0.8, box.height)
        fitted = fit_in(known, room, largest=cap, smallest=self._look.smallest_cap, face=face) if known else None
        return centred(fitted, room, colour=colour) if fitted is not None else []

    def small(self, way: WayPlan, cell: Rectangle) -> Iterator[Shape]:
        """A patch of its colour; white where nothing is on it."""
        function = self._netlist.functions.get(way.function)
        fill = colours_of(function, self._look)[0].paint if function is not None else "#ffffff"
        yield Box(x=cell.x, y=cell.y, width=cell.width, height=cell.height, fill=fill)


def rule(area: Rectangle, side: str, width: float = 0.9) -> Line:
    """The thick line along the panel's side of a strip."""
    x, y, out = area.x, area.y, width / 2
    match side:
        case "left":
            return Line(x1=x - out, y1=y, x2=x - out, y2=area.bottom, width=width, colour=INK)
        case "right":
            return Line(x1=area.right + out, y1=y, x2=area.right + out, y2=area.bottom, width=width, colour=INK)
        case "back":
            return Line(x1=x, y1=y - out, x2=area.right, y2=y - out, width=width, colour=INK)
        case _:
            return Line(x1=x, y1=area.bottom + out, x2=area.right, y2=area.bottom + out, width=width, colour=INK)


def seen_side(side: str, *, below: bool) -> str:
    """Where an edge is for whoever looks from there."""
    return {"left": "right", "right": "left"}.get(side, side) if below else side


def _parts(cell: Rectangle, *, upright: bool) -> tuple[Rectangle, Rectangle, Rectangle]:
    x, y, width, height = cell.x, cell.y, cell.width, cell.height
    if upright:
        number, code = min(NUMBER_WIDE, 0.3 * width), min(CODE_WIDE, 0.35 * width)
        return (
            Rectangle(x, y, number, height),
            Rectangle(x + number, y, code, height),
            Rectangle(x + number + code, y, width - number - code, height),
        )
    number, head = min(NUMBER_HIGH, 0.28 * height), min(HEAD_HIGH, 0.32 * height)
    return (
        Rectangle(x, y, width, number),
        Rectangle(x, y + number, width, height - number - head),
        Rectangle(x, cell.bottom - head, width, head),
    )
