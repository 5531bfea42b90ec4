"""How long each wire has to be cut: section 5.8 of the format. Wires run along the frame, so |dx| + |dy|."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

from labelgen.lengths import Point, rectilinear, rounded_up
from labelgen.model.description import Description
from labelgen.model.netlist import PANEL_KINDS, End, EndKind, LeverPlan
from labelgen.model.panel.form import Panel
from labelgen.model.panel.places import lever_holes, places_of_routes, routes_on
from labelgen.model.panel.routes import Matrix
from labelgen.model.strip_geometry import Ground, Spot, column_of, pitch_of, way_offset
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.hole_paths import holes_at, shortest_way
from labelgen.wiring.resolving import Boards, ResolvedDevice

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
    under: str | None = None
    """The board to which it belongs."""
    board: str | None = None
    """The same, if the wire leaves from its upper side; None for what is below the boards."""
    on_panel: float = 0
    """mm from the end to the panel's exit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """An end among many: wires between two of the same ground have a length."""

    ground: str | None
    """None: it is not known where it is."""
    about: Point | None
    """Where it is; on a panel, as if that lay flat on the board with its exit where its wires go down."""
    slack: float
    panel: str
    place: Point | None
    """Its panel, and where it is on it."""
    straight: tuple[Point, float] | None = None
    """Where its wire sets out on the boards, and mm before that: of one that needs no hole to come down."""
    framed: str | None = None
    """Its board, if that has holes in its frame, through which wires to other boards go."""


class WireLengths:
    """Measures the wires of one description."""

    def __init__(
        self,
        description: Description,
        ground: Ground,
        devices: list[ResolvedDevice],
        boards: Boards,
        panel_levers: Mapping[str, Sequence[LeverPlan]],
        *,
        matrices: Sequence[Matrix] = (),
    ) -> None:
        """`panel_levers`: panel: the levers that stand in it. `matrices`: of the routes."""
        self._description = description
        self.step = description.slack.round
        """mm to which lengths are rounded up, but those of links."""
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
        self._holes = holes_at(description.boards, ground, "top")
        # Where boards are taken apart, wires cross by plugs, and not through the frames.
        self._frames = {} if description.plugs else holes_at(description.boards, ground, "frame")
        self._under = {
            **{(EndKind.DEVICE, device.id): device.board for device in devices},
            **{(EndKind.WAY, id_): board for id_, board in boards.strips.items()},
            **{(EndKind.SUPPLY, id_): board for id_, board in boards.supplies.items()},
        }
        self._on_panels = {
            **self._places_on_panels(devices, panel_levers, matrices),
            **places_of_routes(description.panels, matrices),
        }

    def _places_on_panels(
        self,
        devices: list[ResolvedDevice],
        panel_levers: Mapping[str, Sequence[LeverPlan]],
        matrices: Sequence[Matrix],
    ) -> dict[tuple[EndKind, str], tuple[str, Point]]:
        """The panel, and where on it in mm: of each lever that has a hole, and of each device that is on a panel."""
        panels = self._description.panels
        found = {
            (EndKind.LEVER, lever): (panel, hole)
            for panel, levers in panel_levers.items()
            for lever, hole in lever_holes(self._description, panel, levers, routes_on(matrices, panel)).items()
        }
        for device in devices:
            panel, at = device.given.panel, device.given.at
            if device.given.board is None and panel in panels and at is not None:
                found[EndKind.DEVICE, device.id] = (panel, Point(*at))
        return found

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

    def stop(self, end: End) -> Stop:
        """What there is to know of an end, so that many wires can be measured quickly."""
        stand, on_panel = self._stand(end), self._on_panels.get(end.point[:2])
        panel, place = on_panel or ("", None)
        if stand is None:
            ground = f"panel {panel}" if on_panel else None
            return Stop(ground=ground, about=place, slack=self._slack(end), panel=panel, place=place)
        shift = Point(0, 0) if place is None else place - (exit_of(self._description.panels[panel]) or place)
        return Stop(
            ground=stand.spot.frame,
            about=stand.spot.point + shift,
            slack=self._slack(end),
            panel=panel,
            place=place,
            straight=None if stand.board in self._holes else (stand.spot.point, stand.on_panel),
            framed=stand.under if stand.under in self._frames else None,
        )

    def _link_length(self, wire: DraftWire) -> int:
        strip = self._description.strips[wire.start.thing]
        columns = [column_of(strip, int(end.terminal)) for end in (wire.start, wire.finish)]
        distance = abs(columns[0] - columns[1]) * pitch_of(strip)
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
        """By one hole of each board whose upper side the wire leaves, and below from board to board by one in the
        frame of each: those that make it shortest, ties by id.

        Both ends on one board: one hole too, since by two it is never shorter. A board without holes has no say.
        """
        down, up = self._holes.get(a.board or ""), self._holes.get(b.board or "")
        if a.under == b.under:
            choices = [down or up]
        else:
            choices = [down, self._frames.get(a.under or ""), self._frames.get(b.under or ""), up]
        distance, holes = shortest_way(a.spot.point, [holes for holes in choices if holes], b.spot.point)
        return Run(holes=holes, distance=distance)

    def _stand(self, end: End) -> Stand | None:
        if end.kind in PANEL_KINDS or end.point[:2] in self._on_panels:
            return self._at_panel(end)
        spot = self._spot(end)
        if spot is None:
            return None
        board = self._above.get(end.thing) if end.kind is EndKind.DEVICE else None
        return Stand(spot=spot, board=board, under=self._under.get(end.point[:2]))

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
        return Stand(spot=down, board=board, under=board, on_panel=rectilinear(at, way_out))


def exit_of(panel: Panel) -> Point | None:
    """Where the wires leave the panel, in mm on it: as given, else the middle of its lower edge."""
    if panel.exit is not None:
        return Point(*panel.exit)
    return None if panel.size is None else Point(panel.size[0] / 2, panel.size[1])
