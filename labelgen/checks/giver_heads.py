"""Heads of a device that is a circuit and a supply at once: its own wires, and those of what it feeds."""

from collections.abc import Iterator

from labelgen.checks.continuity import Nets, nets_of_wires
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem


def heads_of_givers(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports equal-heads where wires before and behind such a device are called alike and are not joined."""
    givers = [device for circuit in netlist.circuits if circuit.kind.gives for device in circuit.devices]
    if not givers:
        return []
    nets = nets_of_wires(netlist)
    return [
        Problem(
            code="equal-heads",
            message=f"wires before and behind {giver} would both be called {head}",
            hint="Give one of the rows of its kind a `mark`: a letter or two that end the head.",
            place=description.place_of_key(*description.device_path(giver)),
        )
        for giver in givers
        for head in _of_several_nets(netlist, nets, giver)
    ]


def _of_several_nets(netlist: Netlist, nets: Nets, giver: str) -> Iterator[str]:
    """The heads by which wires are called that no copper joins."""
    roots: dict[str, set[object]] = {}
    for wire in netlist.wires:
        if wire.circuit == giver:
            roots.setdefault(wire.head, set()).add(nets.root(wire.start.point))
    return (head for head, found in roots.items() if len(found) > 1)
