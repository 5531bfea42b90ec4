"""What the as-built record knows of labels: which are printed, which were made last, how far each sheet is used."""

from collections.abc import Mapping
from dataclasses import dataclass, field

STUCK_ON = ("markers", "flags", "tags", "plates", "places", "fascia")
"""What is printed to be fixed to the railway; the other kinds only lie on the bench."""
BLANKS = "blanks"
"""The kind of label that blank flags are in the record: printed with the flags, and stuck on who knows where."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedLabel:
    """One label that is printed and stuck on: the one or more stickers that say the same."""

    kind: str
    label: str
    """Of a flag the wire's number, of a marker or tag the strip, of a plate the lever, of a fascia the panel.

    Of places the hole, or the plug and the board on which it is: `J1 on West`. Of a wire whose two ends are on
    different boards, where nothing is plugged, so are the flags: `17 on West`.
    """
    fingerprint: str = ""
    """Of what is on it; "" of one from before labels had any."""
    issue: str = ""
    """Its issue letter; "" counts as A."""
    board: str = ""
    says: str = ""
    """By what it is known when it is to come off: a flag's head."""
    holes: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    """Of a fascia: the holes of its panel, each with x, y and diameter in hundredths of a mm."""
    pieces: int = 0
    """Of places: how many stickers; 0: not known, in a record from before they were counted, or of another kind."""

    @property
    def key(self) -> tuple[str, str]:
        return (self.kind, self.label)


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeLabel:
    """A label by which what was made last differs from what is recorded as printed."""

    now: PrintedLabel | None
    """None: it is no more, and comes off."""
    was: PrintedLabel | None
    """None: there was none."""

    @property
    def either(self) -> PrintedLabel:
        found = self.now or self.was
        assert found is not None
        return found

    @property
    def key(self) -> tuple[str, str]:
        return self.either.key


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSheet:
    """A part-used label sheet of one kind of label."""

    use: str
    """`flags`, `wrap`, `tags` …: as under `sheets` in a description."""
    stock: str
    following: int
    """The first cell that is still there, from 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeSheet:
    """Which cells of a kind's sheets the last make took."""

    use: str
    stock: str
    first: int
    """Of the first sheet, from 1."""
    following: int
    """The first cell of the last sheet that is still there; 1: none is."""
