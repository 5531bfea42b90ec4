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

        def fitted(text: str, room: Rectangle, turn: float, least: float) -> Fitted | None:
            return fit_in(text, room, largest=largest, smallest=least, face=face, underline=True, turn=turn)

        def low(found: Sequence[Fitted | None], turn: float) -> int:
            """How many cannot be as high as is wanted, were they condensed sooner."""
            lower = [each for each, one in zip(rooms, found, strict=True) if one is None or one.cap < wanted]
            return sum(fitted(*each, turn, wanted) is None for each in lower)

        level, upright = ([fitted(*each, turn, smallest) for each in rooms] for turn in (0, -90))
        self.margin = margin
        self.level, self.upright = _caps_of(level), _caps_of(upright)
        self.worth_turning = self._legible_upright or (
            self._as_legible and are_many(low(level, 0), len(texts)) and low(upright, -90) < low(level, 0)
        )
        """More texts are legible so, or, where as many are, the lowest is clearly larger, or more are high enough."""

    @property
    def legible(self) -> int:
        """How many texts can be read, the one way round or the other."""
        return max(_count(self.level), _count(self.upright))

    @property
    def _as_legible(self) -> bool:
        return _count(self.upright) == _count(self.level)

    @property
    def _legible_upright(self) -> bool:
        larger = _lowest(self.upright) > WORTH_TURNING * _lowest(self.level)
        return _count(self.upright) > _count(self.level) or (self._as_legible and larger)


def are_many(low: int, texts: int) -> bool:
    """So many are too low that the whole row is set otherwise for them."""
    return low > FEW * texts


def _caps_of(fitted: Sequence[Fitted | None]) -> list[float]:
    return [found.cap * found.stretch if found else 0.0 for found in fitted]


def _count(caps: Sequence[float]) -> int:
    return sum(map(bool, caps))


def _lowest(caps: Sequence[float]) -> float:
    return min(filter(None, caps), default=0.0)


def narrowed(box: Rectangle, margin: float) -> Rectangle:
    """Less a share of its width at each side, so that texts of neighbours never touch."""
    free = min(WIDEST_MARGIN, margin * box.width)
    return Rectangle(box.x + free, box.y, box.width - 2 * free, box.height)
