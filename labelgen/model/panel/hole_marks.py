"""What each hole of a panel is called on the template, in the table and in the files for machines."""

from collections.abc import Sequence

from labelgen.model.netlist import Netlist
from labelgen.model.panel.holes import PanelHole

PREFIXES = {"lever": "L", "route": "ROUTE", "lamp": "LAMP", "screw": "SCREW"}


def hole_marks(netlist: Netlist, holes: Sequence[PanelHole]) -> tuple[str, ...]:
    """Of a lever `L5`, of one of its buttons `L5LEFT`, of a route's `ROUTE1`; `LAMP1` …; `SCREW1` to `SCREW4`.

    Letters and figures only, each once on a panel.
    """
    routes = {row.route: row.number for matrix in netlist.matrices for row in matrix.rows}
    marks: list[str] = []
    lamps = 0
    for hole in holes:
        lamps += hole.use == "lamp"
        of_use = {"lamp": str(lamps), "route": routes.get(hole.thing, hole.thing)}
        marks.append(f"{PREFIXES[hole.use]}{of_use.get(hole.use, hole.thing)}{hole.contact.upper()}")
    return tuple(marks)
