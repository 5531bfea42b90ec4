"""The stops of a chain."""

from dataclasses import dataclass
from typing import Any

from labelgen.model.netlist import End
from labelgen.places import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One stop of a chain."""

    order: Any
    """Sorts the stops of one chain."""
    end: End
    path: Path


Step = tuple[Member, Member]
"""Two stops that a wire or link joins: the first is nearer to the supply."""
