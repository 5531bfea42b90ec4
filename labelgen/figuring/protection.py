"""What a fuse protects: the thinnest wire that its supply's current can reach without passing a load."""

from collections.abc import Iterator

from labelgen.figuring.elements import Element
from labelgen.figuring.switching import closed_by_lever, closed_by_route
from labelgen.figuring.throws import supply_joints
from labelgen.model.copper import Copper
from labelgen.model.description import Description
from labelgen.model.figures import ProtectionFigure
from labelgen.model.netlist import Netlist, Wire
from labelgen.natural_order import natural
from labelgen.standards.conductors import copper_area_mm2


def protection_figures(description: Description, netlist: Netlist, copper: Copper) -> tuple[ProtectionFigure, ...]:
    """Of each supply that says its `fuse` or `amps`, in natural order of id."""
    limits = {id_: supply.fuse or supply.amps for id_, supply in description.supplies.items()}
    wanted = {id_: amps for id_, amps in limits.items() if amps is not None}
    if not wanted:
        return ()
    wires: dict[int | None, list[Wire]] = {}
    for wire in netlist.wires:
        if wire.size:
            wires.setdefault(copper.net(wire.start.point), []).append(wire)
    thinnest = {net: min(of_net, key=_area) for net, of_net in wires.items()}
    found = []
    for id_ in sorted(wanted, key=natural):
        reached = _reached(description, netlist, copper, id_)
        thin = min((thinnest[net] for net in reached if net in thinnest), key=_area, default=None)
        if thin is not None:
            found.append(ProtectionFigure(supply=id_, amps=wanted[id_], thinnest=thin.number))
    return tuple(found)


def _area(wire: Wire) -> float:
    return copper_area_mm2(wire.size)


def _reached(description: Description, netlist: Netlist, copper: Copper, supply: str) -> set[int | None]:
    """Nets on its terminals, and behind contacts and diodes that are fed from them."""
    beyond: dict[int | None, set[int | None]] = {}
    for element in _switched(description, netlist, supply):
        start, finish = copper.net(element.start), copper.net(element.finish)
        beyond.setdefault(start, set()).add(finish)
        if not element.one_way:
            beyond.setdefault(finish, set()).add(start)
    found: set[int | None] = {copper.net(joint) for joint in supply_joints(supply, description.supplies[supply])}
    ahead = list(found)
    while ahead:
        for net in beyond.get(ahead.pop(), ()):
            if net not in found:
                found.add(net)
                ahead.append(net)
    return found - {None}


def _switched(description: Description, netlist: Netlist, supply: str) -> Iterator[Element]:
    for circuit in netlist.circuits:
        if supply in circuit.supplies.values() and circuit.lever is not None:
            lever = netlist.lever_by_id[circuit.lever]
            for _, closed in closed_by_lever(description, netlist, lever, circuit, supply):
                yield from closed
    for matrix in netlist.matrices:
        for row in matrix.rows if matrix.supply == supply else ():
            yield from closed_by_route(description, netlist, matrix, row)
    for diode in netlist.diodes:
        yield Element(diode.anode.point, diode.cathode.point, one_way=True)
