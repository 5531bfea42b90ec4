"""What copper wire resists.

Resistivity: IEC 60028:1925, annealed copper, 1/58 Ω mm²/m at 20 °C. Limits of cables: IEC 60228:2004, tables 1 to 3.
"""

from typing import Literal

from labelgen.standards.conductors import parse_size

OHM_MM2_PER_METRE = 1 / 58
"""At 20 °C."""
PER_KELVIN = 0.00393
"""Of annealed copper at 20 °C (IEC 60028). The factors printed with IEC 60228 follow 0.004 instead."""
PER_KELVIN_IEC_60228 = 0.004

Class = Literal[1, 2, 5, 6]
IEC_60228_OHMS_PER_KM: dict[float, tuple[float, float]] = {
    0.5: (36.0, 39.0),
    0.75: (24.5, 26.0),
    1.0: (18.1, 19.5),
    1.5: (12.1, 13.3),
    2.5: (7.41, 7.98),
    4.0: (4.61, 4.95),
}
"""Nominal mm²: most ohms a kilometre at 20 °C, plain copper: classes 1 and 2 (equal here), classes 5 and 6 (equal)."""


def iec_60228_ohms_per_metre(nominal_mm2: float, of_class: Class = 5) -> float:
    """The most that a cable core of a nominal size may resist at 20 °C.

    `ValueError` for a size that the standard does not have (its smallest is 0.5 mm²), or a class (there is no 3 or 4).
    """
    if of_class not in (1, 2, 5, 6):
        raise ValueError(f"IEC 60228 has no class {of_class}")
    if nominal_mm2 not in IEC_60228_OHMS_PER_KM:
        raise ValueError(f"IEC 60228 has no {nominal_mm2:g} mm²")
    stiff, flexible = IEC_60228_OHMS_PER_KM[nominal_mm2]
    return (flexible if of_class > 2 else stiff) / 1000


def ohms_per_metre(size: str) -> float:
    """Of a wire of a size at 20 °C, one way.

    Strands and gauges by geometry; a size in mm² by the limit of IEC 60228 class 5 where the standard has it, by
    geometry elsewhere. `ValueError` when the text is no size.
    """
    parsed = parse_size(size)
    if parsed is None:
        raise ValueError(f"{size!r} is no wire size")
    if parsed.notation.endswith("mm²") and parsed.copper_mm2 in IEC_60228_OHMS_PER_KM:
        return iec_60228_ohms_per_metre(parsed.copper_mm2)
    return OHM_MM2_PER_METRE / parsed.copper_mm2


def at_celsius(ohms_at_20: float, celsius: float) -> float:
    """Resistance at another temperature: R = R20 (1 + 0.00393 (t − 20))."""
    return ohms_at_20 * (1 + PER_KELVIN * (celsius - 20))
