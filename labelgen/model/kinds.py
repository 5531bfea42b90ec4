"""Device kinds: which terminals a device has and how it is wired. Data files in `layouts/devices/`, or `kinds:`."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from labelgen.model.record import Listing, OrShort, Record, Rows, Table, Thing
from labelgen.model.scalars import Positive, Truth, Word, complaint

SupplyKind = Literal["pulse", "dc", "ac", "track", "digital"]
LeverType = Literal[
    "sprung", "passing", "latching", "on-off", "button", "buttons", "rotary", "changeover", "two-pole", "stud"
]

DEFAULT_POINT_KIND = "twin-coil"
"""What a point is when neither it nor its board says so."""

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


class Row(Record):
    """What every row of a kind has in common."""

    function: Word
    mark: Word = ""
    """Ends the head."""
    only: Listing[tuple[LeverType, ...]] = ()
    """The lever types with which the row is needed; none: all."""
    unless: Listing[tuple[LeverType, ...]] = ()
    """The lever types with which the row falls away."""

    def needed_with(self, lever_type: str | None) -> bool:
        """Whether the row is wired when the circuit's lever is of that type; None: it has no lever."""
        return (not self.only or lever_type in self.only) and lever_type not in self.unless


class GroupRow(Row):
    """One way of the strip: its lever contact on the panel side, its device terminal on the layout side."""

    contact: Word | None = None
    terminal: Word | None = None
    chain: Word | None = None
    """The supply's terminal from which the row is fed, from way to way: `feed`, or `rails.A` of several supplies."""
    across: Word | None = None
    """What lands opposite the terminal, on the panel side: another terminal, or a thing beside the lever."""
    swap: Word = ""
    """The name of the pair that may have to be exchanged when it shorts."""
    diodes: Listing[tuple[Word, ...]] = ()
    """A diode from this way to the way of each of these terminals, or of these contacts."""

    def needed_with(self, lever_type: str | None) -> bool:
        """A stud has no feed of its own: the probe with which it is touched brings that."""
        fed_by_probe = lever_type == "stud" and self.chain is not None and self.contact == "F" and self.terminal is None
        return super().needed_with(lever_type) and not fed_by_probe


class ChainRow(Row):
    """Wired from device to device, or from lever to lever behind the panel; not through the strip."""

    terminal: Word | None = None
    contact: Word | None = None
    supply: Word
    """The supply's terminal at which the chain starts."""


def _one_role(value: Any) -> Any:
    if value == {}:
        raise complaint("bad-kind", "the kind names no supply", f"Write one of {', '.join(SUPPLY_TERMINALS)}.")
    return {"": value} if isinstance(value, str) else value


Roles = Annotated[dict[Word, SupplyKind], BeforeValidator(_one_role), OrShort("string")]
"""`pulse`, or the several supplies of a kind by what each is for: `{drive: dc, rails: track}`."""
Pairs = Listing[tuple[Listing[tuple[Word, ...]], ...]]


class Kind(Thing):
    about: Word = ""
    terminals: Table[dict[Word, Word | None]]
    """Terminal: what it is, in trade language."""
    supply: Roles
    lever_type: LeverType | None = None
    above: Truth = False
    """It stands on the board's upper side: its wires go through a hole."""
    ohms: Positive | None = None
    milliamps: Positive | None = None
    lamp_volts: Positive | None = None
    """What stands across one lamp of the light-emitting kind."""
    lamp_milliamps: Positive | None = None
    """What such a lamp should have; left out: the device's own `milliamps`, where all its loads are lamps."""
    group: Rows[tuple[GroupRow, ...]] = ()
    chain: Rows[tuple[ChainRow, ...]] = ()
    loads: Pairs = ()
    """Between which terminals a coil, motor or lamp lies; left out: as the rows tell."""
    inside: Table[dict[Word, Pairs]] = Field(default_factory=dict)
    """The device's own contacts: `normal` or `reverse`: the terminals that are joined then."""
    gives: Table[dict[Word, Word | None]] = Field(default_factory=dict)
    """A terminal of a supply: the device's terminal that serves as it (left out: of the same name)."""
    notes: Word = ""
    """How it is wired, and what goes wrong."""

    @property
    def shares_ways(self) -> bool:
        """Whether several on one lever may share a group of ways: not where each switches something of its own."""
        return not any(self.is_own(row) for row in self.group)

    def is_own(self, row: GroupRow) -> bool:
        """Whether the way of a row is one device's alone: what it switches, or one of a pair that may be exchanged."""
        if row.terminal is None or row.contact is not None:
            return False
        if row.chain is not None:
            return bool(row.swap) and (row.across is None or row.across in self.terminals)
        if row.across is not None:
            return row.across in self.terminals
        return bool(row.swap) or any(row.terminal in pair for pairs in self.inside.values() for pair in pairs)

    def reference(self, text: str) -> tuple[str, str]:
        """The role and the terminal of a supply that a row names: `rails.A`; `feed` of the only or first one."""
        role, dot, terminal = text.rpartition(".")
        return (role, terminal) if dot else (next(iter(self.supply)), text)
