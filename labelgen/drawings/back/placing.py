"""Finds a place for each part's block on a back sheet: clear of parts and other blocks, its leaders crossing none."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from labelgen.drawings.back.blocks import Block
from labelgen.drawings.back.parts import BackPart
from labelgen.drawings.back.tabs import nearest
from labelgen.drawings.clearances import Area, Obstacle, Sieve, Stroke, clipped, point_to_segment
from labelgen.lengths import Point, Rectangle
from labelgen.typefaces import BOLD, face_for, size_for_cap, text_width

CLEAR_MM = 0.7
NUMBER_MM, NUMBER_GAP_MM = 2.6, 0.9
"""Cap height of the number above a part, and the air below it."""
_GAPS = (2.5, 4.0, 6.0, 9.0, 13.0, 18.0, 24.0)
_SHIFTS = (0, -1, 1, -2, 2, -3, 3, -4, 4, -5, 5, -6, 6)
_SHIFT_MM = 2.5
_ROUNDS = 3
_FROM_CORNER = 1.0

Side = Literal["right", "left", "above", "below"]
Leader = tuple[Point, Point]
_COST: dict[tuple[Side, bool], float] = {
    ("right", False): 0,
    ("left", False): 0,
    ("below", False): 5,
    ("above", False): 6,
    ("below", True): 9,
    ("above", True): 10,
}
"""By the side of the part, and whether it runs upwards: what reads worst costs most, in mm of distance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A block where it stands."""

    block: Block
    place: Rectangle
    side: Side
    turned: bool
    leaders: tuple[Leader, ...]


def tab_radius(part: BackPart) -> float:
    """So large that neighbouring tabs stay apart."""
    return min(1.7, 0.43 * nearest([tab.at for tab in part.tabs]))


def number_place(part: BackPart) -> Rectangle:
    """Where the number of a lever stands: above its body, in the middle."""
    face = face_for(part.short, BOLD)
    width = text_width(part.short, face, size_for_cap(NUMBER_MM, face))
    return Rectangle(part.at.x - width / 2, part.body.y - NUMBER_GAP_MM - NUMBER_MM, width, NUMBER_MM)


def lay_blocks(
    parts: Sequence[BackPart],
    forms: Mapping[str, Sequence[Block]],
    taken: Sequence[Obstacle],
    wires: Sequence[Obstacle],
    inside: Rectangle,
) -> dict[str, Laid]:
    """Part's mark: its block in the first of its forms that finds a place. Parts without one are left out.

    `wires`: what a block covers when there is no other place.

    Those with the fewest places choose first; those that get none choose before them in another round.
    """
    search = _Search(forms, [*part_obstacles(parts), *taken], wires, inside)
    order = sorted((part for part in parts if forms[part.mark]), key=search.choices)
    best = search.in_turn(order)
    for _ in range(_ROUNDS):
        if all(part.mark in best and best[part.mark].block == forms[part.mark][0] for part in order):
            break
        order.sort(key=lambda part: part.mark in best and best[part.mark].block == forms[part.mark][0])
        found = search.in_turn(order)
        best = max(best, found, key=lambda laid: sum(len(one.block.lines) + 0.1 for one in laid.values()))
    return best


def part_obstacles(parts: Sequence[BackPart]) -> list[Obstacle]:
    """Bodies, and the numbers above them."""
    found: list[Obstacle] = []
    for part in parts:
        found.append(Area(rectangle=part.body, what=part.mark))
        if part.short:
            found.append(Area(rectangle=number_place(part), what=f"the number of {part.mark}"))
    return found


class _Search:
    def __init__(
        self,
        forms: Mapping[str, Sequence[Block]],
        fixed: Sequence[Obstacle],
        wires: Sequence[Obstacle],
        inside: Rectangle,
    ) -> None:
        self._forms, self._fixed, self._wires, self._inside = forms, fixed, wires, inside

    def choices(self, part: BackPart) -> int:
        """How many places a part has while there is no other block."""
        block = self._forms[part.mark][0]
        sieve = Sieve(_window(part, block), [*self._fixed, *self._wires], CLEAR_MM)
        places = (spot.place for spot in _spots(part, block))
        return sum(self._inside.contains(place) and sieve.passes(place) for place in places)

    def in_turn(self, order: Sequence[BackPart]) -> dict[str, Laid]:
        found: dict[str, Laid] = {}
        taken: list[Obstacle] = []
        for part in order:
            tried = (self._best(part, form, taken) for form in self._forms[part.mark])
            laid = next((one for one in tried if one is not None), None)
            if laid is not None:
                found[part.mark] = laid
                taken.append(Area(rectangle=laid.place, what=part.mark))
                taken += (Stroke(start=a, end=b, reach=0.1, what=part.mark) for a, b in laid.leaders)
        return found

    def _best(self, part: BackPart, block: Block, taken: Sequence[Obstacle]) -> Laid | None:
        """The best place; over a wire only when there is none beside all of them."""
        window = _window(part, block)
        obstacles = [*self._fixed, *taken]
        sieve = Sieve(window, obstacles, CLEAR_MM)
        near = [one for one in obstacles if isinstance(one, Stroke) or window.overlaps(one.rectangle)]
        over_wires = None
        dry = Sieve(window, self._wires, CLEAR_MM)
        for spot in _spots(part, block):
            if self._inside.contains(spot.place) and sieve.passes(spot.place):
                is_dry = dry.passes(spot.place)
                laid = _laid(part, block, spot) if is_dry or over_wires is None else None
                if laid is not None and not _crosses(laid, part, near):
                    if is_dry:
                        return laid
                    over_wires = laid
        return over_wires


def _window(part: BackPart, block: Block) -> Rectangle:
    """Everything that any place of the block could come near to."""
    reach = max(block.size) + _GAPS[-1] + 2 * max(part.body.width, part.body.height) + _SHIFT_MM * max(_SHIFTS)
    return Rectangle(part.at.x - reach, part.at.y - reach, 2 * reach, 2 * reach)


def _crosses(laid: Laid, part: BackPart, near: Sequence[Obstacle]) -> bool:
    """Whether a leader runs over something that is not its own part, or over another leader."""
    return any(_over(leader, one) for leader in laid.leaders for one in near if one.what != part.mark)


def _over(leader: Leader, one: Obstacle) -> bool:
    if isinstance(one, Area):
        return clipped(*leader, one.rectangle) is not None
    return _cross(leader, (one.start, one.end))


def _cross(a: Leader, b: Leader) -> bool:
    """True when each line's ends lie on different sides of the other."""
    return _beside(*a, b[0]) * _beside(*a, b[1]) < 0 and _beside(*b, a[0]) * _beside(*b, a[1]) < 0


def _beside(start: Point, end: Point, place: Point) -> float:
    """Positive on one side of a line, negative on the other."""
    along, way = end - start, place - start
    return along.x * way.y - along.y * way.x


@dataclass(frozen=True, slots=True)
class _Spot:
    """Where a block could stand."""

    place: Rectangle
    side: Side
    turned: bool


def _spots(part: BackPart, block: Block) -> Iterator[_Spot]:
    """Every place to try, the best first."""
    for side, turned, gap, shift in _TRIALS:
        width, height = block.size[::-1] if turned else block.size
        body, at = part.body, part.at
        if side in ("right", "left"):
            x = body.right + gap if side == "right" else body.x - gap - width
            yield _Spot(Rectangle(x, at.y - height / 2 + shift, width, height), side, turned)
        else:
            above = number_place(part).y if part.short else body.y
            y = body.bottom + gap if side == "below" else above - gap - height
            yield _Spot(Rectangle(at.x - width / 2 + shift, y, width, height), side, turned)


def _trials() -> list[tuple[Side, bool, float, float]]:
    """Side, whether it runs upwards, gap and shift along the side, in mm: the cheapest first."""
    priced = [
        (cost + gap + 0.6 * abs(shift) * _SHIFT_MM, order, (side, turned, gap, shift * _SHIFT_MM))
        for order, (side, turned) in enumerate(_COST)
        for cost in [_COST[side, turned]]
        for gap in _GAPS
        for shift in _SHIFTS
    ]
    return [trial for _, _, trial in sorted(priced, key=lambda one: one[:2])]


_TRIALS = _trials()


def _laid(part: BackPart, block: Block, spot: _Spot) -> Laid:
    level = spot.side in ("right", "left")
    leaders = _to_lines(part, block, spot.place, spot.side) if level else _to_block(part, spot.place, spot.side)
    return Laid(block=block, place=spot.place, side=spot.side, turned=spot.turned, leaders=leaders)


def _to_lines(part: BackPart, block: Block, place: Rectangle, side: Side) -> tuple[Leader, ...]:
    """From each tab to the first line of its contact; one from the body when another tab is in the way of any."""
    x = place.x if side == "right" else place.right
    radius = tab_radius(part)
    found: list[Leader] = []
    for tab in part.tabs:
        if tab.contact in block.contacts:
            start, end = part.at + tab.at, Point(x, place.y + block.middle_of(tab.contact))
            others = [part.at + other.at for other in part.tabs if other is not tab]
            if all(point_to_segment(other, start, end) > radius + 0.15 for other in others):
                found.append((start, end))
    if found and len(found) == len(set(block.contacts) & {tab.contact for tab in part.tabs}):
        return tuple(found)
    edge = part.body.right if side == "right" else part.body.x
    return ((Point(edge, part.at.y), Point(x, place.y + place.height / 2)),)


def _to_block(part: BackPart, place: Rectangle, side: Side) -> tuple[Leader, ...]:
    """From the body's edge, beside the number above it."""
    near = part.body.right - _FROM_CORNER if side == "above" else part.at.x
    x = min(max(near, place.x + 1), place.right - 1)
    if side == "below":
        return ((Point(near, part.body.bottom), Point(x, place.y)),)
    return ((Point(near, part.body.y), Point(x, place.bottom)),)
