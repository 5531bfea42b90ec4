"""The signs of strip markers, each as it is met there, for the legend that explains them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.function_marks import mark
from labelgen.drawings.markers.bridges import bridge_shapes, bridges
from labelgen.drawings.markers.holes import ARM, hole_cross
from labelgen.drawings.markers.meter_sign import SIGN, meter_sign
from labelgen.drawings.markers.swap_sign import swap_sign
from labelgen.drawings.text_fitting import Fitted, centred
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, StripPlan, WayPlan
from labelgen.typefaces import REGULAR, size_for_cap

Painter = Callable[[Rectangle], Sequence[Shape]]
CELL_MM = 8.0
LINE, FAINT = "#4d4d4d", "#9a9a9a"
CAP = 2.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    paint: Painter
    means: str


def signs(netlist: Netlist, strips: Sequence[StripPlan], look: Look, turning: str) -> Iterator[Sign]:
    """Those that are met on the markers of these strips. `turning`: a number with a line below it."""
    ways = [way for strip in strips for way in strip.ways]
    swapped = next((way for way in ways if way.swap_with), None)
    if swapped is not None:
        yield Sign(paint=lambda r: _swap(netlist, swapped, look, r), means="if it shorts, exchange it with that way’s")
    if any(strip.bridges for strip in strips):
        yield Sign(paint=_bridge, means="ways joined by metal: a bridge")
    if any(way.state == "kept" for way in ways):
        yield Sign(paint=_kept, means="a way kept free: put nothing there")
    if any(way.state == "spare" for way in ways):
        yield Sign(paint=_spare, means="a spare way; small and grey, what it was")
    if any(way.test for way in ways):
        yield Sign(paint=_test_point, means="a test point: hold the meter here")
    if any(strip.fixing is not None for strip in strips):
        yield Sign(paint=_fixing, means="a hole that the strip is screwed down by")
    if turning:
        yield Sign(paint=lambda r: _underlined(turning, r), means="the line is below the number: this way up")


def _within(r: Rectangle, width: float, height: float) -> Rectangle:
    """At the left, in the middle of the height."""
    return Rectangle(r.x, r.y + (r.height - height) / 2, width, height)


def _swap(netlist: Netlist, way: WayPlan, look: Look, r: Rectangle) -> list[Shape]:
    band = _within(r, min(r.width, 12), min(r.height, 3.0))
    function = netlist.functions[way.function]
    sign = swap_sign(str(way.swap_with), band, smallest=look.smallest_cap, scale=1.0)
    return [*mark(function, band, look), *sign]


def _bridge(r: Rectangle) -> list[Shape]:
    cell = _within(r, 2 * CELL_MM, 3.0)
    middles = {1: cell.x + CELL_MM / 2, 2: cell.x + 1.5 * CELL_MM}
    walls = [Line(x1=x, y1=cell.y, x2=x, y2=cell.bottom, width=0.15, colour=LINE) for x in _walls(cell)]
    (bar,) = bridges([[1, 2]])
    y = cell.y + cell.height / 2
    return [*walls, *bridge_shapes([bar], middles, (cell.x, cell.right), y=y, lane=1.2)]


def _walls(cell: Rectangle) -> tuple[float, ...]:
    return cell.x, cell.x + cell.width / 2, cell.right


def _kept(r: Rectangle) -> list[Shape]:
    box = _within(r, 2.4, 2.4)
    return [
        Box(x=box.x, y=box.y, width=box.width, height=box.height, stroke="#000000", stroke_width=0.25),
        Line(x1=box.x, y1=box.y, x2=box.right, y2=box.bottom, width=0.25),
        Line(x1=box.x, y1=box.bottom, x2=box.right, y2=box.y, width=0.25),
    ]


def _spare(r: Rectangle) -> list[Shape]:
    cell = _within(r, CELL_MM, 3.0)
    x, y = cell.x + cell.width / 2, cell.y + cell.height / 2
    walls = [Line(x1=x, y1=cell.y, x2=x, y2=cell.bottom, width=0.15, colour=LINE) for x in (cell.x, cell.right)]
    return [*walls, Line(x1=x - 1, y1=y, x2=x + 1, y2=y, width=0.3, colour=FAINT)]


def _test_point(r: Rectangle) -> list[Shape]:
    return meter_sign(_within(r, SIGN, r.height), 1.0)


def _fixing(r: Rectangle) -> list[Shape]:
    return hole_cross(r.x + ARM, r.y + r.height / 2, 1.0)


def _underlined(number: str, r: Rectangle) -> list[Shape]:
    word = Fitted(text=number, face=REGULAR, size=size_for_cap(CAP, REGULAR), stretch=1.0)
    return centred(word, Rectangle(r.x, r.y, word.width, r.height), underlined=len(number))
