"""How long each wire has to be cut: section 5.8 of the format. Wires run along the frame, so |dx| + |dy|."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from math import inf

from labelgen.lengths import Point, rectilinear, rounded_up
from labelgen.model.description import Description
from labelgen.model.netlist import PANEL_KINDS, End, EndKind
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import lever_holes, places_of_routes
from labelgen.model.routes import Matrix
from labelgen.natural_order import natural
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.resolving import Boards, ResolvedDevice
from labelgen.wiring.strip_geometry import TIE_DECIMALS, Ground, Spot, pitch_of, way_offset

LINK_EXTRA_MM = 40
"""What a link needs beyond the distance of its ways: two stripped ends and a bend."""
LINK_STEP_MM = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """The way a wire takes: the holes that it goes through, and how far it is without slack."""

    holes: tuple[str, ...]
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """Where an end is, as far as the wire on the boards is concerned."""

    spot: Spot
    """Of an end on a panel: where the panel's wires go down."""
    board: str | None = None
    """The board from whose upper side the wire leaves; None for what is below the boards."""
    on_panel: float = 0
    """mm from the end to the panel's exit."""


class WireLengths:
    """Measures the wires of one description."""

    def __init__(
        self,
        description: Description,
        ground: Ground,
        devices: list[ResolvedDevice],
        boards: Boards,
        panel_levers: Mapping[str, Mapping[str, list[str]]],
        *,
        matrices: Sequence[Matrix] = (),
    ) -> None:
        """`panel_levers`: panel: the levers that stand in it, and the devices of each. `matrices`: of the routes."""
        self._description = description
        self._panel_boards = boards.panels
        self._ground = ground
        self._strips = {id_: ground.spot(boards.strips[id_], strip.at) for id_, strip in description.strips.items()}
        self._devices = {device.id: ground.spot(device.board, device.given.at) for device in devices}
        self._above = {device.id: device.board for device in devices if device.above}
        self._supplies = {id_: ground.spot(boards.supplies[id_], s.at) for id_, s in description.supplies.items()}
        self._plugs = {
            (id_, board): ground.spot(board, at)
            for id_, plug in description.plugs.items()
            for board, at in plug.at.items()
        }
        self._holes = {
            id_: [(hole, spot.point) for hole in sorted(board.holes, key=natural) if (spot := self._hole(id_, hole))]
            for id_, board in description.boards.items()
            if board.holes
        }
        self._on_panels = {
            **self._places_on_panels(devices, panel_levers),
            **places_of_routes(description.panels, matrices),
        }

    def _places_on_panels(
        self, devices: list[ResolvedDevice], panel_levers: Mapping[str, Mapping[str, list[str]]]
    ) -> dict[tuple[EndKind, str], tuple[str, Point]]:
        """The panel, and where on it in mm: of each lever that has a hole, and of each device that is on a panel."""
        panels = self._description.panels
        found = {
            (EndKind.LEVER, lever): (panel, hole)
            for panel, levers in panel_levers.items()
            for lever, hole in lever_holes(panels[panel], levers).items()
        }
        for device in devices:
            panel, at = device.given.panel, device.given.at
            if device.given.board is None and panel in panels and at is not None:
                found[EndKind.DEVICE, device.id] = (panel, Point(*at))
        return found

    def _hole(self, board: str, hole: str) -> Spot | None:
        return self._ground.spot(board, self._description.boards[board].holes[hole].at)

    def measure(self, wire: DraftWire) -> tuple[int | None, tuple[str, ...]]:
        """Length in mm with slack, rounded up, or None when a place is not known; and the holes on its way."""
        if wire.link:
            return self._link_length(wire), ()
        run = self._run(wire.start, wire.finish)
        if run is None:
            return None, ()
        slack = self._slack(wire.start) + self._slack(wire.finish)
        return rounded_up(run.distance + slack, self._description.slack.round), run.holes

    def distance(self, start: End, finish: End) -> float:
        """Wire between two ends in mm, without slack; infinite where a place is not known."""
        run = self._run(start, finish)
        return inf if run is None else run.distance

    def where(self, end: End) -> Spot | None:
        """Where an end is, or its panel's wires go down: no wire is shorter than from there to there."""
        stand = self._stand(end)
        return stand.spot if stand is not None else None

    def _link_length(self, wire: DraftWire) -> int:
        ways = abs(int(wire.start.terminal) - int(wire.finish.terminal))
        distance = ways * pitch_of(self._description.strips[wire.start.thing])
        return rounded_up(distance + LINK_EXTRA_MM, LINK_STEP_MM)

    def _slack(self, end: End) -> float:
        slack = self._description.slack
        if end.kind in PANEL_KINDS or end.point[:2] in self._on_panels:
            return slack.panel
        return slack.strip if end.kind is EndKind.WAY else slack.device

    def _run(self, start: End, finish: End) -> Run | None:
        one, other = self._on_panels.get(start.point[:2]), self._on_panels.get(finish.point[:2])
        if one and other and one[0] == other[0]:
            return Run(holes=(), distance=rectilinear(one[1], other[1]))
        a, b = self._stand(start), self._stand(finish)
        if a is None or b is None or a.spot.frame != b.spot.frame:
            return None
        below = self._through_holes(a, b)
        return Run(holes=below.holes, distance=a.on_panel + below.distance + b.on_panel)

    def _through_holes(self, a: Stand, b: Stand) -> Run:
        """By one hole of each board whose upper side the wire leaves: those that make it shortest, ties by id.

        Both ends on one board: one hole too, since by two it is never shorter. A board without holes has no say.
        """

        def distance(holes: tuple[tuple[str, Point], ...]) -> float:
            stops = [a.spot.point, *[at for _, at in holes], b.spot.point]
            return round(sum([rectilinear(one, other) for one, other in pairwise(stops)]), TIE_DECIMALS)

        boards = dict.fromkeys([end.board for end in (a, b) if end.board in self._holes])
        best = min(product(*[self._holes[board] for board in boards]), key=distance)
        return Run(holes=tuple(id_ for id_, _ in best), distance=distance(best))

    def _stand(self, end: End) -> Stand | None:
        if end.kind in PANEL_KINDS or end.point[:2] in self._on_panels:
            return self._at_panel(end)
        spot = self._spot(end)
        board = self._above.get(end.thing) if end.kind is EndKind.DEVICE else None
        return Stand(spot=spot, board=board) if spot is not None else None

    def _spot(self, end: End) -> Spot | None:
        if end.kind is EndKind.DEVICE:
            return self._devices[end.thing]
        if end.kind is EndKind.SUPPLY:
            return self._supplies[end.thing]
        if end.kind is EndKind.PIN:
            return self._plugs.get((end.thing, end.board or ""))
        middle = self._strips[end.thing]
        if middle is None:
            return None
        return Spot(middle.frame, middle.point + way_offset(self._description.strips[end.thing], int(end.terminal)))

    def _at_panel(self, end: End) -> Stand | None:
        if end.point[:2] not in self._on_panels:
            return None
        id_, at = self._on_panels[end.point[:2]]
        panel, board = self._description.panels[id_], self._panel_boards[id_]
        down, way_out = self._ground.spot(board, panel.at), exit_of(panel)
        if down is None or way_out is None:
            return None
        return Stand(spot=down, board=board, on_panel=rectilinear(at, way_out))


def exit_of(panel: Panel) -> Point | None:
    """Where the wires leave the panel, in mm on it: as given, else the middle of its lower edge."""
    if panel.exit is not None:
        return Point(*panel.exit)
    return None if panel.size is None else Point(panel.size[0] / 2, panel.size[1])
