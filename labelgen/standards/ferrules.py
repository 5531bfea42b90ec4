"""Ferrules: the size that fits a stranded wire, and how much insulation comes off for it.

Which ferrule for which wire: 0.25 mm² for 7/0.2, 0.5 for 16/0.2, 0.75 for 24/0.2, 1.0 for 32/0.2, and 6 mm of bare
wire for small ones, 8 to 10 mm for larger (makers of terminals; common practice). The series of sizes and where a
small one ends are common practice, no source.
"""

from dataclasses import dataclass

from labelgen.standards.conductors import parse_size

FERRULES_MM2 = (0.14, 0.25, 0.34, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0)
OVER_NOMINAL = 1.05
"""A wire may hold a little more copper than its ferrule's name says: 16/0.2 is 0.503 mm², and 20 AWG 0.518."""

_BARE_MM = ((0.34, 6), (1.5, 8), (FERRULES_MM2[-1], 10))
"""Up to that size of ferrule: mm of insulation that come off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ferrule:
    mm2: float
    """Its size, by the copper that it holds."""
    bare_mm: int
    """How much insulation comes off the wire's end."""

    @property
    def notation(self) -> str:
        return f"{self.mm2:g} mm²"


def ferrule_for(size_text: str) -> Ferrule | None:
    """The ferrule for a wire of that size; None for a solid wire, which needs none, and for what is no size."""
    size = parse_size(size_text)
    if size is None or size.notation.startswith("1/"):
        return None
    mm2 = next(mm2 for mm2 in FERRULES_MM2 if size.copper_mm2 <= mm2 * OVER_NOMINAL)
    return Ferrule(mm2=mm2, bare_mm=next(bare for most, bare in _BARE_MM if mm2 <= most))
