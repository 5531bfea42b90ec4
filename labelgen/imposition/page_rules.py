"""The two rules of a test page, as long as its paper allows, and where they hide the least."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor, hypot
from typing import Literal

from labelgen.imposition.cut_marks import NOTE_CAP, note
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape

TICKS = {10: (3.2, 0.2), 5: (2.3, 0.14), 1: (1.5, 0.1)}
"""Every so many mm: how long a tick is, and how thick."""
NUMBERS_UP = 3.8
"""mm from the base line to the numbers."""
NUMBERS_WIDE = 4.0
CLEAR = 0.6
"""What is white about a rule, in mm."""
WORDS_STEP = 2.7
"""From line to line of what is said under the rule."""
ABOVE = NUMBERS_UP + NOTE_CAP + CLEAR
ASIDE = NUMBERS_UP + NUMBERS_WIDE
_STEP = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class RulePlace:
    """Where a rule's base line begins, how long it is, and the ground that is kept white for it."""

    x: float
    y: float
    length: int
    ground: Rectangle


def rule_length(paper: float, edge: float) -> int:
    """The longest rule of whole centimetres inside what printers leave white, in mm."""
    return floor((paper - 2 * edge + 1e-9) / 10) * 10


class RulePlaces:
    """Finds where the rules hide the fewest of the crosses, never the first, and of such places the best one.

    The rule across belongs at the middle of the paper, the one down at three quarters of its width; neither goes so far
    from there that it would come upon an end of the other.
    """

    def __init__(self, width: float, height: float, crosses: Sequence[Rectangle]) -> None:
        self._width, self._height, self._crosses = width, height, crosses

    def across(self, length: int, lines: int) -> RulePlace:
        """With room for so many lines of words below."""
        x, height = (self._width - length) / 2, ABOVE + CLEAR + lines * WORDS_STEP
        tops = _steps(self._height / 4 - height / 2, self._height * 3 / 4 - height / 2)
        grounds = [Rectangle(x - CLEAR, top, length + 2 * CLEAR, height) for top in tops]
        ground = self._best(grounds, self._width / 2, self._height / 2)
        return RulePlace(x=x, y=ground.y + ABOVE, length=length, ground=ground)

    def down(self, length: int) -> RulePlace:
        y, width = (self._height - length) / 2, ASIDE + CLEAR
        lefts = _steps(self._width * 5 / 8 - width / 2, self._width * 7 / 8 - width / 2)
        grounds = [Rectangle(left, y - CLEAR, width, length + 2 * CLEAR) for left in lefts]
        ground = self._best(grounds, self._width * 3 / 4, self._height / 2)
        return RulePlace(x=ground.x + ASIDE, y=y, length=length, ground=ground)

    def _best(self, grounds: Sequence[Rectangle], x: float, y: float) -> Rectangle:
        def badness(ground: Rectangle) -> tuple[bool, int, float]:
            hidden = [number for number, cross in enumerate(self._crosses) if cross.overlaps(ground)]
            away = hypot(ground.x + ground.width / 2 - x, ground.y + ground.height / 2 - y)
            return 0 in hidden, len(hidden), away

        return min(grounds, key=badness)


def _steps(low: float, high: float) -> list[float]:
    return [low + step * _STEP for step in range(int((high - low) / _STEP) + 1)]


def across_rule(place: RulePlace, words: Sequence[str], *, gap: Rectangle) -> Iterator[Shape]:
    """Ticks up from the base line, every tenth with its number, and words below; no ticks within `gap`."""
    x, y = place.x, place.y
    yield Line(x1=x, y1=y, x2=x + place.length, y2=y, width=0.2)
    for mm in range(place.length + 1):
        long, thick = _tick(mm)
        if not gap.x < x + mm < gap.right:
            yield Line(x1=x + mm, y1=y - long, x2=x + mm, y2=y, width=thick)
        if mm % 10 == 0 and not gap.x - 2 < x + mm < gap.right + 2:
            yield note(str(mm), x + mm, y - NUMBERS_UP, anchor=_anchor(mm, place.length))
    for line, text in enumerate(words, 1):
        yield note(text, x, y + line * WORDS_STEP - 0.2)


def down_rule(place: RulePlace, *, gap: Rectangle) -> Iterator[Shape]:
    """Ticks to the left of the base line, every tenth with its number; no ticks within `gap`."""
    x, y = place.x, place.y
    yield Line(x1=x, y1=y, x2=x, y2=y + place.length, width=0.2)
    for mm in range(place.length + 1):
        long, thick = _tick(mm)
        if not gap.y < y + mm < gap.bottom:
            yield Line(x1=x - long, y1=y + mm, x2=x, y2=y + mm, width=thick)
        if mm % 10 == 0 and not gap.y - 1 < y + mm < gap.bottom + 1:
            drop = NOTE_CAP if mm == 0 else 0 if mm == place.length else NOTE_CAP / 2
            yield note(str(mm), x - NUMBERS_UP, y + mm + drop, anchor="end")


def _tick(mm: int) -> tuple[float, float]:
    return next(form for every, form in TICKS.items() if mm % every == 0)


def _anchor(mm: int, length: int) -> Literal["start", "middle", "end"]:
    """So that no number stands out beyond the ends."""
    if mm == 0:
        return "start"
    return "end" if mm == length else "middle"
