"""Diodes on a strip: for how much current and reverse voltage they are bought, in the steps in which they are sold.

The steps, twice the current and twice the crest of the voltage: common practice, no source.
"""

from dataclasses import dataclass
from math import sqrt

AMPS = (1.0, 3.0, 6.0, 10.0)
REVERSE_VOLTS = (50, 100, 200, 400, 600, 800, 1000)
SURGE_AMPS = 30
"""What a usual 1 A diode bears for an instant: it is enough for the whole pulse of a coil. Common practice."""
MARGIN = 2


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class DiodeRating:
    """At least so much."""

    amps: float
    reverse_volts: int | None
    """None: the supply's volts are not known."""
    surge: bool
    """A pulse goes through it."""


def diode_rating(kind: str, volts: float | None, milliamps: float | None) -> DiodeRating:
    """For a supply of that kind (`pulse`, `ac`, `dc` …) and volts, effective ones of alternating current."""
    pulse = kind == "pulse"
    steady = 0.0 if pulse else MARGIN * (milliamps or 0.0) / 1000
    crest = None if volts is None else volts * (sqrt(2) if kind == "ac" else 1)
    return DiodeRating(
        amps=next((amps for amps in AMPS if amps >= steady), AMPS[-1]),
        reverse_volts=None
        if crest is None
        else next((step for step in REVERSE_VOLTS if step >= MARGIN * crest), REVERSE_VOLTS[-1]),
        surge=pulse,
    )
