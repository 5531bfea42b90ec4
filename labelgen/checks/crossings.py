"""Live crossings (frogs): what must change with the blades, and must not be fed from behind."""

from collections.abc import Iterator

from labelgen.checks.continuity import Metal, Nets, nets_of_wires
from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.model.netlist import Circuit, EndKind, Netlist
from labelgen.problems import Problem

CROSSING = "frog"
"""The function of the wire to it."""


def shorted_crossings(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports crossing-shorted: a crossing that is on a supply all the time, or on one rail in both lies."""
    live = [(circuit, arm) for circuit in netlist.circuits for arm in _arms(circuit.kind)]
    if not live:
        return []
    nets, terminals = nets_of_wires(netlist), _supply_terminals(netlist)
    joined = {nets.root(metal): name for metal, name in terminals.items()}
    return [
        Problem(
            code="crossing-shorted",
            message=message,
            hint="Its arm goes to the crossing and nowhere else, and its two throws to the two rails, one each.",
            place=description.place_of(*description.device_path(device)),
        )
        for circuit, arm in live
        for device in circuit.devices
        for message in _shorts(circuit, device, arm, nets, joined)
    ]


def _shorts(circuit: Circuit, device: str, arm: str, nets: Nets, joined: dict[Metal, str]) -> Iterator[str]:
    def supply(terminal: str) -> str:
        return joined.get(nets.root((EndKind.DEVICE, device, terminal)), "")

    if on := supply(arm):
        yield f"the crossing of {device} is on {on} all the time: it shorts as soon as a train is on it"
        return
    inside = circuit.kind.inside
    normal, reverse = (
        {supply(terminal) for pair in inside.get(lie, ()) if arm in pair for terminal in pair}
        for lie in ("normal", "reverse")
    )
    if both := (normal & reverse) - {""}:
        yield f"the crossing of {device} is on {min(both)} both in normal and in reverse"


def _arms(kind: Kind) -> Iterator[str]:
    """Terminals that lead to the crossing."""
    yield from (row.terminal for row in kind.group if row.function == CROSSING and row.terminal is not None)


def _supply_terminals(netlist: Netlist) -> dict[Metal, str]:
    return {
        end.point: end.name
        for wire in netlist.wires
        for end in wire.ends
        if end.kind is EndKind.SUPPLY and not end.terminal.startswith("in-")
    }


def pairs_not_marked(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports no-swap-pair at each kind of the builder's own that changes a crossing over, and marks no pair."""
    used = {circuit.kind_name: circuit.kind for circuit in netlist.circuits}
    return [
        Problem(
            code="no-swap-pair",
            message=f"the kind {name} switches a crossing, and marks no two ways that may have to be exchanged",
            hint="Write `swap: rails` at the rows of its two throws: which rail belongs to which is not known before"
            " it is tried.",
            place=description.place_of_key("kinds", name),
        )
        for name, kind in used.items()
        if name in description.kinds and _changes_over(kind) and not any(row.swap for row in kind.group)
    ]


def _changes_over(kind: Kind) -> bool:
    arms = set(_arms(kind))
    return len([lie for lie, pairs in kind.inside.items() if any(arms & set(pair) for pair in pairs)]) > 1
