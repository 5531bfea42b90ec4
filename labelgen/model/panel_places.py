"""Where the levers of a panel have their holes: read by the wiring (lengths) and by the drawings (fascia)."""

from collections.abc import Iterable, Mapping, Sequence

from labelgen.lengths import Point
from labelgen.model.netlist import EndKind
from labelgen.model.panel_form import Panel
from labelgen.model.routes import Matrix
from labelgen.natural_order import natural

NUT_RADIUS_MM = 5.0
"""A miniature toggle's nut is 8 mm across its flats, 9.2 mm across its corners. Common practice, no source."""

STUD_HOLE_RADIUS_MM = 2.0
"""For a 4 mm stud or screw; a push button is drilled out to its own size. Common practice, no source."""
STUD_RADIUS_MM = 4.0
"""What the head of a stud, or the collar of a small button, covers. Common practice, no source."""


def lever_holes(panel: Panel, works: Mapping[str, Sequence[str]]) -> dict[str, Point]:
    """Centres of the lever holes in mm from the panel's top left corner; of levers without a place, none.

    `works`: each lever of this panel, and the devices that it works. A lever's own place comes first, then the
    panel's row, then the point that it works (the first in natural order that the panel draws), then its section.
    """
    in_a_row = [lever for lever in sorted(works, key=natural) if not isinstance(panel.levers.get(lever), tuple)]
    holes: dict[str, Point] = {}
    for lever, devices in works.items():
        given = panel.levers.get(lever)
        if isinstance(given, tuple):
            holes[lever] = square(panel, given)
        elif panel.lever_row is not None and panel.size is not None:
            x = panel.size[0] * (in_a_row.index(lever) + 0.5) / len(in_a_row)
            holes[lever] = Point(x, panel.lever_row * panel.grid)
        elif (drawn := _drawn_at(panel, devices)) is not None:
            holes[lever] = drawn
    return holes


def route_places(panel: Panel, routes: Iterable[str]) -> dict[str, Point]:
    """The same of the buttons or studs of routes, of those that have a place."""
    return {name: square(panel, panel.routes[name]) for name in routes if name in panel.routes}


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


def _drawn_at(panel: Panel, devices: Sequence[str]) -> Point | None:
    for device in sorted(devices, key=natural):
        if device in panel.points:
            return square(panel, panel.points[device].at)
        if device in panel.sections:
            return square(panel, panel.sections[device])
    return None
