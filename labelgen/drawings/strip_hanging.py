"""How a strip lies before one who looks up at it from below, turned so that its ways run downward."""

from dataclasses import dataclass
from typing import Literal

from labelgen.drawings.marker_reading import reading
from labelgen.model.netlist import Side, StripPlan

_RISING = {"up": "right", "right": "down", "down": "left", "left": "up"}
_FALLING = {"up": "left", "left": "down", "down": "right", "right": "up"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    left: Side
    """The side that is on the left hand."""
    front: Literal["up", "down", "left", "right"]
    """Where the board's front edge is."""

    @property
    def right(self) -> Side:
        return Side.LAYOUT if self.left is Side.PANEL else Side.PANEL


def hanging(strip: StripPlan) -> Hanging:
    """Its panel side's marker, turned by a quarter."""
    read = reading(strip, Side.PANEL, same_way_up=False)
    turned = _RISING if read.rising else _FALLING
    front = turned[read.front or "down"]
    return Hanging(left=Side.PANEL if read.rising else Side.LAYOUT, front=front)  # type: ignore[arg-type]
