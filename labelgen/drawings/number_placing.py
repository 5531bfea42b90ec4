"""Finds places for numbers and names beside their spots: clear of tracks, holes and each other, nearest first."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial

from labelgen.drawings.clearances import Area, Around, Obstacle, Spots, between
from labelgen.lengths import Point, Rectangle
from labelgen.workshop.choosing import Option, choose

CLEAR_MM = 0.8
"""Paper that stays between a text and anything else. Common practice, no source."""
_STEP_MM = 0.5
_WORD_GAP_MM, _LINE_GAP_MM = 1.8, 2.0
ASIDE_MM = _WORD_GAP_MM - CLEAR_MM
"""Texts on one line are that much further apart than anything else: less, and two names read as one."""
_WINDOW_CELL_MM = 50.0
"""Of what looks up neighbours: about as wide as a text's window."""
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
    (Point(_CORNER, _CORNER), Point(1, 1), 2.5),
    (Point(-_CORNER, _CORNER), Point(-1, 1), 2.5),
    (Point(1, 0), Point(1, 0), 2.5),
    (Point(-1, 0), Point(-1, 0), 2.5),
)


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
) -> tuple[dict[str, Found], list[Blocked]]:
    """A place for each text, by its key. `spots`: all that a text could be taken to belong to.

    `lines_apart`: mm by which texts that stand above each other are further apart than they must be.

    Where texts would come too close to each other, they are settled together: as many as can be, each as near to its
    spot as the others allow.
    """
    around, rivals = Around(obstacles), Spots(spots)
    options = {one.key: _Choices(one, around, rivals, inside) for one in wanted}
    touch = partial(_touch, lines_apart=lines_apart)
    chosen = choose(options, touch, _neighbours(wanted, ASIDE_MM + lines_apart + CLEAR_MM))
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


def _touch(one: Found, other: Found, *, lines_apart: float) -> bool:
    place = with_margin(one.place)
    room = Rectangle(place.x, place.y - lines_apart, place.width, place.height + 2 * lines_apart)
    return between(room, other.place) < CLEAR_MM - 1e-9


def with_margin(place: Rectangle) -> Rectangle:
    """A text with what keeps the next one on its line from being read on with it."""
    return Rectangle(place.x - ASIDE_MM, place.y, place.width + 2 * ASIDE_MM, place.height)


class _Choices:
    """The places of one text that touch nothing which is there already, the best first; each looked for once."""

    def __init__(self, one: Wanted, around: Around, rivals: Spots, inside: Rectangle) -> None:
        self._known: list[Option[Found]] = []
        self._rest = (
            candidate
            for candidate in _candidates(one, inside)
            if inside.contains(candidate.value.place)
            and around.clear(candidate.value.place, CLEAR_MM)
            and _belongs(candidate.value.place, one, rivals)
        )

    def __iter__(self) -> Iterator[Option[Found]]:
        yield from self._known
        for found in self._rest:
            self._known.append(found)
            yield found


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


def _candidates(one: Wanted, inside: Rectangle) -> list[Option[Found]]:
    """Every place to try, in order of what it costs; more where it is cramped by the panel's edge."""
    well = inside.inset(_FROM_EDGE_MM)
    priced = [
        Option(cost + form + (0 if well.contains(place) else _AT_THE_EDGE), Found(place=place, form=form))
        for form, size in enumerate(one.sizes)
        for cost, place in _places(one, *size)
    ]
    return sorted(priced, key=lambda option: option.cost)


def _places(one: Wanted, width: float, height: float) -> Iterator[tuple[float, Rectangle]]:
    if one.beside is not None:
        yield from _by_its_fellow(one.beside, one, width, height)
    straight_on = () if one.ahead is None else ((one.ahead, _side(one.ahead), -1.0),)
    steps = round(one.furthest / _STEP_MM) + 1
    for out in (step * _STEP_MM for step in range(steps)):
        for offset, side, cost in (*straight_on, *_DIRECTIONS):
            reach = one.reach + out
            x = one.spot.x + offset.x * reach + side.x * width / 2
            y = one.spot.y + offset.y * reach + side.y * height / 2
            yield out + cost, Rectangle(x - width / 2, y - height / 2, width, height)


def _side(way: Point) -> Point:
    """The part of a text that is next to its spot, in a direction from that."""
    return Point(*(round(part / max(abs(way.x), abs(way.y)) + 1e-9 * part) for part in (way.x, way.y)))


def _by_its_fellow(fellow: Rectangle, one: Wanted, width: float, height: float) -> Iterator[tuple[float, Rectangle]]:
    """Beside the other text of the spot, on the same baseline; or beyond it."""
    foot = fellow.bottom + one.drop - height
    middle = fellow.x + fellow.width / 2
    above = middle_of(fellow).y < one.spot.y
    beyond = fellow.y - _LINE_GAP_MM - height if above else fellow.bottom + _LINE_GAP_MM
    yield -3.0, Rectangle(fellow.right + _WORD_GAP_MM, foot, width, height)
    yield -2.5, Rectangle(middle - width / 2, beyond, width, height)
    yield -2.0, Rectangle(fellow.x - _WORD_GAP_MM - width, foot, width, height)


def middle_of(rectangle: Rectangle) -> Point:
    return Point(rectangle.x + rectangle.width / 2, rectangle.y + rectangle.height / 2)


def _in_the_way(one: Wanted, around: Around, inside: Rectangle) -> tuple[str, ...]:
    """What blocks the eight places next to the spot, most often named first; at most three."""
    counted: Counter[str] = Counter()
    for _, place in list(_places(one, *one.sizes[0]))[: len(_DIRECTIONS) + 3 * (one.beside is not None)]:
        if not inside.contains(place):
            counted["the edge of the panel"] += 1
        counted.update({obstacle.what for obstacle in around.too_close(place, CLEAR_MM)})
    return tuple(what for what, _ in sorted(counted.items(), key=lambda item: (-item[1], item[0])))[:3]
