"""What a meter reads on a railway with one fault in it, judged by networkx; it shares nothing with the charts.

Every wire is two joints and a conductor, each of which can fail by itself. Copper by length and cross-section at 1/58 Ω
mm²/m (IEC 60028). Coils: of each kind as its data file says. A diode conducts from anode to cathode.
"""

import math
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations, pairwise

import networkx as nx

from labelgen.model.netlist import End, EndKind, Netlist, Wire
from labelgen.model.test_plan import Reading

Node = tuple[str, ...]
MM2 = {"7/0.2": 7, "16/0.2": 16, "24/0.2": 24, "32/0.2": 32}
COILS: Mapping[str, tuple[tuple[str, str, float | None], ...]] = {
    "twin-coil": (("N", "C", 4.5), ("R", "C", 4.5)),
    "twin-coil-frog": (("N", "C", 4.5), ("R", "C", 4.5)),
    "stall-motor": (("1", "8", 600.0),),
    "lamps": (("L", "C", None),),
    "section": (),
}
OWN_CONTACTS = {
    "twin-coil-frog": {"normal": (("SN", "SC"),), "reverse": (("SR", "SC"),)},
    "stall-motor": {"normal": (("2", "4"),), "reverse": (("3", "4"),)},
}
CLOSED: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "latching": {"normal": ("FN",), "reverse": ("FR",)},
    "on-off": {"normal": (), "reverse": ("12",)},
    "changeover": {"normal": ("PA", "MB"), "reverse": ("PB", "MA")},
}
"""Levers that stay where they are put (trade page, section 4)."""
LAMP_OHMS = 100.0
SOMETHING = 50.0
"""What a meter shows through a diode: never nothing."""


def node(end: End) -> Node:
    return (end.kind, end.thing, end.terminal, end.board or "")


@dataclass(frozen=True)
class Fault:
    kind: str
    about: tuple[Hashable, ...]

    def __str__(self) -> str:
        return f"{self.kind} {self.about}"


@dataclass
class Bench:
    """A railway on the bench, supplies off: with its plugs in or out, its levers laid, and at most one fault."""

    netlist: Netlist
    plugged: bool = False
    levers: str = "normal"
    fault: Fault = field(default_factory=lambda: Fault("none", ()))
    idle: frozenset[str] = frozenset()

    def __post_init__(self) -> None:
        metal = nx.Graph()
        metal.add_weighted_edges_from(self._metal(), weight="ohms")
        self._metal_graph = metal
        self._piece = {point: number for number, piece in enumerate(nx.connected_components(metal)) for point in piece}
        self._coils = nx.Graph()
        for one, other, ohms in self._loads():
            a, b = self._piece.get(one, one), self._piece.get(other, other)
            if a != b:
                before = self._coils.edges[a, b]["mhos"] if self._coils.has_edge(a, b) else 0.0
                self._coils.add_edge(a, b, mhos=before + 1 / ohms)
        self._flow = nx.DiGraph([*self._coils.edges, *(edge[::-1] for edge in self._coils.edges)])
        for diode in self.netlist.diodes:
            if self.fault != Fault("diode", (node(diode.anode), node(diode.cathode))):
                self._flow.add_edge(*(self._piece.get(node(end), node(end)) for end in (diode.anode, diode.cathode)))

    def _metal(self) -> Iterator[tuple[Node, Node, float]]:
        swapped = self.fault.about if self.fault.kind == "crossed" else ()
        for wire in self.netlist.wires:
            halves = (("half", str(wire.number), "0"), ("half", str(wire.number), "1"))
            if self.fault != Fault("broken", (wire.number,)):
                area = MM2[wire.size] * math.pi * 0.01
                yield *halves, (wire.length or 0) / 1000 / 58 / area
            for place, end in enumerate(wire.ends):
                here = node(end)
                if swapped and (wire.number, place) in swapped[:2]:
                    here = swapped[2] if (wire.number, place) == swapped[1] else swapped[3]  # type: ignore[assignment]
                if self.fault != Fault("joint", (wire.number, place)):
                    yield here, halves[place], 0.0
        for strip in self.netlist.strips:
            for first, *rest in strip.bridges:
                yield from (
                    ((EndKind.WAY, strip.id, str(first), ""), (EndKind.WAY, strip.id, str(w), ""), 0.0) for w in rest
                )
        yield from self._pins()
        yield from ((*pair, 0.0) for pair in self._contacts())
        if self.fault.kind == "short":
            yield *self.fault.about, 0.0  # type: ignore[misc]

    def _pins(self) -> Iterator[tuple[Node, Node, float]]:
        for plug in self.netlist.plugs:
            for pin in plug.pins:
                sides = [(EndKind.PIN, plug.id, str(pin.number), board) for board in plug.boards]
                if self.plugged and self.fault != Fault("pin", (plug.id, pin.number)) and pin.bridged_to is None:
                    yield *sides, 0.0
                for side in sides if pin.bridged_to is not None and not self.plugged else ():
                    if self.fault != Fault("jumper", side):
                        yield side, (EndKind.PIN, plug.id, str(pin.bridged_to), side[3]), 0.0

    def _contacts(self) -> Iterator[tuple[Node, Node]]:
        levers = [circuit.lever for circuit in self.netlist.circuits if circuit.lever is not None]
        for circuit in self.netlist.circuits:
            turned = circuit.lever is not None and levers.index(circuit.lever) % 2
            lie = ("reverse" if turned else "normal") if self.levers == "turns" else self.levers
            lever = self.netlist.lever_by_id.get(circuit.lever or "")
            if lever is not None and lever.type in CLOSED:
                for pair in CLOSED[lever.type][lie]:
                    yield tuple((EndKind.LEVER, lever.id, end, "") for end in pair)  # type: ignore[misc]
            for device in circuit.devices:
                for pair in OWN_CONTACTS.get(circuit.kind_name, {}).get(lie, ()):
                    yield tuple((EndKind.DEVICE, device, end, "") for end in pair)  # type: ignore[misc]

    def _loads(self) -> Iterator[tuple[Node, Node, float]]:
        for one, other, ohms in coils(self.netlist):
            if self.fault != Fault("coil", (one, other)) and one[1] not in self.idle:
                yield one, other, ohms or LAMP_OHMS

    def reads(self, red: Node, black: Node) -> float:
        """Ohms; infinite where nothing flows."""
        a, b = self._piece.get(red, red), self._piece.get(black, black)
        if a == b:
            return (
                float(nx.shortest_path_length(self._metal_graph, red, black, weight="ohms"))
                if red in self._piece
                else 0.0
            )
        if a in self._coils and b in self._coils and nx.has_path(self._coils, a, b):
            return self._through(a, b)
        return SOMETHING if a in self._flow and b in self._flow and nx.has_path(self._flow, a, b) else math.inf

    def _through(self, a: Hashable, b: Hashable) -> float:
        part = self._coils.subgraph(nx.node_connected_component(self._coils, a))
        if nx.is_tree(part):
            return sum(1 / part.edges[edge]["mhos"] for edge in pairwise(nx.shortest_path(part, a, b)))
        return float(nx.resistance_distance(part, a, b, weight="mhos", invert_weight=False))

    def is_right(self, reading: Reading) -> bool:
        """Whether a person would tick it: the rules that are printed on the first sheet."""
        ohms = self.reads(reading.one, reading.other)
        if reading.expect == "joined":
            return ohms <= (reading.ohms or 0.0) + 0.5
        if reading.expect == "through":
            assert reading.ohms is not None
            return abs(ohms - reading.ohms) <= 0.2 * reading.ohms
        return ohms == math.inf if reading.expect == "nothing" else ohms > 2


def coils(netlist: Netlist) -> Iterator[tuple[Node, Node, float | None]]:
    for circuit in netlist.circuits:
        for device in circuit.devices:
            for one, other, ohms in COILS[circuit.kind_name]:
                yield (EndKind.DEVICE, device, one, ""), (EndKind.DEVICE, device, other, ""), ohms


def opens(netlist: Netlist) -> Iterator[Fault]:
    """Every wire, every joint but those at supplies (whose wires are off), every jumper of a plug, every coil."""
    for wire in netlist.wires:
        yield Fault("broken", (wire.number,))
        for place, end in enumerate(wire.ends):
            if end.kind is not EndKind.SUPPLY:
                yield Fault("joint", (wire.number, place))
    for plug in netlist.plugs:
        for pin in plug.pins:
            for board in plug.boards if pin.bridged_to is not None else ():
                yield Fault("jumper", (EndKind.PIN, plug.id, str(pin.number), board))
    for one, other, ohms in coils(netlist):
        if ohms is not None and ohms < 100:
            yield Fault("coil", (one, other))


def pins(netlist: Netlist) -> Iterator[Fault]:
    for plug in netlist.plugs:
        yield from (Fault("pin", (plug.id, pin.number)) for pin in plug.pins if pin.wires and pin.bridged_to is None)


def neighbours(netlist: Netlist) -> Iterator[tuple[Node, Node]]:
    """Ways and pins side by side; contacts of a lever and terminals of a twin-coil motor, each beside each other."""
    for strip in netlist.strips:
        yield from pairwise([(EndKind.WAY, strip.id, str(way.number), "") for way in strip.ways])
    for plug in netlist.plugs:
        for board in plug.boards:
            yield from pairwise([(EndKind.PIN, plug.id, str(pin.number), board) for pin in plug.pins])
    for lever in netlist.levers:
        known = {"sprung": "NFR", "latching": "NFR", "on-off": "12", "changeover": "ABPM"}.get(lever.type, "")
        close = combinations(known, 2) if len(known) <= 3 else pairwise(sorted(known))
        yield from (((EndKind.LEVER, lever.id, a, ""), (EndKind.LEVER, lever.id, b, "")) for a, b in close)
    for one, other, _ in coils(netlist):
        yield one, other
    for circuit in netlist.circuits:
        if circuit.kind_name == "twin-coil":
            yield from (((EndKind.DEVICE, d, "N", ""), (EndKind.DEVICE, d, "R", "")) for d in circuit.devices)


def shorts(netlist: Netlist, net_of: Callable[[Node], object]) -> Iterator[Fault]:
    """Of two nets that lie side by side; `net_of`: None where there is none."""
    for one, other in neighbours(netlist):
        nets = net_of(one), net_of(other)
        if None not in nets and nets[0] != nets[1]:
            yield Fault("short", (one, other))


def crossings(netlist: Netlist, net_of: Callable[[Node], object]) -> Iterator[Fault]:
    """Two wires that have changed places at one end: neighbours on a strip or plug, or at one lever or device."""
    landing: dict[tuple[object, ...], list[tuple[Wire, int]]] = {}
    for wire in netlist.wires:
        for place, end in enumerate(wire.ends):
            if end.kind is not EndKind.SUPPLY:
                landing.setdefault((end.kind, end.thing, end.side, end.board), []).append((wire, place))
    for landed in landing.values():
        landed.sort(key=lambda one: one[0].ends[one[1]].terminal.zfill(4))
        for (one, i), (other, j) in pairwise(landed):
            a, b = node(one.ends[i]), node(other.ends[j])
            if a != b and net_of(a) != net_of(b):
                yield Fault("crossed", ((one.number, i), (other.number, j), a, b))
