"""The wires of circuits: strip by strip and way by way, levers first, then devices (section 5.3 of the format)."""

from collections.abc import Iterator, Mapping

from labelgen.model.kinds import GroupRow
from labelgen.model.netlist import Diode, End, EndKind, Function, Side
from labelgen.natural_order import natural
from labelgen.wiring.circuits import CircuitKey, WantedCircuit, terminal_for
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends
from labelgen.wiring.marks import Head
from labelgen.wiring.placed_groups import PlacedGroup
from labelgen.wiring.resolving import ResolvedDevice


class CircuitWires:
    """Makes the wires that belong to one lever, or to one device without a lever."""

    def __init__(self, ends: Ends, functions: Mapping[str, Function], painted_levers: Mapping[str, str]) -> None:
        self._ends = ends
        self._functions = functions
        self._painted_levers = painted_levers

    def all(self, circuits: list[WantedCircuit], placed: Mapping[CircuitKey, list[PlacedGroup]]) -> list[DraftWire]:
        """Every circuit's wires, in the order of the ways on which they land."""
        landing = [
            (natural(group.strip), way, circuit, number, row)
            for circuit in circuits
            for number, group in enumerate(placed[circuit.key])
            for row, way in group.ways.items()
        ]
        landing.sort(key=lambda entry: entry[:2])
        return [
            wire
            for _, _, circuit, number, row in landing
            for wire in self._at_way(circuit, placed[circuit.key], number, row)
        ]

    def diodes(
        self, circuits: list[WantedCircuit], placed: Mapping[CircuitKey, list[PlacedGroup]]
    ) -> tuple[Diode, ...]:
        """The diodes of every group: from a row's way to the ways of the terminals or contacts that it names."""
        found = [
            (natural(group.strip), way, circuit, group, row)
            for circuit in circuits
            for group in placed[circuit.key]
            for row, way in group.ways.items()
        ]
        found.sort(key=lambda entry: entry[:2])
        return tuple(
            Diode(
                circuit=circuit.id,
                anode=self._ends.way(group.strip, way, None),
                cathode=self._ends.way(group.strip, group.ways[target], None),
            )
            for _, way, circuit, group, number in found
            for name in circuit.kind.group[number].diodes
            for target, row in circuit.rows()
            if name in (row.terminal, row.contact) and target in group.ways
        )

    def head(self, circuit: WantedCircuit, function: str, mark: str) -> Head:
        stem = circuit.id
        painted = self._painted_levers.get(stem, stem) if circuit.lever else circuit.first.given.shown or stem
        return Head(stem=stem, painted=painted, code=self._functions[function].code, mark=mark)

    def head_of_row(self, circuit: WantedCircuit, row: GroupRow, device: ResolvedDevice) -> Head:
        """Of the wires of a row that end at its way: what is one device's alone is called after that one too."""
        own = row.chain is None and circuit.kind.is_own(row) and len(circuit.devices) > 1
        return self.head(circuit, row.function, row.mark + (_letter(circuit, device) if own else ""))

    def _at_way(
        self, circuit: WantedCircuit, groups: list[PlacedGroup], number: int, row_number: int
    ) -> Iterator[DraftWire]:
        row = circuit.kind.group[row_number]
        here = groups[number]
        strip, way = here.strip, here.ways[row_number]
        if (start := self._panel_start(circuit, groups, number, row_number)) is not None:
            yield self._wire(circuit, row, start, self._ends.way(strip, way, Side.PANEL), circuit.first)
        if number == 0 or row.across in circuit.kind.terminals:
            yield from self._across(circuit, here, row, way)
        for device in _devices_at(circuit, here, row):
            if (terminal := terminal_for(device, row)) is not None:
                finish = self._ends.device(device.id, terminal)
                yield self._wire(circuit, row, self._ends.way(strip, way, Side.LAYOUT), finish, device)

    def _across(self, circuit: WantedCircuit, here: PlacedGroup, row: GroupRow, way: int) -> Iterator[DraftWire]:
        """What lands opposite a terminal: another terminal of each device, or a thing beside the lever."""
        if row.across is None:
            return
        start = self._ends.way(here.strip, way, Side.PANEL)
        if row.across in circuit.kind.terminals:
            for device in _devices_at(circuit, here, row):
                yield self._wire(circuit, row, start, self._ends.device(device.id, row.across), device)
        elif circuit.lever is not None:
            yield self._wire(circuit, row, self._ends.lever(circuit.lever, row.across), start, circuit.first)

    def _panel_start(
        self, circuit: WantedCircuit, groups: list[PlacedGroup], number: int, row_number: int
    ) -> End | None:
        """The lever's contact, if the row has one; for a further group, the same row of the group before.

        A way that is one device's own is joined to nothing else: neither to the lever, nor to another group's.
        """
        row = circuit.kind.group[row_number]
        if circuit.kind.is_own(row) or row.across in circuit.kind.terminals:
            return None
        if number > 0:
            before = groups[number - 1]
            return self._ends.way(before.strip, before.ways[row_number], Side.PANEL)
        contact = row.contact if row.across is None else None
        return self._ends.lever(circuit.lever, contact) if circuit.lever is not None and contact is not None else None

    def _wire(
        self, circuit: WantedCircuit, row: GroupRow, start: End, finish: End, device: ResolvedDevice
    ) -> DraftWire:
        return DraftWire(
            circuit=circuit.id,
            function=row.function,
            head=self.head_of_row(circuit, row, device),
            start=start,
            finish=finish,
            link=start.kind is finish.kind is EndKind.WAY and start.thing == finish.thing,
            path=device.path,
        )


def _devices_at(circuit: WantedCircuit, here: PlacedGroup, row: GroupRow) -> tuple[ResolvedDevice, ...]:
    """The devices to which the way of a row leads.

    Only the first group carries a chained row, so it feeds that terminal of every device of the circuit.
    """
    shared = row.chain is not None and not circuit.kind.is_own(row)
    return circuit.devices if shared else here.wanted.devices


def _letter(circuit: WantedCircuit, device: ResolvedDevice) -> str:
    """The letter that ends its id, as of P6A and P6B; where these do not tell its devices apart, their number."""
    letters = [one.id[-1] for one in circuit.devices]
    if all(letter.isalpha() for letter in letters) and len({*map(str.upper, letters)}) == len(letters):
        return device.id[-1]
    return str(1 + circuit.devices.index(device))
