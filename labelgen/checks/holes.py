"""Holes of the boards: whether all that goes through one does go through it."""

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.problems import Problem
from labelgen.standards.drills import LARGEST_DRILL_MM


def small_holes(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports hole-too-small for each hole that is fuller than it may be."""
    return [
        Problem(
            code="hole-too-small",
            message=f"hole {hole.id} is {hole.diameter:g} mm across, too small for what goes through it: {_what(hole)}",
            hint=_what_to_do(hole),
            place=description.place_of(*hole.path, "diameter"),
        )
        for hole in threaded_holes(description, netlist)
        if hole.fits is False
    ]


def _what(hole: ThreadedHole) -> str:
    wires = "1 wire" if len(hole.wires) == 1 else f"{len(hole.wires)} wires"
    bundle = f"{wires}, {hole.bundle:.1f} mm thick together"
    if hole.fill is None or hole.fill >= 1:
        return bundle
    return f"{bundle}, fill {100 * hole.fill:.0f} % of it, and {100 * hole.fill_limit:.0f} % is the most that is usual"


def _what_to_do(hole: ThreadedHole) -> str:
    if hole.drill is None:
        return f"Describe another hole beside it: they need more than one of {LARGEST_DRILL_MM:g} mm."
    return f"Drill it {hole.drill:g} mm or larger, or describe another hole that wires may take."
