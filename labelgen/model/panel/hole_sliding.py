"""Where holes slide to along their roads, so that nuts, bodies and fingers have room: as few mm as needed."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from labelgen.lengths import Point, Rectangle
from labelgen.model.panel.hole_room import Room, fit, shortfall
from labelgen.model.panel.road_walks import PanelWalks, Walk, to_line
from labelgen.workshop.choosing import Option, choose

FURTHEST_MM = 30.0
"""A hole that is further from its point than this would not be taken for its lever. Common practice, no source."""
_FINE_MM = 10.0
"""Beyond that, whole millimetres are enough."""
FROM_EDGE_MM = 2.5
"""Between a nut and the panel's edge."""
_CRAMPED_MM = (0.0, 2.0, 4.0, 6.0, float("inf"))
"""What fingers go short of, when there is no better way: in the end only nuts and bodies are kept clear."""
_OVER_A_TRACK_MM = 8.0
"""A place where the nut covers another road is as good as one that much further away."""
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """A hole that may slide: where it stands by itself, and its roads, the best first."""

    room: Room
    walks: Callable[[], Sequence[Walk]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """A hole that stays where it is. `fingers`: whether a finger's room is kept from it, as from another lever."""

    room: Room
    fingers: bool = True


def slid(
    sliders: Mapping[str, Slider], fixed: Sequence[Fixed], walks: PanelWalks, inside: Rectangle | None
) -> dict[str, Point]:
    """Where each hole goes. One that finds no room stays where it stands by itself.

    Holes that are clear of each other never move; of the others, as few mm in all as needed, and shared out.
    """
    choices = {key: _Places(slider, walks, inside) for key, slider in sliders.items()}
    found: dict[str, Room] = {}
    for cramped in _CRAMPED_MM:
        open_to = {key: one for key, one in choices.items() if key not in found}
        if not open_to:
            break
        kept = [*fixed, *(Fixed(room=room) for room in found.values())]
        level = _Level(cramped)
        options = {key: _Clear(one, kept, level) for key, one in open_to.items()}
        found |= {key: option.value for key, option in choose(options, level.clash).items()}
    return {key: found[key].at if key in found else slider.room.at for key, slider in sliders.items()}


@dataclass(frozen=True, slots=True)
class _Level:
    cramped: float

    def clash(self, a: Room, b: Room) -> bool:
        if abs(a.at.x - b.at.x) + abs(a.at.y - b.at.y) > a.far + b.far:
            return False
        return not fit(a, b) or shortfall(a, b, "fingers") > self.cramped + _HAIR

    def clear(self, room: Room, fixed: Fixed) -> bool:
        return not self.clash(room, fixed.room) if fixed.fingers else fit(room, fixed.room)


@dataclass(slots=True)
class _Places:
    """All places of one hole, the cheapest first; worked out only when the first does not serve."""

    slider: Slider
    walks: PanelWalks
    inside: Rectangle | None
    further: list[Option[Room]] | None = field(default=None)

    def __iter__(self) -> Iterator[Option[Room]]:
        yield Option(0.0, self.slider.room)
        if self.further is None:
            self.further = sorted(self._further(), key=lambda option: option.cost)
        yield from self.further

    def _further(self) -> Iterator[Option[Room]]:
        roads, room = self.slider.walks(), self.slider.room
        near = FURTHEST_MM + room.reach + self._line
        foreign = [(a, b) for a, b in self.walks.tracks_but(roads) if to_line(room.at, a, b) < near]
        for rank, walk in enumerate(roads):
            branches = [piece for other in roads for piece in self.walks.tracks_of(other, but=walk)]
            for far, place in walk.steps():
                fine = far <= _FINE_MM or far == int(far)
                if 0 < far <= FURTHEST_MM and fine and self._on_the_panel(place):
                    over = any(to_line(place, a, b) < room.reach + self._line for a, b in foreign)
                    # Off its point, a nut would hide where the other roads, or the curve of a slip, begin.
                    over = over or (far > room.reach and any(to_line(place, a, b) < room.reach for a, b in branches))
                    # The square shares a move out among neighbours; the rank decides between equals.
                    yield Option(far + far * far / 100 + rank / 100 + over * _OVER_A_TRACK_MM, room.moved(place))

    @property
    def _line(self) -> float:
        """About half of a line's width."""
        return min(3.0, 0.21 * self.walks.panel.grid)

    def _on_the_panel(self, place: Point) -> bool:
        if self.inside is None:
            return True
        room = self.inside.inset(self.slider.room.reach + FROM_EDGE_MM)
        return room.x <= place.x <= room.right and room.y <= place.y <= room.bottom


@dataclass(frozen=True, slots=True)
class _Clear:
    """Those of them that are clear of all that stays where it is."""

    places: _Places
    fixed: Sequence[Fixed]
    level: _Level

    def __iter__(self) -> Iterator[Option[Room]]:
        return (one for one in self.places if all(self.level.clear(one.value, other) for other in self.fixed))
