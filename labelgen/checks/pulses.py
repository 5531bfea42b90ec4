"""Whether a pulse does its work, and what it does to wires and contacts on its way."""

from collections.abc import Iterator

from labelgen.checks.measures import named
from labelgen.model.contacts import lever_part, route_part
from labelgen.model.description import Description
from labelgen.model.figures import WEAK_JOULES, BankFigure, Figures, ThrowFigure
from labelgen.model.netlist import Netlist
from labelgen.model.panel.hardware import Hardware
from labelgen.problems import Problem
from labelgen.standards.conductors import copper_area_mm2, size_notation
from labelgen.standards.wire_ratings import withstand_amps2_seconds

MORE = "`labelgen check --figures` shows other ways to mend it."


def weak_throws(description: Description, _: Netlist, figures: Figures) -> list[Problem]:
    """Reports weak-throw once for each pulse supply, of the coil that gets least."""
    return [_weak(description, bank) for bank in figures.banks if bank.weakest.weak]


def _weak(description: Description, bank: BankFigure) -> Problem:
    coil, stored = bank.weakest.weakest, bank.stored_joules
    more = bank.weak_throws - 1
    others = f"; {more} more {'throw is' if more == 1 else 'throws are'} weak" if more else ""
    mend = next(iter(bank.mends), None)
    hint = "Less would do only for a very light motor."
    if mend is not None:
        hint = f"With {mend.words} it would get {mend.joules:.2f} J. {MORE}"
    return Problem(
        code="weak-throw",
        message=f"{bank.weakest.shown} gives {coil.device} {coil.joules:.2f} J of {stored:.2f} J in {bank.supply} "
        f"({coil.share:.0%}), and less than {WEAK_JOULES:g} J may not throw it{others}",
        hint=hint,
        place=description.place_of("supplies", bank.supply, "microfarads"),
    )


def hot_wires(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports pulse-heats-wire once for each throw that a wire on its way would not stand."""
    throws = [throw for throw in figures.throws if throw.hot_wires]
    wires = {wire.number: wire for wire in netlist.wires} if throws else {}
    problems = []
    for throw in throws:
        number, heat = max(throw.hot_wires.items(), key=lambda one: one[1])
        wire = wires[number]
        stands = withstand_amps2_seconds(copper_area_mm2(wire.size))
        problems.append(
            Problem(
                code="pulse-heats-wire",
                message=f"the pulse of {throw.shown} heats wire {number} ({wire.head}, {size_notation(wire.size)}) by "
                f"{heat:.1f} A²s, and it stands {stands:.1f}",
                hint=f"Take thicker wire, or a smaller bank than {throw.stored_joules:.0f} J.",
                place=description.place_of_key(*throw.path),
            )
        )
    return problems


def worn_contacts(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports pulse-wears-contact once for each supply and part that says what it stands."""
    found: dict[tuple[str, str], list[ThrowFigure]] = {}
    parts: dict[str, Hardware] = {}
    panels = {row.route: matrix.panel for matrix in netlist.matrices for row in matrix.rows}
    for throw in figures.throws:
        part = _part(description, netlist, panels, throw)
        if part is not None and (part.contact_amps2_seconds or throw.amps_squared_seconds) < throw.amps_squared_seconds:
            found.setdefault((throw.supply, part.about), []).append(throw)
            parts[part.about] = part
    return list(_worn(description, found, parts))


def _worn(
    description: Description, found: dict[tuple[str, str], list[ThrowFigure]], parts: dict[str, Hardware]
) -> Iterator[Problem]:
    for (supply, about), throws in found.items():
        worst = max(throws, key=lambda throw: throw.amps_squared_seconds)
        yield Problem(
            code="pulse-wears-contact",
            message=f"{supply}'s pulse through {named(list(dict.fromkeys(t.shown for t in throws)))} is up to "
            f"{worst.amps_squared_seconds:.2g} A²s, and the contact ({about}) stands "
            f"{parts[about].contact_amps2_seconds:.2g}",
            hint=f"It peaks at {worst.peak_amps:.1f} A. Take a stronger contact, or let a relay do the work.",
            place=description.place_of_key(*worst.path),
        )


def _part(
    description: Description, netlist: Netlist, panels: dict[str, str | None], throw: ThrowFigure
) -> Hardware | None:
    if throw.path[:1] == ("routes",):
        return route_part(description, panels[throw.lever], throw.lever)
    return lever_part(description, netlist.lever_by_id[throw.lever])
