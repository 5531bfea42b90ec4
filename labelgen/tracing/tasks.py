"""What is to work: supplies, what they do in each action, and what may be changed about the nets."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from labelgen.model.copper_tree import Part, Point
from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import EndKind
from labelgen.tracing.actions import Action


@dataclass(frozen=True, slots=True)
class Source:
    """A supply."""

    id: str
    plus: Point
    minus: Point
    pulse: bool
    volts: float | None
    fed_by: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Change:
    """What is not as it should be with the nets: two that touch, or parts of two that have changed places."""

    touching: tuple[int, int] | None = None
    moved: Mapping[Point, int] = field(default_factory=dict)


AS_IT_SHOULD_BE = Change()


@dataclass(frozen=True, slots=True)
class Task:
    """Something that is to work in an action: a load, or rails that are to be fed."""

    action: Action
    source: Source
    load: Part | None = None
    ends: tuple[Point, Point] | None = None
    """Of the load: the end that is fed, and the other."""
    rails: tuple[tuple[Point, bool], ...] = ()
    """Each with whether it is fed from the supply's first terminal, or from its second."""

    @property
    def device(self) -> str:
        return self.load.one[1] if self.load is not None else self.rails[0][0][1]


def sources_of(description: Description) -> Iterator[Source]:
    """All supplies of a railway."""
    for id_, supply in description.supplies.items():
        plus, minus = SUPPLY_TERMINALS[supply.kind]
        yield Source(
            id=id_,
            plus=(EndKind.SUPPLY, id_, plus, ""),
            minus=(EndKind.SUPPLY, id_, minus, ""),
            pulse=supply.kind == "pulse",
            volts=supply.volts,
            fed_by=supply.fed_by,
        )
