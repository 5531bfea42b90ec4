"""The wires whose two ends are behind the same panel, as those of a feed from lever to lever: where they are drawn.

Upright and level, around the other parts; the true wire may run as it likes. Millimetres.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from labelgen.drawings.back.blocks import wire_function
from labelgen.drawings.back.parts import BackPart, Contact, Soldered
from labelgen.drawings.back.placing import number_place
from labelgen.drawings.clearances import Obstacle, Stroke, clipped, point_to_segment
from labelgen.drawings.function_marks import RIM_COLOUR, colours_of
from labelgen.lengths import Point, Rectangle, rectilinear
from labelgen.model.drawing import Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist

WIRE_MM, CASING_MM = 0.45, 0.12
APART_MM = 1.2
"""Between the middles of two wires side by side."""
_STEP_MM = 1.25
_TOUCHES_MM, _OUT_MM = 2.2, 1.2
_OVER_OWN = 2.0
_BEND, _ALONGSIDE, _TOUCH = 4.0, 40.0, 60.0
"""What a bend costs, another wire right beside, a tab that is passed too close: in mm of detour."""
_REACH = 24
"""How many steps beyond its two ends a wire's detour may go."""

Path = tuple[Point, ...]
Piece = tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeWire:
    soldered: Soldered
    path: Path

    @property
    def strokes(self) -> list[Obstacle]:
        width = WIRE_MM / 2 + CASING_MM
        return [Stroke(start=a, end=b, reach=width, what="a wire") for a, b in pairwise(self.path)]


def free_wires(parts: Sequence[BackPart], taken: Sequence[Rectangle], inside: Rectangle) -> list[FreeWire]:
    """The wires between two contacts of the panel; those that find no way are only in the list."""
    found: list[FreeWire] = []
    numbers = [*taken, *(number_place(part) for part in parts if part.short)]
    bodies = [(part.mark, part.body.inset(-1)) for part in parts if part.hole.part is not None]
    for soldered, (part, contact), (other, its_contact) in _pairs(parts):
        others = [body for mark, body in bodies if mark not in (part.mark, other.mark)]
        run = _Run(
            start=part.at + contact.tab.at,
            end=other.at + its_contact.tab.at,
            under=(part.body, other.body),
            tabs=(*_other_tabs(part, contact), *_other_tabs(other, its_contact)),
            wires=tuple((a, b) for wire in found for a, b in pairwise(wire.path)),
            room=(*others, *numbers),
            inside=inside,
        )
        if (path := run.best()) is not None:
            found.append(FreeWire(soldered=soldered, path=path))
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """One wire that looks for its way."""

    start: Point
    end: Point
    under: tuple[Rectangle, Rectangle]
    """The bodies of its own parts."""
    tabs: tuple[Point, ...]
    """Those of its own parts that it must not seem to touch."""
    wires: tuple[Piece, ...]
    room: tuple[Rectangle, ...]
    """What it must not run over."""
    inside: Rectangle

    def best(self) -> Path | None:
        """Straight, where nothing is in the way; else the cheapest that is clear, as straight as it may be."""
        straight = (self.start, self.end)
        if _is_level(straight) and self._clear(straight) and not self._spoiled(straight):
            return straight
        plain = self._cheapest(_ways(self.start, self.end))
        if plain is not None and not self._touched(plain):
            return plain
        bent = self._cheapest(self._bent())
        return min((way for way in (plain, bent) if way is not None), key=self._price, default=None)

    def _cheapest(self, ways: Iterable[Path]) -> Path | None:
        priced = sorted(ways, key=self._price)
        return next((tuple(dict.fromkeys(way)) for way in priced if self._clear(way)), None)

    def _bent(self) -> Iterator[Path]:
        """Sideways out of one of its parts or both, then along a channel."""
        a, b = self.start, self.end
        for x1 in (a.x, *_beside(self.under[0])):
            for x2 in (b.x, *_beside(self.under[1])):
                for y in _channels(a.y, b.y):
                    yield a, Point(x1, a.y), Point(x1, y), Point(x2, y), Point(x2, b.y), b

    def _clear(self, way: Path) -> bool:
        if not all(self.inside.contains(Rectangle(at.x, at.y, 0, 0)) for at in way):
            return False
        return all(clipped(a, b, box) is None for a, b in pairwise(way) for box in self.room)

    def _price(self, way: Path) -> float:
        """Its length, three times over its own parts; more for bends and wires beside it, most for foreign tabs."""
        pieces = [(a, b) for a, b in pairwise(way) if a != b]
        inside = [found for a, b in pieces for body in self.under if (found := clipped(a, b, body)) is not None]
        beside = sum(_alongside(piece, wire) for piece in pieces for wire in self.wires)
        return (
            _length(pieces)
            + _OVER_OWN * _length(inside)
            + _BEND * (len(pieces) - 1)
            + 60 * self._touched(way)
            + 40 * beside
        )

    def _spoiled(self, way: Path) -> bool:
        return self._touched(way) > 0 or any(_alongside(piece, wire) for piece in pairwise(way) for wire in self.wires)

    def _touched(self, way: Path) -> int:
        pieces = [(a, b) for a, b in pairwise(way) if a != b]
        return sum(point_to_segment(tab, a, b) < _TOUCHES_MM for tab in self.tabs for a, b in pieces)


def _beside(body: Rectangle) -> tuple[float, float]:
    return body.x - _OUT_MM, body.right + _OUT_MM


def _other_tabs(part: BackPart, contact: Contact) -> list[Point]:
    """Those that a wire to this contact must not seem to touch."""
    return [part.at + tab.at for tab in part.tabs if tab is not contact.tab] + [
        part.at + at for _, at in part.jumpers()
    ]


def wire_shapes(wires: Sequence[FreeWire], netlist: Netlist, look: Look) -> Iterator[Shape]:
    """Each in its colour, with a thin dark edge."""
    for wire in wires:
        run = tuple((at.x, at.y) for at in wire.path)
        colour = colours_of(wire_function(netlist, wire.soldered), look)[0].paint
        for width, paint in ((WIRE_MM + 2 * CASING_MM, RIM_COLOUR), (WIRE_MM, colour)):
            yield Outline(runs=(run,), stroke=paint, stroke_width=width, round_ends=True)


End = tuple[BackPart, Contact]


def _pairs(parts: Sequence[BackPart]) -> Iterator[tuple[Soldered, End, End]]:
    places = {contact.end: (part, contact) for part in parts for contact in part.contacts}
    seen = set()
    for part in parts:
        for contact in part.contacts:
            for soldered in contact.wires:
                other = places.get(soldered.far.point)
                if other is not None and other[1] is not contact and soldered.wire.number not in seen:
                    seen.add(soldered.wire.number)
                    yield soldered, (part, contact), other


_SAME = 0.05


def _ways(a: Point, b: Point) -> Iterator[Path]:
    """Straight, where that is level or upright; else along a channel between the two, or beyond them."""
    if _is_level((a, b)):
        yield a, b
    for y in _channels(a.y, b.y):
        yield a, Point(a.x, y), Point(b.x, y), b
    for x in _channels(a.x, b.x):
        yield a, Point(x, a.y), Point(x, b.y), b


def _is_level(piece: Piece) -> bool:
    """True of one that is upright, too."""
    return min(abs(piece[0].x - piece[1].x), abs(piece[0].y - piece[1].y)) < _SAME


def _channels(a: float, b: float) -> Iterator[float]:
    low, high = min(a, b), max(a, b)
    yield from (a, b)
    steps = int((high - low) / _STEP_MM) + 2 * _REACH
    yield from (low + (step - _REACH) * _STEP_MM for step in range(steps + 1))


def _length(pieces: Sequence[Piece]) -> float:
    return sum(rectilinear(a, b) for a, b in pieces)


def _alongside(a: Piece, b: Piece) -> bool:
    """True when two pieces of the same direction lie on one another, or nearly so."""
    if abs(a[0].y - a[1].y) < _SAME:
        level = abs(b[0].y - b[1].y) < _SAME and abs(a[0].y - b[0].y) < APART_MM
        return level and _overlap(a[0].x, a[1].x, b[0].x, b[1].x)
    upright = abs(b[0].x - b[1].x) < _SAME and abs(a[0].x - b[0].x) < APART_MM
    return upright and _overlap(a[0].y, a[1].y, b[0].y, b[1].y)


def _overlap(a: float, b: float, c: float, d: float) -> bool:
    """True when the two stretches share more than an end."""
    return max(min(a, b), min(c, d)) < min(max(a, b), max(c, d)) - _SAME
