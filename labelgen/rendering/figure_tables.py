"""Electrical figures as tables for the terminal."""

from collections.abc import Iterator

from labelgen.model.figures import BankFigure, Figures, LoadFigure, ThrowFigure
from labelgen.model.lamp_resistors import LampResistor
from labelgen.rendering.terminal_tables import print_table

THROWS = ("throw", "lie", "supply", "stored J", "loop ohms", "peak A", "ms", "each coil: J, share", "")
BANKS = ("supply", "stored J", "full after s", "throws a minute", "weakest", "coil", "J", "share")
MENDS = ("supply", "what would help", "weakest coil then", "J", "share")
LOADS = ("load", "supply", "A", "V", "lost V", "")
SILENT = ("what it draws is not said", "supply")
RESISTORS = ("lamps", "supply", "resistor", "at", "mA", "burns W", "rated W")


def print_figures(figures: Figures) -> None:
    """Each throw with what its coils get, each bank, what would help its weakest throw, each load, each resistor.

    What the description gives no figures for is left out. Length that is not known counts for nothing, and is said.
    """
    if figures.throws:
        print_table(THROWS, [_throw(throw) for throw in figures.throws], right={3, 4, 5, 6})
    if figures.banks:
        print_table(BANKS, [_bank(bank) for bank in figures.banks], right={1, 2, 3, 6, 7})
        mends = [row for bank in figures.banks for row in _mends(bank)]
        print_table(MENDS, mends, right={3, 4})
    if figures.loads:
        print_table(LOADS, [_load(load) for load in figures.loads], right={2, 3, 4})
    if figures.silent:
        print_table(SILENT, [(f"{load.device}.{load.terminal}", load.supply) for load in figures.silent], right=set())
    totals = [(supply.supply, f"{supply.amps:.2f}") for supply in figures.supplies]
    if totals:
        print_table(("supply", "gives A in all"), totals, right={1})
    if figures.resistors:
        print_table(RESISTORS, [resistor_row(one) for one in figures.resistors], right={4, 5, 6})


def _throw(throw: ThrowFigure) -> tuple[str, ...]:
    coils = ", ".join(f"{coil.device}.{coil.terminal} {coil.joules:.2f} J {coil.share:.0%}" for coil in throw.coils)
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


def _bank(bank: BankFigure) -> tuple[str, ...]:
    coil = bank.weakest.weakest
    a_minute = bank.throws_a_minute
    return (
        bank.supply,
        f"{bank.stored_joules:.2f}",
        "?" if bank.seconds_to_full is None else f"{bank.seconds_to_full:.1f}",
        "?" if a_minute is None else str(int(a_minute)),
        f"{bank.weakest.shown} {bank.weakest.lie}",
        f"{coil.device}.{coil.terminal}",
        f"{coil.joules:.2f}",
        f"{coil.share:.0%}",
    )


def _mends(bank: BankFigure) -> Iterator[tuple[str, ...]]:
    for mend in bank.mends:
        yield bank.supply, mend.words, mend.device, f"{mend.joules:.2f}", f"{mend.share:.0%}"


def _load(load: LoadFigure) -> tuple[str, ...]:
    where = f"{load.device}.{load.terminal}"
    note = "a train that takes all" if load.train else ""
    if load.unmeasured:
        note = f"{load.unmeasured} wires without a length"
    return (where, load.supply, f"{load.amps:.3f}", f"{load.volts:.2f}", f"{load.drop_volts:.2f}", note)


def resistor_row(one: LampResistor) -> tuple[str, ...]:
    """Device and lamps, supply, ohms, where it is soldered in, milliamps, watts that it burns, watts to buy."""
    lamps = " ".join((one.device, *one.lamps))
    if one.resistor is None:
        return (lamps, one.supply, "none: in series with the motor" if one.in_series else "not enough volts", *[""] * 4)
    found = one.resistor
    return (
        lamps,
        one.supply,
        f"{float(found.ohms):g} Ω",
        f"L{one.lever}.{one.at}" if one.lever is not None else one.at,
        f"{float(found.amps * 1000):.2f}",
        f"{float(found.watts):.3f}",
        "more than 10" if found.rating_watts is None else str(found.rating_watts),
    )
