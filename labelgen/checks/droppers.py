"""Droppers: the thin wires from rail to bus are to be short."""

from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.problems import Problem
from labelgen.standards.conductors import copper_area_mm2, is_size

LONGEST_MM = 300
"""From a supplier's guide; common practice, no source."""
THICKEST = "16/0.2"
"""What counts as thin: droppers are 1/0.6 or 16/0.2. Common practice, no source."""
RAILS = frozenset({"track", "track-return"})


def long_droppers(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports long-dropper once for each device that has thin wires to its rails that are too long."""
    longest: dict[str, Wire] = {}
    for wire in netlist.wires:
        if (device := _dropped_to(wire)) is not None:
            longest[device] = max(wire, longest.get(device, wire), key=lambda one: _run(description, one))
    return [
        Problem(
            code="long-dropper",
            message=f"wire {wire.head} to the rails of {device} is {wire.size} and runs {_run(description, wire):g} mm",
            hint=f"Wires this thin should be no longer than {LONGEST_MM} mm: move the strip nearer, or take 24/0.2.",
            place=description.place_of_key(*description.device_path(device)),
        )
        for device, wire in longest.items()
        if _run(description, wire) > LONGEST_MM
    ]


def _dropped_to(wire: Wire) -> str | None:
    """The device to whose rail a thin wire goes."""
    if wire.function not in RAILS or not is_size(wire.size) or copper_area_mm2(wire.size) > copper_area_mm2(THICKEST):
        return None
    return next((end.thing for end in wire.ends if end.kind is EndKind.DEVICE), None)


def _run(description: Description, wire: Wire) -> float:
    """How far it is from end to end, in mm, without what is added to work with; 0 where that is not known."""
    slack = description.slack
    added = sum(slack.device if end.kind is EndKind.DEVICE else slack.strip for end in wire.ends)
    return max(0.0, (wire.length or 0) - added)
