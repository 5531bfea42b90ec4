"""Which of the things that may touch, or have changed places, spoil a task; found by its nets, not by trying each.

On a railway of n points there are some 7 n such faults and 2 n tasks: to follow the power for each of both would take
minutes where n is 500.
"""

from collections.abc import Iterator, Sequence

from labelgen.model.copper_tree import Point
from labelgen.tracing.faults import Fault
from labelgen.tracing.tasks import AS_IT_SHOULD_BE, Source, Task
from labelgen.tracing.working import Working

Touching = dict[int, dict[int, list[Fault]]]


class Spoilers:
    """All of one railway."""

    def __init__(self, working: Working, faults: Sequence[Fault]) -> None:
        self._working = working
        self._faults = faults
        self._held: dict[str, list[Fault]] = {}
        self._touching: Touching = {}
        self._moving: dict[Point, list[Fault]] = {}
        for fault in faults:
            if fault.change.touching is not None:
                for one, other in (fault.change.touching, reversed(fault.change.touching)):
                    self._touching.setdefault(one, {}).setdefault(other, []).append(fault)
            for point in fault.change.moved:
                self._moving.setdefault(point, []).append(fault)

    def of(self, task: Task) -> set[Fault]:
        """Those with which a task is not done."""
        if not self._working.works(task, AS_IT_SHOULD_BE):
            return set(self._faults)
        close = (fault for fault in self._close_to(task) if not self._working.works(task, fault.change))
        return {*close, *self._holding(task.source)}

    def _close_to(self, task: Task) -> Iterator[Fault]:
        nets, further, points = self._working.within(task)
        for net in nets:
            touching = self._touching.get(net, {})
            for other in touching.keys() & further:
                yield from touching[other]
        for point in points:
            yield from self._moving.get(point, ())

    def _holding(self, source: Source) -> list[Fault]:
        """Those that keep a supply from working at all."""
        if source.id not in self._held:
            self._held[source.id] = [f for f in self._faults if self._working.is_held(source, f.change)]
        return self._held[source.id]
