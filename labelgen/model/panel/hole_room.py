"""How much room a part needs on a panel, in mm: its nut on the face, the fingers that work it, its body behind."""

from dataclasses import dataclass
from functools import cached_property
from math import hypot
from typing import Literal

from labelgen.lengths import Point
from labelgen.model.panel.hardware import Hardware

COVERS_APART_MM = 1.0
"""Between the nuts, washers or bezels of neighbours: common practice, no source."""
BODIES_APART_MM = 2.0
"""Between bodies behind the panel: common practice, no source."""

Need = Literal["fingers", "nuts", "bodies"]


@dataclass(frozen=True)
class Room:
    """A part where it stands. What it covers is a disc, of a slot the slot itself made wider all round."""

    at: Point
    covers: float
    """Diameter; of a slot, the length of what is covered."""
    fingers: float
    body: tuple[float, float] = (0.0, 0.0)
    slot: tuple[float, float] = (0.0, 0.0)

    def moved(self, to: Point) -> "Room":
        return Room(to, self.covers, self.fingers, self.body, self.slot)

    @property
    def reach(self) -> float:
        """Nothing of it on the face is further from its middle."""
        return self.covers / 2

    @cached_property
    def far(self) -> float:
        """Two parts whose middles, |dx| + |dy|, are further apart than both of these together are clear in any case."""
        return max(1.5 * max(self.covers, self.fingers), sum(self.body) + 2 * BODIES_APART_MM) / 2 + COVERS_APART_MM

    @property
    def spine(self) -> tuple[Point, Point, float]:
        """What it covers is all that is no further from this line than that: of a round hole, from its middle."""
        half = Point(*self.core)
        return self.at - half, self.at + half, self.radii[0]

    @cached_property
    def core(self) -> tuple[float, float]:
        """Half of how far a slot's middle line goes, across and down; of a round hole, none."""
        return (self.slot[0] - min(self.slot)) / 2, (self.slot[1] - min(self.slot)) / 2

    @cached_property
    def radii(self) -> tuple[float, float]:
        """How far from that line what it covers goes, and what fingers need."""
        return self.covers / 2 - max(self.core), self.fingers / 2 - max(self.core)


def room_of(part: Hardware, at: Point, count: int = 1) -> Room:
    """`count`: of so many in a row, as if they were one part with a slot from the first to the last."""
    if count < 2:
        return Room(at, part.covers, part.fingers, part.body, part.slot or (0.0, 0.0))
    long = row_pitch(part) * (count - 1)
    return Room(at, part.covers + long, part.fingers + long, (part.body[0] + long, part.body[1]), (long + 1, 1))


def row_pitch(part: Hardware) -> float:
    """Between the middles of the buttons or studs of one lever: as close as fingers, nuts and bodies allow."""
    return max(part.fingers, part.covers + COVERS_APART_MM, part.body[0] + BODIES_APART_MM)


def row_places(part: Hardware, at: Point, count: int) -> tuple[Point, ...]:
    """Their middles from left to right, about a place."""
    pitch = row_pitch(part)
    return tuple(Point(at.x + (n - (count - 1) / 2) * pitch, at.y) for n in range(count))


def screw_room(diameter: float, at: Point) -> Room:
    """A screw's head is at most twice as wide as its hole: 6 mm for M3 (ISO 7045), through 3.4 mm."""
    return Room(at, 2 * diameter, 2 * diameter)


def apart(a: Room, b: Room) -> float:
    """Between the middles of the two holes."""
    return hypot(a.at.x - b.at.x, a.at.y - b.at.y)


def shortfall(a: Room, b: Room, need: Need) -> float:
    """How much further apart the two would have to be for what is needed; 0 or less when they are clear.

    Of bodies, which are upright rectangles, in the direction in which less is missing.
    """
    dx, dy = abs(a.at.x - b.at.x), abs(a.at.y - b.at.y)
    if need == "bodies":
        wide = (a.body[0] + b.body[0]) / 2 + BODIES_APART_MM - dx
        high = (a.body[1] + b.body[1]) / 2 + BODIES_APART_MM - dy
        return min(wide, high) if a.body[0] and b.body[0] else 0.0
    wanted = a.radii[0] + b.radii[0] + COVERS_APART_MM if need == "nuts" else a.radii[1] + b.radii[1]
    return wanted - hypot(max(0.0, dx - a.core[0] - b.core[0]), max(0.0, dy - a.core[1] - b.core[1]))


def needed_between(a: Room, b: Room, need: Need) -> float:
    """The distance between the middles at which the two would be clear, in the direction in which they lie."""
    return apart(a, b) + max(0.0, shortfall(a, b, need))


def fit(a: Room, b: Room) -> bool:
    """True when the two can be screwed in beside each other."""
    return shortfall(a, b, "nuts") <= _HAIR and shortfall(a, b, "bodies") <= _HAIR


def comfortable(a: Room, b: Room) -> bool:
    """True when fingers, too, have their room."""
    return fit(a, b) and shortfall(a, b, "fingers") <= _HAIR


_HAIR = 1e-6
