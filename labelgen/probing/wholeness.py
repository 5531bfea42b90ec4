"""The readings that prove nets whole: a lead on each of two ends, so that every wire and joint lies between some two.

On a board with its plugs pulled these are ends of wires; with the plugs in, every board's piece of a net counts as one
point, and its pins lie between.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from labelgen.model.copper import wire_ohms
from labelgen.model.copper_tree import CopperTree, Part, Point
from labelgen.model.netlist import EndKind
from labelgen.model.test_plan import Reading
from labelgen.probing.leaf_pairs import fewest, leaf_pairs, leaves_of
from labelgen.probing.places import Places


@dataclass(frozen=True, slots=True)
class Whole:
    """A reading with its place in walking order, the board to which it belongs, and its net."""

    at: int
    board: str
    net: int
    reading: Reading


def whole_nets(tree: CopperTree, places: Places, idle: Iterable[str]) -> tuple[list[Whole], int]:
    """In walking order; and the fewest readings with which it can be done. `idle`: devices that are left out."""
    found: list[Whole] = []
    least = 0
    left_out = set(idle)
    for points in tree.points:
        beside = _without({point: _beside(tree, point) for point in points}, left_out)
        least += fewest(len(leaves_of(beside)))
        for one, other in leaf_pairs(beside):
            parts = tree.between(one, other)
            at, _, board = places.first_pull(parts)
            found.append(Whole(at, board, tree.net[one], _reading(parts, one, other, places)))
    return sorted(found, key=lambda whole: whole.at), least


def _beside(tree: CopperTree, point: Point) -> list[Point]:
    return [part.beyond(point) for part in tree.parts_at[point]]


def _without(beside: Mapping[Point, list[Point]], idle: set[str]) -> dict[Point, list[Point]]:
    """A net without the ends at devices that are not in use."""
    left = {point: list(near) for point, near in beside.items()}
    for point in beside:
        if point[0] is EndKind.DEVICE and point[1] in idle and len(left[point]) == 1:
            (near,) = left.pop(point)
            left[near].remove(point)
    return left


def _reading(parts: list[Part], one: Point, other: Point, places: Places) -> Reading:
    _, strip, _ = places.first_pull(parts)
    if places.rank(other) < places.rank(one):
        one, other = other, one
    where = places.band((EndKind.WAY, strip, "", "")) if strip else "At no strip"
    return Reading(
        one=one,
        other=other,
        shown=(places.shown(one), places.shown(other)),
        what=", ".join(dict.fromkeys(part.wire.head for part in parts if part.wire is not None)),
        band=where,
        expect="joined",
        ohms=ohms_of(parts),
    )


def ohms_of(parts: Iterable[Part]) -> float | None:
    """Of wires at 20 °C; None where a length or size is not known."""
    wires = [part.wire for part in parts if part.wire is not None]
    if any(wire.length is None or not wire.size for wire in wires):
        return None
    return sum(map(wire_ohms, wires))


class Plugged:
    """The readings that prove the pins of plugs, once they are in."""

    def __init__(self, together: CopperTree, apart: CopperTree, places: Places) -> None:
        self._together, self._apart, self._places = together, apart, places
        self.least = 0

    def readings(self) -> Iterator[tuple[tuple[str, int], Reading]]:
        """Each with the plug and the pin under which it stands: the first that it passes, in walking order."""
        for points in self._together.points:
            beside: dict[int, list[int]] = {}
            for part in self._pins(points):
                one, other = self._apart.net[part.one], self._apart.net[part.other]
                beside.setdefault(one, []).append(other)
                beside.setdefault(other, []).append(one)
            self.least += fewest(len(leaves_of(beside)))
            for first, last in leaf_pairs(beside):
                yield self._reading(self._handiest(first), self._handiest(last))

    def _pins(self, points: Iterable[Point]) -> Iterator[Part]:
        for point in points:
            yield from (part for part in self._together.parts_at[point] if part.kind == "pin" and part.one == point)

    def _handiest(self, piece: int) -> Point:
        """Where a board's piece of a net is reached best: a test point, a way, another end; no pin inside its plug."""
        points = self._apart.points[piece]
        first = min(points, key=lambda point: (point[0] is EndKind.PIN, self._places.rank(point)))
        return self._places.handy(first, self._apart)

    def _reading(self, one: Point, other: Point) -> tuple[tuple[str, int], Reading]:
        parts = self._together.between(one, other)
        pin = min((part.one for part in parts if part.kind == "pin"), key=self._places.rank)
        return (pin[1], int(pin[2])), _reading(parts, one, other, self._places)
