"""What stands beside or above the words of a tag: the strip's id, its symbol, and what that leads to. Sizes are mm."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product

from labelgen.drawings.tags.qr import QUIET_MODULES, module_sizes, symbol, version_for
from labelgen.drawings.tags.qr_grid import Matrix
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, fit, fit_head, fit_lines
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Shape, Symbol
from labelgen.model.look import CellSize, Look

EDGE = 3.0
"""Words stay this far from the cut edge: corners are round, and sheets print up to 1 mm off."""
SAFE = 1.0
"""The quiet zone, which is blank, stays this far from it."""
GAP = 2.0
COLUMN_GAP = 3.0
SYMBOL_SHARE = 0.4
"""Of the tag's width, the most that a symbol takes with its quiet zone."""
DENSEST = 15
"""The highest version on a tag: more than 77 modules a side are hard to scan by hand. Common practice, no source."""
LARGEST_TITLE = 8.0
TITLE_SHARE = 0.14
"""Of the tag's height, the most that the strip's id takes."""
LARGEST_NOTE = 1.9


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    title: str
    """The strip, as it is painted."""
    notes: tuple[str, ...] = ()
    """What else is known of it, a line each: left out where they do not fit."""
    part: str = ""
    """Which ways the tag covers, of a strip that takes several."""
    holds: str = ""
    """The text in the symbol; "" for a tag without one."""
    caption: str = ""
    """What the symbol leads to."""
    address: str = ""
    """The same to be typed: left out where it does not fit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """The head's shapes, and the box that is left for the words."""

    shapes: list[Shape]
    words: Rectangle


def columns(head: Head, cell: CellSize, look: Look) -> Iterator[Column]:
    """The head as it can stand on a tag of that size, the one with the largest symbol first."""
    if not head.holds:
        above = _above(head, cell, look)
        yield from () if above is None else (above,)
        return
    version = version_for(head.holds, largest_version=DENSEST)
    rows = symbol(head.holds, largest_version=DENSEST)
    if version is None or rows is None:
        return
    modules = module_sizes(version, min(SYMBOL_SHARE * cell.width, cell.height - 2 * SAFE))
    for less, module in product((head, replace(head, notes=()), replace(head, notes=(), address="")), modules):
        beside = _Beside(head=less, cell=cell, look=look, rows=rows, module=module).column()
        yield from () if beside is None else (beside,)


def _above(head: Head, cell: CellSize, look: Look) -> Column | None:
    """The head in one line above the words; None when it cannot be legible."""
    width, smallest = cell.width - 2 * EDGE, look.smallest_cap
    title = _title(head, width * 0.5, cell, look)
    if title is None:
        return None
    baseline = EDGE + title.cap
    shapes: list[Shape] = [title.at(EDGE, baseline)]
    left = title.width + COLUMN_GAP
    part = fit(head.part, width=width - left, largest=max(LARGEST_NOTE, smallest), smallest=smallest)
    if part is None:
        return None
    shapes.append(part.at(EDGE + left, baseline))
    left += part.width + COLUMN_GAP
    notes = fit(" · ".join(head.notes), width=width - left, largest=max(LARGEST_NOTE, smallest), smallest=smallest)
    if notes is not None and head.notes:
        shapes.append(notes.at(cell.width - EDGE, baseline, anchor="end"))
    top = baseline + 2 * GAP
    return Column(shapes=shapes, words=Rectangle(EDGE, top, width, cell.height - EDGE - top))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Beside:
    """A head with a symbol, in a column at the left of the words."""

    head: Head
    cell: CellSize
    look: Look
    rows: Matrix
    module: float

    @property
    def smallest(self) -> float:
        return self.look.smallest_cap

    @property
    def quiet(self) -> float:
        return QUIET_MODULES * self.module

    @property
    def left(self) -> float:
        """Of the symbol's dark modules, and of everything above and under it."""
        return max(EDGE, SAFE + self.quiet)

    @property
    def words_x(self) -> float:
        return self.left + len(self.rows) * self.module + max(self.quiet, COLUMN_GAP)

    @property
    def width(self) -> float:
        return self.words_x - GAP - self.left

    def column(self) -> Column | None:
        """None when something in it would not be legible, or would reach into the quiet zone."""
        title = _title(self.head, self.width, self.cell, self.look)
        above = [title, *self._lines(self.head.part), *(line for note in self.head.notes for line in self._lines(note))]
        below = [*self._lines(self.head.caption), *self._address()]
        if None in above or None in below:
            return None
        top, bottom = [line for line in above if line], [line for line in below if line]
        foot = self.cell.height - EDGE - _stack_height(bottom)
        symbol_y = foot - self.quiet - len(self.rows) * self.module
        if EDGE + _stack_height(top) + top[-1].descent > symbol_y - self.quiet + 1e-9:
            return None
        picture = Symbol(x=self.left, y=symbol_y, module=self.module, rows=self.rows)
        shapes: list[Shape] = [*_stacked(top, self.left, EDGE), picture, *_stacked(bottom, self.left, foot)]
        width, height = self.cell.width - EDGE - self.words_x, self.cell.height - 2 * EDGE
        return Column(shapes=shapes, words=Rectangle(self.words_x, EDGE, width, height))

    def _lines(self, text: str) -> Sequence[Fitted | None]:
        """The text in one line, or over two; [None] when it cannot be legible."""
        largest = max(LARGEST_NOTE, self.smallest)
        whole = fit(text, width=self.width, largest=largest, smallest=self.smallest)
        if whole is not None and text:
            return [whole]
        height = largest * (1 + LINE_HEIGHT)
        return fit_lines(text, width=self.width, height=height, largest=largest, smallest=self.smallest) or (
            [None] if text else []
        )

    def _address(self) -> Sequence[Fitted | None]:
        """The address over several lines, broken behind a slash only."""
        lines: list[str] = []
        for piece in re.findall(r"[^/]*/+", self.head.address):
            longer = f"{lines[-1]}{piece}" if lines else piece
            whole = fit(longer, width=self.width, largest=self.smallest, smallest=self.smallest)
            lines = [*lines[:-1], longer] if lines and whole is not None else [*lines, piece]
        return [fit(line, width=self.width, largest=self.smallest, smallest=self.smallest) for line in lines]


def _title(head: Head, width: float, cell: CellSize, look: Look) -> Fitted | None:
    smallest, wanted = look.smallest_cap, look.head_cap
    largest = max(smallest, min(LARGEST_TITLE, TITLE_SHARE * cell.height))
    return fit_head(head.title, width=width, largest=largest, wanted=wanted, smallest=smallest)


def _stack_height(lines: Sequence[Fitted]) -> float:
    """From the top of the first capital to the last baseline."""
    return _baselines(lines)[-1]


def _stacked(lines: Sequence[Fitted], x: float, top: float) -> Iterator[Shape]:
    """The lines under one another, the first one's capitals at `top`."""
    return (line.at(x, top + baseline) for line, baseline in zip(lines, _baselines(lines), strict=True))


def _baselines(lines: Sequence[Fitted]) -> list[float]:
    """Below the top of the first line's capitals; a smaller line under a larger one stands well clear of it."""
    found = [lines[0].cap]
    for above, line in pairwise(lines):
        found.append(found[-1] + line.cap + max((LINE_HEIGHT - 1) * line.cap, above.descent + 0.2 * line.cap))
    return found
