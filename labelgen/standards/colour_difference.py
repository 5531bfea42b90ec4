"""How different two colours are to the eye: CIEDE2000.

Formula: CIE 142-2001, ISO/CIE 11664-6; worked out, with test pairs, by Sharma, Wu and Dalal, "The CIEDE2000
Color-Difference Formula: Implementation Notes, Supplementary Test Data, and Mathematical Observations", Color
Research and Application 30 (2005). 1 is about what is just seen side by side.
"""

from functools import cache
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

Linear = tuple[float, float, float]
"""Red, green and blue light, 0 to 1 (linear sRGB)."""
Lab = tuple[float, float, float]
"""CIE L*a*b* under D65, 2 degrees."""

_TO_XYZ = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
"""IEC 61966-2-1, equation 7."""
_WHITE = (0.9505, 1.0, 1.0890)
"""D65 as that matrix gives it."""
_25_7 = 25.0**7


@cache
def linear(paint: str) -> Linear:
    """The light of `#rrggbb` (IEC 61966-2-1, 5.2)."""
    red, green, blue = (int(paint[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return _light(red), _light(green), _light(blue)


def _light(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def lab(light: Linear) -> Lab:
    """Light as it is seen (CIE 15, 8.2.1)."""
    x, y, z = (
        _root(sum(share * each for share, each in zip(row, light, strict=True)) / white)
        for row, white in zip(_TO_XYZ, _WHITE, strict=True)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _root(value: float) -> float:
    return float(value ** (1 / 3)) if value > (6 / 29) ** 3 else value * (29 / 6) ** 2 / 3 + 4 / 29


def ciede2000(one: Lab, other: Lab) -> float:
    """The difference of two colours; equations and their numbers by Sharma, Wu and Dalal (2005)."""
    (c1, h1), (c2, h2), (dl, dc, dh) = _polar(one, other)
    mean_l, mean_c, mean_h = (one[0] + other[0]) / 2, (c1 + c2) / 2, _mean_hue(c1, h1, c2, h2)
    t = (  # (15)
        1
        - 0.17 * cos(radians(mean_h - 30))
        + 0.24 * cos(radians(2 * mean_h))
        + 0.32 * cos(radians(3 * mean_h + 6))
        - 0.20 * cos(radians(4 * mean_h - 63))
    )
    theta = 30 * exp(-(((mean_h - 275) / 25) ** 2))  # (16)
    lightness = dl / (1 + 0.015 * (mean_l - 50) ** 2 / sqrt(20 + (mean_l - 50) ** 2))  # (18)
    chroma = dc / (1 + 0.045 * mean_c)  # (19)
    hue = dh / (1 + 0.015 * mean_c * t)  # (20)
    turned = -sin(radians(2 * theta)) * 2 * sqrt(mean_c**7 / (mean_c**7 + _25_7))  # (17), (21)
    return sqrt(lightness**2 + chroma**2 + hue**2 + turned * chroma * hue)  # (22)


def _polar(one: Lab, other: Lab) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float, float]]:
    """Chroma and hue of each (equations 2 to 7), and what they differ by in lightness, chroma, hue (8 to 11)."""
    mean = (hypot(*one[1:]) + hypot(*other[1:])) / 2
    grey = 0.5 * (1 - sqrt(mean**7 / (mean**7 + _25_7)))
    (c1, h1), (c2, h2) = (_chroma_and_hue((1 + grey) * a, b) for _, a, b in (one, other))
    turn = h2 - h1 if c1 * c2 else 0.0
    turn -= 360 if turn > 180 else -360 if turn < -180 else 0
    return (c1, h1), (c2, h2), (other[0] - one[0], c2 - c1, 2 * sqrt(c1 * c2) * sin(radians(turn / 2)))


def _chroma_and_hue(a: float, b: float) -> tuple[float, float]:
    return hypot(a, b), degrees(atan2(b, a)) % 360


def _mean_hue(c1: float, h1: float, c2: float, h2: float) -> float:
    """The hue half way between two; of a colour without one, the other's (14)."""
    total = h1 + h2
    if c1 * c2 == 0:
        return total
    if abs(h1 - h2) <= 180:
        return total / 2
    return (total + 360) / 2 if total < 360 else (total - 360) / 2
