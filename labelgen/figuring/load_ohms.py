"""What each steady load resists, so that it draws its current at the supply's full voltage."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from labelgen.figuring.elements import Element
from labelgen.model.description import Description, Device
from labelgen.model.lamp_resistors import LampResistor, lamp_milliamps
from labelgen.model.netlist import Circuit, Netlist

Key = tuple[str, str, bool]
"""Device, role of the supply, whether it is a lamp."""


@dataclass(frozen=True, slots=True)
class LoadOhms:
    """Of the loads of one supply."""

    ohms: Mapping[Key, float]
    roles: Mapping[str, Sequence[str]]
    """Of each device that the supply feeds, the roles in which it does."""

    def of(self, element: Element) -> float | None:
        """None of what is no load, is of another supply, or of unknown current."""
        return self.ohms.get((element.device, element.role, element.lamp))

    def is_silent(self, element: Element) -> bool:
        """Whether it is a load of this supply, of unknown current."""
        return element.role in self.roles.get(element.device, ()) and self.of(element) is None


def load_ohms(
    description: Description, netlist: Netlist, supply: str, volts: float, resistors: Sequence[LampResistor]
) -> LoadOhms:
    """By the current that a lamp's resistor really gives; else by milliamps at full voltage, else by ohms."""
    given = {**description.points, **description.devices}
    found: dict[Key, float] = {}
    fed: dict[str, Sequence[str]] = {}
    for circuit in netlist.circuits:
        roles = [role for role, id_ in circuit.supplies.items() if id_ == supply]
        for device in circuit.devices if roles else ():
            fed[device] = roles
            own = given.get(device, Device())
            for lamp, ohms in (*_lamp(circuit, own, volts), *_other(circuit, own, volts)):
                found |= {(device, role, lamp): ohms for role in roles}
    for one in resistors:
        if one.supply == supply:
            _with_lamps(found, one, volts)
    return LoadOhms(found, fed)


def _lamp(circuit: Circuit, own: Device, volts: float) -> Iterator[tuple[bool, float]]:
    milliamps = lamp_milliamps(circuit, own)
    if milliamps is not None:
        yield True, volts / (milliamps / 1000)
    elif own.ohms is not None:
        yield True, own.ohms


def _other(circuit: Circuit, own: Device, volts: float) -> Iterator[tuple[bool, float]]:
    milliamps, ohms = own.milliamps or circuit.kind.milliamps, own.ohms or circuit.kind.ohms
    resistance = volts / (milliamps / 1000) if milliamps is not None else ohms
    if resistance is not None:
        yield False, resistance


def _with_lamps(found: dict[Key, float], one: LampResistor, volts: float) -> None:
    """The lamp with its resistor, or the motor with the lamp in series, as one resistance at full voltage.

    Where the lamp takes all the volts, nothing flows.
    """
    left = volts - float(one.lamp_volts)
    for key, ohms in list(found.items()):
        device, _, lamp = key
        if device != one.device or lamp is one.in_series:
            continue
        if one.in_series and left > 0:
            found[key] = ohms * volts / left
        elif one.resistor is not None:
            found[key] = volts / float(one.resistor.amps)
        else:
            del found[key]
