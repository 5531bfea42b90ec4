"""Cuts straight stretches of track where something is on them, and where they cross. All in squares."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import floor, hypot

from labelgen.lengths import Point
from labelgen.model.tracks.segment_cells import Cell, Cells, Segment, near_pairs

SAME_PLACE = 0.01
"""Squares: places closer than this are one place, so that `5.33` lies on a line that passes at 5.3333."""


def same_place(a: Point, b: Point) -> bool:
    return hypot(a.x - b.x, a.y - b.y) <= SAME_PLACE


def foot_on(segment: Segment, place: Point) -> Point:
    """The place on a segment that is nearest to another place."""
    a, b = segment
    along, way = b - a, place - a
    t = max(0.0, min(1.0, (along.x * way.x + along.y * way.y) / (along.x * along.x + along.y * along.y)))
    return Point(a.x + t * along.x, a.y + t * along.y)


def apart(a: Point, b: Point) -> float:
    """How far apart two places are."""
    return hypot(a.x - b.x, a.y - b.y)


@dataclass(slots=True)
class Nodes:
    """Collects places, one node for all that are the same place; what came first decides where it is."""

    places: list[Point] = field(default_factory=list)
    cells: dict[tuple[int, int], list[int]] = field(default_factory=dict)

    def add(self, place: Point) -> int:
        column, row = floor(place.x / SAME_PLACE), floor(place.y / SAME_PLACE)
        for cell in ((column + dx, row + dy) for dx in (0, -1, 1) for dy in (0, -1, 1)):
            for node in self.cells.get(cell, ()):
                if same_place(self.places[node], place):
                    return node
        self.places.append(place)
        self.cells.setdefault((column, row), []).append(len(self.places) - 1)
        return len(self.places) - 1


def crossings_of(segments: Sequence[Segment]) -> Iterator[Point]:
    """Where two segments cross; of parallel ones nothing, for their own ends split them."""
    for first, second in near_pairs(segments, SAME_PLACE):
        crossing = crossing_of(segments[first], segments[second])
        if crossing:
            yield crossing


def crossing_of(first: Segment, second: Segment) -> Point | None:
    (a, b), (c, d) = first, second
    if max(a.x, b.x) < min(c.x, d.x) or max(c.x, d.x) < min(a.x, b.x):
        return None
    along, across = b - a, d - c
    turn = along.x * across.y - along.y * across.x
    if abs(turn) <= 1e-9 * hypot(along.x, along.y) * hypot(across.x, across.y):
        return None
    way = c - a
    t = (way.x * across.y - way.y * across.x) / turn
    u = (way.x * along.y - way.y * along.x) / turn
    if not (0 <= t <= 1 and 0 <= u <= 1):
        return None
    return Point(a.x + t * along.x, a.y + t * along.y)


def stops_of(segments: Sequence[Segment], nodes: Sequence[Point]) -> list[list[int]]:
    """For each segment the nodes that lie on it, in its own direction."""
    cells = Cells(segments, SAME_PLACE)
    held: dict[Cell, list[int]] = {}
    for node, place in enumerate(nodes):
        for cell in cells.around(place):
            held.setdefault(cell, []).append(node)
    stops = []
    for segment in segments:
        near = sorted({node for cell in cells.along(segment) for node in held.get(cell, ())})
        placed = ((along_of(segment, nodes[node]), node) for node in near)
        stops.append([node for _, node in sorted((t, node) for t, node in placed if t is not None)])
    return stops


def along_of(segment: Segment, place: Point) -> float | None:
    """How far along a segment (0 to 1) a place lies, None when it is not on it."""
    a, b = segment
    low, high = (a.x, b.x) if a.x < b.x else (b.x, a.x)
    if not low - SAME_PLACE <= place.x <= high + SAME_PLACE:
        return None
    along, way = b - a, place - a
    length = hypot(along.x, along.y)
    t = (along.x * way.x + along.y * way.y) / length
    off = abs(along.x * way.y - along.y * way.x) / length
    if off > SAME_PLACE or not -SAME_PLACE <= t <= length + SAME_PLACE:
        return None
    return t / length
