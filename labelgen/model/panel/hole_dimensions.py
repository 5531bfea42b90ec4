"""Where a new hole of a panel is, measured from two that are drilled: with dividers, no edge of the panel is needed."""

from collections.abc import Mapping
from itertools import combinations
from math import hypot

Place = tuple[float, float]
GOOD_CROSSING = 0.5
"""Sine of the angle at which the two circles cross, at least: 30 degrees. Flatter, they hardly tell a place."""


def dimensioned(at: Place, old: Mapping[str, Place]) -> tuple[tuple[tuple[str, float], ...], str]:
    """Two old holes with their distances (mm), and which of the two crossings it is; nothing where there are not two.

    The nearest two that cross well, else the two that cross best. Places as seen on the face, y down.
    """
    apart = {mark: hypot(at[0] - x, at[1] - y) for mark, (x, y) in old.items()}
    pairs = list(combinations(sorted(old, key=lambda mark: apart[mark]), 2))
    good = [pair for pair in pairs if _crossing(at, old, pair) >= GOOD_CROSSING]
    if not pairs:
        return (), ""
    pair = (
        min(good, key=lambda two: apart[two[0]] + apart[two[1]])
        if good
        else max(pairs, key=lambda two: _crossing(at, old, two))
    )
    return tuple((mark, apart[mark]) for mark in pair), _side(at, old[pair[0]], old[pair[1]])


def _crossing(at: Place, old: Mapping[str, Place], pair: tuple[str, str]) -> float:
    """Sine of the angle between the lines to two holes; 0 for one in the same place."""
    (ax, ay), (bx, by) = ((old[mark][0] - at[0], old[mark][1] - at[1]) for mark in pair)
    lengths = hypot(ax, ay) * hypot(bx, by)
    return abs(ax * by - ay * bx) / lengths if lengths else 0.0


def _side(at: Place, one: Place, other: Place) -> str:
    """The way from the other crossing, which is its mirror image in the line through both holes, to this one."""
    along = (other[0] - one[0], other[1] - one[1])
    length = hypot(*along)
    if not length:
        return ""
    off = (along[0] * (at[1] - one[1]) - along[1] * (at[0] - one[0])) / length
    if abs(off) < 0.5:
        return "in line"
    across = (-along[1] / length * off, along[0] / length * off)
    if abs(across[0]) > abs(across[1]):
        return "right" if across[0] > 0 else "left"
    return "below" if across[1] > 0 else "above"
