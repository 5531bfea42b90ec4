"""What a fuse protects: the weakest wire that its supply's current can reach without passing a load."""

from collections.abc import Iterator
from operator import itemgetter

from labelgen.figuring.elements import Element
from labelgen.figuring.switching import closed_by_lever, closed_by_route, closed_inside
from labelgen.figuring.throws import supply_joints
from labelgen.model.copper import Copper
from labelgen.model.description import Description, Supply
from labelgen.model.figures import ProtectionFigure
from labelgen.model.kinds import Kind
from labelgen.model.netlist import Netlist, Wire
from labelgen.model.wire_ratings import rated_amps
from labelgen.natural_order import natural


def protection_figures(description: Description, netlist: Netlist, copper: Copper) -> tuple[ProtectionFigure, ...]:
    """Of each supply that says its `fuse` or `amps`, in natural order of id."""
    limits = {id_: _let_through(supply) for id_, supply in description.supplies.items()}
    wanted = {id_: amps for id_, amps in limits.items() if amps is not None}
    if not wanted:
        return ()
    wires: dict[int | None, list[Wire]] = {}
    for wire in netlist.wires:
        if wire.size:
            wires.setdefault(copper.net(wire.start.point), []).append(wire)
    rated = {net: [(rated_amps(description, wire), wire) for wire in of_net] for net, of_net in wires.items()}
    weakest = {net: min(of_net, key=itemgetter(0)) for net, of_net in rated.items()}
    found = []
    for id_ in sorted(wanted, key=natural):
        reached = _reached(description, netlist, copper, id_)
        weak = min((weakest[net] for net in reached if net in weakest), key=itemgetter(0), default=None)
        if weak is not None:
            found.append(ProtectionFigure(supply=id_, amps=wanted[id_], weakest=weak[1].number))
    return tuple(found)


def _let_through(supply: Supply) -> float | None:
    """Its fuse, else what it can give; a bank's charging resistor lets through no more than the volts drive."""
    if supply.fuse is None and supply.volts is not None and supply.charge_ohms:
        charging = supply.volts / supply.charge_ohms
        return charging if supply.amps is None else min(supply.amps, charging)
    return supply.fuse or supply.amps


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
    passing = _passing(netlist, supply)
    for circuit in netlist.circuits:
        for id_ in passing.intersection(circuit.supplies.values()):
            if circuit.lever is not None:
                lever = netlist.lever_by_id[circuit.lever]
                for _, closed in closed_by_lever(description, netlist, lever, circuit, id_):
                    yield from closed
            if not _cuts_out(circuit.kind):
                for lie in ("normal", "reverse"):
                    yield from closed_inside(circuit, lie)
    for matrix in netlist.matrices:
        for row in matrix.rows if matrix.supply == supply else ():
            yield from closed_by_route(description, netlist, matrix, row)
    for diode in netlist.diodes:
        yield Element(diode.anode.point, diode.cathode.point, one_way=True)


def _passing(netlist: Netlist, supply: str) -> set[str]:
    """The supply, and devices that pass its current on without a cut-out of their own."""
    found, more = {supply}, True
    givers = [circuit for circuit in netlist.circuits if circuit.kind.gives and not _cuts_out(circuit.kind)]
    while more:
        fed = {d for one in givers if found.intersection(one.supplies.values()) for d in one.devices} - found
        found, more = found | fed, bool(fed)
    return found


def _cuts_out(kind: Kind) -> bool:
    """Whether a short behind it trips the device itself: so does what switches both rails.

    Common practice, no source.
    """
    return bool(kind.gives) and len(kind.inside.get("normal", ())) > 1
