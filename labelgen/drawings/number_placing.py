"""Finds places for numbers and names beside their spots: clear of tracks, holes and each other, nearest first."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import islice
from typing import Literal

from labelgen.drawings.clearances import Area, Around, Obstacle, Spots, between
from labelgen.lengths import Point, Rectangle
from labelgen.workshop.choosing import Option, choose

CLEAR_MM = 0.8
"""Paper that stays between a text and anything else. Common practice, no source."""
_STEP_MM = 0.5
_WORD_GAP_MM, _LINE_GAP_MM = 1.8, 2.0
ASIDE_MM = _WORD_GAP_MM - CLEAR_MM
"""Texts on one line are that much further apart than anything else: less, and two names read as one."""
STRANGE_MM = 1.6
"""A name stands that much further still from the texts of other spots on its line, where it can: 3.4 mm are as wide
as two of its letters, and nobody reads on over them. Common practice, no source."""
_WINDOW_CELL_MM = 50.0
"""Of what looks up neighbours: about as wide as a text's window."""
_LEVEL_MM = 0.6
"""A text that stands level with its spot is that much further from it: less, and it seems to touch a ring."""
_FROM_EDGE_MM, _AT_THE_EDGE = 3.0, 2.0
"""A place nearer to the edge of what is inside is as good as one that is that many mm further from its spot."""
_CORNER = 0.5**0.5

# Above first: the hand on a lever must not hide its number (control-room guidance puts a label above its control).
# Each direction: how its offset goes with the spot's reach, which part of the text is next to the spot, and what
# it costs, in mm of distance, against a place straight above.
_DIRECTIONS = (
    (Point(0, -1), Point(0, -1), 0.0),
    (Point(_CORNER, -_CORNER), Point(1, -1), 1.0),
    (Point(-_CORNER, -_CORNER), Point(-1, -1), 1.0),
    (Point(0, 1), Point(0, 1), 1.5),
    (Point(1, 0), Point(1, 0), 2.5),
    (Point(-1, 0), Point(-1, 0), 2.5),
    (Point(_CORNER, _CORNER), Point(1, 1), 2.5),
    (Point(-_CORNER, _CORNER), Point(-1, 1), 2.5),
)


Stands = Literal["around", "level", "plumb"]
"""On which sides of its spot a text may stand: all; left or right of it; above or below it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A text that wants a place beside a spot."""

    key: str
    spot: Point
    reach: float
    """Nothing is put closer to the spot's middle than this."""
    sizes: tuple[tuple[float, float], ...]
    """Width and height of the text, in each of the forms that it may take."""
    furthest: float = 10.0
    """How far beyond its reach the text may go before nobody would say that it belongs there."""
    beside: Rectangle | None = None
    """A text of the same spot, by which this one stands best: from its top to its baseline."""
    ahead: Point | None = None
    """The direction, a unit, in which it stands best."""
    drop: float = 0.0
    """How much of the height lies below this text's own baseline."""
    stands: Stands = "around"


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    place: Rectangle
    form: int
    """Which of the sizes it takes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blocked:
    """A text without a place, and what stands in its way, the worst first."""

    key: str
    by: tuple[str, ...]


def place_all(
    wanted: Sequence[Wanted],
    obstacles: Sequence[Obstacle],
    spots: Sequence[Point],
    inside: Rectangle,
    *,
    lines_apart: float = 0.0,
    strange: Sequence[Area] = (),
    words_apart: float = 0.0,
) -> tuple[dict[str, Found], list[Blocked]]:
    """A place for each text, by its key. `spots`: all that a text could be taken to belong to.

    `lines_apart`: mm by which texts that stand above each other are further apart than they must be; `words_apart`: on
    one line, and from the `strange` texts that stand there already, but for that which a text is `beside`.

    Where texts would come too close to each other, they are settled together: as many as can be, each as near to its
    spot as the others allow.
    """
    around, rivals = Around(obstacles), Spots(spots)
    others = Around(replace(text, rectangle=_wider(text.rectangle, words_apart)) for text in strange)
    options = {one.key: _Choices(one, around, rivals, inside, others) for one in wanted}
    touch = partial(_touch, lines_apart=lines_apart, words_apart=words_apart)
    chosen = choose(options, touch, _neighbours(wanted, ASIDE_MM + words_apart + lines_apart + CLEAR_MM))
    best = {key: option.value for key, option in chosen.items()}
    for key, found in best.items():
        around.add(Area(rectangle=found.place, what=f"the text of {key}"))
    blocked = [one for one in wanted if one.key not in best]
    return best, [Blocked(key=one.key, by=_in_the_way(one, around, inside)) for one in blocked]


def _neighbours(wanted: Sequence[Wanted], apart: float) -> dict[str, set[str]]:
    """By key: texts of which any place could come closer than `apart` to any of its own."""
    windows = {one.key: _window(one) for one in wanted}
    around = Around((Area(rectangle=window, what=key) for key, window in windows.items()), cell_mm=_WINDOW_CELL_MM)
    return {key: {other.what for other in around.too_close(window, apart)} - {key} for key, window in windows.items()}


def _touch(one: Found, other: Found, *, lines_apart: float, words_apart: float) -> bool:
    place = _wider(with_margin(one.place), words_apart)
    room = Rectangle(place.x, place.y - lines_apart, place.width, place.height + 2 * lines_apart)
    return between(room, other.place) < CLEAR_MM - 1e-9


def with_margin(place: Rectangle) -> Rectangle:
    """A text with what keeps the next one on its line from being read on with it."""
    return _wider(place, ASIDE_MM)


def _wider(place: Rectangle, by: float) -> Rectangle:
    return Rectangle(place.x - by, place.y, place.width + 2 * by, place.height)


class _Choices:
    """The places of one text that touch nothing which is there already, the best first; each looked for once."""

    def __init__(self, one: Wanted, around: Around, rivals: Spots, inside: Rectangle, strange: Around) -> None:
        self._known: list[Option[Found]] = []
        self._rest = (
            candidate
            for candidate in _candidates(one, inside)
            if around.clear(candidate.value.place, CLEAR_MM)
            and _belongs(candidate.value.place, one, rivals)
            and all(_is_fellow(text, one) for text in strange.too_close(candidate.value.place, CLEAR_MM))
        )

    def __iter__(self) -> Iterator[Option[Found]]:
        yield from self._known
        for found in self._rest:
            self._known.append(found)
            yield found


def _is_fellow(text: Obstacle, one: Wanted) -> bool:
    """True of the text that this one stands beside."""
    if one.beside is None or not isinstance(text, Area):
        return False
    middle = text.rectangle.x + text.rectangle.width / 2
    return abs(middle - one.beside.x - one.beside.width / 2) < 1e-6 and abs(text.rectangle.y - one.beside.y) < 1e-6


def _belongs(place: Rectangle, one: Wanted, rivals: Spots) -> bool:
    """A text, as far as its ink goes, is nearer to its own spot than to any other."""
    ink = Rectangle(place.x, place.y, place.width, place.height - one.drop)
    return rivals.nearest_is(one.spot, ink, CLEAR_MM)


def _window(one: Wanted) -> Rectangle:
    """Everything that any place of the text could cover."""
    widest, highest = max(size[0] for size in one.sizes), max(size[1] for size in one.sizes)
    out = one.reach + one.furthest
    left, right, top, bottom = one.spot.x - out, one.spot.x + out, one.spot.y - out, one.spot.y + out
    if one.beside is not None:
        fellow = one.beside.inset(-_LINE_GAP_MM)
        left, right = min(left, fellow.x), max(right, fellow.right)
        top, bottom = min(top, fellow.y), max(bottom, fellow.bottom + one.drop)
    return Rectangle(left - widest, top - highest, right - left + 2 * widest, bottom - top + 2 * highest)


def _candidates(one: Wanted, inside: Rectangle) -> Iterator[Option[Found]]:
    """Every place inside, in order of what it costs; more where it is cramped by the panel's edge."""
    well = inside.inset(_FROM_EDGE_MM)
    priced: list[tuple[float, int, int, float, float]] = []
    for form, (width, height) in enumerate(one.sizes):
        for cost, x, y in _places(one, width, height):
            if _holds(inside, x, y, width, height):
                edge = 0 if _holds(well, x, y, width, height) else _AT_THE_EDGE
                priced.append((cost + form + edge, len(priced), form, x, y))
    for cost, _, form, x, y in sorted(priced):
        yield Option(cost, Found(place=Rectangle(x, y, *one.sizes[form]), form=form))


def _holds(room: Rectangle, x: float, y: float, width: float, height: float) -> bool:
    """As `Rectangle.contains`, without making one for each place that is tried."""
    return (
        room.x <= x + 1e-6
        and room.y <= y + 1e-6
        and x + width <= room.x + room.width + 1e-6
        and y + height <= room.y + room.height + 1e-6
    )


def _places(one: Wanted, width: float, height: float) -> Iterator[tuple[float, float, float]]:
    """What each costs, and its upper left corner."""
    if one.beside is not None:
        yield from _by_its_fellow(one.beside, one, width, height)
    straight_on = () if one.ahead is None else ((one.ahead, _side(one.ahead), -1.0),)
    ways = [
        (offset.x, side.x * width / 2, offset.y, side.y * height / 2, cost)
        for offset, side, cost in (*straight_on, *_DIRECTIONS)
        if one.stands == "around" or (offset.y if one.stands == "level" else offset.x) == 0
    ]
    for out in (step * _STEP_MM for step in range(round(one.furthest / _STEP_MM) + 1)):
        reach = one.reach + out
        for across, half_across, down, half_down, cost in ways:
            x = one.spot.x + across * (reach if down else reach + _LEVEL_MM) + half_across
            y = one.spot.y + down * reach + half_down
            yield out + cost, x - width / 2, y - height / 2


def _side(way: Point) -> Point:
    """The part of a text that is next to its spot, in a direction from that."""
    return Point(*(round(part / max(abs(way.x), abs(way.y)) + 1e-9 * part) for part in (way.x, way.y)))


def _by_its_fellow(fellow: Rectangle, one: Wanted, width: float, height: float) -> Iterator[tuple[float, float, float]]:
    """Beside the other text of the spot, on the same baseline; or beyond it."""
    foot = fellow.bottom + one.drop - height
    middle = fellow.x + fellow.width / 2
    above = middle_of(fellow).y < one.spot.y
    beyond = fellow.y - _LINE_GAP_MM - height if above else fellow.bottom + _LINE_GAP_MM
    yield -3.0, fellow.right + _WORD_GAP_MM, foot
    yield -2.5, middle - width / 2, beyond
    yield -2.0, fellow.x - _WORD_GAP_MM - width, foot


def middle_of(rectangle: Rectangle) -> Point:
    return Point(rectangle.x + rectangle.width / 2, rectangle.y + rectangle.height / 2)


def _in_the_way(one: Wanted, around: Around, inside: Rectangle) -> tuple[str, ...]:
    """What blocks the eight places next to the spot, most often named first; at most three."""
    counted: Counter[str] = Counter()
    size = one.sizes[0]
    for _, x, y in islice(_places(one, *size), len(_DIRECTIONS) + 3 * (one.beside is not None)):
        place = Rectangle(x, y, *size)
        if not inside.contains(place):
            counted["the edge of the panel"] += 1
        counted.update({obstacle.what for obstacle in around.too_close(place, CLEAR_MM)})
    return tuple(what for what, _ in sorted(counted.items(), key=lambda item: (-item[1], item[0])))[:3]
