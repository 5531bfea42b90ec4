"""Thirteen patterns that stay apart on a photocopy: black-and-white shapes in a rectangle, cut exactly at its edges.

Each gives convex runs of corners to be filled as one path. Runs never overlap, and a hole runs the other way round
than what it is cut from, so that both rules of filling (even-odd, non-zero) paint the same.
"""

from collections.abc import Callable, Iterator
from math import cos, hypot, pi, sin

from labelgen.lengths import Rectangle
from labelgen.model.drawing import Corner

Run = tuple[Corner, ...]
Pattern = Callable[[Rectangle], Iterator[Run]]

FULL_HEIGHT = 3.0
"""mm: how high a mark must be for strokes of their full weight."""


def _weight(rectangle: Rectangle) -> float:
    """1 in a mark 3 mm high or wide; less in a smaller one, but never so fine that a photocopy closes it up."""
    return min(1.0, max(0.6, min(rectangle.width, rectangle.height) / FULL_HEIGHT))


def _box(x: float, y: float, width: float, height: float) -> Run:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def _round(x: float, y: float, radius: float, *, hole: bool = False) -> Run:
    turn = -1 if hole else 1
    return tuple((x + radius * cos(turn * step * pi / 8), y + radius * sin(turn * step * pi / 8)) for step in range(16))


def _stripes(length: float, *, pitch: float, stripe: float) -> list[float]:
    """Where stripes start along a length, evenly, with the same margin before the first and after the last."""
    count = max(1, round(length / pitch))
    step = length / count
    return [step * index + (step - stripe) / 2 for index in range(count)]


def solid(r: Rectangle) -> Iterator[Run]:
    yield _box(r.x, r.y, r.width, r.height)


def core(r: Rectangle) -> Iterator[Run]:
    """A block in the middle, with a rim left around it."""
    rim = min(r.width, r.height) / 4
    yield _box(r.x + rim, r.y + rim, r.width - 2 * rim, r.height - 2 * rim)


def plain(r: Rectangle) -> Iterator[Run]:  # noqa: ARG001
    yield from ()


def vertical(r: Rectangle) -> Iterator[Run]:
    stripe = 0.32 * _weight(r)
    for x in _stripes(r.width, pitch=0.95 * _weight(r), stripe=stripe):
        yield _box(r.x + x, r.y, stripe, r.height)


def horizontal(r: Rectangle) -> Iterator[Run]:
    stripe = 0.34 * _weight(r)
    for y in _stripes(r.height, pitch=1.0 * _weight(r), stripe=stripe):
        yield _box(r.x, r.y + y, r.width, stripe)


def bars(r: Rectangle) -> Iterator[Run]:
    """Broad upright bars, as broad as what lies between them."""
    stripe = 1.1 * _weight(r)
    for x in _stripes(r.width, pitch=2 * stripe, stripe=stripe):
        yield _box(r.x + x, r.y, stripe, r.height)


def grid(r: Rectangle) -> Iterator[Run]:
    stripe = 0.26 * _weight(r)
    across = _stripes(r.height, pitch=1.3 * _weight(r), stripe=stripe)
    for y in across:
        yield _box(r.x, r.y + y, r.width, stripe)
    tops = [0.0, *(y + stripe for y in across)]
    for x in _stripes(r.width, pitch=1.3 * _weight(r), stripe=stripe):
        for top, bottom in zip(tops, [*across, r.height], strict=True):
            yield _box(r.x + x, r.y + top, stripe, bottom - top)


def _slanted(r: Rectangle, box: Run, lean: int) -> Run:
    """A box in axes turned by 45° about the middle of `r`; `lean` 1: the first axis falls to the right."""
    half = 0.5**0.5
    middle_x, middle_y = r.x + r.width / 2, r.y + r.height / 2
    return tuple((middle_x + (a - lean * b) * half, middle_y + (lean * a + b) * half) for a, b in box)


def _diagonals(r: Rectangle, lean: int) -> Iterator[Run]:
    stripe, pitch = 0.42 * _weight(r), 1.1 * _weight(r)
    reach = hypot(r.width, r.height) / 2
    for step in range(-int(reach / pitch) - 1, int(reach / pitch) + 2):
        yield _slanted(r, _box(-reach, step * pitch - stripe / 2, 2 * reach, stripe), lean)


def diagonal(r: Rectangle) -> Iterator[Run]:
    """Rising to the right."""
    return _diagonals(r, -1)


def back_diagonal(r: Rectangle) -> Iterator[Run]:
    """Falling to the right."""
    return _diagonals(r, 1)


def cross(r: Rectangle) -> Iterator[Run]:
    """Both diagonals; the second lot is cut where it meets the first, so that nothing is covered twice."""
    stripe, pitch = 0.28 * _weight(r), 1.25 * _weight(r)
    reach = hypot(r.width, r.height) / 2
    steps = range(-int(reach / pitch) - 1, int(reach / pitch) + 2)
    for step in steps:
        yield _slanted(r, _box(-reach, step * pitch - stripe / 2, 2 * reach, stripe), 1)
        for other in steps:
            start = step * pitch + stripe / 2
            yield _slanted(r, _box(other * pitch - stripe / 2, start, stripe, pitch - stripe), 1)


def _lattice(r: Rectangle, pitch: float) -> Iterator[Corner]:
    """Centres in even rows and columns."""
    columns, rows = max(1, round(r.width / pitch)), max(1, round(r.height / pitch))
    for row in range(rows):
        for column in range(columns):
            yield r.x + r.width * (column + 0.5) / columns, r.y + r.height * (row + 0.5) / rows


def dots(r: Rectangle) -> Iterator[Run]:
    pitch = 1.05 * _weight(r)
    for x, y in _lattice(r, pitch):
        yield _round(x, y, 0.3 * pitch)


def rings(r: Rectangle) -> Iterator[Run]:
    """One row of large rings."""
    size = 0.75 * min(r.width, r.height)
    upright = r.height > r.width
    count = max(1, int((r.height if upright else r.width) / (1.25 * size)))
    for index in range(count):
        along = (index + 0.5) / count
        x = r.x + r.width * (0.5 if upright else along)
        y = r.y + r.height * (along if upright else 0.5)
        yield _round(x, y, size / 2)
        yield _round(x, y, size / 2 - 0.2 * size, hole=True)


def zigzag(r: Rectangle) -> Iterator[Run]:
    """One bold line, up and down, from edge to edge."""
    if r.height > r.width:
        for run in zigzag(Rectangle(r.y, r.x, r.height, r.width)):
            yield tuple((x, y) for y, x in reversed(run))
        return
    thick, swing = 0.3 * r.height, 0.26 * r.height
    teeth = max(2, 2 * round(r.width / (1.1 * r.height)))
    step, middle = r.width / teeth, r.y + r.height / 2
    for tooth in range(teeth):
        start, end = (swing, -swing) if tooth % 2 == 0 else (-swing, swing)
        left, right = r.x + tooth * step, r.x + (tooth + 1) * step
        yield (
            (left, middle + start - thick / 2),
            (right, middle + end - thick / 2),
            (right, middle + end + thick / 2),
            (left, middle + start + thick / 2),
        )


def triangles(r: Rectangle) -> Iterator[Run]:
    """One row of large triangles that point along it."""
    if r.height > r.width:
        for run in triangles(Rectangle(r.y, r.x, r.height, r.width)):
            yield tuple((x, y) for y, x in reversed(run))
        return
    count = max(1, round(r.width / (0.95 * r.height)))
    step, half = r.width / count, 0.42 * r.height
    middle = r.y + r.height / 2
    for index in range(count):
        left, right = r.x + (index + 0.1) * step, r.x + (index + 0.9) * step
        yield ((left, middle - half), (right, middle), (left, middle + half))


PATTERN_RUNS: dict[str, Pattern] = {
    "solid": solid,
    "diagonal": diagonal,
    "back-diagonal": back_diagonal,
    "vertical": vertical,
    "horizontal": horizontal,
    "cross": cross,
    "grid": grid,
    "dots": dots,
    "zigzag": zigzag,
    "bars": bars,
    "rings": rings,
    "triangles": triangles,
    "plain": plain,
}
"""By the names of `standards.functions.PATTERNS`."""


def cut(run: Run, r: Rectangle) -> Run:
    """The part of a convex run that lies in the rectangle; empty when none does (Sutherland and Hodgman, 1974)."""
    for axis, edge, sign in ((0, r.x, 1), (0, r.right, -1), (1, r.y, 1), (1, r.bottom, -1)):
        run = _cut_at(run, axis=axis, edge=edge, sign=sign)
    return run if _area(run) > 1e-6 else ()


def _area(run: Run) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(run, run[1:] + run[:1], strict=True))) / 2


def _cut_at(run: Run, *, axis: int, edge: float, sign: int) -> Run:
    kept: list[Corner] = []
    for index, corner in enumerate(run):
        before = run[index - 1]
        inside, was_inside = (sign * (c[axis] - edge) >= 0 for c in (corner, before))
        if inside != was_inside:
            share = (edge - before[axis]) / (corner[axis] - before[axis])
            other = before[1 - axis] + share * (corner[1 - axis] - before[1 - axis])
            kept.append((edge, other) if axis == 0 else (other, edge))
        if inside:
            kept.append(corner)
    return tuple(kept)
