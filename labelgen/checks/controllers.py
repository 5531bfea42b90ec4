"""Controllers that share a section: what must never meet on one rail."""

from itertools import combinations

from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.model.netlist import Circuit, Netlist
from labelgen.problems import Problem

RAILS = ("A", "B")


def mixed_controllers(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports digital-and-dc where a lever chooses between a digital supply and a controller on one rail alone."""
    problems = []
    for circuit in _sharing_a_rail(netlist):
        kinds = {id_: description.supplies[id_].kind for id_ in _controllers(description, circuit)}
        digital = [id_ for id_, kind in kinds.items() if kind == "digital"]
        plain = [id_ for id_, kind in kinds.items() if kind != "digital"]
        if digital and plain:
            problems.append(
                Problem(
                    code="digital-and-dc",
                    message=f"{circuit.devices[0]} chooses between {plain[0]} and the digital {digital[0]}, and"
                    " switches one rail only: they stay joined by the other",
                    hint="Switch both rails, with a lever that breaks before it makes: the kind `cab-selector`.",
                    place=description.place_of_key(*description.device_path(circuit.devices[0])),
                )
            )
    return problems


def shared_windings(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports winding-shared where controllers with one winding behind them have a common return."""
    problems = []
    for circuit in _sharing_a_rail(netlist):
        for one, other in combinations(_controllers(description, circuit), 2):
            winding = description.supplies[one].winding
            if winding is not None and winding == description.supplies[other].winding:
                problems.append(
                    Problem(
                        code="winding-shared",
                        message=f"{one} and {other} share the winding {winding}, and {circuit.devices[0]} joins their"
                        " returns: that shorts one through the other",
                        hint="Give each a winding of its own, or switch both rails: the kind `cab-selector`.",
                        place=description.place_of_key(*description.device_path(circuit.devices[0])),
                    )
                )
    return problems


def _controllers(description: Description, circuit: Circuit) -> list[str]:
    """The supplies of its rails that are described, each once."""
    of_rails = (circuit.supplies[role] for role, kind in circuit.kind.supply.items() if kind in ("track", "digital"))
    return [id_ for id_ in dict.fromkeys(of_rails) if id_ in description.supplies]


def _sharing_a_rail(netlist: Netlist) -> list[Circuit]:
    """Circuits that choose between several supplies of rails without switching both rails of each."""
    return [
        circuit
        for circuit in netlist.circuits
        if circuit.lever is not None and len(roles := _rail_roles(circuit.kind)) > 1
        if {(role, rail) for role in roles for rail in RAILS} - _switched(circuit.kind)
    ]


def _rail_roles(kind: Kind) -> list[str]:
    return [role for role, supply in kind.supply.items() if supply in ("track", "digital")]


def _switched(kind: Kind) -> set[tuple[str, str]]:
    """(role, terminal) of each supply's terminal that goes through a contact of the lever."""
    return {kind.reference(row.chain) for row in kind.group if row.contact is not None and row.chain is not None}
