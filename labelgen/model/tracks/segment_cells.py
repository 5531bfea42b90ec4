"""Straight stretches sorted into square cells, so that what lies near one is found without asking all of them."""

from collections.abc import Iterator, Sequence
from math import ceil, floor, sqrt

from labelgen.lengths import Point

Segment = tuple[Point, Point]
Cell = tuple[int, int]


class Cells:
    """A grid of cells over so many segments: about as many columns and rows as make a cell hold a few of them."""

    def __init__(self, segments: Sequence[Segment], reach: float) -> None:
        """`reach`: how far from a segment something may lie and still be near it."""
        self._reach = reach
        x = [end.x for segment in segments for end in segment] or [0.0]
        y = [end.y for segment in segments for end in segment] or [0.0]
        most = max(max(x) - min(x), max(y) - min(y))
        self._size = max(most / ceil(sqrt(len(segments) + 1)), 8 * reach)

    def around(self, place: Point) -> Iterator[Cell]:
        """The cells that a place within reach could lie in."""
        reach, size = self._reach, self._size
        for column in range(floor((place.x - reach) / size), floor((place.x + reach) / size) + 1):
            for row in range(floor((place.y - reach) / size), floor((place.y + reach) / size) + 1):
                yield column, row

    def along(self, segment: Segment) -> Iterator[Cell]:
        """The cells that a segment passes, column by column, with all that is within reach of it."""
        a, b = sorted(segment, key=lambda end: end.x)
        reach, size = self._reach, self._size
        for column in range(floor((a.x - reach) / size), floor((b.x + reach) / size) + 1):
            left, right = column * size - 2 * reach, (column + 1) * size + 2 * reach
            ends = [_height(a, b, left), _height(a, b, right)] if b.x - a.x > reach else [a.y, b.y]
            for row in range(floor((min(ends) - reach) / size), floor((max(ends) + reach) / size) + 1):
                yield column, row


def near_pairs(segments: Sequence[Segment], reach: float) -> list[tuple[int, int]]:
    """The pairs of segments that may come within reach of each other, each once, in order."""
    cells = Cells(segments, reach)
    held: dict[Cell, list[int]] = {}
    pairs: set[tuple[int, int]] = set()
    for index, segment in enumerate(segments):
        for cell in cells.along(segment):
            here = held.setdefault(cell, [])
            pairs.update((other, index) for other in here)
            here.append(index)
    return sorted(pairs)


def _height(a: Point, b: Point, x: float) -> float:
    """How far down a segment is at x, or at the end that is nearer to x."""
    return a.y + (b.y - a.y) * (min(max(x, a.x), b.x) - a.x) / (b.x - a.x)
