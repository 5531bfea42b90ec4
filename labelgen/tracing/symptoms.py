"""What the builder says works or does not, as tasks of the railway.

`5N`, `P5A`, `P5A.N`, `L5`, a route, what a route sets (`Platform 1.P4`), a supply.
"""

from collections.abc import Iterable, Iterator
from functools import cached_property

from labelgen.model.copper_tree import Point, point_of
from labelgen.model.netlist import Circuit, EndKind, Netlist, Wire
from labelgen.tracing.actions import Action
from labelgen.tracing.tasks import Task
from labelgen.tracing.working import Working


class Symptoms:
    """Finds the tasks that a word stands for."""

    def __init__(self, netlist: Netlist, working: Working) -> None:
        self._netlist = netlist
        self._working = working
        self._tasks: dict[Action, list[Task]] = {}
        self._named = {shown.casefold(): id_ for id_, shown in netlist.shown.items()}

    def tasks(self, word: str) -> list[Task]:
        """Empty for a word that is not known, or for something that nothing feeds."""
        key = word.casefold()
        ways = (self._of_head, self._of_thing, self._of_lever, self._of_route, self._of_supply)
        return next((found for way in ways if (found := list(way(self._named.get(key, key).casefold())))), [])

    @cached_property
    def words(self) -> list[str]:
        """Heads and things that may be named."""
        heads = [wire.head for wire in self._netlist.wires if wire.circuit in self._circuits]
        routes = [word for route in self._working.actions.route_acts for word in self.words_of_route(route)]
        return list(dict.fromkeys([*heads, *self._devices, *routes]))

    def words_of_route(self, route: str) -> list[str]:
        """The route, and each device that it sets."""
        devices = dict.fromkeys(task.device for task in self.tasks(route))
        return [route, *(f"{route}.{self._netlist.shown_id(device)}" for device in devices)]

    @cached_property
    def _circuits(self) -> dict[str, str | None]:
        """Id of a circuit's lever or device: its lever."""
        return {circuit.id: circuit.lever for circuit in self._netlist.circuits}

    @cached_property
    def _devices(self) -> list[str]:
        return [device for circuit in self._netlist.circuits for device in circuit.devices]

    @cached_property
    def _by_head(self) -> dict[str, list[Wire]]:
        found: dict[str, list[Wire]] = {}
        for wire in self._netlist.wires:
            if wire.circuit in self._circuits:
                found.setdefault(wire.head.casefold(), []).append(wire)
        return found

    @cached_property
    def _by_device(self) -> dict[str, Circuit]:
        """Device, folded: its circuit."""
        return {device.casefold(): circuit for circuit in self._netlist.circuits for device in circuit.devices}

    def _done(self, acts: Iterable[Action]) -> Iterator[Task]:
        for act in acts:
            if act not in self._tasks:
                self._tasks[act] = list(self._working.tasks(act))
            yield from self._tasks[act]

    def _of_head(self, key: str) -> Iterator[Task]:
        """What needs a wire that is called so; of a lever's contact, where that contact is made."""
        wires = self._by_head.get(key, [])
        ends = {point_of(end) for wire in wires for end in wire.ends}
        contacts = {point for point in ends if point[0] is EndKind.LEVER}
        acts = list(self._acts_making(contacts))
        if not acts:
            levers = {lever for wire in wires if (lever := self._circuits[wire.circuit])}
            acts = [act for lever in levers for act in self._working.actions.lever_acts.get(lever, [])]
            acts.append(self._working.actions.rest)
        numbers = {wire.number for wire in wires}
        for task in self._done(acts) if wires else ():
            if any(part.wire is not None and part.wire.number in numbers for part in self._working.path(task)):
                yield task

    def _acts_making(self, contacts: set[Point]) -> Iterator[Action]:
        for lever in dict.fromkeys(point[1] for point in contacts):
            for act in self._working.actions.lever_acts.get(lever, []):
                if any({part.one, part.other} & contacts for part in act.made):
                    yield act

    def _of_thing(self, key: str) -> Iterator[Task]:
        """A device, or one of its terminals."""
        thing, _, terminal = key.partition(".")
        device = self._named.get(thing, thing).casefold()
        circuit = self._by_device.get(device)
        if circuit is None:
            return
        acts = self._working.actions.lever_acts.get(circuit.lever or "", [])
        for task in self._done([*acts, self._working.actions.rest]):
            points = [task.load.one] if task.load is not None else [point for point, _ in task.rails]
            named = not terminal or any(point[2].casefold() == terminal for point in points)
            if task.device.casefold() == device and named:
                yield task

    def _of_lever(self, key: str) -> Iterator[Task]:
        levers = {f"l{lever}".casefold(): lever for lever in self._working.actions.lever_acts}
        yield from self._done(self._working.actions.lever_acts.get(levers.get(key, ""), []))

    def _of_route(self, key: str) -> Iterator[Task]:
        routes = {name.casefold(): act for name, act in self._working.actions.route_acts.items()}
        route, _, thing = key.rpartition(".")
        device = self._named.get(thing, thing).casefold()
        if key in routes:
            yield from self._done([routes[key]])
        elif route in routes:
            yield from (task for task in self._done([routes[route]]) if task.device.casefold() == device)

    def _of_supply(self, key: str) -> Iterator[Task]:
        if any(source.id.casefold() == key for source in self._working.sources):
            yield from (task for task in self._done(self._working.actions) if task.source.id.casefold() == key)
