"""Where the levers of a panel have their holes: read by the wiring (lengths) and by the drawings (fascia)."""

from collections.abc import Iterable, Mapping, Sequence
from functools import partial

from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_room import room_of, screw_room
from labelgen.model.panel.hole_sliding import Fixed, Slider, slid
from labelgen.model.panel.parts import OnPanel, part_of, row_of
from labelgen.model.panel.road_walks import PanelWalks, Walk
from labelgen.model.panel.routes import Matrix
from labelgen.natural_order import natural


def lever_holes(
    description: Description, panel_id: str, levers: Iterable[OnPanel], routes: Iterable[str] = ()
) -> dict[str, Point]:
    """Centres of the lever holes in mm from the panel's top left corner; of levers without a place, none.

    `levers`: those of this panel; `routes`: whose buttons or studs are on it. A lever's own place comes first, then
    the panel's row, then the point that it works (the first in natural order that the panel draws), then its section.
    What stands on its point or section slides along its road as little as needed; the others never move.
    """
    panel = description.panels[panel_id]
    given = list(levers)
    parts = {lever.id: part_of(description, panel, "lever", lever) for lever in given}
    rooms = {
        lever.id: room_of(parts[lever.id], Point(0, 0), len(row_of(parts[lever.id], lever)) or 1) for lever in given
    }
    own = _own_places(panel, [lever.id for lever in given])
    walks = PanelWalks(panel)
    sliders: dict[str, Slider] = {}
    for lever in given:
        drawn = _drawn(panel, lever.devices) if lever.id not in own else None
        if drawn is not None:
            at = square(panel, drawn[1])
            sliders[lever.id] = Slider(room=rooms[lever.id].moved(at), walks=partial(_walks, walks, *drawn))
    fixed = [
        *(Fixed(room=rooms[lever].moved(at)) for lever, at in own.items()),
        *_fixed(description, panel, routes),
    ]
    inside = Rectangle(0, 0, *panel.size) if panel.size is not None else None
    places = {**own, **slid(sliders, fixed, walks, inside)}
    return {lever.id: places[lever.id] for lever in given if lever.id in places}


def _own_places(panel: Panel, levers: Sequence[str]) -> dict[str, Point]:
    """Those that were given a place, and those in the panel's row: from left to right, spares among them."""
    found = {}
    row = [lever for lever in sorted(levers, key=natural) if not isinstance(panel.levers.get(lever), tuple)]
    in_a_row = {lever: number for number, lever in enumerate(row)}
    for lever in levers:
        place = panel.levers.get(lever)
        if isinstance(place, tuple):
            found[lever] = square(panel, place)
        elif panel.lever_row is not None and panel.size is not None:
            x = panel.size[0] * (in_a_row[lever] + 0.5) / len(in_a_row)
            found[lever] = Point(x, panel.lever_row * panel.grid)
    return found


def _fixed(description: Description, panel: Panel, routes: Iterable[str]) -> list[Fixed]:
    """Buttons of routes, lamps with a place of their own, corner screws."""
    lamp, given = part_of(description, panel, "lamp"), description.routes
    lamps = [square(panel, place) for places in panel.lamp_places.values() for place in places]
    screws = [screw_room(panel.screws.diameter, at) for at in screw_places(panel) if panel.screws is not None]
    return [
        *(
            Fixed(room=room_of(part_of(description, panel, "route", route=given.get(name)), at))
            for name, at in route_places(panel, routes).items()
        ),
        *(Fixed(room=room_of(lamp, at), fingers=False) for at in lamps),
        *(Fixed(room=room, fingers=False) for room in screws),
    ]


def screw_places(panel: Panel) -> list[Point]:
    """The corner screws: left to right, the upper ones first."""
    if panel.screws is None or panel.size is None:
        return []
    inset, (width, height) = panel.screws.inset, panel.size
    return [Point(x, y) for y in (inset, height - inset) for x in (inset, width - inset)]


def route_places(panel: Panel, routes: Iterable[str]) -> dict[str, Point]:
    """The same of the buttons or studs of routes, of those that have a place."""
    return {name: square(panel, panel.routes[name]) for name in routes if name in panel.routes}


def routes_on(matrices: Iterable[Matrix], panel_id: str) -> list[str]:
    """The routes whose buttons or studs are on a panel."""
    return [row.route for matrix in matrices if matrix.panel == panel_id for row in matrix.rows]


def places_of_routes(
    panels: Mapping[str, Panel], matrices: Sequence[Matrix]
) -> dict[tuple[EndKind, str], tuple[str, Point]]:
    """The panel, and where on it in mm: of each button or stud of a route, and of each board with diodes."""
    found: dict[tuple[EndKind, str], tuple[str, Point]] = {}
    for matrix in matrices:
        if matrix.panel is None:
            continue
        panel = panels[matrix.panel]
        if panel.matrix is not None:
            found[EndKind.MATRIX, matrix.id] = (matrix.panel, square(panel, panel.matrix))
        places = route_places(panel, [row.route for row in matrix.rows])
        found |= {(EndKind.ROUTE, r.number): (matrix.panel, places[r.route]) for r in matrix.rows if r.route in places}
    return found


def square(panel: Panel, at: tuple[float, float]) -> Point:
    """A place on the panel's grid, in mm from its top left corner."""
    return Point(at[0] * panel.grid, at[1] * panel.grid)


def _drawn(panel: Panel, devices: Sequence[str]) -> tuple[str, tuple[float, float]] | None:
    """The first of these devices that the panel draws, and its square."""
    for device in sorted(devices, key=natural):
        if device in panel.points:
            return device, panel.points[device].at
        if device in panel.sections:
            return device, panel.sections[device]
    return None


def _walks(walks: PanelWalks, device: str, at: tuple[float, float]) -> Sequence[Walk]:
    return walks.of_point(device) if device in walks.panel.points else walks.of_section(at)
