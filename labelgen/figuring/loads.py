"""Steady loads: the current in every wire and the voltage at every device, by solving each supply's network.

A device is taken as the resistance that draws its current at the supply's full voltage.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.load_ohms import LoadOhms, load_ohms
from labelgen.figuring.loops import Loop
from labelgen.figuring.switching import closed_by_lever, closed_inside
from labelgen.figuring.throws import supply_joints
from labelgen.figuring.trains import Train, trains
from labelgen.model.copper import Copper
from labelgen.model.description import Description, Supply
from labelgen.model.figures import LoadFigure, SilentLoad, SupplyFigure, WireFigure
from labelgen.model.lamp_resistors import LampResistor, lamps_beside_lever
from labelgen.model.lever_lies import MOMENTARY
from labelgen.model.netlist import Circuit, Netlist
from labelgen.natural_order import natural

STEADY = ("dc", "ac", "digital")
"""What a track supply gives depends on the train."""
LIES = ("normal", "reverse")
BESIDE = 32
"""So many momentary levers of a supply are taken together with all that stays on."""
Scene = tuple[Element, ...]
"""Contacts that are joined at the same time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SteadyFigures:
    """As in `Figures`."""

    loads: tuple[LoadFigure, ...]
    silent: tuple[SilentLoad, ...]
    wires: tuple[WireFigure, ...]
    supplies: tuple[SupplyFigure, ...]


def steady_figures(
    description: Description,
    netlist: Netlist,
    copper: Copper,
    elements: Elements,
    resistors: Sequence[LampResistor],
) -> SteadyFigures:
    """Loads, wires and supplies in natural order: of each supply whose voltage is given, the worst of what can be.

    That is with all levers normal and with all reverse, those of more positions in each of them; and each time with
    each momentary lever beside, one by one (of very many, with those that draw most; the others without the levers that
    stay). Trains come one by one too, each taking all that its supply gives.
    """
    worst = Worst()
    for id_ in sorted(description.supplies, key=natural):
        supply = description.supplies[id_]
        if supply.kind in STEADY and supply.volts is not None:
            ohms = load_ohms(description, netlist, id_, supply.volts, resistors)
            feeding = _Feeding(id_, supply, supply.volts, ohms)
            lasting, momentary = _contacts(description, netlist, id_)
            alone = [(_at_work(feeding, scene, elements, copper), scene) for scene in momentary]
            alone.sort(key=lambda one: -one[0].amps)
            for work, _ in alone[BESIDE:]:
                worst.take(work)
            for stays in lasting:
                for scene in ((), *(scene for _, scene in alone[:BESIDE])):
                    worst.take(_at_work(feeding, (*stays, *scene), elements, copper))
    for train in trains(description, netlist, copper, elements):
        worst.take_train(train, copper)
    return worst.in_order(description)


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A supply in one scene. `loads`: (device, terminal): amps, volts across."""

    supply: str
    volts: float
    loads: dict[tuple[str, str], tuple[float, float]] = field(default_factory=dict)
    silent: frozenset[tuple[str, str]] = frozenset()
    """(Device, terminal) of loads of unknown current."""
    wires: Mapping[int | str, float] = field(default_factory=dict)
    amps: float = 0.0
    unmeasured: int = 0
    """Wires of unknown length in the network."""


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
    between = elements.between(scene, *ends, hanging=True)
    passed = [e for e in between if not e.device or ohms.of(e) is not None]
    silent = frozenset((e.device, e.start[2]) for e in between if ohms.is_silent(e))
    loop = Loop(ends, passed, [e.ohms if (own := ohms.of(e)) is None else own for e in passed], copper)
    if not any(e.device for e in passed) or loop.ohms is None:
        return Work(supply=id_, volts=volts, silent=silent)
    found = loop.at_work(volts * loop.ohms / (loop.ohms + (supply.esr_ohms or 0.0)))
    loads = {
        (e.device, e.start[2]): (amps, across)
        for e, amps, across in zip(passed, found.amps, found.across, strict=True)
        if e.device and amps
    }
    return Work(
        supply=id_, volts=volts, loads=loads, silent=silent, wires=found.wires,
        amps=found.total_amps, unmeasured=loop.unmeasured,
    )  # fmt: skip


@dataclass(slots=True)
class Worst:
    """The worst that was met so far of each load, wire and supply."""

    loads: dict[tuple[str, str, bool], LoadFigure] = field(default_factory=dict)
    """By device, terminal, and whether it is a train."""
    silent: set[tuple[str, str, str]] = field(default_factory=set)
    """(Device, terminal, supply)."""
    wires: dict[int | str, float] = field(default_factory=dict)
    supplies: dict[str, float] = field(default_factory=dict)

    def take(self, work: Work) -> None:
        for (device, terminal), (amps, across) in work.loads.items():
            drop = work.volts - across
            self._load(
                LoadFigure(
                    device=device, terminal=terminal, supply=work.supply, amps=amps, volts=across, drop_volts=drop,
                    unmeasured=work.unmeasured,
                )
            )  # fmt: skip
        self.silent |= {(*load, work.supply) for load in work.silent}
        for number, amps in work.wires.items():
            self.wires[number] = max(self.wires.get(number, 0.0), amps)
        self.supplies[work.supply] = max(self.supplies.get(work.supply, 0.0), work.amps)

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
        ids = [id_ for id_ in sorted(description.supplies, key=natural) if self.supplies.get(id_)]
        silent = sorted(self.silent, key=lambda load: (natural(load[0]), natural(load[1]), load[2]))
        return SteadyFigures(
            loads=tuple(loads),
            silent=tuple(SilentLoad(device=one, terminal=terminal, supply=id_) for one, terminal, id_ in silent),
            wires=tuple(WireFigure(number=number, amps=amps) for number, amps in wires),
            supplies=tuple(SupplyFigure(supply=id_, amps=self.supplies[id_]) for id_ in ids),
        )


def _contacts(description: Description, netlist: Netlist, supply: str) -> tuple[list[Scene], list[Scene]]:
    """What is joined in each position of the levers that stay; what each momentary lever joins."""
    lasting: list[tuple[Scene, ...]] = []
    momentary: list[Scene] = []
    for circuit in netlist.circuits:
        if circuit.lever is None or supply not in circuit.supplies.values():
            continue
        lever = netlist.lever_by_id[circuit.lever]
        lies = dict(closed_by_lever(description, netlist, lever, circuit, supply))
        if lever.type in MOMENTARY:
            momentary += [closed for closed in lies.values() if closed]
            lies = {}
        inside = {lie: _inside(circuit, lie) for lie in LIES}
        lasting.append(tuple((*lies.get(lie, ()), *inside.get(lie, ())) for lie in lies or LIES))
    positions = max((len(each) for each in lasting), default=1)
    together = [
        tuple(element for each in lasting for element in each[position % len(each)]) for position in range(positions)
    ]
    return together, momentary


def _inside(circuit: Circuit, lie: str) -> Scene:
    """The motor's own contacts, where lamps beside the lever hang on them."""
    return tuple(closed_inside(circuit, lie)) if lamps_beside_lever(circuit) else ()
