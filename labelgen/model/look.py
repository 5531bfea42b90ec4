"""How everything that is printed should look."""

from dataclasses import dataclass

from labelgen.standards.legibility import HEADS_CAP_MM, SMALLEST_CAP_MM
from labelgen.standards.trade_words import TradeWords, said


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    mono: bool = False
    """Patterns and letters only: for a black-and-white printer."""
    smallest_cap: float = SMALLEST_CAP_MM
    """No capital is lower than this, in mm."""
    same_way_up: bool = False
    """Both markers of a strip read the same way up, instead of opposite ways."""
    grid: bool = False
    """A fascia shows its squares with their numbers."""
    words: TradeWords = "british"

    @property
    def head_cap(self) -> float:
        """Nor are heads and ids lower than this, in mm, where there is room: what the builder asks for, if anything."""
        return HEADS_CAP_MM if self.smallest_cap == SMALLEST_CAP_MM else self.smallest_cap

    def says(self, text: str) -> str:
        """A text of ours in the trade words that are wanted; never one of the builder's."""
        return said(text, self.words)


@dataclass(frozen=True, slots=True, kw_only=True)
class CellSize:
    """The label that a drawing has to fill, in mm."""

    width: float
    height: float
