"""How colours look to those who see fewer of them, and how far two colours then differ.

Protan and deutan: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color Vision
Deficiency", IEEE Transactions on Visualization and Computer Graphics 15 (2009), severity 1.0. Tritan, for which that
model is not held to be valid: Brettel, Viénot and Mollon, "Computerized simulation of color appearance for
dichromats", Journal of the Optical Society of America A 14 (1997). Matrices work on linear sRGB.
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import permutations
from typing import Literal

from labelgen.standards.colour_difference import Linear, ciede2000, lab, linear

Vision = Literal["normal", "protan", "deutan", "tritan"]
Matrix = tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]]

VISIONS: tuple[Vision, ...] = ("normal", "protan", "deutan", "tritan")
SEEN_BY: dict[Vision, str] = {
    "normal": "all eyes",
    "protan": "eyes that lack red (protan)",
    "deutan": "eyes that lack green (deutan)",
    "tritan": "eyes that lack blue (tritan)",
}
LEAST_APART = 15.0
"""Colours that differ by less than this, to whatever eyes, are taken for one another on a label.

About 16 is the most that twelve colours can have which keep their names: found by search.
"""

_MACHADO: dict[Vision, Matrix] = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
}
_BRETTEL_SPLIT = (0.03901, -0.02788, -0.01113)
_BRETTEL_TRITAN: tuple[Matrix, Matrix] = (
    ((1.01277, 0.13548, -0.14826), (-0.01243, 0.86812, 0.14431), (0.07589, 0.80500, 0.11911)),
    ((0.93678, 0.18979, -0.12657), (0.06154, 0.81526, 0.12320), (-0.37562, 1.12767, 0.24796)),
)
"""On the one side of the plane of greys, and on the other."""


def seen(light: Linear, vision: Vision) -> Linear:
    """What light looks like to others, kept within what a screen can show."""
    if vision == "normal":
        return light
    red, green, blue = (min(1.0, max(0.0, _dot(row, light))) for row in _matrix(light, vision))
    return red, green, blue


def _matrix(light: Linear, vision: Vision) -> Matrix:
    return _MACHADO[vision] if vision in _MACHADO else _BRETTEL_TRITAN[_dot(_BRETTEL_SPLIT, light) < 0]


def _dot(row: Linear, light: Linear) -> float:
    return row[0] * light[0] + row[1] * light[1] + row[2] * light[2]


@lru_cache(maxsize=4096)
def difference(one: str, other: str, vision: Vision) -> float:
    """CIEDE2000 of two paints (`#rrggbb`), to such eyes."""
    return ciede2000(lab(seen(linear(one), vision)), lab(seen(linear(other), vision)))


def least_difference(ones: Sequence[str], others: Sequence[str]) -> tuple[float, Vision]:
    """How far two wires of one or two colours differ to those eyes to which they differ least.

    A wire turns, so its two colours may be seen either way round; that one of them differs is enough.
    """
    return min(((_difference(ones, others, vision), vision) for vision in VISIONS), key=lambda found: found[0])


def _difference(ones: Sequence[str], others: Sequence[str], vision: Vision) -> float:
    first, second = (ones[0], ones[-1]), (others[0], others[-1])
    return min(
        max(difference(a, b, vision) for a, b in zip(first, turned, strict=True)) for turned in permutations(second)
    )
