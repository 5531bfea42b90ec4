"""Where the wires of a railway run: from end to end by the holes that each takes, as the lengths are reckoned.

Millimetres in the frame of `Ground`, seen from above. Leg: from an end, or a hole, to the next one.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from labelgen.drawings.board_plan.things import BoardThings, Thing
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import PANEL_KINDS, End, EndKind, Netlist, Side, Wire
from labelgen.model.strip_geometry import Ground, Spot

CHANNEL_MM = 26.0
"""From the edge of a strip to where its wires gather. Our own choice: half of what a strip's slack allows."""
LEAST_CHANNEL_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """Where a leg begins or ends."""

    thing: tuple[str, str]
    """What stands there; for a strip with its side, so that what lands there is routed alike."""
    frame: str
    at: Point
    """The middle of it; of a strip's way, its screw on that side."""
    join: Point
    """Where it comes to the channel before the strip; else the same."""
    out: Point | None = None
    """The direction in which a strip's wires leave, a unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    start: Node
    finish: Node
    above: bool
    """It lies on the upper side of the board."""


class WirePaths:
    """The legs of every wire whose ends have places in one frame; `lost`: board: how many wires have none."""

    def __init__(self, description: Description, netlist: Netlist, things: BoardThings) -> None:
        self._description, self._netlist, self._things = description, netlist, things
        self._ground = Ground(description.boards)
        self._nodes = {(thing.kind, thing.id, board): thing for board, of in things.things.items() for thing in of}
        self._device_boards = {
            thing.id: board for board, of in things.things.items() for thing in of if thing.kind in ("point", "device")
        }
        self._supply_boards = {
            thing.id: board for board, of in things.things.items() for thing in of if thing.kind == "supply"
        }
        self._hole_boards = {id_: board for board, of in description.boards.items() for id_ in of.holes}
        self._tops = {
            board: any(hole.through == "top" for hole in of.holes.values()) for board, of in description.boards.items()
        }
        self._route_panels = {
            name: matrix.panel for matrix in netlist.matrices for name in (matrix.id, *(r.number for r in matrix.rows))
        }
        self._devices = {**description.points, **description.devices}
        self.corners = {board: self._ground.spot(board, (0, 0)) for board in description.boards}
        self.bodies = self._bodies()
        self.lost: dict[str, int] = {}
        self.legs = [leg for wire in netlist.wires if not wire.link for leg in self._of_wire(wire)]

    def _bodies(self) -> Mapping[tuple[str, str], tuple[Spot, float, float]]:
        """What stands in the way of wires: its middle, and how far it reaches to the side and down from there."""
        found: dict[tuple[str, str], tuple[Spot, float, float]] = {}
        for strip in self._things.strips.values():
            spot = self._ground.spot(strip.board, (strip.middle.x, strip.middle.y))
            if spot is not None:
                found["strip", strip.plan.id] = (spot, strip.body.width / 2, strip.body.height / 2)
        for board, things in self._things.things.items():
            for thing in things:
                reach = BODY_REACH.get(thing.kind)
                spot = self._ground.spot(board, (thing.at.x, thing.at.y))
                if reach is not None and spot is not None:
                    found[thing.kind, thing.id] = (spot, reach, reach)
        return found

    def _of_wire(self, wire: Wire) -> Iterator[Leg]:
        if self._inside_one_panel(wire):
            return
        start, finish = self._node(wire.start, wire), self._node(wire.finish, wire)
        if start is None or finish is None or start.frame != finish.frame:
            board = wire.board or ""
            self.lost[board] = self.lost.get(board, 0) + 1
            return
        holes = [node for hole in wire.holes if (node := self._hole(hole)) is not None]
        nodes = [start, *holes, finish]
        over = [self._is_above(wire.start), *[False] * (len(nodes) - 3), self._is_above(wire.finish)]
        for number, (one, other) in enumerate(pairwise(nodes)):
            yield Leg(start=one, finish=other, above=bool(holes) and over[number])

    def _inside_one_panel(self, wire: Wire) -> bool:
        """Behind the panel, and nowhere on the board."""
        panels = [self._panel(end) for end in wire.ends]
        return panels[0] is not None and panels[0] == panels[1]

    def _panel(self, end: End) -> str | None:
        """The panel in or behind which an end is."""
        if end.kind is EndKind.LEVER:
            return self._netlist.lever_by_id[end.thing].panel
        if end.kind in PANEL_KINDS:
            return self._route_panels.get(end.thing)
        if end.kind is EndKind.DEVICE:
            device = self._devices.get(end.thing)
            return device.panel if device is not None and device.board is None else None
        return None

    def _is_above(self, end: End) -> bool:
        """Whether it is on the upper side of a board that has holes to come down by."""
        panel = self._panel(end)
        if panel is not None:
            return self._tops.get(self._description.board_of_panel(panel) or "", False)
        board = self._device_boards.get(end.thing) if end.kind is EndKind.DEVICE else None
        thing = self._thing_of_device(end.thing) if board is not None else None
        return thing is not None and thing.above and self._tops[thing.board]

    def _thing_of_device(self, id_: str) -> Thing | None:
        board = self._device_boards.get(id_, "")
        return self._nodes.get(("point", id_, board)) or self._nodes.get(("device", id_, board))

    def _node(self, end: End, wire: Wire) -> Node | None:
        panel = self._panel(end)
        if panel is not None:
            return self._of_thing(self._nodes.get(("panel", panel, self._description.board_of_panel(panel) or "")))
        if end.kind is EndKind.WAY:
            return self._way(end)
        if end.kind is EndKind.DEVICE:
            return self._of_thing(self._thing_of_device(end.thing))
        if end.kind is EndKind.SUPPLY and end.thing in self._devices:
            return self._of_thing(self._thing_of_device(end.thing))
        if end.kind is EndKind.SUPPLY:
            return self._of_thing(self._nodes.get(("supply", end.thing, self._supply_boards.get(end.thing, ""))))
        return self._of_thing(self._nodes.get(("plug", end.thing, end.board or wire.board or "")))

    def _hole(self, id_: str) -> Node | None:
        return self._of_thing(self._nodes.get(("hole", id_, self._hole_boards.get(id_, ""))))

    def _of_thing(self, thing: Thing | None) -> Node | None:
        spot = self._ground.spot(thing.board, (thing.at.x, thing.at.y)) if thing is not None else None
        if thing is None or spot is None:
            return None
        return Node(thing=(thing.kind, thing.id), frame=spot.frame, at=spot.point, join=spot.point)

    def _way(self, end: End) -> Node | None:
        strip = self._things.strips.get(end.thing)
        spot = self._ground.spot(strip.board, (strip.middle.x, strip.middle.y)) if strip is not None else None
        if strip is None or spot is None:
            return None
        sign = 1 if end.side is Side.PANEL else -1
        out = Point(sign * strip.panel_side.x, sign * strip.panel_side.y)
        offset = strip.ways[int(end.terminal) - 1] - strip.middle
        edge, far = strip.depth / 2, strip.depth / 2 + self._channel(strip.board, strip.middle, out, strip.depth / 2)
        at, join = (spot.point + offset + Point(out.x * way, out.y * way) for way in (edge, far))
        return Node(thing=("strip", f"{strip.plan.id}/{end.side}"), frame=spot.frame, at=at, join=join, out=out)

    def _channel(self, board: str, middle: Point, out: Point, edge: float) -> float:
        """How far before its strip the wires gather: nearer where the board's edge is near."""
        extent = self._things.extent(board)
        if out.x:
            to_edge = extent.right - middle.x if out.x > 0 else middle.x - extent.x
        else:
            to_edge = extent.bottom - middle.y if out.y > 0 else middle.y - extent.y
        return max(LEAST_CHANNEL_MM, min(CHANNEL_MM, (to_edge - edge) / 2))


BODY_REACH = {"point": 14.0, "device": 14.0, "supply": 20.0}
"""How far from its middle wires keep clear of a thing of no size, where there is another way as short."""
