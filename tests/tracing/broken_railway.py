"""A railway with faults in it, judged by networkx: what works then, and what a meter reads.

It shares nothing with the finder but the netlist. Every wire is two joints and a conductor between them, each of which
can fail by itself. Contacts by lever type: common practice, as in tests/devices.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import networkx as nx
from devices.copper_proof import CLOSED

from labelgen.model.netlist import End, EndKind, Netlist, Wire

Node = tuple[str, ...]
COILS = {"twin-coil": (("N", "C"), ("R", "C")), "lamps": (("L", "C"),), "section": ()}
RAILS = {"section": ("A", "B")}
PULSE, POLES = "pulse", {"pulse": ("feed", "return"), "dc": ("feed", "return"), "track": ("A", "B")}


def joint(end: End) -> Node:
    return (end.name, end.board or "")


@dataclass(frozen=True)
class Wrong:
    """One fault: a class, and what it is about."""

    kind: str
    about: tuple[Any, ...]
    ends: tuple[str, ...]


@dataclass
class Broken:
    """The railway with some of these faults."""

    netlist: Netlist
    supplies: dict[str, str]
    """Supply: its kind."""
    wrong: tuple[Wrong, ...] = ()
    contacts: dict[tuple[str, str], tuple[tuple[Node, Node], ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.loads = [
            ((f"{d}.{a}", ""), (f"{d}.{b}", ""))
            for c in self.netlist.circuits
            for d in c.devices
            for a, b in COILS[c.kind_name]
        ]
        for lever in self.netlist.levers:
            for lie, pairs in CLOSED[lever.type].items() if lever.devices else ():
                made = tuple(((f"L{lever.id}.{a}", ""), (f"L{lever.id}.{b}", "")) for a, b in pairs)
                self.contacts[lever.id, lie] = made
        for matrix in self.netlist.matrices:
            for row in matrix.rows:
                self.contacts[row.route, "set"] = (((f"ROUTE{row.number}.F", ""), (f"ROUTE{row.number}.M", "")),)
        self._gone = {w.about for w in self.wrong}
        pieces = enumerate(nx.connected_components(self.metal()))
        self._pieces: dict[Node, object] = {node: number for number, piece in pieces for node in piece}
        both = [(joint(diode.anode), joint(diode.cathode)) for diode in self.netlist.diodes]
        self._diodes = [pair for pair in both if ("diode", *pair) not in self._gone]
        self._held = {s for s in self.supplies if self._is_held(s)}

    def _piece(self, node: Node) -> object:
        """What is one piece of metal with it, at rest."""
        return self._pieces.get(node, node)

    def flow(self, made: tuple[tuple[Node, Node], ...] = ()) -> nx.DiGraph:
        """From which piece to which current can flow without passing a load, with these contacts made."""
        graph = nx.DiGraph((self._piece(a), self._piece(b)) for a, b in self._diodes)
        for one, other in made:
            if ("contact", one, other) not in self._gone:
                pair = (self._piece(one), self._piece(other))
                graph.add_edges_from([pair, pair[::-1]])
        return graph

    def metal(self, lifted: Wire | None = None) -> nx.Graph:
        """All wires, pins and what touches, point by point."""
        return nx.Graph([*self._joints(lifted), *self._pins(), *self._touching()])

    def _joints(self, lifted: Wire | None) -> Iterator[tuple[Node, Node]]:
        """Of each wire: its conductor, and its two joints."""
        landing = self._landings()
        for wire in self.netlist.wires:
            halves = ((str(wire.number), "0"), (str(wire.number), "1"))
            if ("conductor", wire.number) not in self._gone:
                yield halves
            for place, half in enumerate(halves):
                is_off = wire is lifted and place == self._near(wire)
                if ("joint", wire.number, place) not in self._gone and not is_off:
                    yield landing[wire.number, place], half

    def _pins(self) -> Iterator[tuple[Node, Node]]:
        for plug in self.netlist.plugs:
            for pin in plug.pins:
                if ("pin", plug.id, pin.number) not in self._gone:
                    one, other = plug.boards
                    yield (f"{plug.id}.{pin.number}", one), (f"{plug.id}.{pin.number}", other)

    def _touching(self) -> Iterator[tuple[Node, Node]]:
        for fault in self.wrong:
            if fault.kind in ("short", "stuck-contact"):
                _, one, other = fault.about
                yield one, other

    def _landings(self) -> dict[tuple[object, int], Node]:
        found: dict[tuple[object, int], Node] = {
            (wire.number, place): joint(end) for wire in self.netlist.wires for place, end in enumerate(wire.ends)
        }
        for fault in self.wrong:
            if fault.kind == "swapped-pair":
                one, other = (number for number in fault.about[1:])
                found[one, 0], found[other, 0] = found[other, 0], found[one, 0]
        return found

    near_end: Node | None = None

    def _near(self, wire: Wire) -> int:
        return 0 if joint(wire.start) == self.near_end else 1

    def asked(self) -> set[tuple[str, str, str]]:
        """(Lever or route, lie, device or its terminal): all that works then, and does not work at rest already."""
        resting = self._working("", "")
        return {task for task in self.done() if not task[0] or task[2] not in resting}

    def done(self) -> set[tuple[str, str, str]]:
        """All that works, whether it is asked to or not."""
        acts = [("", ""), *self.contacts]
        return {(lever, lie, what) for lever, lie in acts for what in self._working(lever, lie)}

    def _working(self, lever: str, lie: str) -> set[str]:
        graph = self.flow(self.contacts.get((lever, lie), ()))
        return {what for supply in self.supplies for what in self._fed(graph, supply)}

    def _fed(self, graph: nx.DiGraph, supply: str) -> Iterator[str]:
        if ("supply", supply) in self._gone or supply in self._held:
            return
        out, back = self._sides(graph, supply)
        if out & back:
            return
        for load in self._between(out, back):
            yield load[0][0]
        for circuit in self.netlist.circuits:
            for device in circuit.devices if circuit.kind_name in RAILS else ():
                if self._piece((f"{device}.A", "")) in out and self._piece((f"{device}.B", "")) in back:
                    yield device

    def _between(self, out: set[object], back: set[object]) -> Iterator[tuple[Node, Node]]:
        """Loads that work between the one side of a supply and the other."""
        for load in self.loads:
            a, b = map(self._piece, load)
            if ("load", *load) not in self._gone and ((a in out and b in back) or (b in out and a in back)):
                yield load

    def _sides(self, graph: nx.DiGraph, supply: str) -> tuple[set[object], set[object]]:
        """The pieces to which a supply's first terminal feeds, and those from which its second is reached."""
        plus, minus = map(self._piece, self._poles(supply))
        out = nx.descendants(graph, plus) if plus in graph else set()
        back = nx.ancestors(graph, minus) if minus in graph else set()
        return out | {plus}, back | {minus}

    def _poles(self, supply: str) -> tuple[Node, Node]:
        plus, minus = POLES[self.supplies[supply]]
        return (f"{supply}.{plus}", ""), (f"{supply}.{minus}", "")

    def _is_held(self, supply: str) -> bool:
        out, back = self._sides(self.flow(), supply)
        return bool(out & back) or (self.supplies[supply] == PULSE and any(self._between(out, back)))

    # what a meter reads

    def joined(self, one: Node, other: Node, hold: tuple[str, str] | None = None) -> bool:
        """By metal: through a diode no meter reads a few ohms."""
        made = [pair for pair in self.contacts[hold] if ("contact", *pair) not in self._gone] if hold else []
        graph = nx.Graph([tuple(map(self._piece, pair)) for pair in made])
        a, b = self._piece(one), self._piece(other)
        return a == b or (a in graph and b in graph and nx.has_path(graph, a, b))

    def through_diode(self, one: Node, other: Node) -> bool:
        """One way a reading, the other way none."""
        graph, a, b = self.flow(), self._piece(one), self._piece(other)
        ways = [a in graph and b in graph and nx.has_path(graph, *pair) for pair in ((a, b), (b, a))]
        return ways[0] != ways[1]

    def through_load(self, one: Node, other: Node) -> bool:
        if self.joined(one, other):
            return False
        pairs = [pair for pair in self.loads if ("load", *pair) not in self._gone]
        return any(
            (self.joined(one, a) or one == a) and (self.joined(other, b) or other == b)
            for pair in pairs
            for a, b in (pair, pair[::-1])
        )

    def clear(self, one: Node, other: Node, lifted: Wire, near: Node) -> bool:
        self.near_end = near
        """With the red lead on the first, and a meter that drives a diode."""
        graph = self.metal(lifted).to_directed()
        graph.add_edges_from(self._diodes)
        for pair in self.loads:
            if ("load", *pair) not in self._gone:
                graph.add_edges_from([pair, pair[::-1]])
        return not (one in graph and other in graph and nx.has_path(graph, one, other))

    def volts(self, supply: str) -> bool:
        return ("supply", supply) not in self._gone and supply not in self._held


def every_fault(netlist: Netlist, supplies: dict[str, str]) -> Iterator[Wrong]:
    """All single faults of every class, of wires, contacts, coils, diodes, pins, supplies and neighbours."""
    for wire in netlist.wires:
        yield Wrong("broken-wire", ("conductor", wire.number), tuple(end.name for end in wire.ends))
        for place, end in enumerate(wire.ends):
            yield Wrong("bad-joint", ("joint", wire.number, place), (end.name,))
    for plug in netlist.plugs:
        for pin in plug.pins:
            if pin.wires:
                yield Wrong("bad-pin", ("pin", plug.id, pin.number), (f"{plug.id}.{pin.number}",) * 2)
    sound = Broken(netlist, supplies)
    for pairs in dict.fromkeys(pair for made in sound.contacts.values() for pair in made):
        yield Wrong("dead-contact", ("contact", *pairs), tuple(node[0] for node in pairs))
        yield Wrong("stuck-contact", ("stuck", *pairs), tuple(node[0] for node in pairs))
    for pair in sound.loads:
        yield Wrong("open-coil", ("load", *pair), tuple(node[0] for node in pair))
    for diode in netlist.diodes:
        about = ("diode", joint(diode.anode), joint(diode.cathode))
        yield Wrong("open-diode", about, (diode.anode.name, diode.cathode.name))
    for supply in supplies:
        yield Wrong("dead-supply", ("supply", supply), tuple(node[0] for node in sound._poles(supply)))
    yield from _shorts(netlist)
    yield from _swaps(netlist)


def _shorts(netlist: Netlist) -> Iterator[Wrong]:
    rows = [[(f"{strip.id}.{way.number}", "") for way in strip.ways if way.state == "used"] for strip in netlist.strips]
    rows += [[(f"{p.id}.{pin.number}", p.boards[0]) for pin in p.pins if pin.wires] for p in netlist.plugs]
    for row in rows:
        for one, other in pairwise(row):
            if int(other[0].split(".")[1]) == int(one[0].split(".")[1]) + 1:
                yield Wrong("short", ("short", one, other), (one[0], other[0]))


def _swaps(netlist: Netlist) -> Iterator[Wrong]:
    """Two wires of one lever between the same two things."""
    seen: dict[tuple[object, ...], list[Wire]] = {}
    for wire in netlist.wires:
        if wire.start.kind is EndKind.LEVER and wire.finish.kind is EndKind.WAY:
            seen.setdefault((wire.circuit, wire.start.thing, wire.finish.thing), []).append(wire)
    for wires in seen.values():
        for one, other in pairwise(wires):
            ends = tuple(end.name for wire in (one, other) for end in wire.ends)
            yield Wrong("swapped-pair", ("swap", one.number, other.number), ends)
