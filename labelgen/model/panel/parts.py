"""Which part is screwed into which hole of a panel."""

from collections.abc import Sequence
from typing import Literal, Protocol

from labelgen.model.description import Description
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hardware import DEFAULT_HARDWARE, Hardware
from labelgen.model.panel.route_form import Route

HoleUse = Literal["lever", "route", "lamp", "screw"]
HARDWARE_KEYS = {"lever": "levers", "route": "routes", "lamp": "lamps"}
"""The keys of a panel's `hardware:` that choose the part for all holes of a use."""
PART_OF_LEVER_TYPE = {
    "passing": "passing-lever",
    "button": "push-button-7",
    "buttons": "push-button-7",
    "rotary": "rotary-switch",
    "stud": "stud-4",
}
"""The part of a lever of a type, where the panel does not say; of every other type a toggle."""

SIDEWAYS = ("left", "right")
"""Where the handle of a lever lies when it is normal, if it moves sideways."""

_UNKNOWN = Hardware(about="a part that is not described", use="lever", hole=6.5, covers=11.5, fingers=19, body=(13, 13))


class OnPanel(Protocol):
    """What a lever's hole follows from."""

    @property
    def id(self) -> str: ...
    @property
    def type(self) -> str: ...
    @property
    def normal(self) -> str: ...
    @property
    def buttons(self) -> Sequence[str]: ...
    @property
    def devices(self) -> Sequence[str]: ...


def part_id_of(panel: Panel, use: HoleUse, lever: OnPanel | None = None, route: Route | None = None) -> str:
    """The part in a hole: the lever's own, else that of all holes of the use, else the default.

    A route has a button, or a stud where it says so.
    """
    if lever is not None and lever.id in panel.hardware:
        return panel.hardware[lever.id]
    if (chosen := panel.hardware.get(HARDWARE_KEYS[use])) is not None:
        return chosen
    if lever is not None and lever.type in PART_OF_LEVER_TYPE:
        return PART_OF_LEVER_TYPE[lever.type]
    if use == "route":
        return DEFAULT_HARDWARE["stud" if route is not None and route.stud is not None else "button"]
    return DEFAULT_HARDWARE[use]


def part_of(
    description: Description,
    panel: Panel,
    use: HoleUse,
    lever: OnPanel | None = None,
    route: Route | None = None,
) -> Hardware:
    """The part itself, as it stands: turned where its lever moves sideways.

    For one that is described nowhere, which is a problem of its own, a toggle stands in.
    """
    part = description.parts.get(part_id_of(panel, use, lever, route), _UNKNOWN)
    return _turned(part) if lever is not None and lever.normal in SIDEWAYS else part


def row_of(part: Hardware, lever: OnPanel) -> Sequence[str]:
    """The contacts of a lever that is several buttons or studs in a row; none of any other."""
    return lever.buttons if len(lever.buttons) > 1 and part.use in ("button", "stud") else ()


def _turned(part: Hardware) -> Hardware:
    """By a quarter; its tabs are still those of a handle that moves up and down."""
    return part.model_copy(update={"body": part.body[::-1], "slot": part.slot and part.slot[::-1]})
