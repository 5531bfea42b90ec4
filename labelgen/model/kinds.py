"""Device kinds: which terminals a device has and how it is wired. Data files in `layouts/devices/`, or `kinds:`."""

from typing import Literal

from labelgen.model.record import Listing, Record, Table
from labelgen.model.scalars import Positive, Truth, Word

SupplyKind = Literal["pulse", "dc", "ac", "track", "digital"]
LeverType = Literal[
    "sprung", "passing", "latching", "on-off", "button", "buttons", "rotary", "changeover", "two-pole", "stud"
]

SUPPLY_TERMINALS: dict[str, tuple[str, str]] = {
    "pulse": ("feed", "return"),
    "dc": ("feed", "return"),
    "ac": ("feed", "return"),
    "track": ("A", "B"),
    "digital": ("A", "B"),
}

LEVER_CONTACTS: dict[str, tuple[str, ...] | None] = {
    "sprung": ("N", "F", "R"),
    "passing": ("N", "F", "R"),
    "latching": ("N", "F", "R"),
    "on-off": ("1", "2"),
    "button": ("1", "2"),
    "buttons": None,
    "rotary": None,
    "changeover": ("A", "B", "P", "M"),
    "two-pole": ("N1", "F1", "R1", "N2", "F2", "R2"),
    "stud": None,
}
"""None: the rows of the kind name the contacts (`buttons`, `rotary`: F besides)."""


class GroupRow(Record):
    """One way of the strip: its lever contact on the panel side, its device terminal on the layout side."""

    function: Word
    contact: Word | None = None
    terminal: Word | None = None
    chain: Word | None = None
    """The supply's terminal from which the row is fed, from way to way."""
    mark: Word = ""
    """Ends the head."""


class ChainRow(Record):
    """Wired from device to device, not through the strip."""

    function: Word
    terminal: Word
    supply: Word
    """The supply's terminal at which the chain starts."""
    mark: Word = ""


class Kind(Record):
    about: Word = ""
    terminals: Table[dict[Word, Word | None]]
    """Terminal: what it is, in trade language."""
    supply: SupplyKind
    lever_type: LeverType | None = None
    above: Truth = False
    """It stands on the board's upper side: its wires go through a hole."""
    ohms: Positive | None = None
    milliamps: Positive | None = None
    group: Listing[tuple[GroupRow, ...]] = ()
    chain: Listing[tuple[ChainRow, ...]] = ()
    notes: Word = ""
    """How it is wired, and what goes wrong."""
