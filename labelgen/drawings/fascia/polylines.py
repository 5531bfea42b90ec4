"""Lines of several straight stretches: how long they are, places along them, and parts of them. Millimetres."""

from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, sin

from labelgen.drawings.clearances import clipped
from labelgen.lengths import Point, Rectangle


def apart(a: Point, b: Point) -> float:
    return hypot(a.x - b.x, a.y - b.y)


def unit(way: Point) -> Point:
    length = hypot(way.x, way.y)
    return Point(way.x / length, way.y / length)


def onward(start: Point, way: Point, length: float) -> Point:
    """So far from a place in a direction, which is a unit."""
    return Point(start.x + way.x * length, start.y + way.y * length)


def turned(way: Point, angle: float) -> Point:
    """A direction turned clockwise by so many radians, as it is drawn."""
    return Point(way.x * cos(angle) - way.y * sin(angle), way.x * sin(angle) + way.y * cos(angle))


def line_length(places: Sequence[Point]) -> float:
    return sum(apart(a, b) for a, b in pairwise(places))


def place_at(places: Sequence[Point], length: float) -> Point:
    """So far along a line; its end when it is shorter."""
    for a, b in pairwise(places):
        stretch = apart(a, b)
        if length <= stretch:
            return Point(a.x + (b.x - a.x) * length / stretch, a.y + (b.y - a.y) * length / stretch)
        length -= stretch
    return places[-1]


def trimmed(places: Sequence[Point], first: float, last: float) -> list[Point]:
    """The line without its first and last so many mm."""
    whole, gone = line_length(places), 0.0
    kept = [place_at(places, first)]
    for a, b in pairwise(places):
        gone += apart(a, b)
        if first + 1e-9 < gone < whole - last - 1e-9:
            kept.append(b)
    return [*kept, place_at(places, whole - last)]


def kept_inside(places: Sequence[Point], inside: Rectangle) -> list[tuple[Point, ...]]:
    """The parts of a line that lie in a rectangle."""
    parts: list[list[Point]] = []
    for a, b in pairwise(places):
        piece = clipped(a, b, inside)
        if piece is None:
            continue
        if parts and parts[-1][-1] == piece[0]:
            parts[-1].append(piece[1])
        else:
            parts.append([*piece])
    return [tuple(part) for part in parts]
