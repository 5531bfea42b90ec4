"""What is tested with a meter, and in which order: readings, motors, the first switching on, a show, the evenings.

Ohms are at 20 °C, of the wire alone; a meter adds what its own leads resist.
"""

from dataclasses import dataclass, field
from typing import Literal

from labelgen.model.copper_tree import Point
from labelgen.model.netlist import Wire

Expect = Literal["joined", "through", "nothing", "no-short"]
"""A beep; so many ohms of coil; no reading at all; anything but a beep, for what lies between is not known."""
Levers = Literal["normal", "reverse", "turns"]
"""How all levers and blades lie: normal, reverse, or by turns normal and reverse."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading of a meter."""

    one: Point
    other: Point
    shown: tuple[str, str]
    """What is painted where the two leads are held."""
    what: str
    """The heads of the wires."""
    band: str
    """Where one is: `Strip S1`."""
    expect: Expect
    ohms: float | None = None
    """What it should read; None where no length is known."""
    red_first: bool = False
    """The meter's red lead must be on the first: diodes would let the current through the other way."""
    pairs: int = 0
    """Of nets, that it proves apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Idle:
    """A device that is not in use, so that nothing is asked of it."""

    shown: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardChart:
    """What must beep on one board and what must not, in walking order."""

    board: str
    """Its id; "" where there are no boards."""
    whole: tuple[Reading, ...]
    apart: tuple[tuple[Levers, tuple[Reading, ...]], ...]
    """By how the levers lie then."""
    again: tuple[Reading, ...] = ()
    """What must beep with all levers and blades reverse as well: normal, contacts hide there that wires are crossed."""
    idle: tuple[Idle, ...] = ()

    @property
    def apart_readings(self) -> list[Reading]:
        return [reading for _, readings in self.apart for reading in readings]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlugChart:
    """What must beep when a plug is in."""

    plug: str
    shown: str
    boards: tuple[str, str]
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorRow:
    """The proof of a motor's common: from one coil to the other reads twice what either reads to the common."""

    device: str
    shown: str
    name: str
    board: str
    common: str
    coils: tuple[str, str]
    """The painted names of its terminals."""
    ohms: float | None
    """Of one coil; None where nobody said."""
    not_in_use: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyStart:
    """How one supply is switched on for the first time."""

    supply: str
    shown: str
    name: str
    board: str
    kind: str
    volts: float | None
    wires: tuple[Wire, ...]
    """What goes back on its terminals."""
    across: tuple[str, str] | None
    """Its two terminals, as painted."""
    measured_at: tuple[str, str] | None
    """Two places away from it where its volts stand."""
    fed_by: str = ""
    reading: Reading | None = None
    """Across its wires before they go back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowAct:
    """One lever thrown one way."""

    shown: str
    lie: str
    works: tuple[str, ...]
    """What must move or light."""
    board: str
    """Where that is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowStep:
    """What is checked once a plug is in; of the first step, what needs no plug."""

    plug: str
    """Its id; "" of the first step."""
    shown: str
    boards: tuple[str, ...]
    acts: tuple[ShowAct, ...]
    pins: int = 0
    """How many of its pins are used by the acts of all steps together."""
    of_pins: int = 0
    """How many any act could use."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EveningCard:
    """Ten wires for an evening, and what proves them before bed."""

    number: int
    board: str
    where: str
    """The strips, in words."""
    wires: tuple[Wire, ...]
    whole: tuple[Reading, ...]
    """Of each wire, from end to end."""
    apart: tuple[Reading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TestPlan:
    """All that is tested."""

    __test__ = False
    """It is no test of pytest's."""
    charts: tuple[BoardChart, ...]
    plugs: tuple[PlugChart, ...]
    motors: tuple[MotorRow, ...]
    starts: tuple[SupplyStart, ...]
    show: tuple[ShowStep, ...]
    evenings: tuple[EveningCard, ...]
    fewest_whole: int
    """Readings that it takes at least: half the ends of every net, rounded up."""
    fewest_plugged: int
    """The same of the pins, with every board's nets taken as one piece."""
    fewest_apart: int
    """Readings below which some pair of nets that could touch would go unread, with the levers as the chart asks."""
    pairs: int
    """Of nets that could touch."""
    unread: tuple[tuple[str, str], ...] = field(default=())
    """Pairs that no reading can tell apart: contacts join them however the levers lie."""

    @property
    def whole(self) -> list[Reading]:
        return [reading for chart in self.charts for reading in chart.whole]

    @property
    def again(self) -> list[Reading]:
        return [reading for chart in self.charts for reading in chart.again]

    @property
    def apart(self) -> list[Reading]:
        return [reading for chart in self.charts for reading in chart.apart_readings]

    @property
    def plugged(self) -> list[Reading]:
        return [reading for chart in self.plugs for reading in chart.readings]
