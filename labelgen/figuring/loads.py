"""Steady loads: the current in every wire and the voltage at every device, by solving each supply's network.

A device is taken as the resistance that draws its current at the supply's full voltage.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.load_ohms import LoadOhms, load_ohms
from labelgen.figuring.loops import Loop
from labelgen.figuring.switching import closed_by_lever, closed_inside
from labelgen.figuring.throws import supply_joints
from labelgen.figuring.trains import Train, trains
from labelgen.model.copper import Copper
from labelgen.model.description import Description, Supply
from labelgen.model.figures import LoadFigure, SupplyFigure, WireFigure
from labelgen.model.lamp_resistors import LampResistor, lamps_beside_lever
from labelgen.model.lever_lies import MOMENTARY
from labelgen.model.netlist import Circuit, Netlist
from labelgen.natural_order import natural

STEADY = ("dc", "ac", "digital")
"""What a track supply gives depends on the train."""
LIES = ("normal", "reverse")
SteadyFigures = tuple[tuple[LoadFigure, ...], tuple[WireFigure, ...], tuple[SupplyFigure, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """Contacts that are joined at the same time."""

    closed: tuple[Element, ...]
    momentary: bool
    """By a lever that lets go by itself."""


def steady_figures(
    description: Description,
    netlist: Netlist,
    copper: Copper,
    elements: Elements,
    resistors: Sequence[LampResistor],
) -> SteadyFigures:
    """Loads, wires and supplies in natural order: of each supply whose voltage is given, the worst of what can be.

    That is with all levers normal, with all reverse, and with each button pressed. What momentary levers feed is taken
    one by one, beside what hangs on the supply without a lever; a supply has to give the most of these besides. Trains
    come one by one too, each taking all that its supply gives.
    """
    worst = Worst()
    for id_ in sorted(description.supplies, key=natural):
        supply = description.supplies[id_]
        if supply.kind in STEADY and supply.volts is not None:
            ohms = load_ohms(description, netlist, id_, supply.volts, resistors)
            for scene in _scenes(description, netlist, id_) if ohms else ():
                worst.take(_at_work(_Feeding(id_, supply, supply.volts, ohms), scene, elements, copper))
    for train in trains(description, netlist, copper, elements):
        worst.take_train(train, copper)
    return worst.in_order(description)


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A supply in one scene. `loads`: (device, terminal): amps, volts across."""

    supply: str
    volts: float
    momentary: bool
    loads: dict[tuple[str, str], tuple[float, float]] = field(default_factory=dict)
    wires: Mapping[int | str, float] = field(default_factory=dict)
    amps: float = 0.0


@dataclass(frozen=True, slots=True)
class _Feeding:
    """A supply with the loads on it."""

    id: str
    supply: Supply
    volts: float
    ohms: LoadOhms


def _at_work(feeding: _Feeding, scene: Scene, elements: Elements, copper: Copper) -> Work:
    id_, supply, volts, ohms = feeding.id, feeding.supply, feeding.volts, feeding.ohms
    ends = supply_joints(id_, supply)
    between = elements.between(scene.closed, *ends, hanging=True)
    passed = [e for e in between if not e.device or ohms.of(e) is not None]
    loop = Loop(ends, passed, [e.ohms if (own := ohms.of(e)) is None else own for e in passed], copper)
    if not any(e.device for e in passed) or loop.ohms is None:
        return Work(supply=id_, volts=volts, momentary=scene.momentary)
    found = loop.at_work(volts * loop.ohms / (loop.ohms + (supply.esr_ohms or 0.0)))
    loads = {
        (e.device, e.start[2]): (amps, across)
        for e, amps, across in zip(passed, found.amps, found.across, strict=True)
        if e.device and amps
    }
    return Work(
        supply=id_, volts=volts, momentary=scene.momentary, loads=loads, wires=found.wires, amps=found.total_amps
    )


@dataclass(slots=True)
class Worst:
    """The worst that was met so far of each load, wire and supply."""

    loads: dict[tuple[str, str, bool], LoadFigure] = field(default_factory=dict)
    """By device, terminal, and whether it is a train."""
    wires: dict[int | str, float] = field(default_factory=dict)
    supplies: dict[tuple[str, bool], float] = field(default_factory=dict)
    """(Supply, momentary): amps."""

    def take(self, work: Work) -> None:
        for (device, terminal), (amps, across) in work.loads.items():
            drop = work.volts - across
            self._load(
                LoadFigure(
                    device=device, terminal=terminal, supply=work.supply, amps=amps, volts=across, drop_volts=drop
                )
            )
        for number, amps in work.wires.items():
            self.wires[number] = max(self.wires.get(number, 0.0), amps)
        scenes = (work.supply, work.momentary)
        self.supplies[scenes] = max(self.supplies.get(scenes, 0.0), work.amps)

    def take_train(self, train: Train, copper: Copper) -> None:
        """A wire that carries as much already has been walked before, and so has the rest of the way to the supply."""
        self._load(train.figure)
        for start in train.joints:
            for wire in copper.up(start):
                if self.wires.get(wire.number, 0.0) >= train.figure.amps:
                    break
                self.wires[wire.number] = train.figure.amps

    def _load(self, figure: LoadFigure) -> None:
        key = (figure.device, figure.terminal, figure.train)
        if key not in self.loads or self.loads[key].drop_volts < figure.drop_volts:
            self.loads[key] = figure

    def in_order(self, description: Description) -> SteadyFigures:
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


def _scenes(description: Description, netlist: Netlist, supply: str) -> Iterator[Scene]:
    lasting: dict[str, list[Element]] = {lie: [] for lie in LIES}
    for circuit in netlist.circuits:
        if circuit.lever is None or supply not in circuit.supplies.values():
            continue
        for lie in LIES:
            lasting[lie] += _inside(circuit, lie)
        lever = netlist.lever_by_id[circuit.lever]
        lies = dict(closed_by_lever(description, netlist, lever, circuit, supply))
        if lever.type in MOMENTARY:
            yield from (Scene(closed=closed, momentary=True) for closed in lies.values())
        elif lies:
            any_position = () if lies.keys() & lasting.keys() else next(iter(lies.values()))
            for lie in lasting:
                lasting[lie] += lies.get(lie, any_position)
    yield from (Scene(closed=tuple(closed), momentary=False) for closed in lasting.values())


def _inside(circuit: Circuit, lie: str) -> list[Element]:
    """The motor's own contacts, where lamps beside the lever hang on them."""
    return [*closed_inside(circuit, lie)] if lamps_beside_lever(circuit) else []
