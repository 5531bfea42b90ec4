"""How high a capital must be to be read at a distance.

NUREG-0700 rev. 3, 1.3.1-4 and 11.4.1.5-1: height = 2 d tan(angle / 2); labels at least 15 minutes of arc, 20 preferred.
"""

from math import pi, tan

LEAST_MINUTES = 15
PREFERRED_MINUTES = 20
READ_AT_MM = 300
"""How far a wire-end flag is from the eye of someone under a baseboard. Common practice, no source."""
HEADS_READ_AT_MM = 500


def cap_height(distance_mm: float, minutes: float) -> float:
    """Height in mm of a capital that is seen under `minutes` of arc at `distance_mm`."""
    return 2 * distance_mm * tan(minutes / 60 * pi / 180 / 2)


SMALLEST_CAP_MM = cap_height(READ_AT_MM, LEAST_MINUTES)
"""1.31 mm: nothing is printed smaller."""
HEADS_CAP_MM = cap_height(HEADS_READ_AT_MM, LEAST_MINUTES)
"""2.18 mm: no head or id is, where there is room."""
