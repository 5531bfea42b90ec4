"""A charged capacitor bank emptied through wire and coil. Ohms, farads, volts, seconds, joules, amperes.

Discharge and charge follow an exponential of time over R C (college physics, circuits with resistor and capacitor).
"""

from dataclasses import dataclass
from math import exp, log

FULL_TIME_CONSTANTS = 5
"""After five time constants a bank counts as charged: 99.3 % (rule of common practice; others take seven)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pulse:
    """One discharge to the end through a resistance."""

    farads: float
    volts: float
    ohms: float
    """Of the whole loop: wire there and back, coil, and what else is in it."""
    drop_volts: float = 0.0
    """Of diodes in the loop: what stays in the bank at the end."""

    @property
    def stored_joules(self) -> float:
        return self.farads * self.volts**2 / 2

    @property
    def spent_joules(self) -> float:
        """What the resistances of the loop share: C (V − Vd)² / 2."""
        return self.farads * self._driving_volts**2 / 2

    @property
    def peak_amps(self) -> float:
        """At the first moment, if nothing but resistance held the current back."""
        return self._driving_volts / self.ohms

    @property
    def time_constant(self) -> float:
        return self.farads * self.ohms

    @property
    def amps_squared_seconds(self) -> float:
        """The integral of i² over time, by which wire and contacts are judged: spent energy over resistance."""
        return self.spent_joules / self.ohms

    @property
    def _driving_volts(self) -> float:
        return max(0.0, self.volts - self.drop_volts)

    def share_of(self, part_ohms: float) -> float:
        """The part of the stored energy that a resistance in the loop gets: one current, so by its ohms alone."""
        return part_ohms / self.ohms * self.spent_joules / self.stored_joules

    def volts_after(self, seconds: float) -> float:
        return self._driving_volts * exp(-seconds / self.time_constant) + min(self.drop_volts, self.volts)

    def given_after(self, seconds: float) -> float:
        """The part of the spent energy that is spent by then: 1 − exp(−2 t / τ)."""
        return 1 - exp(-2 * seconds / self.time_constant)


def seconds_to_charge(farads: float, ohms: float, part: float) -> float:
    """How long a bank takes to reach a part of its full voltage: τ ln(1 / (1 − part)). `ValueError` outside 0 to 1."""
    if not 0 <= part < 1:
        raise ValueError(f"a bank is never charged to {part}")
    return farads * ohms * log(1 / (1 - part))


def seconds_to_full(farads: float, volts: float, charge_ohms: float | None, charge_amps: float | None) -> float | None:
    """Until an empty bank counts as full: five time constants through its resistor; at a steady current Q / I.

    With both, the slower; None where neither is known.
    """
    ways = [] if charge_ohms is None else [FULL_TIME_CONSTANTS * farads * charge_ohms]
    ways += [] if charge_amps is None else [farads * volts / charge_amps]
    return max(ways, default=None)
