"""What the wiring stage makes of a description: circuits, strips way by way, and every wire with its two ends.

Lengths are mm. An end is `THING.TERMINAL` (`L5.N`, `A1.3`, `P5.C`, `PULSE.feed`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import Literal

from labelgen.model.kinds import Kind
from labelgen.places import Path


class Side(StrEnum):
    """Of a strip: where levers land, and where devices and chains land."""

    PANEL = "panel"
    LAYOUT = "layout"


class EndKind(StrEnum):
    LEVER = "lever"
    WAY = "way"
    DEVICE = "device"
    SUPPLY = "supply"


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of a wire."""

    kind: EndKind
    thing: str
    """The id of the lever (without L), strip, device or supply."""
    terminal: str
    """Contact, way number, terminal."""
    side: Side | None = None
    """Of a way only."""
    painted: str = ""
    """How it reads on the railway, when the builder said so with `shown` or `terminals`."""

    @property
    def name(self) -> str:
        prefix = "L" if self.kind is EndKind.LEVER else ""
        return f"{prefix}{self.thing}.{self.terminal}"

    @property
    def shown(self) -> str:
        """What is printed."""
        return self.painted or self.name

    @property
    def point(self) -> tuple[EndKind, str, str]:
        """The metal it is, whichever side it is reached from."""
        return (self.kind, self.thing, self.terminal)


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """What a kind of wire is for, and how it is marked."""

    name: str
    code: str
    colour: str
    """IEC 60757 letters; "" when it has none."""
    pattern: str
    """A name of `drawings.function_marks`."""
    size: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    number: int | str
    """An integer of ours, or the builder's own text."""
    circuit: str
    """The id of the lever or device it serves; the supply's id for a chain; "" for a wire that the builder listed."""
    function: str
    code: str
    head: str
    """The short text by which it is called: `5N`."""
    stem: str
    """The head up to its code letter: `5`; "" for a chain's own head."""
    mark: str
    """What follows the code letter: `g` in `7Lg`."""
    colour: str
    size: str
    start: End
    finish: End
    link: bool = False
    """A short wire from way to way of one strip: no flags."""
    board: str | None = None
    holes: tuple[str, ...] = ()
    length: int | None = None
    note: str = ""
    path: Path = ()
    """What in the description it comes from."""

    @property
    def ends(self) -> tuple[End, End]:
        return (self.start, self.finish)


WayState = Literal["used", "spare", "taken", "kept"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WayPlan:
    """One way of a strip, and what lands on it."""

    number: int
    state: WayState
    function: str = ""
    head: str = ""
    """What its marker says: `5N`, or a chain's code alone; the builder's own words for a taken way."""
    stem: str = ""
    code: str = ""
    mark: str = ""
    swap: str = ""
    """The name of the pair that may have to be exchanged when it shorts."""
    panel: tuple[Wire, ...] = ()
    """Wires in its panel-side entry, in order."""
    layout: tuple[Wire, ...] = ()

    def entry(self, side: Side) -> tuple[Wire, ...]:
        return self.panel if side is Side.PANEL else self.layout


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """A strip, way by way."""

    id: str
    shown: str
    board: str | None
    pitch: float
    measured: bool
    """False when the pitch is a guess by the strip's amps."""
    way_1: str
    """left, right, front or back, seen from above."""
    panel_side: str
    ways: tuple[WayPlan, ...]
    supplies: tuple[str, ...]
    """As shown: the supplies whose chains land here, in natural order."""
    bridges: tuple[tuple[int, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The ways that one circuit takes on one strip."""

    board: str | None
    strip: str
    devices: tuple[str, ...]
    ways: Mapping[int, int]
    """Row of the kind's group (from 0): way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diode:
    """A diode between two ways: current flows from `anode` to `cathode`."""

    circuit: str
    anode: End
    cathode: End


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """One lever with the devices it works, or a device with no lever."""

    id: str
    """Lever id, or device id."""
    lever: str | None
    devices: tuple[str, ...]
    kind_name: str
    kind: Kind
    supplies: Mapping[str, str]
    """What each is for, as the kind says: the supply."""
    groups: tuple[Group, ...]

    @property
    def supply(self) -> str:
        """Its only supply, or the first that its kind names."""
        return next(iter(self.supplies.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverPlan:
    """A lever as it stands in a panel."""

    id: str
    shown: str
    name: str
    type: str
    panel: str | None
    board: str | None
    normal: str
    """up, down, left, right: where its handle lies when it is normal."""
    spare: bool
    devices: tuple[str, ...]
    path: Path


@dataclass(frozen=True, kw_only=True)
class Netlist:
    """Everything that the later stages print."""

    railway: str
    circuits: tuple[Circuit, ...]
    strips: tuple[StripPlan, ...]
    """In natural order of id."""
    levers: tuple[LeverPlan, ...]
    """In natural order of id; spares included."""
    wires: tuple[Wire, ...]
    """In order of number: strip by strip and way by way, then chains, then listed wires."""
    functions: Mapping[str, Function]
    diodes: tuple[Diode, ...] = ()
    """Strip by strip and way by way."""
    shown: Mapping[str, str] = field(default_factory=dict)
    """Id of a thing: what is painted on it, where that differs."""

    @cached_property
    def strip_by_id(self) -> dict[str, StripPlan]:
        return {strip.id: strip for strip in self.strips}

    def shown_id(self, thing: str) -> str:
        return self.shown.get(thing, thing)
