"""The flat list of what is looked at in a description once its form is right."""

from collections.abc import Callable, Collection

from labelgen.model.description import Description
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.reading.device_checks import device_ways
from labelgen.reading.function_checks import functions, listed_wires
from labelgen.reading.id_checks import ids, lever_ids
from labelgen.reading.known_things import Known
from labelgen.reading.panel_checks import panel_lamps, panel_parts
from labelgen.reading.plug_checks import plugs
from labelgen.reading.references import circles, device_kinds, kinds, panels, plain_references, supply_terminals
from labelgen.reading.route_checks import roads, routes
from labelgen.reading.strip_checks import strips
from labelgen.reading.terminal_checks import painted_terminals

CHECKS: tuple[Callable[[Known], list[Problem]], ...] = (
    ids,
    lever_ids,
    plain_references,
    circles,
    device_kinds,
    device_ways,
    supply_terminals,
    painted_terminals,
    panels,
    panel_parts,
    panel_lamps,
    kinds,
    strips,
    plugs,
    routes,
    roads,
    functions,
    listed_wires,
)


def check_references(description: Description, unsure: Collection[Path] = ()) -> list[Problem]:
    """All that the description alone decides. `unsure`: paths of things that were taken out, but may be named."""
    known = Known(description, unsure)
    return [problem for check in CHECKS for problem in check(known)]
