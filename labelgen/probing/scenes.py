"""What lies between nets while all levers lie still: contacts that are made, coils, diodes.

Supplies are taken off, trains are off the rails. Levers that spring back, and buttons, join nothing.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.copper_tree import CopperTree, Point
from labelgen.model.description import Description, Device
from labelgen.model.kind_loads import loads_of
from labelgen.model.lamp_leads import SHARED
from labelgen.model.lamp_resistors import lamps_beside_lever
from labelgen.model.lever_lies import MOMENTARY, Pair, lies_of
from labelgen.model.netlist import Circuit, EndKind, Netlist
from labelgen.model.test_plan import Levers
from labelgen.probing.network import Network

SCENES: tuple[Levers, ...] = ("normal", "reverse", "turns")


@dataclass(frozen=True, slots=True)
class Between:
    """Something that may let a meter's current from one point to another."""

    one: Point
    other: Point
    ohms: float | None = None
    """None: it is there and may let current through or not."""


def network_of(description: Description, netlist: Netlist, tree: CopperTree, scene: Levers) -> Network:
    """What lies between the nets with the levers in one position."""

    def nets(one: Point, other: Point) -> Iterator[tuple[int, int]]:
        if one in tree.net and other in tree.net:
            yield tree.net[one], tree.net[other]

    return Network(
        [pair for ends in contacts_made(netlist, scene) for pair in nets(*ends)],
        [(*pair, one.ohms) for one in betweens(description, netlist) for pair in nets(one.one, one.other)],
        [pair for d in netlist.diodes for pair in nets((*d.anode.point, ""), (*d.cathode.point, ""))],
    )


def hidden_nets(netlist: Netlist, tree: CopperTree) -> set[int]:
    """Nets of which some wire could be crossed with another net's and still beep, while levers and blades lie normal.

    Of every two nets that contacts join then and not in reverse, one: those first that are joined with most.
    """
    made = [
        {
            frozenset({tree.net[one], tree.net[other]})
            for one, other in contacts_made(netlist, scene)
            if one in tree.net and other in tree.net
        }
        for scene in ("normal", "reverse")
    ]
    left = {pair for pair in made[0] - made[1] if len(pair) == 2}
    found: set[int] = set()
    while left:
        counts = Counter(sorted(net for pair in left for net in pair))
        found.add(counts.most_common(1)[0][0])
        left = {pair for pair in left if not pair & found}
    return found


def contacts_made(netlist: Netlist, scene: Levers) -> Iterator[tuple[Point, Point]]:
    """Of levers that stay where they are put, and of the devices' own."""
    levers = [circuit.lever for circuit in netlist.circuits if circuit.lever is not None]
    for circuit in netlist.circuits:
        turn = levers.index(circuit.lever) % 2 if circuit.lever is not None else 0
        lie = ("normal", "reverse")[turn] if scene == "turns" else scene
        yield from _of_lever(netlist, circuit, lie)
        for pair in circuit.kind.inside.get(lie, ()):
            if pair not in _lasting(circuit):
                yield from ((_at(device, pair[0]), _at(device, pair[1])) for device in circuit.devices)


def _of_lever(netlist: Netlist, circuit: Circuit, lie: str) -> Iterator[tuple[Point, Point]]:
    if circuit.lever is None:
        return
    lever = netlist.lever_by_id[circuit.lever]
    if lever.type in MOMENTARY:
        return
    contacts = [row.contact for row in circuit.kind.group if row.contact is not None]
    lies = lies_of(lever.type, dict.fromkeys(contacts))
    for one, other in _lying(lies, lie):
        yield (EndKind.LEVER, lever.id, one, ""), (EndKind.LEVER, lever.id, other, "")


def _lying(lies: dict[str, tuple[Pair, ...]], lie: str) -> tuple[Pair, ...]:
    """Of a lever with positions the first one counts as normal, the last one as reverse."""
    positions = list(lies.values())
    return lies.get(lie) if lie in lies else positions[0 if lie == "normal" else -1] if positions else ()  # type: ignore[return-value]


def _lasting(circuit: Circuit) -> set[tuple[str, ...]]:
    """Of a device, what is joined inside however it lies; without power it may be or not."""
    inside = circuit.kind.inside
    return set(inside.get("normal", ())) & set(inside.get("reverse", ()))


def betweens(description: Description, netlist: Netlist) -> Iterator[Between]:
    """All coils, motors, lamps and whatever else a device may be inside."""
    given = {**description.points, **description.devices}
    for circuit in netlist.circuits:
        for device in circuit.devices:
            own = given.get(device, Device())
            ohms = None if own.not_in_use else own.ohms or circuit.kind.ohms
            yield from _of_device(circuit, device, ohms)
        for lamp in lamps_beside_lever(circuit) if circuit.lever is not None else ():
            yield Between(
                (EndKind.LEVER, circuit.lever or "", lamp, ""), (EndKind.LEVER, circuit.lever or "", SHARED, "")
            )


def _of_device(circuit: Circuit, device: str, ohms: float | None) -> Iterator[Between]:
    kind = circuit.kind
    for load in loads_of(kind):
        one, other = load.terminals
        yield Between(_at(device, one), _at(device, other), None if load.lamp else ohms)
    for pair in _lasting(circuit):
        yield Between(_at(device, pair[0]), _at(device, pair[1]))
    if kind.gives or (kind.ohms is None and loads_of(kind)):
        first, *rest = kind.terminals
        yield from (Between(_at(device, first), _at(device, other)) for other in rest)


def _at(device: str, terminal: str) -> Point:
    return (EndKind.DEVICE, device, terminal, "")
