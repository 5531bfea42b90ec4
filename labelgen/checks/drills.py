"""Whether there is a drill for every hole of a panel."""

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.standards.drills import DRILLS_MM, LARGEST_DRILL_MM, is_stocked


def unstocked_holes(description: Description, netlist: Netlist) -> list[Problem]:
    """Codes: no-such-drill, once for each part of the builder's own, and for corner screws."""
    return [
        _problem(description, hole)
        for id_ in description.panels
        for hole in panel_holes(description, netlist, id_)
        if not is_stocked(hole.diameter)
    ]


def _problem(description: Description, hole: PanelHole) -> Problem:
    what = f"part {hole.part_id}" if hole.part is not None else hole.called
    return Problem(
        code="no-such-drill",
        message=f"the hole of {what} is {hole.diameter:g} mm wide, and there is no such drill",
        hint=_hint(hole.diameter),
        place=description.place_of(*_path(description, hole)),
    )


def _path(description: Description, hole: PanelHole) -> Path:
    """Where the diameter stands: at the part, whichever hole it is in."""
    if hole.part is None:
        return (*hole.path, "diameter")
    return ("hardware", hole.part_id, "hole") if hole.part_id in description.hardware else hole.path


def _hint(diameter: float) -> str:
    if diameter > LARGEST_DRILL_MM:
        return f"Drills go up to {LARGEST_DRILL_MM:g} mm: it takes a hole saw, so write the size of yours."
    near = sorted(sorted(DRILLS_MM, key=lambda drill: abs(drill - diameter))[:2])
    return f"Write {near[0]:g} or {near[1]:g} mm, whichever your part allows."
