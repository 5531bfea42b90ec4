"""Electrical figures for other programs: section 9 of the format. Nothing is rounded."""

from typing import Any

from labelgen.model.figures import Figures


def figures_as_json(figures: Figures) -> dict[str, Any]:
    """`throws`, `loads`, `wires` and `supplies`."""
    return {
        "throws": [
            {
                "lever": throw.lever,
                "lie": throw.lie,
                "supply": throw.supply,
                "stored_joules": throw.stored_joules,
                "loop_ohms": throw.loop_ohms,
                "peak_amps": throw.peak_amps,
                "time_constant_ms": throw.time_constant_ms,
                "coils": [{"device": c.device, "joules": c.joules, "share": c.share} for c in throw.coils],
            }
            for throw in figures.throws
        ],
        "loads": [
            {
                "device": load.device,
                "terminal": load.terminal,
                "supply": load.supply,
                "amps": load.amps,
                "volts": load.volts,
                "drop_volts": load.drop_volts,
            }
            for load in figures.loads
        ],
        "wires": [{"number": wire.number, "amps": wire.amps} for wire in figures.wires],
        "supplies": [{"supply": supply.supply, "amps": supply.amps} for supply in figures.supplies],
    }
