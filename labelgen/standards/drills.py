"""Drills that are kept in stock: the metric series of BS 328.

1.00 to 2.95 mm by 0.05, 3.0 to 13.9 mm by 0.1, 14 to 25 mm by 0.25. The series starts at 0.20 mm; what is thinner
than 1 mm is left out, for no wire goes through it.
"""

from bisect import bisect_left

DRILLS_MM = tuple(
    hundredths / 100 for hundredths in (*range(100, 300, 5), *range(300, 1400, 10), *range(1400, 2501, 25))
)
LARGEST_DRILL_MM = DRILLS_MM[-1]

_HAIR = 1e-9
"""What floating point adds to a diameter does not ask for the next drill."""


def is_stocked(diameter_mm: float) -> bool:
    """Whether there is a drill of that very diameter."""
    drill = next_drill(diameter_mm)
    return drill is not None and drill - diameter_mm < _HAIR


def next_drill(diameter_mm: float) -> float | None:
    """The smallest stocked drill that makes a hole of that diameter at least; None when there is none so large."""
    index = bisect_left(DRILLS_MM, diameter_mm - _HAIR)
    return DRILLS_MM[index] if index < len(DRILLS_MM) else None
