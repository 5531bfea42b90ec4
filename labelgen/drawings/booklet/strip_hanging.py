"""How a strip lies before one who looks up at it from below, turned so that its ways run downward."""

from dataclasses import dataclass

from labelgen.drawings.markers.reading import OnLabel, reading
from labelgen.model.netlist import Side, StripPlan

CLOCKWISE: dict[OnLabel, OnLabel] = {"up": "right", "right": "down", "down": "left", "left": "up"}
COUNTER: dict[OnLabel, OnLabel] = {to: of for of, to in CLOCKWISE.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class StripHanging:
    left: Side
    """The side that is on the left hand."""
    front: OnLabel
    """Where the board's front edge is."""

    @property
    def right(self) -> Side:
        return Side.LAYOUT if self.left is Side.PANEL else Side.PANEL


def hanging(strip: StripPlan) -> StripHanging:
    """Its panel side's marker, turned by a quarter."""
    read = reading(strip, Side.PANEL, same_way_up=False)
    turn = CLOCKWISE if read.rising else COUNTER
    return StripHanging(left=Side.PANEL if read.rising else Side.LAYOUT, front=turn[read.front or "up"])
