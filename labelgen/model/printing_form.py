"""How things are printed, and on which sheets: `printing` and `sheets` of a description."""

from typing import Literal

from labelgen.model.flag_form import FlagForm
from labelgen.model.pairs import Position, Scale
from labelgen.model.record import Record
from labelgen.model.scalars import Positive, Truth, Word
from labelgen.standards.lever_colours import LeverPreset


class SheetChoice(Record):
    markers: Word | None = None
    flags: Word | None = None
    tags: Word | None = None
    plates: Word | None = None
    places: Word | None = None
    fold: Word | None = None
    """Of flags of this form; of those of the overall form what `flags` says counts."""
    wrap: Word | None = None
    sleeve: Word | None = None


class Printing(Record):
    paper: Literal["a4", "letter"] | None = None
    scale: Scale = (1, 1)
    """Across and down, by which the whole page is multiplied."""
    shift: Position = (0, 0)
    mono: Truth = False
    smallest_text: Positive | None = None
    """Height of a capital, mm."""
    flags: FlagForm = "fold"
    tags: Literal["address", "text", "both"] | None = None
    wires: Literal["csv", "xlsx"] = "csv"
    """`xlsx`: the wire list is made as a workbook besides."""
    levers: LeverPreset = "mechanical"
    """By which set of the prototype's practice levers are painted."""
    markers: Literal["opposite", "same"] = "opposite"
    """Whether the two markers of a strip read opposite ways up, or both the same way."""
    plan: Literal["fit", "full"] = "fit"
    """Whether the plan of a board is scaled to fit its paper, or tiled at actual size."""
    blank_flags: Truth = False
    """What is left of the last sheet of flags is filled with blank ones that have the next free numbers."""
