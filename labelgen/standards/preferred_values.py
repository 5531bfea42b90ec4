"""Values in which resistors are made: IEC 60063, series E3 to E24; powers in common use."""

from fractions import Fraction
from typing import Literal

Series = Literal["E3", "E6", "E12", "E24"]

IEC_60063: dict[Series, tuple[int, ...]] = {
    "E3": (10, 22, 47),
    "E6": (10, 15, 22, 33, 47, 68),
    "E12": (10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82),
    "E24": (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91),
}
"""Tenths of the values of one decade. Never computed: eight of them are not what 10^(k/24) rounds to."""
WATTS = (Fraction(1, 8), Fraction(1, 4), Fraction(1, 2), Fraction(1), Fraction(2), Fraction(5), Fraction(10))
"""Common practice, no source."""


def next_value_up(ohms: Fraction, series: Series = "E24") -> Fraction:
    """The smallest value of a series that is no smaller. `ValueError` unless it is above 0.

    Exact: a plain float division jumps a step too high where a value is met to the last digit.
    """
    if ohms <= 0:
        raise ValueError(f"{ohms} ohms is no resistor")
    decade = Fraction(1)
    while ohms > decade * 10:
        decade *= 10
    while ohms <= decade:
        decade /= 10
    return next(value for tenths in (*IEC_60063[series], 100) if (value := decade * tenths / 10) >= ohms)


def rating_for(watts: Fraction) -> Fraction | None:
    """The smallest power in common use that is at least twice what is burnt (common practice); None: there is none."""
    return next((rating for rating in WATTS if rating >= 2 * watts), None)
