"""How thick a bundle of wires is, and the hole that it goes through. Diameters are in mm, wires over their insulation.

Bundle, up to 20 equal wires: the smallest circle around N equal circles, by the published table (encyclopedia
"Circle packing in a circle", N = 1 to 20; proved best for 1 to 13 and 19, best known for the rest). Beyond, and for
wires of several sizes: 1.2 × the root of the sum of the squares, that is 25 wires of 1.6 mm in 9.6 mm (common
practice, no source).

Hole: one wire may fill 53 % of it, two 31 %, more 40 % (NEC, NFPA 70, chapter 9, table 1). That rule is for conduit;
for a hole through a cross-member it is a habit borrowed from the building trade.
"""

from collections.abc import Sequence
from math import sqrt

from labelgen.standards.drills import next_drill

CIRCLE_RATIOS = (
    1.0,
    2.0,
    2.15471,
    2.41422,
    2.70131,
    3.0,
    3.0,
    3.30477,
    3.61313,
    3.81303,
    3.92381,
    4.02961,
    4.23607,
    4.32843,
    4.52136,
    4.61543,
    4.79204,
    4.86371,
    4.86371,
    5.12233,
)
"""Diameter of the bundle of 1, 2, 3 … equal wires, in diameters of one.

Rounded up in the fifth decimal: the table is often printed cut off there, and a hole made by that is too small.
"""

AREA_FACTOR = 1.2
"""Times the root of the sum of the squares: wires laid loosely side by side fill 1 / 1.2² = 69 % of their bundle."""

FILL_LIMITS = (0.53, 0.31)
"""Of one wire and of two, as parts of the hole's area."""
FILL_LIMIT_OF_MORE = 0.40

_HAIR = 1e-9


def bundle_diameter(outside_diameters_mm: Sequence[float]) -> float:
    """Diameter of the bundle of those wires, in mm; 0 of none.

    Wires of several sizes: by the area rule, but never less than the thicker ones of them need by themselves, and
    never more than as many of the thickest need by the table. So a further or a thicker wire never makes it thinner.
    """
    thickest_first = sorted(outside_diameters_mm, reverse=True)
    if not thickest_first:
        return 0.0
    tabled = list(zip(CIRCLE_RATIOS, thickest_first, strict=False))
    by_area = AREA_FACTOR * sqrt(_squares(thickest_first))
    needed = max(by_area, sum(thickest_first[:2]), *(ratio * diameter for ratio, diameter in tabled))
    if len(thickest_first) > len(CIRCLE_RATIOS):
        return needed
    return min(needed, CIRCLE_RATIOS[len(thickest_first) - 1] * thickest_first[0])


def fill_limit(wires: int) -> float:
    """How much of a hole's area that many wires may take."""
    return FILL_LIMITS[wires - 1] if 1 <= wires <= len(FILL_LIMITS) else FILL_LIMIT_OF_MORE


def fill(hole_diameter_mm: float, outside_diameters_mm: Sequence[float]) -> float:
    """How much of the hole's area the wires take: 1 for all of it."""
    return _squares(outside_diameters_mm) / hole_diameter_mm**2


def fits(hole_diameter_mm: float, outside_diameters_mm: Sequence[float]) -> bool:
    """True when the wires take no more of the hole than they may, and their bundle goes through it."""
    within = fill(hole_diameter_mm, outside_diameters_mm) <= fill_limit(len(outside_diameters_mm)) + _HAIR
    return within and bundle_diameter(outside_diameters_mm) <= hole_diameter_mm + _HAIR


def least_hole(outside_diameters_mm: Sequence[float]) -> float:
    """Diameter in mm of the smallest hole through which the wires may go."""
    by_fill = sqrt(_squares(outside_diameters_mm) / fill_limit(len(outside_diameters_mm)))
    return max(by_fill, bundle_diameter(outside_diameters_mm))


def drill_for(outside_diameters_mm: Sequence[float]) -> float | None:
    """The smallest stocked drill for those wires; None when it takes more than one hole."""
    return next_drill(least_hole(outside_diameters_mm))


def _squares(diameters: Sequence[float]) -> float:
    return sum(diameter**2 for diameter in diameters)
