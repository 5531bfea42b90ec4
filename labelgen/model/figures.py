"""Electrical figures of a railway. Nothing is rounded: volts, ohms, amperes, joules, milliseconds."""

from dataclasses import dataclass

from labelgen.places import Path


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
    """Of everything between the supply's terminals."""
    peak_amps: float
    time_constant_ms: float
    amps_squared_seconds: float
    """The integral of i² over time in the supply's own wires."""
    coils: tuple[CoilFigure, ...]
    unmeasured: int
    """Wires on the way whose length is not known: they count for nothing, so the real figures are lower."""
    path: Path

    @property
    def weakest(self) -> CoilFigure:
        return min(self.coils, key=lambda coil: coil.joules)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class WireFigure:
    """The steady current of one wire."""

    number: int | str
    amps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyFigure:
    """What a steady supply has to give when everything on it works."""

    supply: str
    amps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    throws: tuple[ThrowFigure, ...] = ()
    """Levers in natural order, each as it can lie; then routes."""
    loads: tuple[LoadFigure, ...] = ()
    wires: tuple[WireFigure, ...] = ()
    """Those that carry steady current."""
    supplies: tuple[SupplyFigure, ...] = ()
