"""All that a fascia shows but its texts, in mm and settled: what the texts must then keep clear of."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.drawings.clearances import Area, Obstacle, Stroke, disc
from labelgen.drawings.fascia_style import BREAK_GAP_MM, MARGIN_MM, Style, style_of, track_width
from labelgen.drawings.fascia_tracks import Run, break_marks, run_obstacles, track_runs
from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import NUT_RADIUS_MM, STUD_RADIUS_MM, lever_holes, route_places, square
from labelgen.model.roads import panel_roads
from labelgen.model.routes import MatrixRow
from labelgen.model.track_graph import track_graph
from labelgen.natural_order import natural
from labelgen.places import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class FasciaPlan:
    description: Description
    netlist: Netlist
    look: Look
    id: str
    panel: Panel
    width: float
    height: float
    style: Style
    track_width: float
    runs: tuple[Run, ...]
    marks: tuple[tuple[Point, Point], ...]
    """Section breaks: the line across each."""
    levers: Mapping[str, LeverPlan]
    """Those of this panel, in natural order."""
    holes: Mapping[str, Point]
    """Lever: the middle of its hole; only those that are on the panel."""
    routes: Mapping[str, MatrixRow]
    """Name: those of this panel, in the order of the description."""
    studs: Mapping[str, Point]
    """Route: the middle of its button or stud; only those that are on the panel."""
    drawn: Mapping[str, Point]
    """Point or section: where it stands, when it is on the panel."""
    platforms: Mapping[str, Rectangle]

    @property
    def shown(self) -> str:
        return self.netlist.shown_id(self.id)

    @property
    def name(self) -> str:
        return f"fascia of panel {self.shown}"

    @property
    def spots(self) -> list[Point]:
        """All that a number or name could be taken to belong to."""
        return list(dict.fromkeys([*self.holes.values(), *self.studs.values(), *self.drawn.values()]))

    def device_name(self, device: str) -> str:
        """What a point or section is called: its name, or its id as painted."""
        given = {**self.description.points, **self.description.devices}.get(device)
        return (given.name if given else "") or self.netlist.shown_id(device)

    def device_path(self, device: str) -> Path:
        """Where the builder placed a point or section on the panel."""
        return ("panels", self.id, "points" if device in self.panel.points else "sections", device)

    @property
    def inside(self) -> Rectangle:
        """Where texts may go."""
        return Rectangle(0, 0, self.width, self.height).inset(MARGIN_MM)

    def obstacles(self) -> list[Obstacle]:
        """Everything that a number must keep clear of."""
        found = run_obstacles(self.runs, self.track_width)
        for a, b in self.marks:
            found.append(Stroke(start=a, end=b, reach=BREAK_GAP_MM / 8, what="a section break"))
        for lever, hole in self.holes.items():
            found.append(disc(hole, NUT_RADIUS_MM, f"the hole of lever {self.levers[lever].shown}"))
        for route, stud in self.studs.items():
            found.append(disc(stud, STUD_RADIUS_MM, f"the button of route {route}"))
        for name, box in self.platforms.items():
            found.append(Area(rectangle=box, what=f"platform {name}"))
        return found


def fascia_plan(description: Description, netlist: Netlist, look: Look, id_: str) -> FasciaPlan | None:
    """The plan of one panel; None when it has no size, or nothing on it that is drawn."""
    panel = description.panels[id_]
    levers = {lever.id: lever for lever in netlist.levers if lever.panel == id_}
    if panel.size is None:
        return None
    whole = Rectangle(0, 0, *panel.size)
    places = lever_holes(panel, {lever.id: lever.devices for lever in levers.values()})
    holes = {id_: places[id_] for id_ in levers if id_ in places and _on(whole.inset(NUT_RADIUS_MM), places[id_])}
    routes = {row.route: row for matrix in netlist.matrices if matrix.panel == id_ for row in matrix.rows}
    studs = {name: at for name, at in route_places(panel, routes).items() if _on(whole.inset(STUD_RADIUS_MM), at)}
    if not panel.tracks and not holes and not studs:
        return None
    graph, width = track_graph(panel), track_width(panel)
    runs = track_runs(
        panel,
        graph,
        panel_roads(panel, graph),
        width=width,
        holes=tuple(holes.values()),
        inside=whole.inset(MARGIN_MM),
    )
    marks = [mark for mark in break_marks(panel, graph, width + 4) if all(_on(whole, end) for end in mark)]
    return FasciaPlan(
        description=description,
        netlist=netlist,
        look=look,
        id=id_,
        panel=panel,
        width=panel.size[0],
        height=panel.size[1],
        style=style_of(panel, look),
        track_width=width,
        runs=tuple(runs),
        marks=tuple(marks),
        levers=levers,
        holes=holes,
        routes=routes,
        studs=studs,
        drawn=_drawn(panel, whole),
        platforms=_platforms(panel, whole.inset(MARGIN_MM)),
    )


def _drawn(panel: Panel, whole: Rectangle) -> dict[str, Point]:
    places = {point: placed.at for point, placed in panel.points.items()} | panel.sections
    found = {thing: square(panel, places[thing]) for thing in sorted(places, key=natural)}
    return {thing: place for thing, place in found.items() if _on(whole, place)}


def _platforms(panel: Panel, whole: Rectangle) -> dict[str, Rectangle]:
    """Platforms, cut off at the edge; one that lies beyond it is left out."""
    found = {}
    for name, ((x1, y1), (x2, y2)) in panel.platforms.items():
        left, right = sorted(max(whole.x, min(whole.right, x * panel.grid)) for x in (x1, x2))
        top, bottom = sorted(max(whole.y, min(whole.bottom, y * panel.grid)) for y in (y1, y2))
        if right - left > 1 and bottom - top > 1:
            found[name] = Rectangle(left, top, right - left, bottom - top)
    return found


def _on(whole: Rectangle, place: Point) -> bool:
    return whole.x <= place.x <= whole.right and whole.y <= place.y <= whole.bottom
