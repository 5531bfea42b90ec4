"""The order in which wires are pulled: strip by strip, hole by hole, then the strip's links."""

from collections.abc import Iterable
from dataclasses import dataclass

from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.natural_order import natural


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """Wires that are pulled one after the other: of one strip, through the same holes; or a strip's links."""

    strip: str | None
    """None for wires that belong to no strip."""
    board: str | None
    """That of the strip; of wires at no strip, their own."""
    holes: tuple[str, ...] = ()
    links: bool = False
    wires: tuple[Wire, ...]
    """In the order of the wire list."""


def pulling_order(netlist: Netlist) -> list[Pull]:
    """Every wire once. A wire between strips belongs to the first of them; one that touches none, from device to
    device, to that on which its first device has ways; what then has no strip comes last, board by board.
    """
    places = {strip.id: place for place, strip in enumerate(netlist.strips)}
    of_devices = _strips_of_devices(netlist, places)
    by_strip: dict[str | None, list[Wire]] = {strip.id: [] for strip in netlist.strips}
    by_strip[None] = []
    for wire in netlist.wires:
        by_strip[_strip_of(wire, places, of_devices)].append(wire)
    pulls = [pull for strip in netlist.strips for pull in _pulls(by_strip[strip.id], strip.id, strip.board)]
    by_board: dict[str, list[Wire]] = {}
    for wire in by_strip[None]:
        by_board.setdefault(wire.board or "", []).append(wire)
    return pulls + [pull for board in sorted(by_board, key=natural) for pull in _pulls(by_board[board], None, board)]


def _strip_of(wire: Wire, places: dict[str, int], of_devices: dict[str, str]) -> str | None:
    here = [end.thing for end in wire.ends if end.kind is EndKind.WAY and end.thing in places]
    if here:
        return min(here, key=places.__getitem__)
    device = next((end.thing for end in wire.ends if end.kind is EndKind.DEVICE), None)
    return None if device is None else of_devices.get(device)


def _strips_of_devices(netlist: Netlist, places: dict[str, int]) -> dict[str, str]:
    """Device: the first strip on which it has ways."""
    found: dict[str, str] = {}
    for circuit in netlist.circuits:
        for group in circuit.groups:
            if group.ways:
                for device in group.devices:
                    found[device] = min(group.strip, found.get(device, group.strip), key=places.__getitem__)
    return found


def _pulls(wires: Iterable[Wire], strip: str | None, board: str | None) -> list[Pull]:
    """Those through one and the same holes together, in the order in which each way is first taken; links last."""
    by_way: dict[tuple[bool, tuple[str, ...]], list[Wire]] = {}
    for wire in wires:
        by_way.setdefault((wire.link, wire.holes), []).append(wire)
    pulls = [
        Pull(strip=strip, board=board or None, holes=holes, links=link, wires=tuple(own))
        for (link, holes), own in by_way.items()
    ]
    return sorted(pulls, key=lambda pull: pull.links)
