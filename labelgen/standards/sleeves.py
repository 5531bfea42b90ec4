"""Sleeves for wire ends: which bore goes over a wire and, shrunk to half of it, holds on to it.

The bores are those of shrinking sleeves as they are sold, in steps of 1/64 to 1/8 inch; they shrink 2:1. Common
practice, no source: the figure printed on the sleeve counts.
"""

from math import pi

BORES_MM = (1.2, 1.6, 2.4, 3.2, 4.8, 6.4, 9.5, 12.7)
SHRINKS_TO = 0.5
"""Of its bore."""
PLAY_MM = 0.3
"""Of the bore over the wire: a slip of paper goes between the two, and the sleeve must slide."""


def bore_for(wire_mm: float) -> float | None:
    """The next bore above a wire's diameter that grips it once it is shrunk; None where there is none."""
    bore = next((bore for bore in BORES_MM if bore >= wire_mm + PLAY_MM - 1e-9), None)
    return bore if bore is not None and bore * SHRINKS_TO < wire_mm else None


def sleeved_wires_mm() -> tuple[float, float]:
    """The thinnest and the thickest wire for which there is a bore; the thinnest is just not gripped any more."""
    return BORES_MM[0] * SHRINKS_TO, BORES_MM[-1] - PLAY_MM


def around_mm(wire_mm: float) -> float:
    """Once around the wire."""
    return pi * wire_mm
