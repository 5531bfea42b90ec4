"""Every check, in one flat list. A check is one function: description and netlist in, problems out."""

from collections.abc import Callable

from labelgen.checks import capacity, continuity, holes, measures, names, panel, paper, plugs, routes
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem

Check = Callable[[Description, Netlist], list[Problem]]

CHECKS: tuple[Check, ...] = (
    continuity.copper,
    plugs.alternating_supplies_joined,
    names.equal_heads,
    names.painted_alike,
    names.repeated_numbers,
    names.idle_levers,
    capacity.crowded_entries,
    holes.small_holes,
    measures.guessed_pitches,
    measures.unknown_lengths,
    panel.panel_problems,
    routes.route_studs,
    paper.paper_and_rules,
)


def check(description: Description, netlist: Netlist) -> list[Problem]:
    """All problems that all checks find."""
    return [problem for one in CHECKS for problem in one(description, netlist)]
