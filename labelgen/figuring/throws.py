"""Every throw of every lever and route: the bank's charge through a network of wires and coils.

All that lies in the loop carries the one pulse in fixed proportion, whatever the coils' inductance. So a network of
resistances tells how the energy is shared: each part gets its share of the power at any moment.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.electrics.pulse import Pulse
from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.loops import Loop
from labelgen.figuring.switching import closed_by_lever, closed_by_route
from labelgen.model.copper import Copper, Joint
from labelgen.model.description import Description, Supply
from labelgen.model.figures import CoilFigure, ThrowFigure
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import EndKind, Netlist
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.standards.conductors import copper_area_mm2
from labelgen.standards.wire_ratings import withstand_amps2_seconds


@dataclass(frozen=True, slots=True, kw_only=True)
class Throw:
    """One act at the panel, and the contacts that it joins."""

    lever: str
    shown: str
    lie: str
    supply: str
    closed: tuple[Element, ...]
    path: Path


@dataclass(frozen=True, slots=True)
class Thrown:
    """A throw with its network, and what came of it."""

    throw: Throw
    loop: Loop
    figure: ThrowFigure


def thrown(description: Description, netlist: Netlist, copper: Copper, elements: Elements) -> Iterator[Thrown]:
    """Levers in natural order, each as it can lie, then routes: of each pulse supply whose bank and voltage are given.

    A throw that drives a coil of unknown resistance, or none, has no figures.
    """
    ohms = coil_ohms(description, netlist)
    thinnest = min((copper_area_mm2(wire.size) for wire in netlist.wires if wire.size), default=None)
    for throw in throws(description, netlist):
        supply = description.supplies.get(throw.supply)
        if supply is None or supply.microfarads is None or supply.volts is None:
            continue
        ends = supply_joints(throw.supply, supply)
        passed = elements.between(throw.closed, *ends)
        driven = {element.device for element in passed if element.device}
        if driven and driven <= ohms.keys():
            loop = Loop(ends, passed, [ohms.get(element.device, element.ohms) for element in passed], copper)
            figure = figure_of(throw, loop, supply, thinnest)
            if figure is not None:
                yield Thrown(throw, loop, figure)


def throws(description: Description, netlist: Netlist) -> Iterator[Throw]:
    """Every act that joins a pulse supply to coils."""
    for circuit in sorted((c for c in netlist.circuits if c.lever is not None), key=lambda c: natural(c.id)):
        for role, supply in circuit.supplies.items():
            if circuit.kind.supply.get(role) != "pulse":
                continue
            lever = netlist.lever_by_id[circuit.id]
            for lie, closed in closed_by_lever(description, netlist, lever, circuit, supply):
                shown = f"lever {lever.shown}"
                yield Throw(lever=lever.id, shown=shown, lie=lie, supply=supply, closed=closed, path=lever.path)
    for matrix in netlist.matrices:
        for row in matrix.rows:
            closed = closed_by_route(description, netlist, matrix, row)
            shown = f"route {row.route}"
            yield Throw(lever=row.route, shown=shown, lie="set", supply=matrix.supply, closed=closed, path=row.path)


def coil_ohms(description: Description, netlist: Netlist) -> dict[str, float]:
    """Device: the resistance of one of its coils, as it says, or as its kind does; of others, nothing."""
    given = {**description.points, **description.devices}
    found = {d: given[d].ohms or c.kind.ohms for c in netlist.circuits for d in c.devices if d in given}
    return {device: ohms for device, ohms in found.items() if ohms is not None}


def supply_joints(id_: str, supply: Supply) -> tuple[Joint, Joint]:
    """Its two terminals: feed and return."""
    plus, minus = SUPPLY_TERMINALS[supply.kind]
    return (EndKind.SUPPLY, id_, plus), (EndKind.SUPPLY, id_, minus)


def figure_of(throw: Throw, loop: Loop, supply: Supply, thinnest_mm2: float | None = None) -> ThrowFigure | None:
    """What a throw comes to with a bank behind it; None where no coil gets anything.

    `thinnest_mm2`: of all wires of the railway; where even that stands the pulse, no wire is looked at.
    """
    if loop.ohms is None or supply.microfarads is None or supply.volts is None:
        return None
    ohms = loop.ohms + (supply.esr_ohms or 0.0)
    drop = loop.diodes() * (supply.diode_volts or 0.0)
    pulse = Pulse(farads=supply.microfarads * 1e-6, volts=supply.volts, ohms=ohms, drop_volts=drop)
    outside = pulse.share_of(loop.ohms)
    coils = [
        CoilFigure(
            device=e.device, terminal=e.start[2], joules=share * outside * pulse.stored_joules, share=share * outside
        )
        for e, share in zip(loop.passed, loop.shares(), strict=True)
        if e.device and share > 0
    ]
    return ThrowFigure(
        lever=throw.lever,
        shown=throw.shown,
        lie=throw.lie,
        supply=throw.supply,
        stored_joules=pulse.stored_joules,
        loop_ohms=pulse.ohms,
        peak_amps=pulse.peak_amps,
        time_constant_ms=pulse.time_constant * 1000,
        amps_squared_seconds=pulse.amps_squared_seconds,
        coils=tuple(sorted(coils, key=lambda coil: (natural(coil.device), natural(coil.terminal)))),
        unmeasured=loop.unmeasured,
        hot_wires=_hot_wires(loop, pulse, thinnest_mm2),
        path=throw.path,
    )


def _hot_wires(loop: Loop, pulse: Pulse, thinnest_mm2: float | None) -> dict[int | str, float]:
    """Of a branch, I²t is that of the whole by the square of its part of the current."""
    whole = pulse.amps_squared_seconds
    if thinnest_mm2 is None or whole <= withstand_amps2_seconds(thinnest_mm2):
        return {}
    heats = [(number, size, part**2 * whole) for number, size, part in loop.wires() if size]
    return {number: heat for number, size, heat in heats if heat > withstand_amps2_seconds(copper_area_mm2(size))}
