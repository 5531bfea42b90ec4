"""The edge of a thick line with round ends, as one closed run: an engraver fills it. Millimetres, y down."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, sin, tan

from labelgen.model.drawing import Box, Circle, Corner

_ARC_STEP = pi / 16
"""A round end of a line of 6 mm strays less than 0.02 mm from a true arc."""
_QUARTER = 32
"""Steps of a quarter: at 30 mm they stray less than 0.01 mm from a true arc."""
_STRAIGHT = 1e-6


def stroke_outline(run: Sequence[Corner], width: float) -> tuple[Corner, ...]:
    """Along the left side of the run, around its end, and back along the other; a run that closes ends where it began.

    Outer corners are round; inner ones meet in a point where the pieces beside them are long enough for it.
    """
    corners = [run[0], *(b for a, b in pairwise(run) if a != b)]
    if len(corners) == 1:
        return tuple(_arc(corners[0], width / 2, 0, 2 * pi - _ARC_STEP))
    return (*_side(corners, width / 2), *_side(corners[::-1], width / 2))


def round_edge(shape: Circle | Box, off: float) -> tuple[Corner, ...]:
    """The edge of a circle or a box, that far outside of it, as one closed run."""
    if isinstance(shape, Circle):
        x, y, across, down, radius = shape.x, shape.y, 0.0, 0.0, shape.radius + off
    else:
        x, y = shape.x + shape.width / 2, shape.y + shape.height / 2
        across, down, radius = shape.width / 2 - shape.radius, shape.height / 2 - shape.radius, shape.radius + off
        across, down, radius = across + min(radius, 0), down + min(radius, 0), max(radius, 0)
    quarters = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    return tuple(
        (x + way_x * across + radius * cos(turn), y + way_y * down + radius * sin(turn))
        for quarter, (way_x, way_y) in enumerate(quarters)
        for turn in (pi / 2 * (quarter + step / _QUARTER) for step in range(_QUARTER + 1 if radius else 1))
    )


def _side(corners: Sequence[Corner], reach: float) -> Iterator[Corner]:
    """One side of the run, and around its end."""
    headings = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(corners)]
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(corners)]
    yield _beside(corners[0], headings[0], reach)
    for index, corner in enumerate(corners[1:-1]):
        yield from _around(corner, headings[index], headings[index + 1], min(lengths[index : index + 2]), reach)
    yield from _arc(corners[-1], reach, headings[-1] - pi / 2, headings[-1] + pi / 2)


def _around(corner: Corner, before: float, after: float, room: float, reach: float) -> Iterator[Corner]:
    turn = (after - before + pi) % (2 * pi) - pi
    if turn > _STRAIGHT:  # away from this side
        yield from _arc(corner, reach, before - pi / 2, before - pi / 2 + turn)
    elif turn < -_STRAIGHT and reach * abs(tan(turn / 2)) < room:
        middle, out = before + turn / 2 - pi / 2, reach / cos(turn / 2)
        yield corner[0] + out * cos(middle), corner[1] + out * sin(middle)
    else:
        yield _beside(corner, before, reach)
        yield _beside(corner, after, reach)


def _beside(corner: Corner, heading: float, reach: float) -> Corner:
    return corner[0] + reach * cos(heading - pi / 2), corner[1] + reach * sin(heading - pi / 2)


def _arc(centre: Corner, radius: float, start: float, end: float) -> Iterator[Corner]:
    steps = max(1, ceil(abs(end - start) / _ARC_STEP - 1e-9))
    for step in range(steps + 1):
        angle = start + (end - start) * step / steps
        yield centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)
