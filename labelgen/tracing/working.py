"""What works when something is done, as it should be, and with something joined or exchanged that should not be.

Power is followed as a lamp tester would: from a supply's one terminal through metal, made contacts and diodes, and to
its other terminal; a load between the two works. Where both meet without a load, the supply is shorted and nothing on
it works; a pulse supply of which a load hangs at rest never charges its bank.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from labelgen.model.copper_tree import CopperTree, Part, Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.tracing.actions import Action, Actions
from labelgen.tracing.tasks import AS_IT_SHOULD_BE, Change, Source, Task, sources_of


@dataclass(frozen=True, slots=True)
class _Step:
    """How a net is reached: from which, by which part."""

    part: Part
    left: Point
    entered: Point


Reached = dict[int, _Step | None]


class Working:
    """Judges what works on one railway."""

    def __init__(self, description: Description, netlist: Netlist) -> None:
        self.tree = CopperTree(netlist)
        self.actions = Actions(netlist)
        self.sources = [s for s in sources_of(description) if s.plus in self.tree.net and s.minus in self.tree.net]
        self._joining: dict[int, list[Part]] = {}
        """Net: diodes and lasting contacts that lead from or to it."""
        self._loads: dict[int, list[Part]] = {}
        self._held: dict[tuple[str, Change], bool] = {}
        for parts, index in (
            ((*self.actions.always, *self.actions.diodes), self._joining),
            (self.actions.loads, self._loads),
        ):
            for part in parts:
                for point in (part.one, part.other):
                    if (net := self.tree.net.get(point)) is not None:
                        index.setdefault(net, []).append(part)

    def tasks(self, action: Action) -> Iterator[Task]:
        """Whatever works in an action, as it should be, and does not already work at rest."""
        resting = self._resting if not action.is_rest else frozenset()
        yield from (task for task in self._all(action) if _key(task) not in resting)

    @cached_property
    def _resting(self) -> frozenset[tuple[object, ...]]:
        return frozenset(_key(task) for task in self._all(self.actions.rest))

    def _all(self, action: Action) -> Iterator[Task]:
        for source in self.sources:
            plus = self._reach(source.plus, action.made, AS_IT_SHOULD_BE)
            minus = self._reach(source.minus, action.made, AS_IT_SHOULD_BE, back=True)
            for load in self.loads_in(plus):
                for ends in _both_ways(load):
                    if self._between(ends, plus, minus, AS_IT_SHOULD_BE):
                        yield Task(action, source, load=load, ends=ends)
            for points in self.actions.rails:
                sides = [
                    (point, net in plus)
                    for point in points
                    if (net := self.tree.net.get(point)) in plus or net in minus
                ]
                if len(sides) == len(points):
                    yield Task(action, source, rails=tuple(sides))

    def loads_in(self, nets: Iterable[int]) -> list[Part]:
        return list(dict.fromkeys(load for net in nets for load in self._loads.get(net, ())))

    def works(self, task: Task, change: Change) -> bool:
        """Whether a task is still done when something has changed."""
        made, source = task.action.made, task.source
        plus = self._reach(source.plus, made, change)
        minus = self._reach(source.minus, made, change, back=True)
        if plus.keys() & minus.keys() or self.is_held(source, change):
            return False
        if task.ends is not None:
            return self._between(task.ends, plus, minus, change)
        return all(self._net(point, change) in (plus if first else minus) for point, first in task.rails)

    def within(self, task: Task) -> tuple[set[int], set[int], set[Point]]:
        """The nets in which a task plays; those that could be drawn in; and the points by which it hangs on its nets.

        What touches or moves elsewhere does not stop it, unless it holds the supply down.
        """
        source, made = task.source, task.action.made
        plus = self._reach(source.plus, made, AS_IT_SHOULD_BE)
        minus = self._reach(source.minus, made, AS_IT_SHOULD_BE, back=True)
        near = {*plus, *minus}
        joints = {point for part in made for point in (part.one, part.other)} | self._joints
        further = {net for point in joints if (net := self.tree.net.get(point)) is not None}
        ends = task.ends or [point for point, _ in task.rails]
        return near, near | further, {source.plus, source.minus, *ends, *joints}

    @cached_property
    def _joints(self) -> set[Point]:
        return {point for parts in self._joining.values() for part in parts for point in (part.one, part.other)}

    def is_held(self, source: Source, change: Change) -> bool:
        """Whether a supply is shorted at rest, or its bank never charges because a load hangs on it."""
        key = (source.id, change)
        if key not in self._held:
            self._held[key] = self._looks_held(source, change)
        return self._held[key]

    def _looks_held(self, source: Source, change: Change) -> bool:
        plus = self._reach(source.plus, (), change)
        minus = self._reach(source.minus, (), change, back=True)
        if plus.keys() & minus.keys():
            return True
        if not source.pulse:
            return False
        nets = {*plus, *(self.tree.net[point] for point, net in change.moved.items() if net in plus)}
        if change.touching is not None and change.touching[0] in plus:
            nets.add(change.touching[1])
        return any(
            self._between(ends, plus, minus, change) for load in self.loads_in(nets) for ends in _both_ways(load)
        )

    def path(self, task: Task) -> list[Part]:
        """All parts that the task needs, each of them: from the supply through the load and back."""
        made, source = task.action.made, task.source
        plus = self._reach(source.plus, made, AS_IT_SHOULD_BE)
        minus = self._reach(source.minus, made, AS_IT_SHOULD_BE, back=True)
        if task.load is None or task.ends is None:
            sides = [
                (point, source.plus, plus) if first else (point, source.minus, minus) for point, first in task.rails
            ]
            return [part for point, goal, reached in sides for part in self._trail(point, goal, reached)]
        there = self._trail(task.ends[0], source.plus, plus)
        return [*reversed(there), task.load, *self._trail(task.ends[1], source.minus, minus)]

    def needs(self, task: Task) -> tuple[list[Part], list[str]]:
        """All parts and supplies that a task needs, with those that feed its supply."""
        parts, sources = self.path(task), [task.source.id]
        by_id = {source.id: source for source in self.sources}
        here = task.source
        while here.fed_by in by_id:
            above = by_id[here.fed_by]
            for terminal in (above.plus, above.minus):
                inlets = [p for p in self.tree.points[self.tree.net[terminal]] if p[:2] == here.plus[:2]]
                parts += [part for inlet in inlets for part in self.tree.between(inlet, terminal)]
            sources.append(above.id)
            here = above
        return parts, sources

    def same_net(self, one: Point, other: Point, change: Change) -> bool:
        return self._net(one, change) == self._net(other, change)

    def _between(self, ends: tuple[Point, Point], plus: Reached, minus: Reached, change: Change) -> bool:
        return self._net(ends[0], change) in plus and self._net(ends[1], change) in minus

    def _net(self, point: Point, change: Change) -> int | None:
        net = change.moved.get(point, self.tree.net.get(point))
        if change.touching is not None and net == change.touching[1]:
            return change.touching[0]
        return net

    def _reach(self, start: Point, made: Iterable[Part], change: Change, *, back: bool = False) -> Reached:
        """Where power gets to (`back`: from where it can come), net by net, and how."""
        first = self._net(start, change)
        if first is None:
            return {}
        now: dict[int, list[Part]] = {}
        for part in made:
            for point in (part.one, part.other):
                if (net := self._net(point, change)) is not None:
                    now.setdefault(net, []).append(part)
        found: Reached = {first: None}
        ahead = [first]
        while ahead:
            here = ahead.pop(0)
            for part in (*now.get(here, ()), *self._joined(here, change)):
                for left, entered in self._ways_through(part, back=back):
                    there = self._net(entered, change)
                    if self._net(left, change) == here and there is not None and there not in found:
                        found[there] = _Step(part, left, entered)
                        ahead.append(there)
        return found

    def _joined(self, net: int, change: Change) -> Iterable[Part]:
        nets = {net, *(change.touching or ())} if change.touching and net in change.touching else {net}
        nets |= set(change.moved.values()) if net in change.moved.values() else set()
        return (
            [part for one in nets for part in self._joining.get(one, ())]
            if len(nets) > 1
            else self._joining.get(net, ())
        )

    @staticmethod
    def _ways_through(part: Part, *, back: bool) -> list[tuple[Point, Point]]:
        if part.kind != "diode":
            return [(part.one, part.other), (part.other, part.one)]
        return [(part.other, part.one)] if back else [(part.one, part.other)]

    def _trail(self, point: Point, source: Point, reached: Reached) -> list[Part]:
        """From a point back to the supply's terminal."""
        found: list[Part] = []
        while (step := reached[self.tree.net[point]]) is not None:
            found += [*self.tree.between(point, step.entered), step.part]
            point = step.left
        return [*found, *self.tree.between(point, source)]


def _key(task: Task) -> tuple[object, ...]:
    return (task.source.id, task.ends, task.rails)


def _both_ways(load: Part) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    return (load.one, load.other), (load.other, load.one)
