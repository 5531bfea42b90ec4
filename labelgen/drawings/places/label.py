"""How a label finds its size: as full as can be, on the smallest share of a cell on which that can be read."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import product
from math import floor

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import UNDERLINE_REACH, Fitted
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import CellSize, Look
from labelgen.places import Path
from labelgen.problems import Problem

SHARE_WIDTH, SHARE_HEIGHT = 48.0, 16.0
"""mm: what is small takes a share of a cell that is at least so large: 99 × 68 holds eight."""
MARGIN = 2.0
"""mm kept free at the edges: a cell's corners are round, and sheets print up to 1 mm off."""
CLEAR = 0.3
"""mm between the ink of two lines, at least."""
HINT = "Choose a sheet with larger labels under `sheets: places:`, or a shorter `shown:`."

Draw = Callable[[Rectangle, Lettering], list[Shape]]
"""One form of a label, in its face."""


Try = tuple[Draw, CellSize]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceLabel:
    """What is to be drawn, and what is tried in turn until all of it can be read: a form, and a size."""

    name: str
    key: str
    """By what the as-built record knows it."""
    path: Path
    board: str | None
    tries: Sequence[Try]
    copies: tuple[str, ...] = ("",)
    """One label each; what its name has besides."""


def every(forms: Sequence[Draw], sizes: Sequence[CellSize]) -> list[Try]:
    """The fullest form in all sizes, then the next."""
    return list(product(forms, dict.fromkeys(sizes)))


def share(cell: CellSize, rows: int = 1, *, whole: bool = False, width: float = SHARE_WIDTH) -> CellSize:
    """Of a cell: so many rows of its shares, each at least so wide; `whole`: over its whole width."""
    across = 1 if whole else max(1, floor(cell.width / width + 1e-9))
    down = max(1, floor(cell.height / (SHARE_HEIGHT * rows) + 1e-9))
    return CellSize(width=cell.width / across, height=cell.height / down)


def shares(cell: CellSize, first_rows: int = 1) -> tuple[CellSize, ...]:
    """Ever larger ones, up to the cell itself."""
    rising = (share(cell, first_rows), share(cell, 2), share(cell, 2, whole=True), cell)
    return tuple(dict.fromkeys(rising))


def foot_of(line: Fitted, baseline: float) -> float:
    """How far down a line's ink reaches, with the line below a number that reads otherwise upside down."""
    return baseline + max(line.below, UNDERLINE_REACH * line.cap if needs_underline(line.text) else 0.0)


def baseline_below(before: Fitted | None, baseline: float, line: Fitted, gap: float) -> float:
    """Of a line under another: its capitals so far from that one's foot, and no ink that meets."""
    usual = baseline + gap + line.cap
    return usual if before is None else max(usual, foot_of(before, baseline) + CLEAR + line.above)


def drawn(label: PlaceLabel, description: Description, look: Look) -> tuple[list[Drawing], list[Problem]]:
    """Its copies. Problems: text-does-not-fit, character-missing."""
    place = description.place_of_key(*label.path)
    for form, size in label.tries:
        lettering = Lettering(label=label.name, place=place, look=look, hint=HINT)
        shapes = form(Rectangle(0, 0, size.width, size.height).inset(MARGIN), lettering)
        if not any(problem.code == "text-does-not-fit" for problem in lettering.problems):
            break
    drawings = [
        Drawing(
            width=size.width, height=size.height, shapes=tuple(shapes), name=label.name + copy, place=place,
            board=label.board, label=str(label.path[-1]),
        )
        for copy in label.copies
    ]  # fmt: skip
    return drawings, lettering.problems
