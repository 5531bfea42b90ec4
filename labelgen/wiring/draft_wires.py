"""Wires before they have numbers and lengths, in the order in which they will be numbered."""

from dataclasses import dataclass

from labelgen.model.netlist import End
from labelgen.places import Path
from labelgen.wiring.marks import Head


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftWire:
    circuit: str
    function: str
    head: Head
    start: End
    finish: End
    link: bool = False
    path: Path = ()
    listed: int | None = None
    """Its position in the builder's list `wires`, if it stands there."""
    chain: str = ""
    """The supply's terminal on whose chain it lies; "" for a wire of no chain."""
    size: str = ""
    """Where it is not that of its function: of a chain with a thicker branch."""
    pins: int = 1
    """How many pins of a plug it takes, as its supply says."""
    board: str | None = None
    """The board on which it lies, where its ends alone do not say: of a wire through plugs."""
    further: bool = False
    """A wire through plugs goes on with this one: the number that the builder gave is that of the first."""

    @property
    def numbered_by(self) -> int | None:
        """The listed wire whose number it has."""
        return None if self.further else self.listed

    @property
    def key(self) -> frozenset[tuple[str, str, str]]:
        """The two pieces of metal that it joins, whichever end is named first."""
        return frozenset((self.start.point, self.finish.point))
