"""Finds places for the texts of a plan, one after the other: near their things, clear of what is there, off the wires.

A board may hold hundreds of things close together, so no text that stands is moved again for a later one. Sizes: mm on
paper.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import floor

from labelgen.drawings.clearances import Area, Around, Obstacle, Spots, Stroke
from labelgen.lengths import Point, Rectangle

CLEAR_MM, ASIDE_MM = 0.7, 0.8
"""Around a text; and beside one, so that two on a line do not read as one. Common practice, no source."""
STEP_MM = 0.75
ON_A_WIRE, A_LINE_LESS = 9.0, 3.0
"""What it costs, in mm of distance: across a wire; without what is below the id."""
_CORNER = 0.5**0.5
_DIRECTIONS = (
    (Point(0, -1), 0.0),
    (Point(_CORNER, -_CORNER), 1.0),
    (Point(-_CORNER, -_CORNER), 1.0),
    (Point(0, 1), 1.0),
    (Point(1, 0), 1.5),
    (Point(-1, 0), 1.5),
    (Point(_CORNER, _CORNER), 2.0),
    (Point(-_CORNER, _CORNER), 2.0),
)
"""Above first, as it is on everything else that we print; and what each costs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    place: Rectangle
    form: int
    led: bool
    """A line leads from the thing to it."""


class Places:
    """Gives each text its place, in the order in which they come."""

    def __init__(
        self, solid: Iterable[Obstacle], wires: Iterable[Obstacle], spots: Sequence[Point], inside: Rectangle
    ) -> None:
        """`spots`: all that a text could be taken to belong to."""
        self._solid, self._wires, self._inside = Around(solid), Around(wires), inside
        self._spots = Spots(spots)

    def place(
        self,
        spot: Point,
        reach: float,
        sizes: Sequence[tuple[float, float]],
        *,
        near: float,
        far: float,
        ahead: Point | None = None,
    ) -> Placed | None:
        """The best place at most `near` mm beyond its reach, else, with a line that leads to it, at most `far` mm."""
        best = self._near(spot, reach, sizes, near, ahead) or self._led(spot, reach, sizes[-1], near, far)
        if best is not None:
            self._solid.add(Area(rectangle=_aside(best.place), what=""))
            if best.led:
                self._solid.add(line_to(spot, best.place))
        return best

    def _near(
        self, spot: Point, reach: float, sizes: Sequence[tuple[float, float]], near: float, ahead: Point | None
    ) -> Placed | None:
        best: tuple[float, Placed] | None = None
        for cost, form, place in _candidates(spot, reach, sizes, near, ahead):
            if best is not None and cost >= best[0]:
                break
            if not self._free(place) or not self._spots.nearest_is(spot, place, CLEAR_MM):
                continue
            whole = cost + (0 if self._wires.clear(place, 0.2) else ON_A_WIRE)
            if best is None or whole < best[0]:
                best = (whole, Placed(place=place, form=form, led=False))
        return best[1] if best is not None else None

    def _led(self, spot: Point, reach: float, size: tuple[float, float], near: float, far: float) -> Placed | None:
        """The id alone, the nearest place at which nothing is in the way of its line, else any that is free."""
        first: Rectangle | None = None
        for _, _, place in _candidates(spot, reach + near, [size], far - near, None):
            if self._free(place):
                if self._line_is_clear(spot, reach, place):
                    return Placed(place=place, form=-1, led=True)
                first = first or place
        return Placed(place=first, form=-1, led=True) if first is not None else None

    def _free(self, place: Rectangle) -> bool:
        return self._inside.contains(place) and self._solid.clear(_aside(place), CLEAR_MM)

    def _line_is_clear(self, spot: Point, reach: float, place: Rectangle) -> bool:
        """A line that leads to a text touches nothing else: looked at in short pieces, from beyond the thing itself."""
        line = line_to(spot, place)
        way = line.end - spot
        length = max(abs(way.x), abs(way.y), 1e-9)
        steps = range(floor((reach + 1.0) / length * 20) + 1, 20)
        points = (Point(spot.x + way.x * step / 20, spot.y + way.y * step / 20) for step in steps)
        return all(self._solid.clear(Rectangle(at.x, at.y, 0, 0), 0.4) for at in points)


def line_to(spot: Point, place: Rectangle) -> Stroke:
    """From a thing to the nearest place at the edge of its text."""
    near = Point(min(max(spot.x, place.x), place.right), min(max(spot.y, place.y - 0.3), place.bottom + 0.3))
    return Stroke(start=spot, end=near, reach=0.1, what="")


def _aside(place: Rectangle) -> Rectangle:
    return Rectangle(place.x - ASIDE_MM, place.y, place.width + 2 * ASIDE_MM, place.height)


def _candidates(
    spot: Point, reach: float, sizes: Sequence[tuple[float, float]], furthest: float, ahead: Point | None
) -> Iterator[tuple[float, int, Rectangle]]:
    """Every place to try with its cost, the cheapest first."""
    directions = _DIRECTIONS if ahead is None else ((ahead, -2.0), *_DIRECTIONS)
    found: list[tuple[float, int, int, float, float]] = []
    for form, (width, height) in enumerate(sizes):
        sides = [(way, cost, _sign(way.x) * width / 2, _sign(way.y) * height / 2) for way, cost in directions]
        for step in range(int(furthest / STEP_MM) + 1):
            out = reach + step * STEP_MM
            for way, cost, across, down in sides:
                x, y = spot.x + way.x * out + across, spot.y + way.y * out + down
                whole = step * STEP_MM + cost + form * A_LINE_LESS
                found.append((whole, len(found), form, x - width / 2, y - height / 2))
    for whole, _, form, x, y in sorted(found):
        yield whole, form, Rectangle(x, y, *sizes[form])


def _sign(part: float) -> int:
    return (part > 0) - (part < 0)
