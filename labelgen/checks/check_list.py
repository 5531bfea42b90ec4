"""Every check, in one flat list. A check is one function: description and netlist in, problems out."""

from collections.abc import Callable

from labelgen.checks import (
    addresses,
    banks,
    bundles,
    capacity,
    clamps,
    coils,
    colours,
    continuity,
    controllers,
    crossings,
    detectors,
    diagram,
    drills,
    droppers,
    fuses,
    giver_heads,
    hole_room,
    holes,
    kind_heads,
    lamps,
    listed_heads,
    mains,
    measures,
    names,
    outside_boards,
    panel,
    panel_holes,
    panel_levers,
    paper,
    plug_practice,
    plugs,
    pulses,
    ratings,
    roads,
    routes,
    spares,
    strip_places,
    studs,
    track_feeds,
    voltages,
)
from labelgen.model.description import Description
from labelgen.model.figures import Figures
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem

Check = Callable[[Description, Netlist], list[Problem]]

CHECKS: tuple[Check, ...] = (
    voltages.high_voltages,
    mains.mains_on_layout,
    mains.mains_plugs,
    fuses.unfused_supplies,
    fuses.unsaid_fuses,
    continuity.copper,
    plugs.alternating_supplies_joined,
    names.equal_heads,
    kind_heads.heads_within_kinds,
    giver_heads.heads_of_givers,
    names.painted_alike,
    names.repeated_numbers,
    names.idle_levers,
    names.working_spares,
    listed_heads.listed_heads,
    listed_heads.functions_not_said,
    coils.steady_coils,
    coils.motors_not_held,
    coils.bare_coils,
    coils.one_way_motors,
    coils.devices_without_lever,
    banks.thin_returns,
    crossings.shorted_crossings,
    crossings.pairs_not_marked,
    track_feeds.track_feed_problems,
    detectors.detectors_passed_by,
    controllers.mixed_controllers,
    controllers.shared_windings,
    droppers.long_droppers,
    addresses.overlapping_addresses,
    clamps.overfull_clamps,
    clamps.unlike_sizes,
    plug_practice.live_pins,
    plug_practice.plugs_without_empty_pin,
    bundles.boosters_with_others,
    spares.full_strips,
    spares.gaps_in_frames,
    capacity.crowded_entries,
    holes.small_holes,
    measures.guessed_pitches,
    measures.tiny_pitches,
    measures.wide_pitches,
    outside_boards.outside_boards,
    strip_places.strips_over_edges,
    strip_places.strips_on_each_other,
    colours.colours_alike,
    colours.several_colours,
    measures.unknown_lengths,
    panel.panel_problems,
    diagram.near_track_problems,
    diagram.crossing_problems,
    diagram.island_problems,
    diagram.section_problems,
    roads.roads_not_said,
    panel_holes.panel_hole_problems,
    panel_levers.levers_of_others,
    hole_room.hole_room,
    lamps.lamps_without_hole,
    drills.unstocked_holes,
    routes.route_studs,
    studs.studs_without_probe,
    paper.paper_and_rules,
)


FigureCheck = Callable[[Description, Netlist, Figures], list[Problem]]

FIGURE_CHECKS: tuple[FigureCheck, ...] = (
    ratings.overloaded_supplies,
    ratings.large_fuses,
    ratings.overloaded_wires,
    ratings.overloaded_strips,
    ratings.overloaded_pins,
    ratings.overloaded_contacts,
    ratings.lost_volts,
    ratings.dark_lamps,
    pulses.weak_throws,
    banks.small_banks,
    pulses.hot_wires,
    pulses.worn_contacts,
)
"""Only of wiring without errors."""

SAYS_MORE = {"nets-joined": "ac-joined"}
"""Code: another that tells, of the same wire or bridge, why it is dangerous."""


def check(description: Description, netlist: Netlist) -> list[Problem]:
    """All problems that all checks find; of two that mean one mistake, the one that says more of it."""
    return said_once([problem for one in CHECKS for problem in one(description, netlist)])


def check_figures(description: Description, netlist: Netlist, figures: Figures) -> list[Problem]:
    """All problems that electrical figures tell of."""
    return [problem for one in FIGURE_CHECKS for problem in one(description, netlist, figures)]


def said_once(found: list[Problem]) -> list[Problem]:
    """Of two problems that mean one mistake, the one that says more of it."""
    said = {(problem.code, problem.place) for problem in found}
    return [problem for problem in found if (SAYS_MORE.get(problem.code), problem.place) not in said]
