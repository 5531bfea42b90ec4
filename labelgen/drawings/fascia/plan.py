"""All that a fascia shows but its texts, in mm and settled: what the texts must then keep clear of."""

from collections.abc import Mapping
from dataclasses import dataclass

from labelgen.drawings.clearances import Area, Obstacle, Stroke
from labelgen.drawings.fascia.forms import DrawnForms, drawn_forms, form_obstacles
from labelgen.drawings.fascia.section_paints import Paint, section_paints
from labelgen.drawings.fascia.style import BREAK_GAP_MM, MARGIN_MM, Style, style_of, track_width
from labelgen.drawings.fascia.tracks import ExitMark, Run, break_marks, exit_marks, run_obstacles, track_runs
from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.look import Look
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.model.panel.places import square
from labelgen.model.panel.routes import MatrixRow
from labelgen.model.tracks.graph import track_graph
from labelgen.model.tracks.sections import track_sections
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
    forms: DrawnForms
    """Turntables and fans."""
    paints: tuple[Paint, ...]
    """How the runs of each stretch are drawn."""
    exits: Mapping[str, ExitMark]
    """Where it leads to: the arrow there."""
    marks: tuple[tuple[Point, Point], ...]
    """Section breaks: the line across each."""
    levers: Mapping[str, LeverPlan]
    """Those of this panel, in natural order."""
    drilled: tuple[PanelHole, ...]
    """All holes that are on the panel with what covers them."""
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
        """All that a number or name could be taken to belong to; a lamp on a road has none, nor has a screw."""
        bare = [place for device, place in self.drawn.items() if device not in self.standing]
        holes = [
            hole for hole in self.drilled if hole.use != "screw" and not (hole.use == "lamp" and "." in hole.thing)
        ]
        return list(dict.fromkeys([*(hole.whole.at for hole in holes), *bare]))

    @property
    def standing(self) -> dict[str, str]:
        """Point or section: the lever whose hole stands there, or has slid along its road to have room."""
        found: dict[str, str] = {}
        for lever, hole in self.holes.items():
            drawn = [device for device in sorted(self.levers[lever].devices, key=natural) if device in self.drawn]
            slides = self.panel.lever_row is None and lever not in self.panel.levers
            own = [device for device in drawn if self.drawn[device] == hole or (slides and device == drawn[0])]
            found |= dict.fromkeys(own, lever)
        return found

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
        found = [*run_obstacles(self.runs), *form_obstacles(self.forms)]
        for a, b in self.marks:
            found.append(Stroke(start=a, end=b, reach=BREAK_GAP_MM / 8, what="a section break"))
        for hole in self.drilled:
            start, end, reach = hole.room.spine
            what = f"the hole of {hole.called}" if hole.use == "lever" else hole.called
            found.append(Stroke(start=start, end=end, reach=reach, what=what))
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
    routes = {row.route: row for matrix in netlist.matrices if matrix.panel == id_ for row in matrix.rows}
    drilled = tuple(h for h in panel_holes(description, netlist, id_) if _on(whole.inset(h.room.reach), h.at))
    holes = {hole.thing: hole.whole.at for hole in drilled if hole.use == "lever"}
    studs = {hole.thing: hole.at for hole in drilled if hole.use == "route"}
    if not panel.tracks and not holes and not studs:
        return None
    graph, width = track_graph(panel), track_width(panel)
    sections, forms, style = track_sections(panel, graph), drawn_forms(panel, graph, width), style_of(panel, look)
    standing = tuple({hole.thing: hole.whole for hole in drilled if hole.use == "lever"}.values())
    inside = whole.inset(MARGIN_MM)
    runs = track_runs(panel, graph, sections, forms, width=width, holes=standing, inside=inside)
    marks = [mark for mark in break_marks(panel, graph, width + 4) if all(_on(whole, end) for end in mark)]
    return FasciaPlan(
        description=description,
        netlist=netlist,
        look=look,
        id=id_,
        panel=panel,
        width=panel.size[0],
        height=panel.size[1],
        style=style,
        track_width=width,
        runs=tuple(runs),
        forms=forms,
        paints=section_paints(panel, look, sections, style.track),
        exits={name: mark for name, mark in exit_marks(panel, graph).items() if _on(whole, mark.tip)},
        marks=tuple(marks),
        levers=levers,
        drilled=drilled,
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
