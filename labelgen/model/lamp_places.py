"""Where the lamps of a panel are: as placed, and one on each road of a point. Millimetres."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from math import hypot

from labelgen.lengths import Point
from labelgen.model.hardware import Hardware
from labelgen.model.hole_room import Room, apart, comfortable, fit, room_of, shortfall
from labelgen.model.panel_form import Panel
from labelgen.model.panel_parts import OnPanel
from labelgen.model.road_walks import PanelWalks, Walk, to_line
from labelgen.natural_order import natural

ROADS = ("normal", "reverse")
FURTHEST_MM = 60.0
"""Further from its point nobody would say whose road a lamp shows. Common practice, no source."""
BEYOND_MM = 6.0
"""A lamp is no nearer to its point than this, so that one sees on which road it is. Common practice, no source."""
_CLEAR_OF_A_RING_MM = 2.0
"""Between what lamp and lever cover: the lever's ring has its place there."""
_CLEAR_OF_A_LINE_MM = 0.5
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
        for road, walk in zip(ROADS, walks.legs[point], strict=True):
            if f"{point}.{road}" in panel.lamps or walk.edges in shown:
                continue
            together = set(walk.meets) & set(fellows.get(point, ())) - {point}
            if together:
                shown.add(walk.edges)
            yield f"{point}.{road}", walk.whole() if together else walk


def _on_its_road(
    walks: PanelWalks, walk: Walk, part: Hardware, others: Sequence[Room], lamps: Sequence[Room]
) -> Room | None:
    """The first place on the road that is clear of other roads and holes: at first with room for fingers, too."""
    foreign = walks.tracks_but([walk])
    half = min(3.0, 0.21 * walks.panel.grid)
    well = part.covers / 2 + 2 * half + _SET_OFF_MM
    just = part.covers / 2 + half + _CLEAR_OF_A_LINE_MM
    tight = None
    start, far = walk.places[0], min(walk.length, FURTHEST_MM)
    foreign = [(a, b) for a, b in foreign if to_line(start, a, b) < far + well]
    others = [other for other in others if apart(room_of(part, start), other) < far + part.fingers + other.far * 2]
    for _, at in walk.steps(BEYOND_MM):
        if hypot(at.x - start.x, at.y - start.y) > far:
            break
        room = room_of(part, at)
        line = min((to_line(at, a, b) for a, b in foreign), default=well)
        if line < just or not _inside(room, walks.panel.size) or not all(fit(room, lamp) for lamp in lamps):
            continue
        if line >= well and all(comfortable(room, other) for other in others):
            return room
        if tight is None and all(_beside(room, other) for other in others):
            tight = room
    return tight


def _beside(lamp: Room, other: Room) -> bool:
    return fit(lamp, other) and shortfall(lamp, other, "nuts") <= 1.0 - _CLEAR_OF_A_RING_MM + 1e-6


def _inside(room: Room, size: tuple[float, float] | None) -> bool:
    if size is None:
        return True
    edge = room.reach + 2.5
    return edge <= room.at.x <= size[0] - edge and edge <= room.at.y <= size[1] - edge


def _square(panel: Panel, at: tuple[float, float]) -> Point:
    return Point(at[0] * panel.grid, at[1] * panel.grid)
