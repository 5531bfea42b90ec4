"""Electrical figures for other programs: section 9 of the format. Nothing is rounded."""

from typing import Any

from labelgen.model.figures import BankFigure, CoilFigure, Figures, ThrowFigure
from labelgen.model.lamp_resistors import LampResistor


def figures_as_json(figures: Figures) -> dict[str, Any]:
    """`throws`, `banks`, `loads`, `loads_not_said`, `wires`, `supplies` and `resistors`."""
    return {
        "throws": [_throw(throw) for throw in figures.throws],
        "banks": [_bank(bank) for bank in figures.banks],
        "loads": [
            {
                "device": load.device,
                "terminal": load.terminal,
                "supply": load.supply,
                "amps": load.amps,
                "volts": load.volts,
                "drop_volts": load.drop_volts,
                "train": load.train,
                "wires_without_length": load.unmeasured,
            }
            for load in figures.loads
        ],
        "loads_not_said": [
            {"device": load.device, "terminal": load.terminal, "supply": load.supply} for load in figures.silent
        ],
        "wires": [{"number": wire.number, "amps": wire.amps} for wire in figures.wires],
        "supplies": [{"supply": supply.supply, "amps": supply.amps} for supply in figures.supplies],
        "resistors": [_resistor(one) for one in figures.resistors],
    }


def _throw(throw: ThrowFigure) -> dict[str, Any]:
    return {
        "lever": throw.lever,
        "lie": throw.lie,
        "supply": throw.supply,
        "stored_joules": throw.stored_joules,
        "loop_ohms": throw.loop_ohms,
        "peak_amps": throw.peak_amps,
        "time_constant_ms": throw.time_constant_ms,
        "amps_squared_seconds": throw.amps_squared_seconds,
        "coils": [_coil(coil) for coil in throw.coils],
        "wires_without_length": throw.unmeasured,
    }


def _coil(coil: CoilFigure) -> dict[str, Any]:
    return {"device": coil.device, "terminal": coil.terminal, "joules": coil.joules, "share": coil.share}


def _bank(bank: BankFigure) -> dict[str, Any]:
    coil = bank.weakest.weakest
    return {
        "supply": bank.supply,
        "stored_joules": bank.stored_joules,
        "seconds_to_full": bank.seconds_to_full,
        "throws_a_minute": bank.throws_a_minute,
        "weakest": {
            "lever": bank.weakest.lever,
            "lie": bank.weakest.lie,
            "device": coil.device,
            "joules": coil.joules,
            "share": coil.share,
        },
        "mends": [
            {"words": mend.words, "device": mend.device, "joules": mend.joules, "share": mend.share}
            for mend in bank.mends
        ],
    }


def _resistor(one: LampResistor) -> dict[str, Any]:
    """A resistor's figures are those of exact fractions, to the nearest number that the form can hold."""
    found = one.resistor
    rating = None if found is None else found.rating_watts
    return {
        "device": one.device,
        "lamps": list(one.lamps),
        "at": one.at,
        "supply": one.supply,
        "in_series": one.in_series,
        "ohms": None if found is None else float(found.ohms),
        "amps": None if found is None else float(found.amps),
        "watts": None if found is None else float(found.watts),
        "rating_watts": None if rating is None else float(rating),
    }
