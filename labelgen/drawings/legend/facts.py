"""What a legend has to explain: only what is met on one board, or in one panel."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.model.description import Description
from labelgen.model.netlist import Circuit, End, EndKind, Function, Netlist, StripPlan, Wire
from labelgen.standards.trade_words import said

CONTACTS: Mapping[str, Sequence[tuple[str, str]]] = {
    "N F R": (("N, R, F", "lever contacts: normal, reverse, feed"),),
    "A B P M": (("A, B", "the two arms of a changeover lever"), ("P, M", "plus and minus of its supply")),
    "N1 F1 R1 N2 F2 R2": (("N1, R1, F1", "a lever’s first pole, as N, R, F"), ("N2, R2, F2", "its second pole")),
    "1 2": (("1, 2", "the two tabs of a switch or button"),),
    "F": (("F", "the feed of a rotary switch or row of buttons"),),
}
_CONTACTS_OF = {
    "sprung": "N F R",
    "passing": "N F R",
    "latching": "N F R",
    "changeover": "A B P M",
    "two-pole": "N1 F1 R1 N2 F2 R2",
    "on-off": "1 2",
    "button": "1 2",
    "buttons": "F",
    "rotary": "F",
}
_ENDS = {
    EndKind.WAY: "strip {thing}, way {terminal}",
    EndKind.LEVER: "lever {thing}, contact {terminal}",
    EndKind.DEVICE: "{thing}, its terminal {terminal}",
    EndKind.SUPPLY: "supply {thing}, terminal {terminal}",
    EndKind.PIN: "plug {thing}, pin {terminal}",
    EndKind.ROUTE: "button of route {thing}, contact {terminal}",
    EndKind.MATRIX: "the diodes of the routes, terminal {terminal}",
}
Said = tuple[str, str]
"""What is seen, and what it means."""


@dataclass(frozen=True, kw_only=True)
class LegendFacts:
    """Of the wires of one board, or those that end in one panel."""

    description: Description
    netlist: Netlist
    wires: Sequence[Wire]
    strips: Sequence[StripPlan] = ()

    def functions(self) -> list[Function]:
        used = {wire.function for wire in self.wires} | {way.function for strip in self.strips for way in strip.ways}
        return [function for name, function in self.netlist.functions.items() if name in used and function.code != "–"]

    def heads(self) -> list[Said]:
        """One of each form of head, as it is met here."""
        found: dict[str, Said] = {}
        for wire in self.wires:
            form, means = self._head(wire)
            if form:
                found.setdefault(form, (wire.head, means))
        return [found[form] for form in ("lever", "route", "device", "mark", "chain", "supply") if form in found]

    def _head(self, wire: Wire) -> Said:
        code = f"{wire.code} for {wire.function}"
        circuit = self._circuits.get(wire.circuit)
        if wire.function == "route":
            return "route", f"route {wire.stem}, {code}"
        if circuit is not None and wire.mark:
            return "mark", f"{_called(circuit, wire)}, {code}; {wire.mark} says which of several"
        if circuit is not None and wire.stem:
            lacks = "" if circuit.lever else " (it has no lever)"
            return "lever" if circuit.lever else "device", f"{_called(circuit, wire)}{lacks}, {code}"
        if wire.circuit in self.description.supplies and not wire.mark:
            return ("supply", f"the chain of {wire.stem}, {code}") if wire.stem else ("chain", f"a chain, {code}")
        return "", ""

    @cached_property
    def _circuits(self) -> dict[str, Circuit]:
        return {circuit.id: circuit for circuit in self.netlist.circuits}

    def ends(self) -> list[Said]:
        """One of each kind of end, as it is painted."""
        found: dict[EndKind, End] = {}
        for wire in self.wires:
            for end in wire.ends:
                found.setdefault(end.kind, end)
        return [(found[kind].shown, self._end(found[kind])) for kind in _ENDS if kind in found]

    def _end(self, end: End) -> str:
        thing, _, terminal = end.shown.rpartition(".")
        lever = self.netlist.lever_by_id.get(end.thing)
        called = lever.shown if end.kind is EndKind.LEVER and lever else end.thing
        shown = called if end.kind in (EndKind.LEVER, EndKind.ROUTE) else thing or self.netlist.shown_id(end.thing)
        return _ENDS[end.kind].format(thing=shown, terminal=terminal or end.terminal)

    def contacts(self) -> list[Said]:
        """What the letters of lever contacts stand for."""
        levers = {end.thing for wire in self.wires for end in wire.ends if end.kind is EndKind.LEVER}
        types = {lever.type for lever in self.netlist.levers if lever.id in levers}
        sets = {_CONTACTS_OF[type_] for type_ in types if type_ in _CONTACTS_OF}
        return [one for contacts, told in CONTACTS.items() if contacts in sets for one in told]

    def terminals(self) -> list[str]:
        """Kind by kind: its terminals that are wired here, as painted, and what they are."""
        met = {(end.thing, end.terminal) for wire in self.wires for end in wire.ends if end.kind is EndKind.DEVICE}
        kinds: dict[str, list[Circuit]] = {}
        for circuit in self.netlist.circuits:
            kinds.setdefault(circuit.kind_name, []).append(circuit)
        told = {name: list(dict.fromkeys(self._terminals(circuits, met))) for name, circuits in kinds.items()}
        return [f"{self._of_kind(name, name)}: {'; '.join(texts)}" for name, texts in told.items() if texts]

    def _of_kind(self, kind: str, text: str) -> str:
        """What a kind says: of a built-in one, in the trade words that are wanted."""
        return text if kind in self.description.kinds else said(text, self.description.words)

    def _terminals(self, circuits: Sequence[Circuit], met: set[tuple[str, str]]) -> Iterator[str]:
        """Of one kind, in its own order."""
        devices = [device for circuit in circuits for device in circuit.devices]
        for terminal, what in circuits[0].kind.terminals.items():
            for device in devices:
                if what and (device, terminal) in met:
                    written = self.description.points.get(device) or self.description.devices[device]
                    means = self._of_kind(circuits[0].kind_name, what)
                    yield f"{written.terminals.get(terminal, terminal)} {means}"

    def turning_number(self) -> str:
        """The first way here that has a line below, lest it be read upside down; "" without one."""
        numbers = (str(way.number) for strip in self.strips for way in strip.ways)
        return next((number for number in numbers if needs_underline(number)), "")


def _called(circuit: Circuit, wire: Wire) -> str:
    return f"lever {wire.stem}" if circuit.lever else wire.stem
