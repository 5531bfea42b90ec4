"""Between which joints an act at the panel makes contacts."""

from labelgen.model.copper import Joint
from labelgen.model.lever_lies import PROBE, lies_of
from labelgen.model.netlist import Circuit, EndKind, LeverPlan, Netlist
from labelgen.model.panel.routes import FEED, OUTPUT, Matrix, MatrixRow

Contact = tuple[Joint, Joint]


def contacts_by_lie(
    netlist: Netlist, lever: LeverPlan, circuit: Circuit, supply: str
) -> dict[str, tuple[Contact, ...]]:
    """Each way the lever can lie: the contacts that are made then. A stud is joined to the supply's probe."""
    contacts = [row.contact for row in circuit.kind.group if row.contact is not None]
    found: dict[str, tuple[Contact, ...]] = {}
    for lie, pairs in lies_of(lever.type, dict.fromkeys(contacts)).items():
        starts = [(_common(netlist, lever.id, one, supply), other) for one, other in pairs]
        made = tuple((start, (EndKind.LEVER, lever.id, other)) for start, other in starts if start is not None)
        if made:
            found[lie] = made
    return found


def contact_of_route(netlist: Netlist, matrix: Matrix, row: MatrixRow) -> Contact | None:
    """The button of a route, or its stud with the probe; None where there is no probe."""
    start: Joint | None = (EndKind.ROUTE, row.number, FEED)
    if row.stud:
        start = probe_of(netlist, matrix.supply)
    return None if start is None else (start, (EndKind.ROUTE, row.number, OUTPUT))


def probe_of(netlist: Netlist, supply: str) -> Joint | None:
    """The tip of the probe that is on the feed of a supply."""
    probes = (c for c in netlist.circuits if PROBE in c.kind.terminals and supply in c.supplies.values())
    return next(((EndKind.DEVICE, probe.devices[0], PROBE) for probe in probes), None)


def _common(netlist: Netlist, lever: str, contact: str, supply: str) -> Joint | None:
    return (EndKind.LEVER, lever, contact) if contact else probe_of(netlist, supply)
