"""Electrical figures as a reader at the railway needs them: those of one lever, those of one strip."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Protocol, TypeVar

from labelgen.model.figures import BankFigure, Figures, LoadFigure, ThrowFigure
from labelgen.model.lamp_resistors import LampResistor
from labelgen.model.netlist import Circuit, EndKind, Netlist


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureView:
    """What concerns one lever or strip, in the order of `Figures`; empty where nothing is known."""

    throws: tuple[ThrowFigure, ...] = ()
    """Its routes too, of a lever: those that set it."""
    banks: tuple[BankFigure, ...] = ()
    """Of the supplies of these throws."""
    loads: tuple[LoadFigure, ...] = ()
    resistors: tuple[LampResistor, ...] = ()
    ways: dict[int, float] = field(default_factory=dict)
    """Of a strip: way: its largest steady current, amps."""


class _OfDevice(Protocol):
    @property
    def device(self) -> str: ...


D = TypeVar("D", bound=_OfDevice)


class FigureViews:
    """All figures of a railway, looked up by lever and by strip."""

    def __init__(self, figures: Figures, netlist: Netlist) -> None:
        self._figures = figures
        self._circuits: dict[str, list[Circuit]] = {}
        """By lever, and by strip after a stroke."""
        for circuit in netlist.circuits:
            if circuit.lever is not None:
                self._circuits.setdefault(circuit.lever, []).append(circuit)
            for strip in dict.fromkeys(group.strip for group in circuit.groups):
                self._circuits.setdefault(f"/{strip}", []).append(circuit)
        self._throws: dict[str, list[ThrowFigure]] = {}
        for throw in figures.throws:
            for device in dict.fromkeys(coil.device for coil in throw.coils):
                self._throws.setdefault(device, []).append(throw)
        self._loads = _by_device(figures.loads)
        self._resistors = _by_device(figures.resistors)
        self._ways = _ways(figures, netlist)

    def of_lever(self, lever: str) -> FigureView:
        """Of the lever's devices, wherever their groups are."""
        return self._view([d for circuit in self._circuits.get(lever, ()) for d in circuit.devices], {})

    def of_strip(self, strip: str) -> FigureView:
        """Of the devices whose ways are on the strip."""
        circuits = self._circuits.get(f"/{strip}", ())
        groups = (group for circuit in circuits for group in circuit.groups if group.strip == strip)
        return self._view([device for group in groups for device in group.devices], self._ways.get(strip, {}))

    def _view(self, devices: Iterable[str], ways: dict[int, float]) -> FigureView:
        devices = list(dict.fromkeys(devices))
        throws = {id(throw): throw for device in devices for throw in self._throws.get(device, ())}
        supplies = {throw.supply for throw in throws.values()}
        return FigureView(
            throws=tuple(throws.values()),
            banks=tuple(bank for bank in self._figures.banks if bank.supply in supplies),
            loads=tuple(load for device in devices for load in self._loads.get(device, ())),
            resistors=tuple(one for device in devices for one in self._resistors.get(device, ())),
            ways=ways,
        )


def _by_device(things: Iterable[D]) -> dict[str, list[D]]:
    found: dict[str, list[D]] = {}
    for thing in things:
        found.setdefault(thing.device, []).append(thing)
    return found


def _ways(figures: Figures, netlist: Netlist) -> dict[str, dict[int, float]]:
    amps = {wire.number: wire.amps for wire in figures.wires}
    found: dict[str, dict[int, float]] = {}
    for wire in netlist.wires if amps else ():
        for end in wire.ends if wire.number in amps else ():
            if end.kind is EndKind.WAY:
                ways = found.setdefault(end.thing, {})
                way = int(end.terminal)
                ways[way] = max(ways.get(way, 0.0), amps[wire.number])
    return found
