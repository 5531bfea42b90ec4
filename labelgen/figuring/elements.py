"""What lies between nets: loads, diodes and closed contacts, found by the net at their end."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from labelgen.model.copper import Copper, Joint
from labelgen.model.kind_loads import loads_of
from labelgen.model.lamp_leads import SHARED
from labelgen.model.lamp_resistors import lamp_role, lamps_beside_lever
from labelgen.model.netlist import Circuit, EndKind, Netlist


@dataclass(frozen=True, slots=True)
class Element:
    """Something that joins two nets for current: a load, a diode (from start to finish), a closed contact."""

    start: Joint
    finish: Joint
    device: str = ""
    """Of a load."""
    role: str = ""
    lamp: bool = False
    one_way: bool = False
    ohms: float = 0.0
    """Of a contact."""


class Elements:
    """All loads and diodes of a railway, each by the nets that its ends lie in."""

    def __init__(self, netlist: Netlist, copper: Copper) -> None:
        self._copper = copper
        self._at: dict[int, list[Element]] = {}
        for element in (*_loads(netlist), *_diodes(netlist)):
            for joint in (element.start, element.finish):
                net = copper.net(joint)
                if net is not None:
                    self._at.setdefault(net, []).append(element)

    def between(self, closed: Iterable[Element], plus: Joint, minus: Joint, *, hanging: bool = False) -> list[Element]:
        """All elements that current can pass on its way from one net to another, with some contacts closed.

        What only leads into a blind end is in it as well. `hanging`: also what hangs on the first net itself, without
        a lever between.
        """
        by_net: dict[int, list[Element]] = {}
        for contact in closed:
            for joint in (contact.start, contact.finish):
                if (net := self._copper.net(joint)) is not None:
                    by_net.setdefault(net, []).append(contact)
        start, goal = self._copper.net(plus), self._copper.net(minus)
        if start is None or goal is None:
            return []
        found: dict[Element, None] = {}
        seen, ahead = {start, goal}, [start]
        while ahead:
            here = ahead.pop()
            own = self._at.get(here, ()) if here != start or hanging else ()
            for element in (*by_net.get(here, ()), *own):
                there = self._onward(element, here)
                if there is None:
                    continue
                found[element] = None
                if there not in seen:
                    seen.add(there)
                    ahead.append(there)
        return list(found)

    def _onward(self, element: Element, here: int) -> int | None:
        """The net at its other end; None against a diode, or where nothing is joined there."""
        start, finish = self._copper.net(element.start), self._copper.net(element.finish)
        if start == here:
            return finish
        return None if element.one_way else start


def _loads(netlist: Netlist) -> Iterator[Element]:
    for circuit in netlist.circuits:
        loads = loads_of(circuit.kind)
        beside = [*_beside_lever(circuit)]
        for device in circuit.devices:
            for load in loads:
                ends = [(EndKind.DEVICE, device, terminal) for terminal in load.terminals]
                yield Element(ends[0], ends[1], device=device, role=load.role, lamp=load.lamp)
        yield from beside


def _beside_lever(circuit: Circuit) -> Iterator[Element]:
    """Lamps on the panel that hang on the contacts of a motor."""
    role = lamp_role(circuit)
    if circuit.lever is None or role is None:
        return
    for lamp in lamps_beside_lever(circuit):
        ends = [(EndKind.LEVER, circuit.lever, end) for end in (lamp, SHARED)]
        yield Element(ends[0], ends[1], device=circuit.devices[0], role=role, lamp=True)


def _diodes(netlist: Netlist) -> Iterator[Element]:
    for diode in netlist.diodes:
        yield Element(diode.anode.point, diode.cathode.point, one_way=True)
