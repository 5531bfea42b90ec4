"""Which contacts an act at the panel joins, as elements of the network."""

from collections.abc import Iterator

from labelgen.figuring.elements import Element
from labelgen.model.contacts import contact_ohms, lever_part, route_part
from labelgen.model.description import Description
from labelgen.model.netlist import Circuit, EndKind, LeverPlan, Netlist
from labelgen.model.panel.routes import Matrix, MatrixRow
from labelgen.model.switching import contact_of_route, contacts_by_lie


def closed_by_lever(
    description: Description, netlist: Netlist, lever: LeverPlan, circuit: Circuit, supply: str
) -> Iterator[tuple[str, tuple[Element, ...]]]:
    """Each way the lever can lie, and the contacts that it joins then."""
    ohms = contact_ohms(lever_part(description, lever))
    for lie, made in contacts_by_lie(netlist, lever, circuit, supply).items():
        yield lie, tuple(Element(*contact, ohms=ohms) for contact in made)


def closed_by_route(description: Description, netlist: Netlist, matrix: Matrix, row: MatrixRow) -> tuple[Element, ...]:
    """The button or stud of a route."""
    contact = contact_of_route(netlist, matrix, row)
    ohms = contact_ohms(route_part(description, matrix.panel, row.route))
    return () if contact is None else (Element(*contact, ohms=ohms),)


def closed_inside(circuit: Circuit, lie: str) -> Iterator[Element]:
    """The contacts of its devices themselves, as they are when the lever lies so."""
    for device in circuit.devices:
        for one, other in circuit.kind.inside.get(lie, ()):
            yield Element((EndKind.DEVICE, device, one), (EndKind.DEVICE, device, other))
