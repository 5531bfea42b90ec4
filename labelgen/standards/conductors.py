"""How thick a wire is: strands, copper and insulation.

Three ways of writing a size are understood: strands/strand diameter in mm (`16/0.2`), copper in mm² (`0.5 mm2`,
`0.5`) and American wire gauge (`20 AWG`, `AWG 20`; ASTM B258).
"""

import re
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import pi, sqrt

_NUMBER = r"(\d+(?:\.\d+)?|\.\d+)"
_STRANDS = re.compile(rf"(\d{{1,4}})\s*/\s*{_NUMBER}(?:\s*mm)?", re.ASCII)
_AREA = re.compile(rf"{_NUMBER}\s*(?:mm2|mm²|mm\^2|sq\s?mm)?", re.ASCII | re.IGNORECASE)
_GAUGE = re.compile(r"(?:AWG\s*-?\s*(\d{1,2})|(\d{1,2})\s*-?\s*AWG)", re.ASCII | re.IGNORECASE)

LEAST_MM2, MOST_MM2 = 0.004, 10.0
"""40 AWG to about 8 AWG: nothing thinner or thicker is screwed into a strip under a baseboard. It also keeps a lone
`20`, which most likely means a gauge, from being read as 20 mm²."""

_STRAND_MM = 0.2
_OVER_PVC = ((7, 1.2), (16, 1.6), (24, 2.05), (32, 2.6))
"""Strands of 0.2 mm, and outside diameter in mm. Common practice, from memory, no source: measure where it matters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductorSize:
    copper_mm2: float
    notation: str
    """The one way in which this size is printed: `16/0.2`, `0.5 mm²`, `20 AWG`."""


@lru_cache(maxsize=4096)
def parse_size(text: str) -> ConductorSize | None:
    """The size that a text names; None when it names none, or one that is no layout wire."""
    size = _as_strands(text.strip()) or _as_gauge(text.strip()) or _as_area(text.strip())
    return size if size is not None and LEAST_MM2 <= size.copper_mm2 <= MOST_MM2 else None


def is_size(text: str) -> bool:
    """Whether a text names a size."""
    return parse_size(text) is not None


def copper_area_mm2(text: str) -> float:
    """Area of the copper. `ValueError` when the text is no size."""
    return _parsed(text).copper_mm2


def size_notation(text: str) -> str:
    """A size, written the one way in which it is printed. `ValueError` when the text is no size."""
    return _parsed(text).notation


def strand_notation(text: str) -> str:
    """Strands of 0.2 mm that hold most nearly the same copper: `0.5 mm2` and `20 AWG` give `16/0.2`.

    What is written in strands stays as written. `ValueError` when the text is no size.
    """
    size = _parsed(text)
    if "/" in size.notation:
        return size.notation
    return f"{max(1, round(size.copper_mm2 / _round_area(_STRAND_MM)))}/{_STRAND_MM:g}"


def gauge_diameter_mm(gauge: int) -> float:
    """Diameter of the solid wire of an American wire gauge: 0.127 × 92^((36 − n) / 39) mm (ASTM B258)."""
    return float(0.127 * 92 ** ((36 - gauge) / 39))


def outside_diameter_mm(size_text: str) -> float:
    """Diameter over the insulation; grows with the copper. `ValueError` when the text is no size.

    Between the sizes of the table in a straight line over the copper's area. Thinner: the same 0.3 mm wall as on
    7/0.2. Thicker: in proportion to the copper's diameter.
    """
    copper = copper_area_mm2(size_text)
    table = [(strands * _round_area(_STRAND_MM), outside) for strands, outside in _OVER_PVC]
    (thinnest, first), (thickest, last) = table[0], table[-1]
    if copper <= thinnest:
        return first / 2 * (1 + sqrt(copper / thinnest))
    for (area, outside), (next_area, next_outside) in pairwise(table):
        if copper <= next_area:
            return outside + (next_outside - outside) * (copper - area) / (next_area - area)
    return last * sqrt(copper / thickest)


def _parsed(text: str) -> ConductorSize:
    size = parse_size(text)
    if size is None:
        raise ValueError(f"{text!r} is no wire size")
    return size


def _round_area(diameter: float) -> float:
    return pi / 4 * diameter**2


def _as_strands(text: str) -> ConductorSize | None:
    found = _STRANDS.fullmatch(text)
    if found is None:
        return None
    strands, diameter = int(found[1]), float(found[2])
    return ConductorSize(copper_mm2=strands * _round_area(diameter), notation=f"{strands}/{diameter:g}")


def _as_gauge(text: str) -> ConductorSize | None:
    found = _GAUGE.fullmatch(text)
    if found is None:
        return None
    gauge = int(found[1] or found[2])
    return ConductorSize(copper_mm2=_round_area(gauge_diameter_mm(gauge)), notation=f"{gauge} AWG")


def _as_area(text: str) -> ConductorSize | None:
    found = _AREA.fullmatch(text)
    return found and ConductorSize(copper_mm2=float(found[1]), notation=f"{float(found[1]):g} mm²")
