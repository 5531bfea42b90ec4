"""The contacts behind a panel, as far as current cares: what they resist and carry, by the part that is screwed in."""

from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.parts import part_id_of


def lever_part(description: Description, lever: LeverPlan) -> Hardware | None:
    """The part that a lever is; None where it stands in no panel, or its part is described nowhere."""
    panel = description.panels.get(lever.panel or "")
    return None if panel is None else description.parts.get(part_id_of(panel, "lever", lever))


def route_part(description: Description, panel: str | None, route: str) -> Hardware | None:
    """The button or stud of a route; None where it stands in no panel, or its part is described nowhere."""
    found = description.panels.get(panel or "")
    given = description.routes.get(route)
    return None if found is None else description.parts.get(part_id_of(found, "route", route=given))


def contact_ohms(part: Hardware | None) -> float:
    """Nothing where it is not said."""
    return (part.contact_ohms or 0.0) if part is not None else 0.0
