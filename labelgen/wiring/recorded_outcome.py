"""What a railway's wiring comes to, as the record that is to be kept of it; and what is new in it."""

from collections.abc import Iterator
from dataclasses import replace

from labelgen.model.built.built_record import (
    BuiltGroup,
    BuiltMatrix,
    BuiltPins,
    BuiltRecord,
    BuiltWire,
    SparePin,
    SpareWay,
)
from labelgen.model.netlist import Circuit, Netlist, Wire
from labelgen.wiring.recorded_groups import row_labels
from labelgen.wiring.recorded_routes import routes_after


def built_record(netlist: Netlist, before: BuiltRecord | None) -> BuiltRecord:
    """The record after `before`, which is in today's names: what is gone is retired, and what is printed stays so."""
    before = before or BuiltRecord(railway=netlist.railway)
    wires = tuple(_wire(wire) for wire in netlist.wires)
    numbers = {wire.number for wire in wires}
    return replace(
        before,
        groups=tuple(group for circuit in netlist.circuits for group in _groups(circuit)),
        spare=tuple(
            SpareWay(strip=strip.id, way=way.number, head=way.was)
            for strip in netlist.strips
            for way in strip.ways
            if way.was
        ),
        wires=wires,
        pins=tuple(
            BuiltPins(start=one.start, finish=one.finish, circuit=one.circuit, pins=one.pins)
            for one in netlist.passages
        ),
        spare_pins=tuple(
            SparePin(plug=plug.id, pin=pin.number, head=pin.was)
            for plug in netlist.plugs
            for pin in plug.pins
            if pin.was
        ),
        matrices=_matrices(netlist, before),
        routes=routes_after(before, netlist.matrices),
        retired=(*before.retired, *(wire for wire in before.wires if wire.number not in numbers)),
    )


def _matrices(netlist: Netlist, before: BuiltRecord) -> tuple[BuiltMatrix, ...]:
    """One that is gone keeps its id."""
    now = {one.id: BuiltMatrix(id=one.id, panel=one.panel or "", supply=one.supply) for one in netlist.matrices}
    return tuple(({one.id: one for one in before.matrices} | now).values())


def _wire(wire: Wire) -> BuiltWire:
    return BuiltWire(
        number=wire.number,
        head=wire.head,
        start=wire.start.name,
        finish=wire.finish.name,
        circuit=wire.circuit,
        function=wire.function,
    )


def _groups(circuit: Circuit) -> Iterator[BuiltGroup]:
    labels = row_labels(circuit.kind)
    for group in circuit.groups:
        yield BuiltGroup(
            by_lever=circuit.lever is not None,
            circuit=circuit.id,
            strip=group.strip,
            devices=group.devices,
            ways={labels[row]: way for row, way in group.ways.items()},
        )
