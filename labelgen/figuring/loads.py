"""Steady loads: the current in every wire and the voltage at every device, by solving each supply's network.

A device is taken as the resistance that draws its current at the supply's full voltage.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from labelgen.electrics.network import solve
from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.switching import closed_by_lever
from labelgen.figuring.throws import network_of, supply_joints
from labelgen.model.copper import Copper
from labelgen.model.description import Description, Supply
from labelgen.model.figures import LoadFigure, SupplyFigure, WireFigure
from labelgen.model.lever_lies import MOMENTARY
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural

STEADY = ("dc", "ac", "digital")
"""What a track supply gives depends on the train."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Contacts that are joined at the same time."""

    closed: tuple[Element, ...]
    momentary: bool
    """By a lever that lets go by itself."""


def steady_figures(
    description: Description, netlist: Netlist, copper: Copper
) -> tuple[tuple[LoadFigure, ...], tuple[WireFigure, ...], tuple[SupplyFigure, ...]]:
    """Loads, wires and supplies in natural order: of each supply whose voltage is given, the worst of what can be.

    That is with all levers normal, with all reverse, and with each button pressed. What momentary levers feed is taken
    one by one, beside what hangs on the supply without a lever; a supply has to give the most of these besides.
    """
    elements = Elements(netlist, copper)
    worst = Worst()
    for id_ in sorted(description.supplies, key=natural):
        supply = description.supplies[id_]
        if supply.kind in STEADY and supply.volts is not None:
            one = _OneSupply(id_, supply, supply.volts, load_ohms(description, netlist, id_, supply.volts))
            for scene in _scenes(netlist, id_):
                worst.take(one.at_work(scene, elements, copper))
    return worst.in_order(description)


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A supply in one scene. `loads`: (device, terminal): amps, volts across."""

    supply: str
    volts: float
    momentary: bool
    loads: dict[tuple[str, str], tuple[float, float]]
    wires: dict[int | str, float]
    amps: float


@dataclass(frozen=True, slots=True)
class _OneSupply:
    id: str
    supply: Supply
    volts: float
    ohms: Mapping[tuple[str, str], float]

    def at_work(self, scene: Scene, elements: Elements, copper: Copper) -> Work:
        plus, minus = supply_joints(self.id, self.supply)
        passed = [
            element
            for element in elements.between(scene.closed, plus, minus, hanging=True)
            if not element.device or (element.device, element.role) in self.ohms
        ]
        work = Work(supply=self.id, volts=self.volts, momentary=scene.momentary, loads={}, wires={}, amps=0)
        if not any(element.device for element in passed):
            return work
        resistances = [self.ohms.get((element.device, element.role), 0.0) for element in passed]
        branches, _ = network_of(passed, resistances, (plus, minus), copper)
        solved = solve(branches, plus, minus, self.volts)
        for element, amps in zip(passed, solved.amps, strict=False):
            if element.device and amps:
                across = abs(solved.volts[element.start] - solved.volts[element.finish])
                work.loads[element.device, element.start[2]] = (abs(amps), across)
        for branch, amps in list(zip(branches, solved.amps, strict=True))[len(passed) :]:
            for wire in copper.wires_between(branch.start, branch.finish) if amps else ():
                work.wires[wire.number] = abs(amps)
        return replace(work, amps=solved.total_amps)


@dataclass(slots=True)
class Worst:
    """The worst that was met so far of each load, wire and supply."""

    loads: dict[tuple[str, str], LoadFigure] = field(default_factory=dict)
    wires: dict[int | str, float] = field(default_factory=dict)
    supplies: dict[tuple[str, bool], float] = field(default_factory=dict)
    """(Supply, momentary): amps."""

    def take(self, work: Work) -> None:
        for key, (amps, across) in work.loads.items():
            drop = work.volts - across
            if key not in self.loads or self.loads[key].drop_volts < drop:
                device, terminal = key
                self.loads[key] = LoadFigure(
                    device=device, terminal=terminal, supply=work.supply, amps=amps, volts=across, drop_volts=drop
                )
        for number, amps in work.wires.items():
            self.wires[number] = max(self.wires.get(number, 0.0), amps)
        scenes = (work.supply, work.momentary)
        self.supplies[scenes] = max(self.supplies.get(scenes, 0.0), work.amps)

    def in_order(
        self, description: Description
    ) -> tuple[tuple[LoadFigure, ...], tuple[WireFigure, ...], tuple[SupplyFigure, ...]]:
        loads = sorted(self.loads.values(), key=lambda load: (natural(load.device), natural(load.terminal)))
        wires = sorted(self.wires.items(), key=lambda wire: natural(str(wire[0])))
        ids = [id_ for id_ in sorted(description.supplies, key=natural) if self._amps(id_) > 0]
        return (
            tuple(loads),
            tuple(WireFigure(number=number, amps=amps) for number, amps in wires),
            tuple(SupplyFigure(supply=id_, amps=self._amps(id_)) for id_ in ids),
        )

    def _amps(self, supply: str) -> float:
        return self.supplies.get((supply, False), 0.0) + self.supplies.get((supply, True), 0.0)


def load_ohms(description: Description, netlist: Netlist, supply: str, volts: float) -> dict[tuple[str, str], float]:
    """(Device, role): what one of its loads resists, by its milliamps at full voltage, else by its ohms."""
    given = {**description.points, **description.devices}
    found: dict[tuple[str, str], float] = {}
    for circuit in netlist.circuits:
        roles = [role for role, id_ in circuit.supplies.items() if id_ == supply]
        for device in circuit.devices if roles else ():
            own = given.get(device)
            milliamps = (own.milliamps if own else None) or circuit.kind.milliamps
            ohms = (own.ohms if own else None) or circuit.kind.ohms
            resistance = volts / (milliamps / 1000) if milliamps is not None else ohms
            if resistance is not None:
                found |= {(device, role): resistance for role in roles}
    return found


def _scenes(netlist: Netlist, supply: str) -> Iterator[Scene]:
    lasting: dict[str, list[Element]] = {"normal": [], "reverse": []}
    for circuit in netlist.circuits:
        if circuit.lever is None or supply not in circuit.supplies.values():
            continue
        lever = netlist.lever_by_id[circuit.lever]
        lies = dict(closed_by_lever(netlist, lever, circuit, supply))
        if lever.type in MOMENTARY:
            yield from (Scene(closed=closed, momentary=True) for closed in lies.values())
        elif lies:
            any_position = () if lies.keys() & lasting.keys() else next(iter(lies.values()))
            for lie in lasting:
                lasting[lie] += lies.get(lie, any_position)
    yield from (Scene(closed=tuple(closed), momentary=False) for closed in lasting.values())
