"""What current copper wire carries: without end, and as one pulse. Amperes, mm², A²s."""

AMPS_PER_MM2 = 6.0
"""Without end, of a single wire or a few in a bundle. Common practice, from memory, no source: the careful end of what
is printed for equipment wire (7/0.2 1.4 A, 16/0.2 3 A, 32/0.2 6 A); tables differ by 2.5 to 1, the handbook column for
chassis wiring gives 24 AWG 3.5 A. So the builder's own figure goes before it."""
ADIABATIC_K = 115.0
"""A √s/mm²: copper under PVC (IEC 60364-5-54, adiabatic equation; from memory)."""


def careful_amps(copper_mm2: float) -> float:
    """What a wire of that much copper carries without end."""
    return AMPS_PER_MM2 * copper_mm2


def withstand_amps2_seconds(copper_mm2: float) -> float:
    """The I²t of one pulse that a wire stands: k² S², all its heat staying in the copper."""
    return (ADIABATIC_K * copper_mm2) ** 2
