"""What is screwed into a panel: data files in `layouts/hardware/`, or `hardware:` in a description. Millimetres."""

from typing import Literal

from pydantic import Field

from labelgen.model.pairs import Position, Size
from labelgen.model.record import Table, Thing
from labelgen.model.scalars import Positive, Word

Use = Literal["lever", "button", "lamp", "stud", "rotary"]


class Hardware(Thing):
    """One part, seen from the face of the panel; what it covers is a disc about the middle of its hole."""

    about: Word
    use: Use
    hole: Positive
    """Diameter to drill."""
    slot: Size | None = None
    """Width and height of a slot to be cut besides the hole, about its middle: of a lever that swings in one."""
    covers: Positive
    """Diameter that its nut, washer, collar or bezel covers on the face."""
    fingers: Positive
    """Diameter that must stay free of other parts for fingers to work it; of a lamp, as `covers`."""
    body: Size
    """Width and height behind the panel, about the middle of the hole."""
    grips: Positive | None = None
    """The thickest panel that its bush holds; left out: any."""
    tabs: Table[dict[Word, Position]] = Field(default_factory=dict)
    """Contact: its tab, from the middle of the hole, seen from the back with the lever's `up` at the top."""
    turned: Literal["opposite", "same"] = "opposite"
    """Which tab is closed when the lever points up: the lower (opposite), as toggles do, or the upper (same)."""
    contact_ohms: Positive | None = None
    contact_amps: Positive | None = None
    """What its contact carries without end."""
    contact_amps2_seconds: Positive | None = None
    """What one pulse may heat its contact: the integral of i² over time."""
    source: Word = ""


DEFAULT_HARDWARE = {
    "lever": "miniature-toggle",
    "button": "push-button-7",
    "lamp": "lamp-3",
    "stud": "stud-4",
    "rotary": "rotary-switch",
}
"""What is taken where the panel does not say."""
