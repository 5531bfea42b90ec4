"""How high a supply's voltage is: what is refused, what should not be touched, and what is more than a toy's.

Limits and their sources: `standards/voltage_limits`. Local codes may ask for more, and come first.
"""

from labelgen.model.description import Description, Supply
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem
from labelgen.standards.voltage_limits import SELV_AC, SELV_DC, TOUCHABLE_AC, TOUCHABLE_DC, TOY_DIRECTIVE

ALTERNATING = ("ac", "digital")
"""Kinds of supply that the lower limits are for; what is digital changes its direction all the time."""
TOY_AMPS, TOY_VOLT_AMPS = 10.0, 200.0
"""The most that a transformer for toys may give (EN 61558-2-7:1997, scope)."""
LOCAL = "Local codes come first; ask a licensed electrician where they leave you in doubt."


def high_voltages(description: Description, _: Netlist) -> list[Problem]:
    """Reports voltage-too-high, above-touch-limit or above-toy-limit, the gravest alone, at each supply's `volts`."""
    found = [_of_supply(description, id_, supply) for id_, supply in description.supplies.items()]
    return [problem for problem in found if problem is not None]


def _of_supply(description: Description, id_: str, supply: Supply) -> Problem | None:
    volts = supply.volts or 0
    alternating = supply.kind in ALTERNATING
    called = f"{'alternating' if alternating else 'direct'} current"
    refused, touchable = (SELV_AC, TOUCHABLE_AC) if alternating else (SELV_DC, TOUCHABLE_DC)
    place = description.place_of("supplies", id_, "volts")
    if volts > refused:
        return Problem(
            code="voltage-too-high",
            message=f"{id_} gives {volts:g} volts, and {refused:g} volts of {called} are the very most on a layout",
            hint=f"Take a supply of a lower voltage. Mains stays in closed cases off the layout. {LOCAL}",
            place=place,
        )
    if volts > touchable:
        return Problem(
            code="above-touch-limit",
            message=f"{id_} gives {volts:g} volts, and only up to {touchable:g} volts of {called} may be touched",
            hint=f"Take a lower voltage, or cover every terminal and rail that it reaches. {LOCAL}",
            place=place,
        )
    return _toy(description, id_, supply)


def _toy(description: Description, id_: str, supply: Supply) -> Problem | None:
    volts, amps = supply.volts or 0, supply.amps or 0
    if volts > TOY_DIRECTIVE:
        more, key = f"{volts:g} volts are more than the {TOY_DIRECTIVE:g} volts", "volts"
    elif amps > TOY_AMPS:
        more, key = f"{amps:g} amps are more than the {TOY_AMPS:g} amps", "amps"
    elif volts * amps > TOY_VOLT_AMPS:
        more, key = f"{volts * amps:g} volt-amps are more than the {TOY_VOLT_AMPS:g}", "amps"
    else:
        return None
    return Problem(
        code="above-toy-limit",
        message=f"{id_}'s {more} of a toy",
        hint="That is allowed on a layout that adults run. Where children play, take a supply made for toys.",
        place=description.place_of("supplies", id_, key),
    )
