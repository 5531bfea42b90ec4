"""From a description to a netlist: the wiring stage on one screen (section 5 of the format)."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cached_property, partial

from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.description import Description, ListedWire
from labelgen.model.flag_form import FlagForm
from labelgen.model.kinds import Kind
from labelgen.model.netlist import Circuit, Diode, Function, Group, LeverPlan, Netlist, StripPlan, Wire
from labelgen.model.strip_geometry import Ground
from labelgen.natural_order import natural
from labelgen.problems import Problem
from labelgen.standards.conductors import parse_size
from labelgen.wiring.bridges import joined
from labelgen.wiring.chain_functions import chain_functions
from labelgen.wiring.chain_order import ChainKey, ChainLaying, LeastWire
from labelgen.wiring.chain_savings import ChainLength, ChainTrial, asked_chains, lengths_of_chains
from labelgen.wiring.chains import Chains
from labelgen.wiring.circuit_wires import CircuitWires
from labelgen.wiring.circuits import WantedCircuit, wanted_circuits
from labelgen.wiring.copper_pieces import CopperPieces
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.ends import Ends
from labelgen.wiring.groups import GroupPlacer
from labelgen.wiring.known_chains import KnownChains, known_steps
from labelgen.wiring.levers import ends_of_lever, lever_plans
from labelgen.wiring.listed_joints import Joint, listed_joints
from labelgen.wiring.listed_wires import with_listed
from labelgen.wiring.marks import Head, colour_letters, functions_of
from labelgen.wiring.nearest_stop import NearestStop
from labelgen.wiring.placed_groups import PlacedGroup
from labelgen.wiring.plug_ways import PlugWays
from labelgen.wiring.plugs import PlugWiring
from labelgen.wiring.recorded_groups import Homes
from labelgen.wiring.recorded_names import in_todays_names
from labelgen.wiring.recorded_numbers import Numbered, numbered
from labelgen.wiring.resolving import ResolvedDevice, Resolver
from labelgen.wiring.route_wires import RouteWires, boards_of_routes
from labelgen.wiring.routes import planned_matrices
from labelgen.wiring.strip_plans import Held, StripPlanner
from labelgen.wiring.wire_lengths import WireLengths


def expand(
    description: Description, kinds: Mapping[str, Kind], record: BuiltRecord | None = None
) -> tuple[Netlist, list[Problem]]:
    """Every circuit, strip and wire of a description. `kinds`: the built-in kinds by name. `record`: as built.

    Things that refer to something unknown are left out: the reading stage reports those.
    """
    return Expansion(description, kinds, record).netlist()


class Expansion:
    """One run of the wiring stage: each attribute is made once, in this order, and never changed."""

    def __init__(self, description: Description, kinds: Mapping[str, Kind], record: BuiltRecord | None = None) -> None:
        self.resolver = Resolver(description, kinds)
        self.description = description = self.resolver.description
        self.boards = self.resolver.boards
        self.functions = functions_of(description)
        self.ground = Ground(description.boards)
        self.devices = [d for d in self.resolver.devices() if self._functions_known(d)]
        self.record, name_problems = in_todays_names(record, description, self.devices)
        homes = Homes(description, self.record, self.devices, self.boards.strips)
        self.circuits, circuit_problems = wanted_circuits(description, self.devices, homes)
        placer = GroupPlacer(description, self.ground, self.boards.strips, self.record)
        self.placed = placer.place(self.circuits)
        self.levers = lever_plans(description, self.circuits, self.boards.panels, self._first_boards())
        panels = self.boards.panels
        self.matrices, route_problems = planned_matrices(description, self.circuits, self.levers, panels, self.record)
        record_problems = [*name_problems, *homes.problems]
        circuit_problems += route_problems
        of_chains = (description, self.circuits, self.matrices, self.functions, self.record)
        self.chain_functions = chain_functions(*of_chains)
        self.problems = [*self.resolver.problems, *record_problems, *circuit_problems, *placer.problems]

    def netlist(self) -> tuple[Netlist, list[Problem]]:
        ends = Ends(self.description, self.devices, self._contacts(), self.matrices)
        asked, ways = asked_chains(self.description), PlugWays(self.description.plugs)
        least = LeastWire(ends, ways, self._lengths, self._boards_of_ends())
        laying = ChainLaying(least=least, asked=frozenset(asked))
        trial = ChainTrial(asked, partial(self._tried, ends, laying))
        listed = listed_joints(self.description, ends, self._boards_of_ends()) if self.description.wires else []
        plugs, drafts = self._led(ends, replace(laying, shortest=trial.shortest), self.record, listed)
        made = lengths_of_chains(drafts, self._lengths, asked)
        chain_problems = trial.problems(self.description, made, built=bool(self.record.wires))
        merged = with_listed(self.description, drafts, ends, self.functions, plugs.whole)
        drafts = plugs.with_extras(merged.wires)
        numbering, number_problems = numbered(self.description, drafts, self.record)
        wires = self._wires(numbering)
        diodes = self._circuit_wires(ends).diodes(self.circuits, self.placed)
        netlist = Netlist(
            railway=self.description.railway,
            circuits=tuple(self._circuit(circuit) for circuit in self.circuits),
            strips=self._strip_plans(ends, wires, diodes),
            levers=tuple(self.levers),
            wires=tuple(wires),
            functions=self.functions,
            diodes=(*diodes, *self._route_wires(ends).diodes(self.matrices)),
            matrices=self.matrices,
            plugs=plugs.plans(wires),
            passages=tuple(plugs.passages),
            shown=self.description.shown,
        )
        return netlist, [*self.problems, *merged.problems, *plugs.problems, *number_problems, *chain_problems]

    def _led(
        self, ends: Ends, laying: ChainLaying, record: BuiltRecord, listed: Sequence[Joint] = ()
    ) -> tuple[PlugWiring, list[DraftWire]]:
        """What the rules make, through plugs. `listed`: what the builder's own wires join, which stays as it is."""
        plugs = PlugWiring(self.description, ends, self._boards_of_ends(), self._lengths, record)
        return plugs, plugs.through(self._drafts(ends, laying, record, listed))

    def _tried(self, ends: Ends, laying: ChainLaying, shortest: frozenset[ChainKey]) -> dict[ChainKey, ChainLength]:
        """The chains as if nothing were built yet, those that are named in the order of least wire."""
        nothing = BuiltRecord(railway=self.description.railway)
        drafts = self._led(ends, replace(laying, shortest=shortest), nothing)[1]
        return lengths_of_chains(drafts, self._lengths, laying.asked)

    def _strip_plans(self, ends: Ends, wires: list[Wire], diodes: Iterable[Diode]) -> tuple[StripPlan, ...]:
        planner = StripPlanner(self.description, self._held(ends), wires, self.record.spare_heads, diodes)
        return planner.plans(self.boards.strips)

    def _contacts(self) -> dict[str, list[str]]:
        works = {circuit.lever: circuit for circuit in self.circuits}
        return {lever.id: ends_of_lever(lever.type, works.get(lever.id)) for lever in self.levers}

    def _functions_known(self, device: ResolvedDevice) -> bool:
        kind = device.kind
        used = {row.function for row in kind.group} | {row.function for row in kind.chain}
        return used <= self.functions.keys()

    def _first_boards(self) -> dict[str, str | None]:
        """Of each lever, the board of its first group."""
        return {id_: groups[0].board for (by_lever, id_), groups in self.placed.items() if by_lever and groups}

    def _held(self, ends: Ends) -> dict[tuple[str, int], Held]:
        """(strip, way): what a circuit put there. A chain's way shows the code alone."""
        maker = self._circuit_wires(ends)
        found: dict[tuple[str, int], Held] = {}
        for circuit in self.circuits:
            for group in self.placed[circuit.key]:
                for number, way in group.ways.items():
                    row = circuit.kind.group[number]
                    head = maker.head_of_row(circuit, row, group.wanted.devices[0])
                    supply, function = circuit.first.supply, row.function
                    if row.chain is not None:
                        trunk = self.chain_functions[circuit.first.fed_from(row.chain)]
                        supply, function = circuit.first.fed_from(row.chain)[0], trunk.name
                        head = Head(stem="", painted="", code=trunk.code)
                    found[group.strip, way] = Held(
                        function=function,
                        head=head,
                        supply=supply,
                        swap=row.swap,
                        swap_with=group.swap_with(number),
                    )
        return found

    def _circuit_wires(self, ends: Ends) -> CircuitWires:
        return CircuitWires(ends, self.functions, {lever.id: lever.shown for lever in self.levers})

    def _drafts(self, ends: Ends, laying: ChainLaying, record: BuiltRecord, listed: Sequence[Joint]) -> list[DraftWire]:
        """What the rules make, in order: circuits strip by strip, then chains supply by supply, then routes."""
        of_circuits = self._circuit_wires(ends).all(self.circuits, self.placed)
        ways = PlugWays(self.description.plugs)
        known = self._known_chains(ends, of_circuits, record, listed, ways)
        of_chains = (self.description, ends, self.chain_functions, self.boards)
        chains = Chains(*of_chains, ways.count, known=known, laying=laying)
        panels = {lever.id: natural(lever.panel or "") for lever in self.levers}
        for circuit in self.circuits:
            chains.add(circuit, self.placed[circuit.key], panels.get(circuit.lever or ""))
        code = self.functions["feed"].code
        feed_heads = {matrix.supply: chains.head(matrix.supply, "feed", code) for matrix in self.matrices}
        routes = self._route_wires(ends).all(self.matrices, feed_heads, listed)
        return [*of_circuits, *chains.wires(), *routes]

    def _route_wires(self, ends: Ends) -> RouteWires:
        shown = {lever.id: lever.shown for lever in self.levers}
        panels = {lever.id: lever.panel for lever in self.levers}
        return RouteWires(ends, self.functions, self.circuits, shown, panels, record=self.record)

    def _known_chains(
        self, ends: Ends, of_circuits: list[DraftWire], record: BuiltRecord, listed: Sequence[Joint], ways: PlugWays
    ) -> KnownChains | None:
        if not record.wires and not listed:
            return None
        strips = self.description.strips.items()
        limits = {id_: strip.entry_limit for id_, strip in strips}
        pieces = CopperPieces(of_circuits, {id_: joined(strip.bridges) for id_, strip in strips})
        known = known_steps(record, listed, of_circuits, pieces)
        boards = self._boards_of_ends()
        return KnownChains(known, ends, boards, limits, NearestStop(self._lengths, boards, ways))

    def _wires(self, numbering: list[Numbered]) -> list[Wire]:
        lengths, boards = self._lengths, self._boards_of_ends()
        return [self._wire(draft, number, lengths, boards) for draft, number in numbering]

    @cached_property
    def _lengths(self) -> WireLengths:
        levers = self._panel_levers()
        return WireLengths(self.description, self.ground, self.devices, self.boards, levers, matrices=self.matrices)

    def _panel_levers(self) -> dict[str, list[LeverPlan]]:
        found: dict[str, list[LeverPlan]] = {id_: [] for id_ in self.description.panels}
        for lever in self.levers:
            if lever.panel is not None:
                found[lever.panel].append(lever)
        return found

    def _boards_of_ends(self) -> dict[tuple[str, str], str | None]:
        """(kind of end, thing): the board it is on."""
        boards: dict[tuple[str, str], str | None] = {}
        boards |= {("way", id_): board for id_, board in self.boards.strips.items()}
        boards |= {("device", device.id): device.board for device in self.devices}
        boards |= {("supply", id_): board for id_, board in self.boards.supplies.items()}
        boards |= {("lever", lever.id): lever.board for lever in self.levers}
        return boards | boards_of_routes(self.matrices)

    def _wire(
        self,
        draft: DraftWire,
        number: int | str,
        lengths: WireLengths,
        boards: Mapping[tuple[str, str], str | None],
    ) -> Wire:
        function: Function = self.functions[draft.function]
        listed = self.description.wires[draft.listed] if draft.listed is not None else None
        length, holes = lengths.measure(draft)
        return Wire(
            number=number,
            circuit=draft.circuit,
            function=draft.function,
            code=function.code,
            head=draft.head.text,
            stem=draft.head.painted,
            mark=draft.head.mark,
            colour=colour_letters(listed.colour) if listed and listed.colour else function.colour,
            size=notation((listed.size if listed else None) or draft.size or function.size),
            start=draft.start,
            finish=draft.finish,
            link=draft.link,
            flag_form=self._flag_form(draft.function, listed),
            board=draft.board
            or boards.get((draft.start.kind, draft.start.thing))
            or boards.get((draft.finish.kind, draft.finish.thing)),
            holes=holes,
            length=length,
            note=listed.note if listed else "",
            path=draft.path,
            listed=None if draft.further else draft.listed,
        )

    def _flag_form(self, function: str, listed: ListedWire | None) -> FlagForm:
        """What the wire itself says, else its function, else the whole railway."""
        given = self.description.functions.get(function)
        own = listed.flags if listed else None
        return own or (given.flags if given else None) or self.description.printing.flags

    def _circuit(self, circuit: WantedCircuit) -> Circuit:
        return Circuit(
            id=circuit.id,
            lever=circuit.lever,
            devices=tuple(device.id for device in circuit.devices),
            kind_name=circuit.first.kind_name,
            kind=circuit.kind,
            supplies=circuit.first.supplies,
            groups=tuple(_group(placed) for placed in self.placed[circuit.key]),
        )


def _group(placed: PlacedGroup) -> Group:
    devices = tuple(device.id for device in placed.wanted.devices)
    return Group(board=placed.board, strip=placed.strip, devices=devices, ways=placed.ways)


def notation(size: str) -> str:
    """A size in the one way in which it is printed; what cannot be read was reported by the reading stage."""
    parsed = parse_size(size) if size else None
    return parsed.notation if parsed else size
