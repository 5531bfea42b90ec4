"""Every throw of every lever and route: the bank's charge through a network of wires and coils.

All that lies in the loop carries the one pulse in fixed proportion, whatever the coils' inductance. So a network of
resistances tells how the energy is shared: each part gets its share of the power at any moment.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.electrics.network import Branch, solve
from labelgen.electrics.pulse import Pulse
from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.switching import closed_by_lever, closed_by_route
from labelgen.model.copper import Copper, Joint
from labelgen.model.description import Description, Supply
from labelgen.model.figures import CoilFigure, ThrowFigure
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import EndKind, Netlist
from labelgen.natural_order import natural
from labelgen.places import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Throw:
    """One act at the panel, and the contacts that it joins."""

    lever: str
    shown: str
    lie: str
    supply: str
    closed: tuple[Element, ...]
    path: Path


def throw_figures(description: Description, netlist: Netlist, copper: Copper) -> list[ThrowFigure]:
    """Levers in natural order, each as it can lie, then routes: of each pulse supply whose bank and voltage are given.

    A throw that drives a coil of unknown resistance, or none, has no figures.
    """
    elements = Elements(netlist, copper)
    ohms = coil_ohms(description, netlist)
    figures = (_figure(description, throw, copper, elements, ohms) for throw in throws(netlist))
    return [figure for figure in figures if figure is not None]


def throws(netlist: Netlist) -> Iterator[Throw]:
    """Every act that joins a pulse supply to coils."""
    for circuit in sorted((c for c in netlist.circuits if c.lever is not None), key=lambda c: natural(c.id)):
        for role, supply in circuit.supplies.items():
            if circuit.kind.supply.get(role) != "pulse":
                continue
            lever = netlist.lever_by_id[circuit.id]
            for lie, closed in closed_by_lever(netlist, lever, circuit, supply):
                shown = f"lever {lever.shown}"
                yield Throw(lever=lever.id, shown=shown, lie=lie, supply=supply, closed=closed, path=lever.path)
    for matrix in netlist.matrices:
        for row in matrix.rows:
            closed = closed_by_route(netlist, matrix, row)
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


def network_of(
    passed: Sequence[Element], ohms: Sequence[float], ends: Sequence[Joint], copper: Copper
) -> tuple[list[Branch[Joint]], int]:
    """Elements with their resistances first, then the copper between all their ends; and its wires without length."""
    joints = dict.fromkeys([*ends, *(joint for element in passed for joint in (element.start, element.finish))])
    by_net: dict[int, list[Joint]] = {}
    for joint in joints:
        if (net := copper.net(joint)) is not None:
            by_net.setdefault(net, []).append(joint)
    stretches = [stretch for of_net in by_net.values() for stretch in copper.stretches(of_net)]
    branches = [Branch(e.start, e.finish, r) for e, r in zip(passed, ohms, strict=True)]
    branches += [Branch(stretch.start, stretch.finish, stretch.ohms) for stretch in stretches]
    return branches, sum(stretch.unmeasured for stretch in stretches)


def _figure(
    description: Description, throw: Throw, copper: Copper, elements: Elements, ohms: dict[str, float]
) -> ThrowFigure | None:
    supply = description.supplies[throw.supply]
    if supply.microfarads is None or supply.volts is None:
        return None
    plus, minus = supply_joints(throw.supply, supply)
    passed = elements.between(throw.closed, plus, minus)
    if any(element.device and element.device not in ohms for element in passed):
        return None
    resistances = [ohms.get(element.device, 0.0) for element in passed]
    branches, unmeasured = network_of(passed, resistances, (plus, minus), copper)
    solved = solve(branches, plus, minus)
    if solved.total_amps <= 0:
        return None
    pulse = Pulse(farads=supply.microfarads * 1e-6, volts=supply.volts, ohms=1 / solved.total_amps)
    shares = [watts / solved.total_amps for watts in solved.watts(branches)]
    coils = [
        CoilFigure(device=e.device, terminal=e.start[2], joules=share * pulse.stored_joules, share=share)
        for e, share in zip(passed, shares, strict=False)
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
        unmeasured=unmeasured,
        path=throw.path,
    )
