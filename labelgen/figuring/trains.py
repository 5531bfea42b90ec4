"""Trains as loads: at each feed of rails one that takes all that its supply lets through, and what is lost then."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.figuring.elements import Element, Elements
from labelgen.figuring.loops import Loop
from labelgen.figuring.switching import closed_by_lever, closed_inside
from labelgen.figuring.throws import supply_joints
from labelgen.model.copper import Copper, Joint
from labelgen.model.description import Description
from labelgen.model.figures import LoadFigure
from labelgen.model.kind_loads import RAIL_SUPPLIES, rails_of
from labelgen.model.netlist import Circuit, EndKind, Netlist


@dataclass(frozen=True, slots=True, kw_only=True)
class Train:
    figure: LoadFigure
    joints: tuple[Joint, ...]
    """Ends at which its current enters or leaves a net, away from the supply."""


def trains(description: Description, netlist: Netlist, copper: Copper, elements: Elements) -> Iterator[Train]:
    """One at each pair of rails that a supply of known voltage and current feeds, through breakers too."""
    circuits = {device: circuit for circuit in netlist.circuits for device in circuit.devices}
    for circuit in netlist.circuits:
        for rails in rails_of(circuit.kind):
            id_, before = _source(circuit.supplies[rails.role], circuits)
            supply = description.supplies.get(id_)
            if supply is None or supply.volts is None or supply.kind not in RAIL_SUPPLIES:
                continue
            amps = supply.fuse or supply.amps
            if amps is None:
                continue
            inner = supply.esr_ohms or 0.0
            for device in circuit.devices:
                ends: list[Joint] = [(EndKind.DEVICE, device, terminal) for terminal in rails.terminals]
                train = Element(ends[0], ends[1], device=device, role=rails.role)
                for closed in _ways_to_lie(description, netlist, circuit):
                    loop = _loop(supply_joints(id_, supply), (*closed, *before, train), train, elements, copper)
                    if loop is None:
                        continue
                    drop = amps * ((loop.ohms or 0.0) + inner)
                    figure = LoadFigure(
                        device=device,
                        terminal=rails.terminals[0],
                        supply=id_,
                        amps=amps,
                        volts=supply.volts - drop,
                        drop_volts=drop,
                        train=True,
                    )
                    joints = tuple(joint for e in loop.passed for joint in (e.start, e.finish))
                    yield Train(figure=figure, joints=joints)
                    break


def _source(supply: str, circuits: dict[str, Circuit]) -> tuple[str, tuple[Element, ...]]:
    """The supply itself from which a device takes what it passes on, and the contacts within such devices."""
    before: list[Element] = []
    seen: set[str] = set()
    while supply in circuits and supply not in seen:
        seen.add(supply)
        before += closed_inside(circuits[supply], "normal")
        supply = circuits[supply].supply
    return supply, tuple(before)


def _ways_to_lie(description: Description, netlist: Netlist, circuit: Circuit) -> list[tuple[Element, ...]]:
    if circuit.lever is None:
        return [()]
    lever = netlist.lever_by_id[circuit.lever]
    lies = closed_by_lever(description, netlist, lever, circuit, circuit.supply)
    return [closed for _, closed in lies] or [()]


def _loop(
    ends: tuple[Joint, Joint], closed: tuple[Element, ...], train: Element, elements: Elements, copper: Copper
) -> Loop | None:
    """The way from the supply through the train alone, which is taken for metal here."""
    passed = [e for e in elements.between(closed, *ends) if not e.device or e == train]
    return Loop(ends, passed, [e.ohms for e in passed], copper) if train in passed else None
