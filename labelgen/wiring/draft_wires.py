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

    @property
    def key(self) -> frozenset[tuple[str, str, str]]:
        """The two pieces of metal that it joins, whichever end is named first."""
        return frozenset((self.start.point, self.finish.point))
