"""How far a rectangle stays clear of thick strokes, discs and other rectangles. Millimetres, y down."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import floor, hypot

from labelgen.lengths import Point, Rectangle


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A straight line with round ends; of no length, a disc."""

    start: Point
    end: Point
    reach: float
    """Half its width."""
    what: str
    """In the builder's words: "track main"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    rectangle: Rectangle
    what: str


Obstacle = Stroke | Area
_CELL_MM, _SPOTS_CELL_MM = 8.0, 20.0


def disc(centre: Point, radius: float, what: str) -> Stroke:
    return Stroke(start=centre, end=centre, reach=radius, what=what)


def clearance(rectangle: Rectangle, obstacle: Obstacle) -> float:
    """The clear distance between the two; 0 or less when they touch."""
    if isinstance(obstacle, Area):
        return between(rectangle, obstacle.rectangle)
    return _to_segment(rectangle, obstacle.start, obstacle.end) - obstacle.reach


def is_clear(rectangle: Rectangle, obstacles: Iterable[Obstacle], by: float) -> bool:
    """True when every obstacle is at least `by` away."""
    return all(clearance(rectangle, obstacle) >= by - 1e-9 for obstacle in obstacles)


Boxed = tuple[float, float, float, float, Obstacle]


class Sieve:
    """The obstacles near a window, each with its upright box, so that most rectangles pass by comparing numbers."""

    def __init__(self, window: Rectangle, obstacles: Iterable[Obstacle], by: float) -> None:
        self.by = by
        self._near: list[Boxed] = [
            (box.x, box.y, box.right, box.bottom, obstacle)
            for box, obstacle in ((_box(obstacle).inset(-by), obstacle) for obstacle in obstacles)
            if window.overlaps(box)
        ]

    def passes(self, rectangle: Rectangle) -> bool:
        """True when every obstacle is at least `by` away. The rectangle must lie in the window."""
        return next(self.too_close(rectangle), None) is None

    def too_close(self, rectangle: Rectangle) -> Iterator[Obstacle]:
        """The obstacles that are closer than `by`."""
        left, top, right, bottom = rectangle.x, rectangle.y, rectangle.right, rectangle.bottom
        for x1, y1, x2, y2, obstacle in self._near:
            if (
                left < x2
                and x1 < right
                and top < y2
                and y1 < bottom
                and clearance(rectangle, obstacle) < self.by - 1e-9
            ):
                yield obstacle


class Around:
    """Obstacles, in cells of some mm, so that only what is near is looked at."""

    def __init__(self, obstacles: Iterable[Obstacle] = (), *, cell_mm: float = _CELL_MM) -> None:
        self._cell_mm = cell_mm
        self._cells: dict[tuple[int, int], list[Boxed]] = {}
        for obstacle in obstacles:
            self.add(obstacle)

    def add(self, obstacle: Obstacle) -> None:
        box = _box(obstacle)
        boxed = (box.x, box.y, box.right, box.bottom, obstacle)
        for cell in _cells(box.x, box.y, box.right, box.bottom, self._cell_mm):
            self._cells.setdefault(cell, []).append(boxed)

    def clear(self, rectangle: Rectangle, by: float) -> bool:
        """True when every obstacle is at least `by` away."""
        return next(self.too_close(rectangle, by), None) is None

    def too_close(self, rectangle: Rectangle, by: float) -> Iterator[Obstacle]:
        """The obstacles that are closer than `by`; some more than once."""
        left, top = rectangle.x - by, rectangle.y - by
        right, bottom = rectangle.x + rectangle.width + by, rectangle.y + rectangle.height + by
        cells, least = self._cells, by - 1e-9
        for cell in _cells(left, top, right, bottom, self._cell_mm):
            for x1, y1, x2, y2, obstacle in cells.get(cell, ()):
                if left < x2 and x1 < right and top < y2 and y1 < bottom and clearance(rectangle, obstacle) < least:
                    yield obstacle


class Spots:
    """What a text could be taken to belong to, in cells."""

    def __init__(self, spots: Iterable[Point]) -> None:
        self._cells: dict[tuple[int, int], list[Point]] = {}
        for spot in spots:
            for cell in _cells(spot.x, spot.y, spot.x, spot.y, _SPOTS_CELL_MM):
                self._cells.setdefault(cell, []).append(spot)

    def nearest_is(self, spot: Point, rectangle: Rectangle, by: float) -> bool:
        """True when a rectangle is nearer to this spot than to any other, by more than `by`."""
        own = to_point(rectangle, spot) + by
        wide = rectangle.inset(-own)
        return all(
            other == spot or to_point(rectangle, other) > own
            for cell in _cells(wide.x, wide.y, wide.right, wide.bottom, _SPOTS_CELL_MM)
            for other in self._cells.get(cell, ())
        )


def _cells(left: float, top: float, right: float, bottom: float, cell_mm: float) -> Iterator[tuple[int, int]]:
    rows = range(floor(top / cell_mm), floor(bottom / cell_mm) + 1)
    for column in range(floor(left / cell_mm), floor(right / cell_mm) + 1):
        for row in rows:
            yield column, row


def to_point(rectangle: Rectangle, point: Point) -> float:
    """Distance from a point to the nearest place of a rectangle; 0 inside."""
    across = max(rectangle.x - point.x, 0.0, point.x - (rectangle.x + rectangle.width))
    down = max(rectangle.y - point.y, 0.0, point.y - (rectangle.y + rectangle.height))
    return hypot(across, down)


def point_to_segment(point: Point, start: Point, end: Point) -> float:
    """Distance from a point to a segment, which may have no length."""
    along, way = end - start, point - start
    squared = along.x * along.x + along.y * along.y
    t = 0.0 if squared == 0 else max(0.0, min(1.0, (along.x * way.x + along.y * way.y) / squared))
    return hypot(way.x - t * along.x, way.y - t * along.y)


def clipped(start: Point, end: Point, window: Rectangle) -> tuple[Point, Point] | None:
    """The part of a segment that lies in a window, by the method of Liang and Barsky; None when there is none."""
    along = end - start
    first, last = 0.0, 1.0
    for step, room in (
        (-along.x, start.x - window.x),
        (along.x, window.right - start.x),
        (-along.y, start.y - window.y),
        (along.y, window.bottom - start.y),
    ):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            first = max(first, room / step)
        else:
            last = min(last, room / step)
    if first > last:
        return None
    return _partway(start, along, first), _partway(start, along, last)


def _partway(start: Point, along: Point, t: float) -> Point:
    return Point(start.x + t * along.x, start.y + t * along.y)


def between(a: Rectangle, b: Rectangle) -> float:
    """The clear distance between two rectangles; 0 when they touch."""
    across = max(b.x - (a.x + a.width), 0.0, a.x - (b.x + b.width))
    down = max(b.y - (a.y + a.height), 0.0, a.y - (b.y + b.height))
    return hypot(across, down)


def _to_segment(rectangle: Rectangle, start: Point, end: Point) -> float:
    if start.x == end.x or start.y == end.y:
        return between(rectangle, _upright(start, end))
    if clipped(start, end, rectangle) is not None:
        return 0.0
    corners = (
        Point(rectangle.x, rectangle.y),
        Point(rectangle.right, rectangle.y),
        Point(rectangle.x, rectangle.bottom),
        Point(rectangle.right, rectangle.bottom),
    )
    return min(
        to_point(rectangle, start), to_point(rectangle, end), *(point_to_segment(c, start, end) for c in corners)
    )


def _box(obstacle: Obstacle) -> Rectangle:
    if isinstance(obstacle, Area):
        return obstacle.rectangle
    return _upright(obstacle.start, obstacle.end).inset(-obstacle.reach)


def _upright(a: Point, b: Point) -> Rectangle:
    """What encloses two points."""
    return Rectangle(min(a.x, b.x), min(a.y, b.y), abs(a.x - b.x), abs(a.y - b.y))
