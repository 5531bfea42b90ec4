"""What a lever works, in the trade's words, and how it is painted: read by plates, fascia and operator's card."""

from dataclasses import dataclass

from labelgen.model.description import Description, Lever
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.standards.lever_colours import LeverMark, paint_of, role_words

STOP_KINDS = ("signal-2-aspect", "signal-3-aspect", "signal-4-aspect", "semaphore")
POINT_KINDS = (
    "twin-coil", "twin-coil-frog", "twin-coil-lamps", "three-way", "stall-motor", "stall-motor-lamps",
    "stall-motor-one-wire", "limit-switch-motor", "servo", "memory-wire",
)  # fmt: skip
OUT_OF_USE = "out of use"
NO_STROKE = ("button", "buttons", "on-off", "rotary", "stud")
"""Lever types that are neither normal nor reverse."""
SECTION_KINDS = ("section", "cab-selector", "cab-selector-common", "cab-selector-rotary")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverLook:
    role: str
    words: str
    """What is printed of it; "" where it has none."""
    colours: tuple[str, ...] = ()
    """Letters of IEC 60757, the upper part first; none: not painted."""
    mark: LeverMark = ""
    idle: str = ""
    """What of it is out of use, as it is printed; it stands in `words` as well."""


def lever_look(description: Description, netlist: Netlist, lever: LeverPlan) -> LeverLook:
    """As the builder says; else by the kind of what it works. White above, when all that it works is out of use."""
    given = description.levers.get(lever.id, Lever())
    preset = description.printing.levers
    role = given.role or _role(description, netlist, lever)
    paint = paint_of(role, preset)
    usual = role_words(role, description.words)
    if preset == "none" and given.colour is None and not given.role and role not in ("section", "spare"):
        usual = ""
    idle = _idle(description, netlist, lever)
    words = idle if idle == OUT_OF_USE else ", ".join(part for part in (usual, idle) if part)
    if given.colour is not None:
        return LeverLook(role=role, words=words, colours=given.colour, idle=idle)
    if preset == "none":
        return LeverLook(role=role, words=words, idle=idle)
    if idle == OUT_OF_USE:
        return LeverLook(role=role, words=words, colours=("WH", *paint.colours[:1]), idle=idle)
    return LeverLook(role=role, words=words, colours=paint.colours, mark=paint.mark, idle=idle)


def _idle(description: Description, netlist: Netlist, lever: LeverPlan) -> str:
    """`out of use`, when all that it works is; of a part, which."""
    if out_of_use(description, lever):
        return OUT_OF_USE
    devices = {**description.points, **description.devices}
    idle = [netlist.shown_id(device) for device in lever.devices if device in devices and devices[device].not_in_use]
    return f"{', '.join(idle)} {OUT_OF_USE}" if idle else ""


def out_of_use(description: Description, lever: LeverPlan) -> str:
    """Why nothing that it works is in use; "" when something is."""
    devices = {**description.points, **description.devices}
    works = [devices[device] for device in lever.devices if device in devices]
    return works[0].not_in_use if works and all(device.not_in_use for device in works) else ""


def _role(description: Description, netlist: Netlist, lever: LeverPlan) -> str:
    if lever.spare:
        return "spare"
    kinds = {circuit.kind_name for circuit in netlist.circuits if circuit.lever == lever.id}
    if kinds & set(POINT_KINDS) or any(device in description.points for device in lever.devices):
        return "points"
    if kinds & set(STOP_KINDS):
        return "stop"
    on_sections = any(device in panel.sections for panel in description.panels.values() for device in lever.devices)
    return "section" if kinds & set(SECTION_KINDS) or on_sections else "plain"
