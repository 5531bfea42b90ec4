"""Self-laminating wraps: how a label winds around a wire, and how much of what is printed can be seen at once.

A wrap is wound from its white end: the white goes round the wire, and the clear tail over it. Wound flat, a length of
film keeps its area seen from the end, so that the roll's diameter follows from the wire's: D² = d² + 4 t l / π.
"""

from math import pi, sqrt

FILM_MM = 0.1
"""Thickness of the film with its glue. From memory, no source: measure ten layers where it matters."""
LEAST_TAIL_TURNS, MOST_TAIL_TURNS = 1.5, 3.0
"""Of the clear tail over the print: fewer come off, more make a lump. Common practice is 1.5 to 2; no source."""
SEEN_SHARE = 150 / 360
"""Of the circumference: what is turned away from the eye by more than 75° is squeezed to a quarter (cos 75° = 0.26)
and cannot be read. It leaves 1.6 mm of the 3.8 mm around 7/0.2."""


def rolled_mm(wire_mm: float, length_mm: float) -> float:
    """Outside diameter of a wire with so much film around it."""
    return sqrt(wire_mm**2 + 4 * FILM_MM * length_mm / pi)


def turns(wire_mm: float, length_mm: float) -> float:
    """How many turns so much film makes."""
    return (rolled_mm(wire_mm, length_mm) - wire_mm) / (2 * FILM_MM)


def tail_turns(wire_mm: float, white_mm: float, tail_mm: float) -> float:
    """How many turns the clear tail makes over the white."""
    return turns(rolled_mm(wire_mm, white_mm), tail_mm)


def print_circumference_mm(wire_mm: float, white_mm: float) -> float:
    """Around the wire with its white: so much of the print lies outside. What was wound before is hidden."""
    return pi * rolled_mm(wire_mm, white_mm)


def seen_mm(wire_mm: float, white_mm: float) -> float:
    """How much of that can be read from one side."""
    return SEEN_SHARE * print_circumference_mm(wire_mm, white_mm)


def wires_of_tail(white_mm: float, tail_mm: float) -> tuple[float, float]:
    """The thinnest and the thickest wire, by diameter, on which the tail makes as many turns as it should."""
    thin, thick = (_wire_of(white_mm, tail_mm, wanted) for wanted in (MOST_TAIL_TURNS, LEAST_TAIL_TURNS))
    return thin, thick


def wire_seen_at(seen: float, white_mm: float) -> float:
    """The thinnest wire on which so much of the print can be seen at once; mm of diameter, 0 for any."""
    return sqrt(max(0.0, (seen / SEEN_SHARE / pi) ** 2 - 4 * FILM_MM * white_mm / pi))


def _wire_of(white_mm: float, tail_mm: float, wanted: float) -> float:
    """From D2 − D1 = 2 t n and D2² − D1² = 4 t l / π the diameter over the white is l / (π n) − t n."""
    over_white = tail_mm / (pi * wanted) - FILM_MM * wanted
    squared = over_white**2 - 4 * FILM_MM * white_mm / pi
    return sqrt(squared) if over_white > 0 and squared > 0 else 0.0
