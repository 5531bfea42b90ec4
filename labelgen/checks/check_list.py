"""Every check, in one flat list. A check is one function: description and netlist in, problems out."""

from collections.abc import Callable

from labelgen.checks import (
    capacity,
    continuity,
    diagram,
    drills,
    giver_heads,
    hole_room,
    holes,
    listed_heads,
    measures,
    names,
    outside_boards,
    panel,
    panel_holes,
    panel_levers,
    paper,
    plugs,
    routes,
    studs,
)
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem

Check = Callable[[Description, Netlist], list[Problem]]

CHECKS: tuple[Check, ...] = (
    continuity.copper,
    plugs.alternating_supplies_joined,
    names.equal_heads,
    giver_heads.heads_of_givers,
    names.painted_alike,
    names.repeated_numbers,
    names.idle_levers,
    names.working_spares,
    listed_heads.listed_heads,
    capacity.crowded_entries,
    holes.small_holes,
    measures.guessed_pitches,
    measures.tiny_pitches,
    outside_boards.outside_boards,
    measures.unknown_lengths,
    panel.panel_problems,
    diagram.near_track_problems,
    diagram.crossing_problems,
    diagram.island_problems,
    diagram.section_problems,
    panel_holes.panel_hole_problems,
    panel_levers.levers_of_others,
    hole_room.hole_room,
    drills.unstocked_holes,
    routes.route_studs,
    studs.studs_without_probe,
    paper.paper_and_rules,
)


SAYS_MORE = {"nets-joined": "ac-joined"}
"""Code: another that tells, of the same wire or bridge, why it is dangerous."""


def check(description: Description, netlist: Netlist) -> list[Problem]:
    """All problems that all checks find; of two that mean one mistake, the one that says more of it."""
    found = [problem for one in CHECKS for problem in one(description, netlist)]
    said = {(problem.code, problem.place) for problem in found}
    return [problem for problem in found if (SAYS_MORE.get(problem.code), problem.place) not in said]
