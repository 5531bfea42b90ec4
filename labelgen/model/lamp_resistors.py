"""Resistors before lamps of the light-emitting kind: wherever the description says what stands across one lamp.

Two lamps of which one burns at a time share one resistor, in the wire that they share; every other lamp has its own.
A lamp in series with a stall motor needs none: the motor holds the current back.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from labelgen.electrics.series_resistor import SeriesResistor, series_resistor
from labelgen.model.description import Description, Device
from labelgen.model.kind_loads import loads_of
from labelgen.model.lamp_leads import LAMP_FUNCTION, LEADS, SHARED
from labelgen.model.netlist import Circuit, EndKind, Netlist

STEADY_VOLTS = "dc"
"""Of alternating current such a lamp uses one half; a resistor for it is not worked out here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LampResistor:
    """One resistor, or none where it could not be worked out or is not needed."""

    device: str
    lamps: tuple[str, ...]
    """Terminals of the lamps that it serves; of lamps beside the lever `lamp-N` and `lamp-R`."""
    at: str
    """The terminal in whose wire it goes."""
    supply: str
    lamp_volts: Fraction
    resistor: SeriesResistor | None
    """None: the supply has not enough volts for the lamp, or `in_series`."""
    in_series: bool = False
    """With a motor, which limits the current."""
    lever: str | None = None
    """Its lamps stand beside this lever."""

    @property
    def point(self) -> tuple[EndKind, str, str]:
        """`End.point` of the end in whose wire it goes."""
        beside = self.at == SHARED and self.lever is not None
        return (EndKind.LEVER, self.lever or "", self.at) if beside else (EndKind.DEVICE, self.device, self.at)

    def place(self, netlist: Netlist) -> str:
        """That end by the name that everything else calls it: `L5.lamp-C`, `S1.R`."""
        return netlist.shown_at.get(self.point, f"{netlist.shown_id(self.device)}.{self.at}")


def lamp_resistors(description: Description, netlist: Netlist) -> tuple[LampResistor, ...]:
    """Of every lamp whose `lamp_volts` and current are given and that a dc supply of known voltage feeds.

    Device by device, in the order of the circuits.
    """
    given = {**description.points, **description.devices}
    return tuple(
        found
        for circuit in netlist.circuits
        for device in circuit.devices
        if device in given
        for found in _of_device(description, circuit, device, given[device])
    )


def lamp_milliamps(circuit: Circuit, device: Device) -> float | None:
    """What each lamp of a device should have: as said of lamps; else its `milliamps`, where it has no other loads."""
    said = device.lamp_milliamps or circuit.kind.lamp_milliamps
    if said is not None or not _only_lamps(circuit):
        return said
    return device.milliamps or circuit.kind.milliamps


def lamps_beside_lever(circuit: Circuit) -> tuple[str, ...]:
    """Which ends of lamps stand beside its lever: `lamp-N`, `lamp-R`."""
    across = {row.across for row in circuit.kind.group}
    return tuple(end for end, _ in LEADS.values() if end in across) if SHARED in across else ()


def lamp_role(circuit: Circuit) -> str | None:
    """Which of its supplies feeds the lamps beside the lever."""
    feeds = (row.chain for row in circuit.kind.group if row.function == LAMP_FUNCTION and row.chain is not None)
    reference = next(feeds, None)
    return None if reference is None else circuit.kind.reference(reference)[0]


def _only_lamps(circuit: Circuit) -> bool:
    loads = loads_of(circuit.kind)
    return bool(loads) and all(load.lamp for load in loads)


def _of_device(description: Description, circuit: Circuit, device: str, own: Device) -> Iterator[LampResistor]:
    lamp_volts = own.lamp_volts or circuit.kind.lamp_volts
    if lamp_volts is None:
        return
    across = exact(lamp_volts)
    for role, at, lamps in _sets(circuit, beside=device == circuit.devices[0]):
        supply = description.supplies.get(circuit.supplies.get(role, ""))
        if supply is None or supply.kind != STEADY_VOLTS or supply.volts is None:
            continue
        id_, in_series = circuit.supplies[role], not lamps
        milliamps = lamp_milliamps(circuit, own)
        resistor = None
        if not in_series and milliamps is None:
            continue
        if not in_series and milliamps is not None and exact(supply.volts) > across:
            resistor = series_resistor(exact(supply.volts), across, exact(milliamps) / 1000)
        yield LampResistor(
            device=device,
            lamps=lamps,
            at=at,
            supply=id_,
            lamp_volts=across,
            resistor=resistor,
            in_series=in_series,
            lever=circuit.lever if at == SHARED else None,
        )


def _sets(circuit: Circuit, *, beside: bool) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """(Role, terminal of the resistor, lamps that share it); no lamps for one in series with a motor.

    `beside`: also of those beside the lever, which are its first device's.
    """
    loads = loads_of(circuit.kind)
    lamps = [load for load in loads if load.lamp]
    by_lever, role = lamps_beside_lever(circuit), lamp_role(circuit)
    if len(lamps) == 2 and circuit.lever is not None and lamps[0].terminals[1] == lamps[1].terminals[1]:
        yield lamps[0].role, lamps[0].terminals[1], tuple(load.terminals[0] for load in lamps)
    else:
        yield from ((load.role, load.terminals[0], load.terminals[:1]) for load in lamps)
    if by_lever and beside and role is not None:
        yield role, SHARED, by_lever
    if not lamps and not by_lever:
        yield from ((load.role, load.terminals[0], ()) for load in loads)


def exact(number: float) -> Fraction:
    """A decimal as it was typed."""
    return Fraction(str(number))


def ohms_in_words(ohms: Fraction) -> str:
    """For the middle of a sentence: `510 ohms`, `1 kilohm`, `2.2 kilohms`."""
    number, unit = ohms_said(ohms).split()
    return f"{number} {unit.replace('Ω', 'ilohm' if unit != 'Ω' else 'ohm')}{'' if number == '1' else 's'}"


def ohms_said(ohms: Fraction) -> str:
    """`510 Ω`, `2.2 kΩ`."""
    return f"{float(ohms / 1000):g} kΩ" if ohms >= 1000 else f"{float(ohms):g} Ω"
