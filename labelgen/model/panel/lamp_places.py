"""Where the lamps of a panel are: as placed, and one on each road of a point. Millimetres."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, inf

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.hole_room import Room, apart, comfortable, fit, room_of, shortfall
from labelgen.model.panel.parts import OnPanel
from labelgen.model.panel.road_walks import PanelWalks, Walk, to_line
from labelgen.natural_order import natural

ROADS = ("normal", "reverse", "third")
"""The third is the right-hand road of a three-way that is drawn as one point."""
FURTHEST_MM = 60.0
"""Further from its point nobody would say whose road a lamp shows. Common practice, no source."""
BEYOND_MM = 6.0
"""A lamp is no nearer to its point than this, so that one sees on which road it is. Common practice, no source."""
_CLEAR_OF_A_RING_MM = 2.0
"""Between what lamp and lever cover: the lever's ring has its place there."""
_CLEAR_OF_A_LINE_MM = 0.5
_BESIDE_MM = 1.0
"""Between a lamp and the line of its road, when it stands beside it."""
_HAIR = 1e-6
_SET_OFF_MM = 1.3
"""A reverse road is drawn from there on: the lamp should lie on the drawn line, not beside its end."""


def lamp_places(
    panel: Panel, part: Hardware, others: Sequence[Room], levers: Iterable[OnPanel] = ()
) -> dict[str, tuple[Point, ...]]:
    """What each lamp shows: its places, those that the builder gave first.

    `others`: all other holes of the panel; `levers`: those that stand in it.

    With `lamps: yes` one on the normal and one on the reverse road of each point with three roads; as near to the
    point as fingers leave it free, further along where something is in the way. Roads without room are left out.
    Where two points of one lever lead to each other, one lamp shows it for both.
    """
    found = {name: tuple(_square(panel, at) for at in places) for name, places in panel.lamp_places.items()}
    if panel.lamps_on_roads:
        walks = PanelWalks(panel)
        placed = [room_of(part, at) for places in found.values() for at in places]
        for name, walk in _roads(panel, walks, levers):
            room = _on_its_road(walks, walk, part, [*others], placed)
            if room is not None:
                found[name] = (room.at,)
                placed.append(room)
    return found


def lamps_without_place(panel: Panel, levers: Iterable[OnPanel], places: Collection[str]) -> list[str]:
    """The roads of points that should have a lamp, and are not among those that have."""
    if not panel.lamps_on_roads:
        return []
    return [name for name, _ in _roads(panel, PanelWalks(panel), levers) if name not in places]


def _roads(panel: Panel, walks: PanelWalks, levers: Iterable[OnPanel]) -> Iterator[tuple[str, Walk]]:
    fellows = {device: lever.devices for lever in levers for device in lever.devices}
    shown: set[frozenset[int]] = set()
    for point in sorted(walks.legs, key=natural):
        for road, walk in zip(ROADS, walks.legs[point], strict=False):
            if f"{point}.{road}" in panel.lamps or walk.edges in shown:
                continue
            together = set(walk.meets) & set(fellows.get(point, ())) - {point}
            if together:
                shown.add(walk.edges)
            yield f"{point}.{road}", walk.whole() if together else walk


@dataclass(frozen=True, slots=True, kw_only=True)
class _Search:
    """What a lamp on one road must keep clear of."""

    walk: Walk
    part: Hardware
    half: float
    """About half of a track's width."""
    own: Sequence[tuple[Point, Point]]
    foreign: Sequence[tuple[Point, Point]]
    others: Sequence[Room]
    lamps: Sequence[Room]
    size: tuple[float, float] | None

    @property
    def just(self) -> float:
        """From another track's middle to the lamp's, at the least."""
        return self.part.covers / 2 + self.half + _CLEAR_OF_A_LINE_MM

    @property
    def well(self) -> float:
        return self.part.covers / 2 + 2 * self.half + _SET_OFF_MM

    def on_the_road(self) -> Room | None:
        """The first place clear of other roads and holes: at first with room for fingers, too."""
        tight = None
        for at in self._along(BEYOND_MM):
            room, line = room_of(self.part, at), self._to_tracks(at, self.foreign)
            if line < self.just or not self._free(room):
                continue
            if line >= self.well and self._comfortable(room):
                return room
            tight = tight or room
        return tight

    def beside_the_road(self) -> Room | None:
        """The same on either side of it, where its own road is still the nearest."""
        tight = None
        for at in self._along(BEYOND_MM):
            for place in self._both_sides(at):
                room = room_of(self.part, place)
                if not self._belongs(place) or not self._free(room):
                    continue
                if self._comfortable(room):
                    return room
                tight = tight or room
        return tight

    def _both_sides(self, at: Point) -> tuple[Point, Point]:
        a, b = min(self.own, key=lambda stretch: to_line(at, *stretch))
        share = self._off / hypot(b.x - a.x, b.y - a.y)
        aside = Point((a.y - b.y) * share, (b.x - a.x) * share)
        return at - aside, at + aside

    @property
    def _off(self) -> float:
        """From the middle of its road to that of a lamp beside it."""
        return self.part.covers / 2 + self.half + _BESIDE_MM

    def _belongs(self, place: Point) -> bool:
        nearest = self._to_tracks(place, self.own)
        return nearest > self._off - _HAIR and self._to_tracks(place, self.foreign) > nearest + _BESIDE_MM

    def _along(self, start: float) -> Iterator[Point]:
        first, far = self.walk.places[0], min(self.walk.length, FURTHEST_MM)
        for _, at in self.walk.steps(start):
            if hypot(at.x - first.x, at.y - first.y) > far:
                return
            yield at

    def _to_tracks(self, at: Point, tracks: Sequence[tuple[Point, Point]]) -> float:
        return min((to_line(at, a, b) for a, b in tracks), default=inf)

    def _free(self, room: Room) -> bool:
        clear = all(fit(room, lamp) for lamp in self.lamps) and all(_beside(room, other) for other in self.others)
        return clear and _inside(room, self.size)

    def _comfortable(self, room: Room) -> bool:
        return all(comfortable(room, other) for other in self.others)


def _on_its_road(
    walks: PanelWalks, walk: Walk, part: Hardware, others: Sequence[Room], lamps: Sequence[Room]
) -> Room | None:
    """On its road; beside it where two levers at its ends leave no room between them."""
    start, far = walk.places[0], min(walk.length, FURTHEST_MM)
    half = min(3.0, 0.21 * walks.panel.grid)
    near = far + part.covers + 4 * half + _SET_OFF_MM
    search = _Search(
        walk=walk,
        part=part,
        half=half,
        own=list(pairwise(walk.places)),
        foreign=[(a, b) for a, b in walks.tracks_but([walk]) if to_line(start, a, b) < near],
        others=[o for o in others if apart(room_of(part, start), o) < near + part.fingers + o.far * 2],
        lamps=lamps,
        size=walks.panel.size,
    )
    return search.on_the_road() or search.beside_the_road()


def _beside(lamp: Room, other: Room) -> bool:
    return fit(lamp, other) and shortfall(lamp, other, "nuts") <= 1.0 - _CLEAR_OF_A_RING_MM + _HAIR


def _inside(room: Room, size: tuple[float, float] | None) -> bool:
    if size is None:
        return True
    edge = room.reach + 2.5
    return edge <= room.at.x <= size[0] - edge and edge <= room.at.y <= size[1] - edge


def _square(panel: Panel, at: tuple[float, float]) -> Point:
    return Point(at[0] * panel.grid, at[1] * panel.grid)
