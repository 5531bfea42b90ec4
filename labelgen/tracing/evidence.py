"""What is known of a fault: what works, what does not, and what a meter read."""

from dataclasses import dataclass, field
from typing import Literal

from labelgen.model.copper_tree import Part, Point
from labelgen.tracing.faults import Fault
from labelgen.tracing.tasks import Source, Task
from labelgen.tracing.working import Working


@dataclass(frozen=True, slots=True, eq=False)
class Doing:
    """A task that is done, or not."""

    task: Task
    parts: frozenset[Part]
    """All that it needs."""
    sources: frozenset[str]


def doing(working: Working, task: Task) -> Doing:
    parts, sources = working.needs(task)
    return Doing(task, frozenset(parts), frozenset(sources))


Expected = Literal["joined", "apart", "load", "volts", "clear"]
"""Of a reading. `clear`: nothing between what was lifted off a supply's terminal and its other terminal."""


@dataclass(frozen=True, slots=True, eq=False)
class Measure:
    """A meter between two points; switched off and discharged, but for volts."""

    one: Point
    other: Point
    expected: Expected
    working: Working
    parts: frozenset[Part] = field(default_factory=frozenset)
    """What lies between, where there is something."""
    load: Part | None = None
    hold: str = ""
    """The lever or button to hold meanwhile: `lever 5 normal`."""
    supply: str = ""
    lifted: Part | None = None
    """The wire to take out of its screw first, so that only what lies beyond it is measured."""
    beyond: frozenset[Point] = field(default_factory=frozenset)

    @property
    def key(self) -> tuple[object, ...]:
        return (self.one, self.other, self.hold, self.lifted)

    def spoiled_by(self, fault: Fault) -> bool:
        """Whether the reading is not as it should be when the fault is there."""
        if fault.part is not None:
            return fault.part in self.parts
        if fault.source is not None:
            return self.expected == "volts" and fault.source.id == self.supply
        return self._changed_by(fault)

    def _source(self) -> Source:
        return next(source for source in self.working.sources if source.id == self.supply)

    def _changed_by(self, fault: Fault) -> bool:
        working, change = self.working, fault.change
        if self.expected == "volts":
            return working.is_held(self._source(), change)
        if self.expected == "clear":
            return not self.beyond.isdisjoint(fault.where) and working.is_held(self._source(), change)
        if self.hold or (self.expected == "joined" and not change.moved):
            return False
        if self.load is not None:
            straight = working.same_net(self.one, self.load.one, change) and working.same_net(
                self.other, self.load.other, change
            )
            turned = working.same_net(self.one, self.load.other, change) and working.same_net(
                self.other, self.load.one, change
            )
            return working.same_net(self.one, self.other, change) or not (straight or turned)
        return working.same_net(self.one, self.other, change) != (self.expected == "joined")


@dataclass(frozen=True, slots=True)
class Known:
    """A piece of evidence, and how it was found."""

    about: Doing | Measure
    spoiled: bool
