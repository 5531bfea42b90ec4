"""Detectors of trains: what leads past one blinds it, though no copper is joined that would short."""

from labelgen.checks.continuity import Metal
from labelgen.disjoint_sets import DisjointSets
from labelgen.model.copper import bars
from labelgen.model.description import Description
from labelgen.model.kinds import Kind
from labelgen.model.netlist import EndKind, Netlist
from labelgen.places import Path
from labelgen.problems import Problem


def is_detector(kind: Kind | None) -> bool:
    """Whether it feeds others through itself, its wire in told apart from its wire out."""
    return kind is not None and bool(kind.gives) and any(row.mark == "i" for row in kind.group)


def detectors_passed_by(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports detector-passed-by where a wire of the builder's own, or a bridge, joins both sides of a detector."""
    sides = _sides(netlist)
    if not sides:
        return []
    nets: DisjointSets[Metal] = DisjointSets()
    for wire in netlist.wires:
        if wire.circuit:
            nets.join(wire.start.point, wire.finish.point)
    joins: list[tuple[str, Path | None, Metal, Metal]] = [("a bridge", None, *bar) for bar in bars(netlist)]
    for wire in netlist.wires:
        if not wire.circuit:
            called = f"the listed wire from {wire.start.name} to {wire.finish.name}"
            joins.append((called, wire.path, wire.start.point, wire.finish.point))
    problems = []
    for called, path, one, other in joins:
        nets.join(one, other)
        joined = [device for device, (before, behind) in sides.items() if nets.first(before) == nets.first(behind)]
        problems += [_problem(description, device, called, path) for device in joined]
        sides = {device: both for device, both in sides.items() if device not in joined}
    return problems


def _sides(netlist: Netlist) -> dict[str, tuple[Metal, Metal]]:
    """Detector: its terminals in and out."""
    return {
        device: ((EndKind.DEVICE, device, row.terminal), (EndKind.DEVICE, device, out))
        for circuit in netlist.circuits
        if is_detector(circuit.kind)
        for device in circuit.devices
        for row in circuit.kind.group
        if row.mark == "i" and row.terminal is not None
        for out in circuit.kind.gives.values()
        if out
    }


def _problem(description: Description, device: str, called: str, path: Path | None) -> Problem:
    where = description.place_of_key(*description.device_path(device)) if path is None else description.place_of(*path)
    return Problem(
        code="detector-passed-by",
        message=f"{called} leads past {device}, which sees no train by it",
        hint="Take it from behind the detector; before it comes nothing but its own wire in.",
        place=where,
    )
