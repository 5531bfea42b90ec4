"""Chains: a supply's feed from way to way, its return from device to device. By itself every chain is one line.

What is recorded, and what the builder lists, may branch; a ring it never is.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import End, EndKind, Function, Side
from labelgen.natural_order import natural
from labelgen.wiring.bridges import joined
from labelgen.wiring.chain_members import Member, Step
from labelgen.wiring.chain_order import ChainKey, ChainLaying
from labelgen.wiring.circuits import WantedCircuit
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import INPUT_PREFIX, Ends
from labelgen.wiring.known_chains import KnownChains
from labelgen.wiring.marks import ChainHeads, Head
from labelgen.wiring.placed_groups import PlacedGroup
from labelgen.wiring.resolving import Boards, ResolvedDevice


class Chains:
    """Makes the chains of all supplies, in natural order of supply."""

    def __init__(
        self,
        description: Description,
        ends: Ends,
        functions: Mapping[ChainKey, Function],
        boards: Boards,
        plugs_between: Callable[[str | None, str | None], float],
        *,
        laying: ChainLaying,
        known: KnownChains | None = None,
    ) -> None:
        """`plugs_between`: through how many plugs a wire from board to board runs. `functions`: of each chain.

        `laying`: how those run of which nothing is known; `known`: the others.
        """
        self._laying = laying
        self._description = description
        self._known = known
        self._ends = ends
        self._functions = functions
        self._supply_boards = boards.supplies
        self._plugs_between = plugs_between
        self._combs = {id_: joined(strip.bridges) for id_, strip in description.strips.items()}
        self._fed: dict[ChainKey, list[Member]] = {}
        self._shared: dict[ChainKey, list[Member]] = {}

    def add(self, circuit: WantedCircuit, groups: list[PlacedGroup], panel_order: Any) -> None:
        """Notes a circuit's stops. `panel_order` sorts its lever along the panels."""
        self._add_rows(circuit, groups, panel_order)
        first_ways = {
            device.id: (group, min(group.ways.values())) for group in groups for device in group.wanted.devices
        }
        for number, row in circuit.chain_rows():
            key = circuit.first.fed_from(row.supply)
            if row.contact is not None:
                self._add_contact(key, circuit, row.contact, (panel_order, number))
            if row.terminal is None:
                continue
            for device in circuit.devices:
                order = (*self._device_order(device, first_ways.get(device.id), key[0]), natural(device.id), number)
                end = self._ends.device(device.id, row.terminal)
                member = Member(order=order, end=end, path=device.path)
                self._shared.setdefault(key, []).append(member)

    def _add_contact(self, key: ChainKey, circuit: WantedCircuit, contact: str, along: tuple[Any, int]) -> None:
        """A stop behind the panel, before all ways. `along`: what sorts the panel, and the row."""
        if circuit.lever is not None:
            order = (0, along[0], natural(circuit.lever), along[1])
            end = self._ends.lever(circuit.lever, contact)
            member = Member(order=order, end=end, path=circuit.first.path)
            self._fed.setdefault(key, []).append(member)

    def _add_rows(self, circuit: WantedCircuit, groups: list[PlacedGroup], panel_order: Any) -> None:
        for number, row in circuit.rows():
            if row.chain is None:
                continue
            key = circuit.first.fed_from(row.chain)
            carrying = [group for group in groups if number in group.ways]
            for group in carrying:
                way, strip = group.ways[number], group.strip
                order = (1, self._rank(group.board, key[0]), natural(strip), way)
                end = self._ends.way(strip, way, Side.LAYOUT)
                member = Member(order=order, end=end, path=group.wanted.devices[0].path)
                self._fed.setdefault(key, []).append(member)
            if not carrying and row.contact is not None and row.terminal is None and self._behind_panel(key[0]):
                self._add_contact(key, circuit, row.contact, (panel_order, number))

    def _behind_panel(self, supply: str) -> bool:
        return self._description.supplies[supply].feed_at == "panel"

    def _rank(self, board: str | None, supply: str) -> Any:
        """Boards outward from the supply: its own, then the others by fewest plugs, then in natural order."""
        return (self._plugs_between(self._supply_boards[supply], board), natural(board or ""))

    def _device_order(self, device: ResolvedDevice, first: tuple[PlacedGroup, int] | None, supply: str) -> Any:
        if first is None:
            return (1, self._rank(device.board, supply))
        group, way = first
        return (0, self._rank(group.board, supply), natural(group.strip), way)

    def wires(self) -> list[DraftWire]:
        """For each supply its feed chains, then its device chains, then the pairs by which it feeds other supplies."""
        heads = self._heads()
        return [wire for supply in sorted(self._description.supplies, key=natural) for wire in self._of(supply, heads)]

    def head(self, supply: str, terminal: str, code: str) -> Head:
        """What the wires of a chain with that code are called."""
        return self._heads().head(supply, terminal, code)

    def _of(self, supply: str, heads: ChainHeads) -> Iterator[DraftWire]:
        terminals = self._terminals(supply)
        chains = {terminal: self._chains_at(supply, terminal) for terminal in terminals}
        for number in range(len(chains[terminals[0]])):
            for terminal in terminals:
                yield from self._chain(supply, terminal, chains[terminal][number], heads)

    def _chains_at(self, supply: str, terminal: str) -> list[list[Member]]:
        """Of one terminal: the feed chain, the device chain, and one for each supply that it feeds."""
        chains = [
            sorted(chains.get((supply, terminal), []), key=lambda member: member.order)
            for chains in (self._fed, self._shared)
        ]
        number = self._terminals(supply).index(terminal)
        chains += [[self._input(other, self._terminals(other)[number])] for other in self._fed_by(supply)]
        return self._known.together(supply, chains) if self._known else chains

    def _fed_by(self, supply: str) -> list[str]:
        supplies = self._description.supplies
        return [other for other in sorted(supplies, key=natural) if supplies[other].fed_by == supply]

    def _terminals(self, supply: str) -> tuple[str, str]:
        return SUPPLY_TERMINALS[self._description.supplies[supply].kind]

    def _input(self, supply: str, terminal: str) -> Member:
        """The input of a supply by which one of its terminals is fed."""
        end = self._ends.supply(supply, f"{INPUT_PREFIX}{terminal}")
        return Member(order=0, end=end, path=("supplies", supply, "fed_by"))

    def _chain(self, supply: str, terminal: str, members: list[Member], heads: ChainHeads) -> Iterator[DraftWire]:
        function = self._functions[supply, terminal]
        for before, after in self._steps((supply, terminal), members):
            yield DraftWire(
                circuit=supply,
                function=function.name,
                head=heads.head(supply, terminal, function.code),
                start=before.end,
                finish=after.end,
                link=before.end.kind is after.end.kind is EndKind.WAY and before.end.thing == after.end.thing,
                chain=terminal,
                size=function.size,
                pins=self._description.supplies[supply].pins,
                path=after.path,
            )

    def _steps(self, key: ChainKey, members: list[Member]) -> Iterable[Step]:
        source = Member(order=None, end=self._ends.supply(*key), path=())
        if self._known is None or not members:
            return self._afresh(key, source, members)
        return self._known.steps(key[0], [source, *members], self._bridge, lambda: self._afresh(key, source, members))

    def _afresh(self, key: ChainKey, source: Member, members: Sequence[Member]) -> Iterable[Step]:
        shortest = self._laying.steps(key, source, members, self._bridge)
        return self._in_a_line(source, self._laying.in_line(key, members)) if shortest is None else shortest

    def _in_a_line(self, source: Member, members: Sequence[Member]) -> Iterator[Step]:
        reached: set[tuple[str, int]] = set()
        for before, after in pairwise([source, *members]):
            bridge = self._bridge(after.end)
            if bridge is None or bridge not in reached:
                yield before, after
            if bridge is not None:
                reached.add(bridge)

    def _bridge(self, end: End) -> tuple[str, int] | None:
        """The bridge on which a way lies: a second wire to it would make a ring."""
        if end.kind is not EndKind.WAY:
            return None
        bridges = self._combs[end.thing]
        return next(((end.thing, number) for number, ways in enumerate(bridges) if int(end.terminal) in ways), None)

    def _heads(self) -> ChainHeads:
        keys = self._fed.keys() | self._shared.keys()
        return ChainHeads(self._description, {key: {self._functions[key].code} for key in keys})
