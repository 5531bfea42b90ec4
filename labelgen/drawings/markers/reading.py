"""How a strip hangs when it is read from below, and so in which order its ways stand on a marker.

`way_1` and `panel_side` of a strip are given as seen from above, the board's front edge at the bottom. The strip
hangs under the board: from below, with the front edge still at the bottom, left and right change places. Directions
here are (right, down) as seen from below.
"""

from dataclasses import dataclass
from typing import Literal

from labelgen.model.netlist import Side, StripPlan

Direction = tuple[int, int]
SEEN_FROM_BELOW: dict[str, Direction] = {"left": (1, 0), "right": (-1, 0), "front": (0, 1), "back": (0, -1)}
FRONT = SEEN_FROM_BELOW["front"]
OnLabel = Literal["up", "down", "left", "right"]
_ON_LABEL: dict[Direction, OnLabel] = {(0, -1): "up", (0, 1): "down", (-1, 0): "left", (1, 0): "right"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """How one marker is read where it is stuck."""

    rising: bool
    """Ways count up from left to right."""
    front: OnLabel | None
    """Where the board's front edge lies for the reader; None: it does not matter."""
    wires_below: bool
    """The wires leave at the bottom of the label."""


def reading(strip: StripPlan, side: Side, *, same_way_up: bool) -> Reading:
    """The marker is read with its wires at the bottom; with `same_way_up`, like the panel side's marker."""
    panel = SEEN_FROM_BELOW[strip.panel_side]
    outward = panel if side is Side.PANEL else (-panel[0], -panel[1])
    down = panel if same_way_up else outward
    right = (down[1], -down[0])
    return Reading(
        rising=_along(SEEN_FROM_BELOW[strip.way_1], right) <= 0,
        front=_ON_LABEL[(_along(FRONT, right), _along(FRONT, down))],
        wires_below=down == outward,
    )


def _along(a: Direction, b: Direction) -> int:
    return a[0] * b[0] + a[1] * b[1]
