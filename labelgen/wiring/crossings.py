"""Wires that go from board to board, and the plugs by which they do."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from labelgen.model.built.built_record import BuiltPins
from labelgen.wiring.draft_wires import DraftWire

KeptPins = Mapping[tuple[frozenset[str], str], BuiltPins]
"""By the names of a whole wire's two ends, and its circuit: the pins that it has for good."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A wire between boards: its ends, and on which board each is."""

    wire: DraftWire
    start: str
    finish: str
    count: int
    """How many pins it takes in each plug."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hop:
    """A wire goes from board to board by a plug."""

    plug: str
    start: str
    finish: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """Plugs and pins of one wire that are known beforehand: from its start on, and up to its finish."""

    head: tuple[Hop, ...] = ()
    tail: tuple[Hop, ...] = ()
    pins: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    """Of each of those plugs; the wire lands on the first."""
