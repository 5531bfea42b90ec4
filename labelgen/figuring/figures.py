"""All electrical figures of a railway."""

from labelgen.figuring.loads import steady_figures
from labelgen.figuring.throws import throw_figures
from labelgen.model.copper import Copper
from labelgen.model.description import Description
from labelgen.model.figures import Figures
from labelgen.model.netlist import Netlist


def figures_of(description: Description, netlist: Netlist) -> Figures:
    """What the description gives figures for; of the rest, nothing. Every net must be a tree."""
    copper = Copper(netlist)
    loads, wires, supplies = steady_figures(description, netlist, copper)
    throws = throw_figures(description, netlist, copper)
    return Figures(throws=tuple(throws), loads=loads, wires=wires, supplies=supplies)
