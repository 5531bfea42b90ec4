"""What steady current does to wires, strips, plugs, contacts and supplies, and the volts that it loses on its way.

Ratings in amps bind steady loads alone; a pulse is over before anything is warm (`checks/pulses`).
"""

from collections.abc import Iterator, Mapping
from math import floor

from labelgen.checks.measures import named
from labelgen.model.contacts import lever_part
from labelgen.model.description import Description
from labelgen.model.figures import Figures, LoadFigure
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.model.switching import contacts_by_lie
from labelgen.model.wire_ratings import rated_amps
from labelgen.problems import Problem
from labelgen.standards.conductors import size_notation

LOST_PART = 0.1
"""Of a supply's voltage: lamps are seen to dim, motors to slow down. Common practice, no source."""
LOST_ON_RAILS_VOLTS = 1.0
"""On the way to a train at full current. Common practice, no source."""

ROUNDING = 1e-9
"""Amps: a fuse of just so much as the wire carries is not advised a tenth lower."""

Key = tuple[EndKind, str, str]


def overloaded_wires(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports wire-overloaded once for each function and size."""
    wires = {wire.number: wire for wire in netlist.wires}
    groups: dict[tuple[str, str], list[tuple[Wire, float]]] = {}
    for figure in figures.wires:
        wire = wires[figure.number]
        if wire.size and figure.amps > rated_amps(description, wire):
            groups.setdefault((wire.function, wire.size), []).append((wire, figure.amps))
    problems = []
    for (_, size), over in groups.items():
        worst, amps = max(over, key=lambda one: one[1])
        numbers = named([str(wire.number) for wire, _ in over])
        verb, each = ("wire {} carries", "it is") if len(over) == 1 else ("wires {} carry up to", "each is")
        problems.append(
            Problem(
                code="wire-overloaded",
                message=f"{verb.format(numbers)} {amps:.1f} A, and {each} good for "
                f"{rated_amps(description, worst):.1f} A ({size_notation(size)})",
                hint="Take thicker wire, or split the load. Where its maker says more: `functions: "
                f"{{{worst.function}: {{amps: …}}}}`.",
                place=description.place_of_key(*worst.path),
            )
        )
    return problems


def overloaded_strips(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports strip-overloaded at each strip with a way that carries more than the strip's `amps`."""
    ways = {key: amps for key, amps in _currents(netlist, figures).items() if key[0] is EndKind.WAY}
    problems = []
    for strip in netlist.strips:
        limit = description.strips[strip.id].amps
        over = {way.number: amps for way in strip.ways if (amps := ways.get(_way(strip.id, way.number), 0.0)) > limit}
        if over:
            worst = max(over, key=lambda number: over[number])
            more = f", and {len(over) - 1} more of its ways too much" if len(over) > 1 else ""
            problems.append(
                Problem(
                    code="strip-overloaded",
                    message=f"way {worst} of {strip.id} carries {over[worst]:.1f} A, and the strip is for "
                    f"{limit:g} A{more}",
                    hint="Take a stronger strip there (`amps:`), or lead that current past it.",
                    place=description.place_of("strips", strip.id, "amps"),
                )
            )
    return problems


def _way(strip: str, number: int) -> Key:
    return (EndKind.WAY, strip, str(number))


def overloaded_pins(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports pin-overloaded at each plug with a pin that carries more than `pin_amps`."""
    currents = _currents(netlist, figures)
    problems = []
    for plug in netlist.plugs:
        limit = description.plugs[plug.id].pin_amps
        if limit is None:
            continue
        shared = {pin.number: 1 for pin in plug.pins}
        for pin in plug.pins:
            if pin.bridged_to is not None:
                shared[pin.bridged_to] += 1
        each = {n: currents.get((EndKind.PIN, plug.id, str(n)), 0.0) / count for n, count in shared.items()}
        over = [number for number, amps in each.items() if amps > limit]
        if over:
            worst = max(over, key=lambda number: each[number])
            problems.append(
                Problem(
                    code="pin-overloaded",
                    message=f"pin {worst} of {plug.id} carries {each[worst]:.1f} A, and a pin is for {limit:g} A",
                    hint="Lead it over several pins: `pins: 2` at the supply, or at the function.",
                    place=description.place_of("plugs", plug.id, "pin_amps"),
                )
            )
    return problems


def overloaded_contacts(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports contact-overloaded at each lever whose part says what its contact carries, and carries more."""
    worst = _through_contacts(netlist, figures)
    problems = []
    for lever in netlist.levers:
        part = lever_part(description, lever) if lever.id in worst else None
        limit = part.contact_amps if part is not None else None
        if part is not None and limit is not None and worst[lever.id] > limit:
            problems.append(
                Problem(
                    code="contact-overloaded",
                    message=f"the contact of lever {lever.shown} carries {worst[lever.id]:.2g} A, and it "
                    f"({part.about}) is for {limit:g} A",
                    hint="Take a stronger part there, or let a relay switch the load.",
                    place=description.place_of_key(*lever.path),
                )
            )
    return problems


def _through_contacts(netlist: Netlist, figures: Figures) -> dict[str, float]:
    """By lever: what its most loaded contact carries, and not what a chain only leads past it to the next lever."""
    currents = _currents(netlist, figures)
    worst: dict[str, float] = {}
    for circuit in netlist.circuits if currents else ():
        if circuit.lever is not None:
            lever = netlist.lever_by_id[circuit.lever]
            for supply in circuit.supplies.values():
                for made in contacts_by_lie(netlist, lever, circuit, supply).values():
                    through = (min(currents.get(end, 0.0) for end in pair) for pair in made)
                    worst[lever.id] = max(worst.get(lever.id, 0.0), *through)
    return worst


def overloaded_supplies(description: Description, _: Netlist, figures: Figures) -> list[Problem]:
    """Reports supply-overloaded at each supply that has to give more than its `amps`."""
    problems = []
    for figure in figures.supplies:
        limit = description.supplies[figure.supply].amps
        if limit is not None and figure.amps > limit:
            problems.append(
                Problem(
                    code="supply-overloaded",
                    message=f"{figure.supply} has to give {figure.amps:.2f} A when all that can be on is on, and it is "
                    f"for {limit:g} A",
                    hint="Take a stronger supply, or put some of the load on another one.",
                    place=description.place_of("supplies", figure.supply, "amps"),
                )
            )
    return problems


def large_fuses(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """Reports fuse-too-large at each supply of whose wires one carries less than its fuse, or itself, lets through."""
    wires = {wire.number: wire for wire in netlist.wires} if figures.protections else {}
    problems = []
    for figure in figures.protections:
        wire = wires[figure.weakest]
        good = rated_amps(description, wire)
        fuse = floor(good * 10 + ROUNDING) / 10
        if figure.amps <= good:
            continue
        fused = description.supplies[figure.supply].fuse is not None
        what = (
            f"the fuse of {figure.supply} lets {figure.amps:g} A through"
            if fused
            else (f"{figure.supply} gives up to {figure.amps:g} A")
        )
        problems.append(
            Problem(
                code="fuse-too-large",
                message=f"{what}, and wire {wire.number} ({wire.head}, {size_notation(wire.size)}) is good for "
                f"{good:.2g} A: a short would burn it",
                hint=f"Put a fuse of {fuse:g} A or less at {figure.supply} (`fuse:`), or take thicker wire.",
                place=description.place_of("supplies", figure.supply, "fuse" if fused else "amps"),
            )
        )
    return problems


def lost_volts(description: Description, _: Netlist, figures: Figures) -> list[Problem]:
    """Reports volts-lost once for each supply, at the device that is worst off."""
    far: dict[tuple[str, bool], list[LoadFigure]] = {}
    for load in figures.loads:
        volts = description.supplies[load.supply].volts or 0.0
        if load.drop_volts > (LOST_ON_RAILS_VOLTS if load.train else LOST_PART * volts):
            far.setdefault((load.supply, load.train), []).append(load)
    return list(_lost(description, far))


def _lost(description: Description, far: Mapping[tuple[str, bool], list[LoadFigure]]) -> Iterator[Problem]:
    for (supply, train), loads in far.items():
        worst = max(loads, key=lambda load: load.drop_volts)
        others = len(loads) - 1
        more = f", and {others} more {'is' if others == 1 else 'are'} as badly off" if others else ""
        at = f"a train at {worst.device} that takes {worst.amps:g} A" if train else f"{worst.device}"
        yield Problem(
            code="volts-lost",
            message=f"{at} has {worst.volts:.1f} V of {supply}'s {description.supplies[supply].volts:g} V: "
            f"{worst.drop_volts:.1f} V stay in the wires{more}",
            hint="Take thicker wire, shorter ways, or a supply nearer by.",
            place=description.place_of_key(*description.device_path(worst.device)),
        )


def dark_lamps(description: Description, _: Netlist, figures: Figures) -> list[Problem]:
    """Reports lamp-stays-dark where a supply has no more volts than one lamp takes."""
    dark = [one for one in figures.resistors if one.resistor is None and not one.in_series]
    return [
        Problem(
            code="lamp-stays-dark",
            message=f"{one.supply}'s {description.supplies[one.supply].volts:g} V leave nothing for a resistor: the "
            f"lamps of {one.device} take {float(one.lamp_volts):g} V",
            hint="Take a supply of a few volts more than the lamp.",
            place=description.place_of_key(*description.device_path(one.device)),
        )
        for one in dark
    ]


def _currents(netlist: Netlist, figures: Figures) -> dict[Key, float]:
    """The largest steady current of the wires that land at an end."""
    amps = {figure.number: figure.amps for figure in figures.wires}
    found: dict[Key, float] = {}
    for wire in netlist.wires if amps else ():
        if wire.number in amps:
            for end in wire.ends:
                found[end.point] = max(found.get(end.point, 0.0), amps[wire.number])
    return found
