"""Electrical figures of a railway. Nothing is rounded: volts, ohms, amperes, joules, milliseconds, ampere² seconds."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from labelgen.model.lamp_resistors import LampResistor
from labelgen.places import Path

WEAK_JOULES = 0.25
"""A coil that gets less may not throw its point. The smallest bank in common use, 2200 µF on 16 V AC behind a bridge
(21.2 V), stores 0.5 J and throws one motor; half of that is where people complain (two motors on it). Common practice,
no published limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoilFigure:
    """What one coil gets of a pulse."""

    device: str
    terminal: str
    """Its fed end."""
    joules: float
    share: float
    """Of the energy that was stored."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThrowFigure:
    """One throw: the bank of a pulse supply emptied through all the coils that it drives at once."""

    lever: str
    """Its id; of a route, its name."""
    shown: str
    """What is thrown, in the builder's words: lever 5, route Goods lines."""
    lie: str
    """`normal` or `reverse`; of buttons, studs and positions the contact's name; of a route `set`."""
    supply: str
    stored_joules: float
    loop_ohms: float
    """Of everything in the loop: wire there and back, coils; contact and bank too, where they are given."""
    peak_amps: float
    time_constant_ms: float
    amps_squared_seconds: float
    """The integral of i² over time in the supply's own wires."""
    coils: tuple[CoilFigure, ...]
    unmeasured: int
    """Wires on the way whose length is not known: they count for nothing, so the real figures are lower."""
    hot_wires: Mapping[int | str, float] = field(default_factory=dict)
    """Wire: I²t of this throw, of those that would not stand it."""
    path: Path

    @property
    def weakest(self) -> CoilFigure:
        return min(self.coils, key=lambda coil: coil.joules)

    @property
    def weak(self) -> bool:
        return self.weakest.joules < WEAK_JOULES


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A change of the wiring or the supply, and what the weakest coil would get with it."""

    words: str
    """`a bank of 10000 µF`."""
    device: str
    """The coil that would be weakest of the throw then."""
    joules: float
    share: float

    @property
    def enough(self) -> bool:
        return self.joules >= WEAK_JOULES


@dataclass(frozen=True, slots=True, kw_only=True)
class BankFigure:
    """A pulse supply: its bank, and the throw that gives a coil the least."""

    supply: str
    stored_joules: float
    seconds_to_full: float | None
    """From empty; None where neither `charge_ohms` nor `amps` says how it is charged."""
    throws: int
    """Acts that it has to serve."""
    weak_throws: int
    weakest: ThrowFigure
    mends: tuple[Mend, ...]
    """What gives more than now: first what gives enough, with the least work first; then the others, best first."""

    @property
    def throws_a_minute(self) -> float | None:
        return 60 / self.seconds_to_full if self.seconds_to_full else None


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadFigure:
    """One steady load at work, with all that can be on at the same time."""

    device: str
    terminal: str
    supply: str
    amps: float
    volts: float
    """Between its terminals."""
    drop_volts: float
    """What is lost in the wires to it and back."""
    train: bool = False
    """It is a train that takes all that its supply gives."""
    unmeasured: int = 0
    """Wires of unknown length among all that the supply feeds then: they count for nothing, so more is lost really."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SilentLoad:
    """A steady load of which the description does not say what it draws."""

    device: str
    terminal: str
    supply: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WireFigure:
    """The steady current of one wire."""

    number: int | str
    amps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyFigure:
    """What a steady supply has to give when all that can be on is on."""

    supply: str
    amps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ProtectionFigure:
    """What a supply's fuse, or else the supply itself, lets through before it stops."""

    supply: str
    amps: float
    weakest: int | str
    """Number of the wire, among those that a short may run through, that carries least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    throws: tuple[ThrowFigure, ...] = ()
    """Levers in natural order, each as it can lie; then routes."""
    banks: tuple[BankFigure, ...] = ()
    loads: tuple[LoadFigure, ...] = ()
    silent: tuple[SilentLoad, ...] = ()
    wires: tuple[WireFigure, ...] = ()
    """Those that carry steady current."""
    supplies: tuple[SupplyFigure, ...] = ()
    resistors: tuple[LampResistor, ...] = ()
    protections: tuple[ProtectionFigure, ...] = ()
