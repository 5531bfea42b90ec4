"""What every form of flag asks of its wire: how thick it is, what it is called, on which board its end is."""

from dataclasses import replace

from labelgen.drawings.flags.order import FlagEnd
from labelgen.model.built.record_label import board_of_end, flag_key
from labelgen.model.description import Description
from labelgen.model.netlist import Function, Netlist, Wire
from labelgen.places import Place
from labelgen.standards.conductors import outside_diameter_mm, parse_size

UNKNOWN_DIAMETER = 1.6
"""mm over the insulation of 16/0.2, the commonest wire under a baseboard; for a wire without a size."""


def diameter_mm(wire: Wire) -> float:
    """Over the insulation."""
    return outside_diameter_mm(wire.size) if parse_size(wire.size) is not None else UNKNOWN_DIAMETER


def number_text(wire: Wire) -> str:
    """`#17`, `#37N bis`: the sign tells a number from an end's name."""
    text = str(wire.number)
    return text if text.startswith("#") else f"#{text}"


def in_own_colour(wire: Wire, function: Function | None) -> Function | None:
    """The function's code and pattern on the colour of this very wire, which is what the hand looks for."""
    return replace(function, colour=wire.colour) if function and wire.colour else function


def board_of(netlist: Netlist, flag: FlagEnd) -> str | None:
    """A strip's own board; an end at a lever is on the board of the lever's panel."""
    return board_of_end(netlist, flag.wire, flag.end)


def label_of(netlist: Netlist, flag: FlagEnd) -> str:
    """By what the as-built record knows it."""
    return flag_key(netlist, flag.wire, flag.end)


def form_place(description: Description, wire: Wire) -> Place:
    """Where the builder chose the form of a wire's flags."""
    if wire.listed is not None and description.wires[wire.listed].flags:
        return description.place_of("wires", wire.listed, "flags")
    function = description.functions.get(wire.function)
    if function is not None and function.flags:
        return description.place_of("functions", wire.function, "flags")
    return description.place_of("printing", "flags")
