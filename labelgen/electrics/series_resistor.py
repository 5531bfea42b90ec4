"""The resistor before a lamp that is a light-emitting diode, by exact arithmetic."""

from dataclasses import dataclass
from fractions import Fraction

from labelgen.standards.preferred_values import Series, next_value_up, rating_for


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesResistor:
    wanted_ohms: Fraction
    ohms: Fraction
    """The next preferred value up, so that the current is never above what was wanted."""
    amps: Fraction
    """That it really gives."""
    watts: Fraction
    """That it burns."""
    rating_watts: Fraction | None
    """The smallest common one of at least twice that; None when there is none."""


def series_resistor(
    supply_volts: Fraction, lamp_volts: Fraction, amps: Fraction, *, lamps: int = 1, series: Series = "E24"
) -> SeriesResistor:
    """For so many lamps in a row: R = (Vs − n Vf) / I. `ValueError` when the lamps leave no volts for it."""
    left = supply_volts - lamps * lamp_volts
    if left <= 0 or amps <= 0:
        raise ValueError("the lamps leave no voltage for a resistor")
    wanted = left / amps
    ohms = next_value_up(wanted, series)
    real = left / ohms
    return SeriesResistor(
        wanted_ohms=wanted, ohms=ohms, amps=real, watts=left * real, rating_watts=rating_for(left * real)
    )
