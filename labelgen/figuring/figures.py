"""All electrical figures of a railway."""

from labelgen.figuring.advice import bank_figures
from labelgen.figuring.elements import Elements
from labelgen.figuring.loads import steady_figures
from labelgen.figuring.protection import protection_figures
from labelgen.figuring.throws import thrown
from labelgen.model.copper import Copper
from labelgen.model.description import Description
from labelgen.model.figures import Figures
from labelgen.model.lamp_resistors import lamp_resistors
from labelgen.model.netlist import Netlist


def figures_of(description: Description, netlist: Netlist) -> Figures:
    """What the description gives figures for; of the rest, nothing. Every net must be a tree."""
    copper = Copper(netlist)
    elements = Elements(netlist, copper)
    resistors = lamp_resistors(description, netlist)
    steady = steady_figures(description, netlist, copper, elements, resistors)
    throws = [*thrown(description, netlist, copper, elements)]
    return Figures(
        throws=tuple(one.figure for one in throws),
        banks=bank_figures(description, netlist, throws),
        loads=steady.loads,
        silent=steady.silent,
        wires=steady.wires,
        supplies=steady.supplies,
        resistors=resistors,
        protections=protection_figures(description, netlist, copper),
    )
