"""What stands on each board, and where: for the plan of the board. Millimetres on the board, seen from above."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, cast

from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, StripPlan
from labelgen.model.strip_geometry import WAY_DIRECTION, way_offset
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.natural_order import natural

ThingKind = Literal["strip", "point", "device", "supply", "hole", "plug", "panel"]
DEPTH_OF_PITCH = 1.8
"""How deep a strip is, from edge to edge over its screws, in pitches. Common practice, no source: for the eye alone."""
SIDES = {"left": Point(-1, 0), "right": Point(1, 0), "back": Point(0, -1), "front": Point(0, 1)}
"""The direction to an edge of the board, as a unit."""
OVER_EDGE_MM = 5.0
"""A strip may reach so far over the edge: its depth is a guess."""
AROUND_MM = 60.0
"""What is shown around everything on a board whose size is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    kind: ThingKind
    id: str
    shown: str
    name: str
    board: str
    at: Point
    above: bool = False
    """It stands on the board's upper side."""
    diameter: float | None = None
    """Of a hole, where that was said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedStrip:
    """A strip as it lies on its board."""

    plan: StripPlan
    board: str
    middle: Point
    ways: tuple[Point, ...]
    """The middle of each way, from way 1."""

    @property
    def along(self) -> Point:
        """The direction in which the numbers run."""
        return Point(*WAY_DIRECTION[self.plan.way_1])

    @property
    def upright(self) -> bool:
        return self.along.x == 0

    @property
    def depth(self) -> float:
        return DEPTH_OF_PITCH * self.plan.pitch

    @property
    def panel_side(self) -> Point:
        return SIDES[self.plan.panel_side]

    @property
    def body(self) -> Rectangle:
        """Half a pitch beyond its end ways."""
        row = max(len(self.ways) // self.plan.tiers, 1)
        length = row * self.plan.pitch
        width, height = (self.depth, length) if self.upright else (length, self.depth)
        return Rectangle(self.middle.x - width / 2, self.middle.y - height / 2, width, height)


_Given = tuple[Thing, str | None, tuple[float, float] | None]
"""A thing, the board that it is said to be on, and where."""


class BoardThings:
    """Everything that has a place, board by board; and the names of what has none."""

    def __init__(self, description: Description, netlist: Netlist) -> None:
        self._description, self._netlist = description, netlist
        boards = description.boards
        self._only = next(iter(boards)) if len(boards) == 1 else None
        self.strips = {
            id_: placed for id_, plan in netlist.strip_by_id.items() if (placed := self._strip(plan)) is not None
        }
        self.unplaced: dict[str, list[str]] = {board: [] for board in boards}
        """Board: what is known to be on it, but not where, as shown."""
        self._extents: dict[str, Rectangle] = {}
        self.outside: dict[str, list[str]] = {board: [] for board in boards}
        """Board: what would lie beyond its edges."""
        self.things: dict[str, list[Thing]] = {board: [] for board in boards}
        for thing, given, at in self._all():
            board = given or self._only
            if board in boards:
                self._take(replace(thing, board=board, at=Point(*(at or (0, 0)))), at)

    def _take(self, thing: Thing, at: tuple[float, float] | None) -> None:
        if at is None:
            self.unplaced[thing.board].append(thing.shown)
        elif not self._is_inside(thing):
            self.outside[thing.board].append(thing.shown)
        else:
            self.things[thing.board].append(thing)

    def _is_inside(self, thing: Thing) -> bool:
        size = self._description.boards[thing.board].size
        if size is None:
            return True
        if thing.kind != "strip":
            return Rectangle(0, 0, *size).contains(Rectangle(thing.at.x, thing.at.y, 0, 0))
        inside = Rectangle(0, 0, *size).inset(-OVER_EDGE_MM).contains(self.strips[thing.id].body)
        if not inside:
            del self.strips[thing.id]
        return inside

    def on(self, board: str, *kinds: ThingKind) -> list[Thing]:
        return [thing for thing in self.things[board] if thing.kind in kinds]

    def strips_on(self, board: str) -> list[PlacedStrip]:
        return [strip for strip in self.strips.values() if strip.board == board]

    def extent(self, board: str) -> Rectangle:
        """The board itself; where it has no size, what encloses all that stands on it."""
        if board not in self._extents:
            self._extents[board] = self._enclosing(board)
        return self._extents[board]

    def _enclosing(self, board: str) -> Rectangle:
        size = self._description.boards[board].size
        if size is not None:
            return Rectangle(0, 0, *size)
        corners = [thing.at for thing in self.things[board]]
        bodies = [strip.body for strip in self.strips_on(board)]
        corners += [Point(x, y) for body in bodies for x in (body.x, body.right) for y in (body.y, body.bottom)]
        left, top = min(at.x for at in corners), min(at.y for at in corners)
        right, bottom = max(at.x for at in corners), max(at.y for at in corners)
        return Rectangle(left, top, right - left, bottom - top).inset(-AROUND_MM)

    @cached_property
    def threaded(self) -> dict[str, ThreadedHole]:
        """Of the holes with wires in them."""
        return {hole.id: hole for hole in threaded_holes(self._description, self._netlist)}

    def _strip(self, plan: StripPlan) -> PlacedStrip | None:
        given = self._description.strips[plan.id]
        board = plan.board or self._only
        if given.at is None or board not in self._description.boards:
            return None
        middle = Point(*given.at)
        ways = tuple(middle + way_offset(given, way.number) for way in plan.ways)
        return PlacedStrip(plan=plan, board=board, middle=middle, ways=ways)

    def _all(self) -> Iterator[_Given]:
        """Kind by kind in natural order, with the board that each is on."""
        given, thing = self._description, self._thing
        for id_ in sorted(given.strips, key=natural):
            strip = given.strips[id_]
            yield thing("strip", id_, strip.name), self._netlist.strip_by_id[id_].board, strip.at
        yield from self._devices()
        for id_ in sorted(given.supplies, key=natural):
            supply = given.supplies[id_]
            yield thing("supply", id_, supply.name), supply.board, supply.at
        for id_ in sorted(given.panels, key=natural):
            panel = given.panels[id_]
            yield thing("panel", id_, panel.name), given.board_of_panel(id_), panel.at
        for id_ in sorted(given.plugs, key=natural):
            plug = given.plugs[id_]
            yield from ((thing("plug", id_, plug.name), board, plug.at.get(board)) for board in plug.boards)
        for board, of in given.boards.items():
            for id_ in sorted(of.holes, key=natural):
                hole = replace(thing("hole", id_, ""), diameter=of.holes[id_].diameter)
                yield replace(hole, shown=of.holes[id_].shown or id_), board, of.holes[id_].at

    def _devices(self) -> Iterator[_Given]:
        """Without those that are in a panel. Where it is not said on which board: where its group is, or its wire."""
        circuits = {device: circuit for circuit in self._netlist.circuits for device in circuit.devices}
        groups = [group for circuit in self._netlist.circuits for group in circuit.groups]
        boards = {device: group.board for group in reversed(groups) for device in group.devices}
        for wire in self._netlist.wires:
            boards |= {e.thing: wire.board for e in wire.ends if e.kind is EndKind.DEVICE and e.thing not in boards}
        for kind, table in (("point", self._description.points), ("device", self._description.devices)):
            for id_ in sorted(table, key=natural):
                device = table[id_]
                if device.panel is None or device.board is not None:
                    above = circuits[id_].kind.above if device.above is None and id_ in circuits else bool(device.above)
                    thing = replace(self._thing(cast("ThingKind", kind), id_, device.name), above=above)
                    yield thing, device.board or boards.get(id_), device.at

    def _thing(self, kind: ThingKind, id_: str, name: str) -> Thing:
        return Thing(kind=kind, id=id_, shown=self._netlist.shown_id(id_), name=name, board="", at=Point(0, 0))
