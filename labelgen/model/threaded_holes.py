"""What goes through each hole of the boards, in the order in which it is threaded, and whether it fits."""

from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Wire
from labelgen.model.pulling_order import pulling_order
from labelgen.natural_order import natural
from labelgen.places import Path
from labelgen.standards.conductors import outside_diameter_mm, parse_size
from labelgen.workshop import bundles


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadedHole:
    """A hole with wires in it. Diameters are in mm."""

    board: str
    id: str
    shown: str
    diameter: float | None
    """As it is drilled, where that was said."""
    wires: tuple[Wire, ...]
    """In threading order."""

    @property
    def outside_diameters(self) -> list[float]:
        """Of the wires whose size is known, over their insulation."""
        return [outside_diameter_mm(wire.size) for wire in self.wires if parse_size(wire.size)]

    @property
    def unknown(self) -> int:
        """How many wires have no size, and are left out of what follows."""
        return len(self.wires) - len(self.outside_diameters)

    @property
    def bundle(self) -> float:
        return bundles.bundle_diameter(self.outside_diameters)

    @property
    def fill(self) -> float | None:
        """1 for all of it; None without a diameter."""
        return None if self.diameter is None else bundles.fill(self.diameter, self.outside_diameters)

    @property
    def fill_limit(self) -> float:
        return bundles.fill_limit(len(self.outside_diameters))

    @property
    def fits(self) -> bool | None:
        """None without a diameter."""
        return None if self.diameter is None else bundles.fits(self.diameter, self.outside_diameters)

    @property
    def drill(self) -> float | None:
        """The smallest stocked drill that does; None when it takes more than one hole."""
        return bundles.drill_for(self.outside_diameters)

    @property
    def path(self) -> Path:
        return ("boards", self.board, "holes", self.id)


def threaded_holes(description: Description, netlist: Netlist) -> list[ThreadedHole]:
    """Board by board as described, holes in natural order; those through which nothing goes are left out."""
    through: dict[str, list[Wire]] = {}
    for pull in pulling_order(netlist):
        for hole in dict.fromkeys(pull.holes):
            through.setdefault(hole, []).extend(pull.wires)
    return [
        ThreadedHole(
            board=board,
            id=id_,
            shown=given.holes[id_].shown or id_,
            diameter=given.holes[id_].diameter,
            wires=tuple(through[id_]),
        )
        for board, given in description.boards.items()
        for id_ in sorted(given.holes, key=natural)
        if id_ in through
    ]
