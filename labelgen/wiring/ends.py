"""The ends of wires: made from ids, and read from what a builder wrote (`A1.3/panel`, `L5.N`, `P5.C`, `PULSE.feed`)."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import End, EndKind, Side
from labelgen.model.panel.routes import FEED, OUTPUT, Matrix
from labelgen.model.worked_levers import lever_of
from labelgen.wiring.resolving import ResolvedDevice

INPUT_PREFIX = "in-"
"""A supply's own input terminals: `PULSE.in-feed` takes what comes from another supply's `feed`."""

MOST_DIGITS = 9
LONGEST_TOLD = 40
CLOSE_ENOUGH = 0.5
"""Ids are short: `A2` and `A1` share one character of two."""


class Ends:
    """Makes the ends of one description's wires, with what is painted on each thing."""

    def __init__(
        self,
        description: Description,
        devices: Iterable[ResolvedDevice],
        contacts: Mapping[str, Sequence[str]],
        matrices: Sequence[Matrix] = (),
    ) -> None:
        """`contacts`: of each lever; none where its type does not tell. `matrices`: of the routes."""
        self._matrices = {matrix.id: matrix.terminals for matrix in matrices}
        self._buttons = {
            f"ROUTE{row.number}": (row.number, (OUTPUT,) if row.stud else (FEED, OUTPUT))
            for matrix in matrices
            for row in matrix.rows
        }
        self._description = description
        self._devices = {device.id: device for device in devices}
        self._contacts = {f"L{lever}": known for lever, known in contacts.items()}
        self._by_shown = {shown: id_ for id_, shown in description.shown.items()}
        self._by_shown |= {f"L{lever.shown}": f"L{id_}" for id_, lever in description.levers.items() if lever.shown}
        self._left_out = self._things_left_out()

    def lever(self, lever: str, contact: str) -> End:
        given = self._description.levers.get(lever)
        painted = f"L{given.shown}.{contact}" if given and given.shown else ""
        return End(kind=EndKind.LEVER, thing=lever, terminal=contact, painted=painted)

    def way(self, strip: str, way: int, side: Side | None) -> End:
        shown = self._description.strips[strip].shown
        painted = f"{shown}.{way}" if shown else ""
        return End(kind=EndKind.WAY, thing=strip, terminal=str(way), side=side, painted=painted)

    def device(self, device: str, terminal: str) -> End:
        given = self._devices[device].given
        painted = _painted(device, terminal, given.shown, given.terminals)
        return End(kind=EndKind.DEVICE, thing=device, terminal=terminal, painted=painted)

    def supply(self, supply: str, terminal: str) -> End:
        """Of a device that serves as a supply: its own terminal."""
        if supply in self._devices:
            return self.device(supply, self._devices[supply].kind.gives.get(terminal) or terminal)
        given = self._description.supplies[supply]
        painted = _painted(supply, terminal, given.shown, given.terminals)
        return End(kind=EndKind.SUPPLY, thing=supply, terminal=terminal, painted=painted)

    def pin(self, plug: str, pin: int, board: str | None) -> End:
        """A pin of a plug; `board`: on which of its two boards, where that is known already."""
        shown = self._description.plugs[plug].shown
        painted = f"{shown}.{pin}" if shown else ""
        return End(kind=EndKind.PIN, thing=plug, terminal=str(pin), board=board, painted=painted)

    def route(self, number: str, contact: str) -> End:
        """A contact of the button or stud of a route."""
        return End(kind=EndKind.ROUTE, thing=number, terminal=contact)

    def matrix(self, matrix: str, terminal: str) -> End:
        return End(kind=EndKind.MATRIX, thing=matrix, terminal=terminal)

    def read(self, text: str) -> End | str:
        """The end that a text names; else what is wrong with it, in the builder's words.

        Nothing ("") where it belongs to a thing that was left out for a mistake which has been reported.
        """
        bare, side = text, None
        for wanted in Side:
            if text.endswith(f"/{wanted}"):
                bare, side = text.removesuffix(f"/{wanted}"), wanted
        thing, terminal = self._parts(bare)
        if not thing or not terminal:
            return f"{text!r} is not an end of a wire"
        thing = self._by_shown.get(thing, thing)
        if thing in self._description.strips:
            return self._read_way(thing, terminal, side)
        if thing in self._description.plugs and side is None:
            return self._read_pin(thing, terminal)
        if side is not None:
            return f"{text!r} names a side, and only a strip has sides"
        return self._read_other(thing, terminal)

    def _parts(self, text: str) -> tuple[str, str]:
        """Thing and terminal. What is painted may have points in it: the last one behind a known thing counts."""
        tables = (self._description.strips, self._description.supplies, self._description.plugs)
        parts = text.split(".")
        for cut in range(len(parts) - 1, 0, -1):
            thing = ".".join(parts[:cut])
            thing = self._by_shown.get(thing, thing)
            if thing in self._devices or thing in self._contacts or any(thing in table for table in tables):
                return thing, ".".join(parts[cut:])
        thing, _, terminal = text.rpartition(".")
        return thing, terminal

    def _read_way(self, strip: str, terminal: str, side: Side | None) -> End | str:
        ways = self._description.strips[strip].ways
        way = _counted(terminal)
        if not 1 <= way <= ways:
            return f"strip {strip} has the ways 1 to {ways}, not {_short(terminal)!r}"
        return self.way(strip, way, side)

    def _read_pin(self, plug: str, terminal: str) -> End | str:
        given = self._description.plugs[plug]
        pin = _counted(terminal)
        if not 1 <= pin <= given.pins:
            return f"plug {plug} has the pins 1 to {given.pins}, not {_short(terminal)!r}"
        if pin in given.keep_empty:
            return f"pin {pin} of plug {plug} is kept empty"
        return self.pin(plug, pin, None)

    def _read_other(self, thing: str, terminal: str) -> End | str:
        if thing in self._description.supplies and thing not in self._devices:
            given = self._description.supplies[thing]
            outputs = SUPPLY_TERMINALS[given.kind]
            known = [*outputs, *(f"{INPUT_PREFIX}{name}" for name in outputs)]
            return self._terminal(thing, terminal, known, given.terminals) or self.supply(
                thing, _unpainted(terminal, given.terminals)
            )
        if thing in self._devices:
            device = self._devices[thing]
            painted = device.given.terminals
            return self._terminal(thing, terminal, list(device.kind.terminals), painted) or self.device(
                thing, _unpainted(terminal, painted)
            )
        if thing in self._contacts:
            contacts = self._contacts[thing] or [terminal]
            return self._terminal(thing, terminal, contacts, {}) or self.lever(thing[1:], terminal)
        return "" if thing in self._left_out else self._read_route(thing, terminal)

    def _read_route(self, thing: str, terminal: str) -> End | str:
        if thing in self._matrices:
            return self._terminal(thing, terminal, self._matrices[thing], {}) or self.matrix(thing, terminal)
        if thing in self._buttons:
            number, known = self._buttons[thing]
            return self._terminal(thing, terminal, known, {}) or self.route(number, terminal)
        names = {name.lower(): name for name in self._names()}
        near = get_close_matches(thing.lower(), names, n=1, cutoff=CLOSE_ENOUGH)
        return f"there is no {thing}" + (f"; did you mean {names[near[0]]}?" if near else "")

    def _things_left_out(self) -> set[str]:
        """Devices that are described and not wired, because of another problem, with their levers."""
        tables = ((self._description.points, True), (self._description.devices, False))
        devices = [(id_, one, is_point) for table, is_point in tables for id_, one in table.items()]
        missing = [(id_, lever_of(id_, one, is_point=p)) for id_, one, p in devices if id_ not in self._devices]
        return {thing for id_, lever in missing for thing in (id_, f"L{lever}")}

    def _names(self) -> list[str]:
        named = (self._description.strips, self._description.supplies, self._description.plugs)
        return [*(id_ for table in named for id_ in table), *self._devices, *self._contacts]

    @staticmethod
    def _terminal(thing: str, terminal: str, known: Sequence[str], painted: Mapping[str, str]) -> str:
        """What is wrong with a terminal; "" when nothing is."""
        if _unpainted(terminal, painted) in known:
            return ""
        return f"{thing} has no terminal {terminal}, only {', '.join(known)}"


def _counted(text: str) -> int:
    """The number that is written; 0 for what is none, or has more digits than anything here is counted with."""
    digits = text.lstrip("0") if text.isascii() and text.isdecimal() else ""
    return int(digits) if 0 < len(digits) <= MOST_DIGITS else 0


def _short(text: str) -> str:
    """So much of it as is worth telling the builder."""
    return text if len(text) <= LONGEST_TOLD else f"{text[:LONGEST_TOLD]}…"


def landed(end: End, other: End) -> End:
    """A way whose side was not said: where the other end lies, else the panel side for a lever, the layout side."""
    if end.kind is not EndKind.WAY or end.side is not None:
        return end
    return replace(end, side=other.side or (Side.PANEL if other.kind is EndKind.LEVER else Side.LAYOUT))


def _painted(thing: str, terminal: str, shown: str, painted: Mapping[str, str]) -> str:
    if not shown and terminal not in painted:
        return ""
    return f"{shown or thing}.{painted.get(terminal, terminal)}"


def _unpainted(terminal: str, painted: Mapping[str, str]) -> str:
    """The terminal's own name, when it was called by what is painted on it."""
    return next((name for name, text in painted.items() if text == terminal), terminal)
