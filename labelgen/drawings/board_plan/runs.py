"""The wires of one board as bundles: straight runs with how many wires each holds, and the bends between them.

Millimetres on paper, from the upper left corner of what the plan shows, seen from above. The work grows with the
wires: runs on one line are counted by their ends, never pair by pair.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, pi, sin

from labelgen.drawings.board_plan.routing import Axis, Corners
from labelgen.drawings.clearances import clipped
from labelgen.lengths import Point, Rectangle

BEND_RADIUS = 2.0
"""mm on paper: what turns is round, so that it is told from what only crosses."""
_ARC_STEPS = 6

Line = tuple[Axis, float, bool]
"""Across at a y, or down at an x; and whether it lies above the board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A straight stretch, of one number of wires from end to end."""

    start: Point
    end: Point
    wires: int
    above: bool

    @property
    def length(self) -> float:
        return hypot(self.end.x - self.start.x, self.end.y - self.start.y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """A quarter turn."""

    corners: tuple[Point, ...]
    wires: int
    above: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundles:
    runs: tuple[Run, ...]
    bends: tuple[Bend, ...]


def bundles(paths: Mapping[tuple[Corners, bool], int], extent: Rectangle, scale: float) -> Bundles:
    """`paths`: corners in mm on the board, and whether above it: how many wires. `scale`: 5 for 1:5."""
    counts: dict[Line, dict[float, int]] = {}
    bends: dict[tuple[Point, Point, Point, bool], int] = {}
    paper = Rectangle(0, 0, extent.width / scale, extent.height / scale)
    for (corners, above), wires in paths.items():
        on_paper = [Point((c.x - extent.x) / scale, (c.y - extent.y) / scale) for c in corners]
        for part in _within(on_paper, paper):
            for a, b in _stretches(part, bends, wires, above=above):
                line, low, high = _on_line(a, b, above=above)
                ends = counts.setdefault(line, {})
                ends[low] = ends.get(low, 0) + wires
                ends[high] = ends.get(high, 0) - wires
    return Bundles(
        runs=tuple(run for line in counts for run in _runs(line, counts[line])),
        bends=tuple(Bend(corners=_arc(a, b, c), wires=n, above=over) for (a, b, c, over), n in bends.items()),
    )


def _within(corners: Sequence[Point], paper: Rectangle) -> Iterator[list[Point]]:
    """The parts of a path that lie on the board."""
    part: list[Point] = []
    for a, b in pairwise(corners):
        seen = clipped(a, b, paper)
        if seen is None:
            continue
        start, end = seen
        if not part or part[-1] != start:
            if part:
                yield part
            part = [start]
        part.append(end)
    if len(part) > 1:
        yield part


def _stretches(
    corners: Sequence[Point], bends: dict[tuple[Point, Point, Point, bool], int], wires: int, *, above: bool
) -> Iterator[tuple[Point, Point]]:
    """The straight parts of a path between its bends, which are counted."""
    start = corners[0]
    for number in range(1, len(corners) - 1):
        corner, before, behind = corners[number], corners[number - 1], corners[number + 1]
        if (before.x == corner.x) == (corner.x == behind.x):
            continue  # straight back: nothing turns off
        radius = min(BEND_RADIUS, _apart(before, corner) / 2, _apart(corner, behind) / 2)
        into, onward = _towards(corner, before, radius), _towards(corner, behind, radius)
        if _apart(start, into) > 1e-6:
            yield start, into
        # Either way round it is the same bend.
        key = (*min((into, corner, onward), (onward, corner, into), key=lambda one: (one[0].x, one[0].y)), above)
        bends[key] = bends.get(key, 0) + wires
        start = onward
    if _apart(start, corners[-1]) > 1e-6:
        yield start, corners[-1]


def _apart(a: Point, b: Point) -> float:
    return abs(a.x - b.x) + abs(a.y - b.y)


def _towards(a: Point, b: Point, by: float) -> Point:
    length = _apart(a, b) or 1.0
    return Point(round(a.x + (b.x - a.x) * by / length, 6), round(a.y + (b.y - a.y) * by / length, 6))


def _on_line(a: Point, b: Point, *, above: bool) -> tuple[Line, float, float]:
    if abs(a.x - b.x) < abs(a.y - b.y):
        return ("down", round(a.x, 4), above), round(min(a.y, b.y), 4), round(max(a.y, b.y), 4)
    return ("across", round(a.y, 4), above), round(min(a.x, b.x), 4), round(max(a.x, b.x), 4)


def _runs(line: Line, changes: Mapping[float, int]) -> Iterator[Run]:
    """From change to change along one line; where as many wires come as leave, the run goes on."""
    axis, at, above = line
    wires, begun = 0, 0.0
    for place in sorted(changes):
        if changes[place] == 0:
            continue
        if wires:
            a, b = (Point(begun, at), Point(place, at)) if axis == "across" else (Point(at, begun), Point(at, place))
            yield Run(start=a, end=b, wires=wires, above=above)
        wires, begun = wires + changes[place], place


def _arc(a: Point, corner: Point, b: Point) -> tuple[Point, ...]:
    """A quarter of a circle from a to b, which are equally far from the corner."""
    centre = a + b - corner
    u, v = a - centre, b - centre
    angles = [pi / 2 * step / _ARC_STEPS for step in range(_ARC_STEPS + 1)]
    return tuple(centre + Point(u.x * cos(t) + v.x * sin(t), u.y * cos(t) + v.y * sin(t)) for t in angles)
