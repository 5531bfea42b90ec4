"""Which contacts an act at the panel joins, as elements of the network."""

from collections.abc import Iterator

from labelgen.figuring.elements import Element
from labelgen.model.copper import Joint
from labelgen.model.lever_lies import PROBE, lies_of
from labelgen.model.netlist import Circuit, EndKind, LeverPlan, Netlist
from labelgen.model.routes import FEED, OUTPUT, Matrix, MatrixRow


def closed_by_lever(
    netlist: Netlist, lever: LeverPlan, circuit: Circuit, supply: str
) -> Iterator[tuple[str, tuple[Element, ...]]]:
    """Each way the lever can lie, and the contacts that it joins then. A stud is joined to the supply's probe."""
    contacts = [row.contact for row in circuit.kind.group if row.contact is not None]
    for lie, pairs in lies_of(lever.type, dict.fromkeys(contacts)).items():
        closed = [
            Element(start, (EndKind.LEVER, lever.id, other))
            for one, other in pairs
            if (start := _common(netlist, lever.id, one, supply)) is not None
        ]
        if closed:
            yield lie, tuple(closed)


def closed_by_route(netlist: Netlist, matrix: Matrix, row: MatrixRow) -> tuple[Element, ...]:
    """The button or stud of a route."""
    start: Joint | None = (EndKind.ROUTE, row.number, FEED)
    if row.stud:
        start = probe_of(netlist, matrix.supply)
    return () if start is None else (Element(start, (EndKind.ROUTE, row.number, OUTPUT)),)


def probe_of(netlist: Netlist, supply: str) -> Joint | None:
    """The tip of the probe that is on the feed of a supply."""
    probes = (c for c in netlist.circuits if PROBE in c.kind.terminals and supply in c.supplies.values())
    return next(((EndKind.DEVICE, probe.devices[0], PROBE) for probe in probes), None)


def _common(netlist: Netlist, lever: str, contact: str, supply: str) -> Joint | None:
    return (EndKind.LEVER, lever, contact) if contact else probe_of(netlist, supply)
