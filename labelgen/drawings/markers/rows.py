"""How the texts of one row of a strip marker are set, so that the row looks of a piece."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.drawings.text_fitting import Fitted, fit_in
from labelgen.lengths import Rectangle

SAFE, TIGHT, WIDEST_MARGIN = 0.09, 0.04, 0.8
"""Free at each side of a text: of its cell's width, and at most, in mm. Tight only where it could not be read else."""
WORTH_TURNING = 1.25
"""Texts are turned only when they become that much larger: level text is read faster."""
OUTLIER = 0.75
"""A text that would have to be that much smaller than the largest does not set the size for its whole row."""
FEW = 0.25
"""Of a row's texts: so many may be lower than is wanted, and the row still stands level."""

Boxed = tuple[str, Rectangle]
"""A text, and its cell's part of the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """The largest cap height in mm, which way round, and what is free at the sides, of a cell's width."""

    face: str
    cap: float
    turn: float
    margin: float


def row_of(texts: Sequence[Boxed], *, face: str, largest: float, smallest: float, wanted: float = 0.0) -> Row:
    """One way round and one size for all: what the longest take, but for one that would shrink the others.

    `wanted`: no text is to be lower, where there is room, in mm.
    """
    wanted = min(largest, max(wanted, smallest))
    row = _Caps(texts, margin=SAFE, face=face, largest=largest, smallest=smallest, wanted=wanted)
    if row.legible < len(texts):
        tight = _Caps(texts, margin=TIGHT, face=face, largest=largest, smallest=smallest, wanted=wanted)
        row = tight if tight.legible > row.legible else row
    heights = row.upright if row.worth_turning else row.level
    cap = min((height for height in heights if height > OUTLIER * max(heights)), default=largest)
    turn = -90 if row.worth_turning else 0
    return Row(face=face, cap=min(largest, max(cap, wanted)), turn=turn, margin=row.margin)


class _Caps:
    """How large each text would be, level and upwards, condensed ones counted as that much smaller; 0: not legible."""

    def __init__(
        self, texts: Sequence[Boxed], *, margin: float, face: str, largest: float, smallest: float, wanted: float
    ) -> None:
        rooms = [(text, narrowed(box, margin)) for text, box in texts]

        def fitted(turn: float, least: float) -> list[Fitted | None]:
            return [
                fit_in(text, room, largest=largest, smallest=least, face=face, underline=True, turn=turn)
                for text, room in rooms
            ]

        def caps(turn: float) -> list[float]:
            return [found.cap * found.stretch if found else 0.0 for found in fitted(turn, smallest)]

        self.margin = margin
        self.level, self.upright = caps(0), caps(-90)
        self._high_level, self._high_upright = (sum(map(bool, fitted(turn, wanted))) for turn in (0, -90))
        """How many can be as high as is wanted."""

    @property
    def legible(self) -> int:
        """How many texts can be read, the one way round or the other."""
        return max(_count(self.level), _count(self.upright))

    @property
    def worth_turning(self) -> bool:
        """More texts are legible so, or, where as many are, the lowest is clearly larger, or more are high enough."""
        level, upright = _count(self.level), _count(self.upright)
        if upright != level:
            return upright > level
        if _lowest(self.upright) > WORTH_TURNING * _lowest(self.level):
            return True
        return self._high_upright > self._high_level and are_many(len(self.level) - self._high_level, len(self.level))


def are_many(low: int, texts: int) -> bool:
    """So many are too low that the whole row is set otherwise for them."""
    return low > FEW * texts


def _count(caps: Sequence[float]) -> int:
    return sum(map(bool, caps))


def _lowest(caps: Sequence[float]) -> float:
    return min(filter(None, caps), default=0.0)


def narrowed(box: Rectangle, margin: float) -> Rectangle:
    """Less a share of its width at each side, so that texts of neighbours never touch."""
    free = min(WIDEST_MARGIN, margin * box.width)
    return Rectangle(box.x + free, box.y, box.width - 2 * free, box.height)
