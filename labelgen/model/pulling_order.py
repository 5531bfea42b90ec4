"""The order of work, for wires, flags and holes: strip by strip, hole by hole, way by way; a strip's links last."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from labelgen.model.netlist import EndKind, Netlist, Side, Wire
from labelgen.natural_order import natural

SIDES = tuple(Side)


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
    """Way by way, panel side before layout side; then those from device to device, by their first devices' first
    ways. At no strip: pin by pin, then in the order of the wire list."""


Way = tuple[str, int]
"""A strip, and the number of a way on it."""
_Rank = tuple[object, ...]


def pulling_order(netlist: Netlist) -> list[Pull]:
    """Every wire once. A wire between strips belongs to the first of them; one that touches none, from device to
    device, to that on which its first device has ways; what then has no strip comes last, board by board.
    """
    places = {strip.id: place for place, strip in enumerate(netlist.strips)}
    of_devices = _ways_of_devices(netlist, places)
    by_strip: dict[str | None, list[tuple[_Rank, Wire]]] = {strip.id: [] for strip in netlist.strips}
    by_board: dict[str, list[tuple[_Rank, Wire]]] = {}
    for wire in netlist.wires:
        strip, rank = _at_strip(wire, places, of_devices)
        here = by_board.setdefault(wire.board or "", []) if strip is None else by_strip[strip]
        here.append((rank, wire))
    pulls = [pull for strip in netlist.strips for pull in _pulls(by_strip[strip.id], strip.id, strip.board)]
    return pulls + [pull for board in sorted(by_board, key=natural) for pull in _pulls(by_board[board], None, board)]


def _at_strip(wire: Wire, places: Mapping[str, int], of_devices: Mapping[str, Way]) -> tuple[str | None, _Rank]:
    """The strip to which a wire belongs, and what sorts it among the wires there."""
    ways = [
        (places[end.thing], int(end.terminal), 0 if end.side is None else SIDES.index(end.side), end.thing)
        for end in wire.ends
        if end.kind is EndKind.WAY and end.thing in places
    ]
    if ways:
        _, way, side, strip = min(ways)
        return strip, (0, way, side)
    device = next((end.thing for end in wire.ends if end.kind is EndKind.DEVICE), "")
    if device in of_devices:
        strip, way = of_devices[device]
        return strip, (1, way, 0)
    pins = [(natural(end.thing), natural(end.terminal)) for end in wire.ends if end.kind is EndKind.PIN]
    return None, (0, *min(pins)) if pins else (1,)


def _ways_of_devices(netlist: Netlist, places: Mapping[str, int]) -> dict[str, Way]:
    """Device: the first strip on which it has ways, and the first of them."""
    found: dict[str, Way] = {}
    for circuit in netlist.circuits:
        for group in circuit.groups:
            for device in group.devices if group.ways and group.strip in places else ():
                way = (group.strip, min(group.ways.values()))
                found[device] = min(way, found.get(device, way), key=lambda at: (places[at[0]], at[1]))
    return found


def _pulls(ranked: Iterable[tuple[_Rank, Wire]], strip: str | None, board: str | None) -> list[Pull]:
    """Those through the same holes together, in the order in which a way first needs a hole; links last.

    Where wires go through several holes, all of the hole that is needed first come together.
    """
    by_holes: dict[tuple[bool, tuple[str, ...]], list[Wire]] = {}
    for _, wire in sorted(ranked, key=lambda one: one[0]):
        by_holes.setdefault((wire.link, wire.holes), []).append(wire)
    needed = {
        hole: turn for turn, hole in enumerate(dict.fromkeys(each for _, holes in by_holes for each in holes or ("",)))
    }
    pulls = [
        Pull(strip=strip, board=board or None, holes=holes, links=link, wires=tuple(own))
        for (link, holes), own in by_holes.items()
    ]
    return sorted(pulls, key=lambda pull: (pull.links, min(needed[hole] for hole in pull.holes or ("",))))
