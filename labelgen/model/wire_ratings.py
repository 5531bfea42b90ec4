"""What a wire carries without end."""

from labelgen.model.description import Description
from labelgen.model.netlist import Wire
from labelgen.standards.conductors import copper_area_mm2
from labelgen.standards.wire_ratings import careful_amps


def rated_amps(description: Description, wire: Wire) -> float:
    """Amperes: as its function says, else by its copper. Only of a wire whose size is known."""
    given = description.functions.get(wire.function)
    said = given.amps if given is not None else None
    return said if said is not None else careful_amps(copper_area_mm2(wire.size))
