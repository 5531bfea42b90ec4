"""What the wiring stage makes of a description: circuits, strips way by way, and every wire with its two ends.

Lengths are mm. An end is `THING.TERMINAL` (`L5.N`, `A1.3`, `P5.C`, `PULSE.feed`).
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property, lru_cache
from typing import Literal

from labelgen.model.flag_form import FlagForm
from labelgen.model.kinds import Kind
from labelgen.model.panel.routes import Matrix
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
    PIN = "plug"
    ROUTE = "route"
    MATRIX = "matrix"


PANEL_KINDS = (EndKind.LEVER, EndKind.ROUTE, EndKind.MATRIX)
"""What stands in a panel or behind it, wherever that is."""
PREFIXES = {EndKind.LEVER: "L", EndKind.ROUTE: "ROUTE"}
"""What stands before an id that is no id of a thing: of a lever, and a route's number."""


@lru_cache(maxsize=4096)
def _name(prefix: str, thing: str, terminal: str) -> str:
    """Labels of one wire share it."""
    return f"{prefix}{thing}.{terminal}"


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """One end of a wire."""

    kind: EndKind
    thing: str
    """The id of the lever (without L), strip, device, supply, plug or matrix; a route's number."""
    terminal: str
    """Contact, way number, terminal, pin number."""
    side: Side | None = None
    """Of a way only."""
    board: str | None = None
    """Of a pin only: on which of the plug's two boards the wire lands."""
    painted: str = ""
    """How it reads on the railway, when the builder said so with `shown` or `terminals`."""

    @property
    def name(self) -> str:
        return _name(PREFIXES.get(self.kind, ""), self.thing, self.terminal)

    @property
    def shown(self) -> str:
        """What is printed."""
        return self.painted or self.name

    @property
    def point(self) -> tuple[EndKind, str, str]:
        """The metal it is, whichever side or board it is reached from."""
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
    flag_form: FlagForm = "fold"
    board: str | None = None
    holes: tuple[str, ...] = ()
    length: int | None = None
    note: str = ""
    path: Path = ()
    """What in the description it comes from."""
    listed: int | None = None
    """Its position among the description's `wires`, if it stands there."""

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
    swap_with: int = 0
    """The other way of that pair; 0: it belongs to none."""
    was: str = ""
    """Of a spare way that was freed: the head of what it held."""
    panel: tuple[Wire, ...] = ()
    """Wires in its panel-side entry, in order."""
    layout: tuple[Wire, ...] = ()
    test: bool = False
    """A test point: a meter is held here when a fault is looked for."""
    bridged_to: int | None = None
    """Of a way on which nothing of its own lands: the way of its bridge whose head it shows: it carries the same."""
    diodes: tuple["Diode", ...] = ()
    """Those that begin or end here, of a device's kind."""

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
    """As shown: the supplies of the circuits that have ways here, in natural order."""
    bridges: tuple[tuple[int, ...], ...] = ()
    tiers: int = 1
    """In how many rows, one above the other, its ways are; counted row by row, from the board on."""
    fixing: float | None = None
    """mm from one fixing hole to the other, its middle halfway; None where that was not said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The ways that one circuit takes on one strip."""

    board: str | None
    strip: str
    devices: tuple[str, ...]
    ways: Mapping[int, int]
    """Row of the kind's group (from 0): way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PinPlan:
    """One pin of a plug: the same on both of its boards."""

    number: int
    state: Literal["used", "spare", "empty"]
    """`empty`: kept so by `keep_empty`."""
    function: str = ""
    head: str = ""
    stem: str = ""
    code: str = ""
    mark: str = ""
    wires: tuple[Wire, ...] = ()
    """Those that land on it, on either board, in order."""
    bridged_to: int | None = None
    """The pin on which the wire itself lands, of a further pin that carries it as well."""
    was: str = ""
    """Of a pin that was freed: the head of what it held."""

    def on(self, board: str) -> tuple[Wire, ...]:
        """The wires that land on it on one of the two boards."""
        return tuple(w for w in self.wires if any(e.kind is EndKind.PIN and e.board == board for e in w.ends))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugPlan:
    """A plug, pin by pin."""

    id: str
    shown: str
    name: str
    boards: tuple[str, str]
    pins: tuple[PinPlan, ...]
    """All of them, from 1."""
    keep_empty: tuple[int, ...] = ()

    def facing(self, board: str) -> str:
        """The other board."""
        return self.boards[1] if board == self.boards[0] else self.boards[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A wire through plugs, as it would be without them."""

    start: str
    finish: str
    """The names of its two ends."""
    circuit: str
    pins: tuple[str, ...]
    """`J1.7`, in the order in which they are passed from `start`; of a plug where it takes several, all of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diode:
    """A diode between two ways, or on a matrix: current flows from `anode` to `cathode`."""

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
    buttons: tuple[str, ...] = ()
    """Of one that is several buttons or studs: the contact of each, in order."""


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
    """Strip by strip and way by way, then matrix by matrix."""
    matrices: tuple[Matrix, ...] = ()
    """Of the routes, in the order of their first ones."""
    plugs: tuple[PlugPlan, ...] = ()
    """In natural order of id."""
    passages: tuple[Passage, ...] = ()
    """In order of wires."""
    shown: Mapping[str, str] = field(default_factory=dict)
    """Id of a thing: what is painted on it, where that differs."""

    @cached_property
    def strip_by_id(self) -> dict[str, StripPlan]:
        return {strip.id: strip for strip in self.strips}

    @cached_property
    def lever_by_id(self) -> dict[str, LeverPlan]:
        return {lever.id: lever for lever in self.levers}

    @cached_property
    def plug_by_id(self) -> dict[str, PlugPlan]:
        return {plug.id: plug for plug in self.plugs}

    @cached_property
    def shown_at(self) -> dict[tuple[EndKind, str, str], str]:
        """`End.point` of every wire's end: how it reads."""
        return {end.point: end.shown for wire in self.wires for end in wire.ends}

    @cached_property
    def lever_of_device(self) -> dict[str, str]:
        """Device: the lever that works it."""
        return {device: circuit.lever for circuit in self.circuits for device in circuit.devices if circuit.lever}

    def shown_id(self, thing: str) -> str:
        return self.shown.get(thing, thing)
