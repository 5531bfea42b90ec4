"""Copper: no ring of wires, no two nets joined that belong apart."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise

from labelgen.disjoint_sets import DisjointSets
from labelgen.model.copper import bars
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.places import Path
from labelgen.problems import Problem

Metal = tuple[EndKind, str, str]

HINTS = {
    "ring": "Take it away: in a ring, a broken link is not noticed until the next one breaks.",
    "nets-joined": "See which of its two ends is wrong: as it is, it makes a short circuit, or two levers work as one.",
}


class Nets:
    """Which pieces of metal are joined, and what each net is: a supply's terminal, or a lever's contact."""

    def __init__(self, known: Mapping[Metal, str]) -> None:
        """`known`: what a piece of metal is, in words."""
        self._sets: DisjointSets[Metal] = DisjointSets()
        self._known = dict(known)

    def root(self, metal: Metal) -> Metal:
        return self._sets.first(metal)

    def join(self, a: Metal, b: Metal) -> bool:
        """False when they were joined already."""
        lower = self.root(b)
        new = self._sets.join(a, lower)
        if new and lower in self._known:
            self._known.setdefault(self.root(a), self._known[lower])
        return new

    def what(self, metal: Metal) -> str:
        """In words, the net on which a piece of metal lies; "" when nothing feeds or switches it."""
        return self._known.get(self.root(metal), "")


def nets_of_wires(netlist: Netlist) -> Nets:
    """What all wires and bridges join; what each net is, is not known."""
    nets = Nets({})
    for wire in netlist.wires:
        nets.join(wire.start.point, wire.finish.point)
    for one, other in bars(netlist):
        nets.join(one, other)
    return nets


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """A wire or bridge, as it is called in a message."""

    name: str
    path: Path
    metals: tuple[Metal, Metal]
    hint: str = ""
    """What to do, where the code alone does not tell."""


def copper(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports ring and nets-joined, at the device, listed wire or bridge that makes them.

    A kind may lead two contacts to one terminal, so among the wires of the rules only the supplies are kept apart.
    """
    of_rules = list(_of_rules(netlist.wires))
    supplies = _supply_terminals(netlist)
    # An id that is given twice is said already: what is wired by it twice is no fault of its kind.
    twice = description.points.keys() & description.devices.keys()
    judged = (join for join in of_rules if not twice.intersection(join.path))
    problems = _faults(description, Nets(supplies), judged)
    nets = Nets({**_contacts(netlist), **supplies})
    for join in of_rules:
        nets.join(*join.metals)
    return [*problems, *_faults(description, nets, [*_bridges(netlist), *_extras(netlist.wires)])]


def _faults(description: Description, nets: Nets, joins: Iterable[Join]) -> list[Problem]:
    problems = []
    for join in joins:
        a, b = join.metals
        one, other = nets.what(a), nets.what(b)
        if not nets.join(a, b):
            message = f"{join.name} joins what is joined already: it makes a ring"
            problems.append(_problem(description, join, "ring", message))
        elif one and other and one != other:
            message = f"{join.name} joins {one} with {other}, which belong apart"
            problems.append(_problem(description, join, "nets-joined", message))
    return problems


def _problem(description: Description, join: Join, code: str, message: str) -> Problem:
    return Problem(code=code, message=message, hint=join.hint or HINTS[code], place=description.place_of(*join.path))


def _supply_terminals(netlist: Netlist) -> dict[Metal, str]:
    """Of each supply, and of the contacts that it feeds."""
    known: dict[Metal, str] = {}
    for circuit in netlist.circuits:
        for row in circuit.kind.group:
            if circuit.lever is not None and row.contact is not None and row.chain is not None:
                role, terminal = circuit.kind.reference(row.chain)
                known[EndKind.LEVER, circuit.lever, row.contact] = f"{circuit.supplies[role]}.{terminal}"
    for wire in netlist.wires:
        for end in wire.ends:
            if end.kind is EndKind.SUPPLY and not end.terminal.startswith("in-"):
                known[end.point] = end.name
    return known


def _contacts(netlist: Netlist) -> dict[Metal, str]:
    """Of each lever that works something."""
    return {
        (EndKind.LEVER, circuit.lever, row.contact): f"contact {row.contact} of lever {circuit.lever}"
        for circuit in netlist.circuits
        for row in circuit.kind.group
        if circuit.lever is not None and row.contact is not None
    }


def _of_rules(wires: Iterable[Wire]) -> Iterable[Join]:
    """The wires that follow from the kinds: one of the builder's own may join what does not belong together."""
    for wire in wires:
        if wire.circuit:
            name = f"wire {wire.head}, {wire.start.name} to {wire.finish.name},"
            hint = "Look at the rows of its kind: two of them meet at one terminal or contact."
            yield Join(name=name, path=wire.path[:2], metals=(wire.start.point, wire.finish.point), hint=hint)


def _bridges(netlist: Netlist) -> Iterable[Join]:
    for strip in netlist.strips:
        for number, ways in enumerate(strip.bridges):
            for before, after in pairwise(ways):
                name = f"the bridge from {strip.id}.{before} to {strip.id}.{after}"
                metals = ((EndKind.WAY, strip.id, str(before)), (EndKind.WAY, strip.id, str(after)))
                yield Join(name=name, path=("strips", strip.id, "bridges", number), metals=metals)


def _extras(wires: Iterable[Wire]) -> Iterable[Join]:
    for wire in wires:
        if not wire.circuit:
            name = f"the listed wire from {wire.start.name} to {wire.finish.name}"
            yield Join(name=name, path=wire.path, metals=(wire.start.point, wire.finish.point))
