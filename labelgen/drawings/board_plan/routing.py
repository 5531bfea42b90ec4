"""Which way each leg takes: along the frame, |dx| + |dy|, round strips, and beside wires that run there already."""

from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import floor
from typing import Literal

from labelgen.drawings.board_plan.paths import Leg, Node
from labelgen.lengths import Point
from labelgen.model.strip_geometry import Spot

BEND_MM, THROUGH_MM, SHARED_PART = 40.0, 200.0, 0.45
"""What a bend costs against length; to run through a strip or a motor, besides eight times as long as that; what a mm
beside other wires saves. Our own choice."""
BODY_TIMES = 8.0
CLEAR_MM = 18.0
"""How far beside a strip that is in its way a wire goes past."""
LINES_TRIED = 4
_CELL_MM = 150.0
_SAME = 1e-6

Corners = tuple[Point, ...]
Axis = Literal["across", "down"]
Turn = tuple[Axis, float | None]
"""How a leg goes from join to join: which way first, and, of one with two corners, at which x or y it turns."""
Bodies = Mapping[tuple[str, str], tuple[Spot, float, float]]
_Body = tuple[float, float, float, float, tuple[str, str]]
"""From where to where across, and down; and what it is."""


@dataclass(slots=True)
class _Ground:
    """Of one frame: what is in the way, in cells, and where wires run already."""

    cells: dict[tuple[int, int], list[_Body]] = field(default_factory=dict)
    used: dict[tuple[Axis, float], list[tuple[float, float]]] = field(default_factory=dict)
    """Line: where on it, in order, no two of which touch."""
    lines: dict[Axis, list[float]] = field(default_factory=lambda: {"across": [], "down": []})
    """At which y, or x, they run, in order."""

    def add_body(self, thing: tuple[str, str], middle: Point, across: float, down: float) -> None:
        left, right, top, bottom = middle.x - across, middle.x + across, middle.y - down, middle.y + down
        for cell in _cells(Point(left, top), Point(right, bottom)):
            self.cells.setdefault(cell, []).append((left, right, top, bottom, thing))

    def hit(self, a: Point, b: Point, but: Sequence[tuple[str, str]]) -> Iterator[tuple[float, _Body]]:
        """The bodies that a stretch passes through, each once: how many mm of it, and the body."""
        (x1, x2), (y1, y2) = sorted((a.x, b.x)), sorted((a.y, b.y))
        seen = set(but)
        for cell in _cells(a, b):
            for body in self.cells.get(cell, ()):
                left, right, top, bottom, thing = body
                across = (x2 if x2 < right else right) - (x1 if x1 > left else left)
                down = (y2 if y2 < bottom else bottom) - (y1 if y1 > top else top)
                # A stretch along an edge passes beside; one of no width there, through.
                if across > (-_SAME if x1 == x2 else 0) and down > (-_SAME if y1 == y2 else 0) and thing not in seen:
                    seen.add(thing)
                    yield max(across, down, 1.0), body

    def shared(self, a: Point, b: Point) -> float:
        """How many mm of a stretch have wires already."""
        line, low, high = _on_line(a, b)
        stretches = self.used.get(line, [])
        there = stretches[_meeting(stretches, low, high)]
        return sum(max(0.0, min(high, to) - max(low, start)) for start, to in there)

    def beside(self, a: Point, b: Point) -> Iterator[Turn]:
        """With two corners, the middle part where wires run already: on the lines that are nearest to either end."""
        axes: tuple[tuple[Axis, Axis, float, float], ...] = (("across", "down", a.x, b.x), ("down", "across", a.y, b.y))
        for first, crossing, start, end in axes:
            lines = self.lines[crossing]
            there = lines[bisect_right(lines, min(start, end)) : bisect_left(lines, max(start, end))]
            yield from ((first, at) for at in dict.fromkeys((*there[:LINES_TRIED], *there[-LINES_TRIED:])))

    def use(self, corners: Corners) -> None:
        for a, b in pairwise(corners):
            line, low, high = _on_line(a, b)
            if line not in self.used:
                insort(self.lines[line[0]], line[1])
            stretches = self.used.setdefault(line, [])
            meeting = _meeting(stretches, low, high)
            near = [(low, high), *stretches[meeting]]
            stretches[meeting] = [(min(start for start, _ in near), max(to for _, to in near))]


def _meeting(stretches: list[tuple[float, float]], low: float, high: float) -> slice:
    """Which of them, in order and apart from one another, touch a stretch."""
    first = bisect_left(stretches, low, key=lambda one: one[1])
    return slice(first, max(first, bisect_right(stretches, high, key=lambda one: one[0])))


def routed(legs: Sequence[Leg], bodies: Bodies) -> list[Corners]:
    """The corners of each leg, in the order of the legs. What most wires share is laid first; ties as they come."""
    grounds: dict[str, _Ground] = {}
    for thing, (spot, across, down) in bodies.items():
        grounds.setdefault(spot.frame, _Ground()).add_body(thing, spot.point, across, down)
    groups: dict[tuple[tuple[str, str], tuple[str, str], bool], list[int]] = {}
    for number, leg in enumerate(legs):
        groups.setdefault((leg.start.thing, leg.finish.thing, leg.above), []).append(number)
    found: dict[int, Corners] = {}
    for group in sorted(groups.values(), key=lambda numbers: (-len(numbers), numbers[0])):
        ground = grounds.setdefault(legs[group[0]].start.frame, _Ground())
        turn = _best(legs[group[len(group) // 2]], ground)
        for number in group:
            found[number] = _whole(legs[number], turn)
            ground.use(found[number])
    return [found[number] for number in range(len(legs))]


def _best(leg: Leg, ground: _Ground) -> Turn:
    """The cheapest way: by length, bends, what is in the way, and what it shares with others."""
    but = (leg.start.thing, leg.finish.thing)
    a, b = leg.start.join, leg.finish.join
    halfway: list[Turn] = [("across", (a.x + b.x) / 2), ("down", (a.y + b.y) / 2)]
    every = dict.fromkeys([*_PLAIN, *_round(leg, ground, but), *ground.beside(a, b), *halfway])
    best, least = _PLAIN[0], float("inf")
    for turn in [turn for turn in every if _suits(leg, turn)] or _PLAIN:
        cost = _cost(_whole(leg, turn), ground, but, least)
        if cost < least:
            best, least = turn, cost
    return best


def _cost(corners: Corners, ground: _Ground, but: Sequence[tuple[str, str]], enough: float) -> float:
    """What a way costs, in mm; not worked out to the end where it is `enough` or more in any case."""
    stretches = list(pairwise(corners))
    bends = BEND_MM * (len(corners) - 2)
    lengths = [abs(a.x - b.x) + abs(a.y - b.y) for a, b in stretches]
    if (1 - SHARED_PART) * sum(lengths) + bends > enough + 1:
        return enough
    parts = [
        length
        - SHARED_PART * ground.shared(a, b)
        + sum(THROUGH_MM + BODY_TIMES * mm for mm, _ in ground.hit(a, b, but))
        for length, (a, b) in zip(lengths, stretches, strict=True)
    ]
    return sum(parts) + bends


_PLAIN: tuple[Turn, ...] = (("across", None), ("down", None))
"""With one corner."""


def _round(leg: Leg, ground: _Ground, but: Sequence[tuple[str, str]]) -> Iterator[Turn]:
    """Past either end of each body that a plain way would run through."""
    for turn in _PLAIN:
        for a, b in pairwise(_whole(leg, turn)):
            for _, (left, right, top, bottom, _) in ground.hit(a, b, but):
                yield from (("across", left - CLEAR_MM), ("down", top - CLEAR_MM))
                yield from (("across", right + CLEAR_MM), ("down", bottom + CLEAR_MM))


def _suits(leg: Leg, turn: Turn) -> bool:
    """Before a strip, wires run along it: they gather there."""
    corners = _between(leg.start.join, leg.finish.join, turn)
    stretches = list(pairwise(corners))
    if not stretches:
        return True
    return _along(leg.start, *stretches[0]) and _along(leg.finish, *stretches[-1])


def _along(node: Node, a: Point, b: Point) -> bool:
    return node.out is None or (node.out.x == 0) == (a.y == b.y)


def _whole(leg: Leg, turn: Turn) -> Corners:
    return _tidy((leg.start.at, *_between(leg.start.join, leg.finish.join, turn), leg.finish.at))


def _between(a: Point, b: Point, turn: Turn) -> Corners:
    first, at = turn
    if first == "across":
        x = b.x if at is None else at
        return _tidy((a, Point(x, a.y), Point(x, b.y), b))
    y = b.y if at is None else at
    return _tidy((a, Point(a.x, y), Point(b.x, y), b))


def _tidy(corners: Corners) -> Corners:
    """Without corners where nothing turns."""
    kept: list[Point] = []
    for corner in corners:
        if kept and abs(kept[-1].x - corner.x) < _SAME and abs(kept[-1].y - corner.y) < _SAME:
            continue
        if len(kept) > 1 and _straight(kept[-2], kept[-1], corner):
            kept.pop()
        kept.append(corner)
    return tuple(kept)


def _straight(a: Point, b: Point, c: Point) -> bool:
    """On one line, and not back again."""
    return (a.x == b.x == c.x and (b.y - a.y) * (c.y - b.y) > 0) or (
        a.y == b.y == c.y and (b.x - a.x) * (c.x - b.x) > 0
    )


def _on_line(a: Point, b: Point) -> tuple[tuple[Axis, float], float, float]:
    """The line on which a stretch lies, and from where to where."""
    if a.x == b.x:
        return ("down", round(a.x, 3)), min(a.y, b.y), max(a.y, b.y)
    return ("across", round(a.y, 3)), min(a.x, b.x), max(a.x, b.x)


def _cells(a: Point, b: Point) -> Iterator[tuple[int, int]]:
    for column in range(floor(min(a.x, b.x) / _CELL_MM), floor(max(a.x, b.x) / _CELL_MM) + 1):
        for row in range(floor(min(a.y, b.y) / _CELL_MM), floor(max(a.y, b.y) / _CELL_MM) + 1):
            yield column, row
