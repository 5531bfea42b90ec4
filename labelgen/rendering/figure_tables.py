"""Electrical figures as tables for the terminal."""

from labelgen.model.figures import Figures, LoadFigure, ThrowFigure
from labelgen.rendering.terminal_tables import print_table

THROWS = ("throw", "lie", "supply", "stored J", "loop ohms", "peak A", "ms", "each coil: J, share", "")
LOADS = ("load", "supply", "A", "V", "lost V")


def print_figures(figures: Figures) -> None:
    """Each throw with what its coils get, then each steady load; what the description gives no figures for is left out.

    Length that is not known counts for nothing, and is said.
    """
    if figures.throws:
        print_table(THROWS, [_throw(throw) for throw in figures.throws], right={3, 4, 5, 6})
    if figures.loads:
        print_table(LOADS, [_load(load) for load in figures.loads], right={2, 3, 4})
    totals = [(supply.supply, f"{supply.amps:.2f}") for supply in figures.supplies]
    if totals:
        print_table(("supply", "gives A in all"), totals, right={1})


def _throw(throw: ThrowFigure) -> tuple[str, ...]:
    coils = ", ".join(f"{coil.device} {coil.joules:.2f} J {coil.share:.0%}" for coil in throw.coils)
    return (
        throw.shown,
        throw.lie,
        throw.supply,
        f"{throw.stored_joules:.2f}",
        f"{throw.loop_ohms:.2f}",
        f"{throw.peak_amps:.1f}",
        f"{throw.time_constant_ms:.1f}",
        coils,
        f"{throw.unmeasured} wires without a length" if throw.unmeasured else "",
    )


def _load(load: LoadFigure) -> tuple[str, ...]:
    where = f"{load.device}.{load.terminal}"
    return (where, load.supply, f"{load.amps:.3f}", f"{load.volts:.2f}", f"{load.drop_volts:.2f}")
