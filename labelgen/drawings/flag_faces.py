"""One face of a flag: the head in large, its code letter in the function's block; below it, an end of the wire."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import LETTER_SHARE, code_block
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import UNDERLINE_REACH, Fitted, fit, reach, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Wire
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for

HEAD_SHARE = 0.6
"""Of a face's height; the end's name takes the rest."""
STEM_SHARE = 0.76
"""A number's cap height in its row: room is left for the line that keeps 6 from being read as 9."""
BLOCK_WIDTH, LONE_BLOCK_WIDTH = 0.95, 1.6
"""Of a code block, in heights of its row; a chain's block stands alone."""
PREFERRED_HEAD, LEAST_HEAD, PREFERRED_END = 3.0, 2.2, 2.0
"""mm of cap height: a text is condensed before it becomes lower than preferred; a head that would be lower than the
least beside its block takes a row of its own above it."""
ROW_GAP = 0.3
END_SHARE, LOW_END_SHARE, NOTE_CAP = 0.245, 0.2, 1.5
ROWS = (0.33, 0.36)
"""Of a face's height, where a long head stands above its block: head and block; the end takes the rest."""
GAP = 0.7
ARROW = 2.1
GREY = "#333333"


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What a face says besides the head."""

    end: str
    leads_to: bool
    """An arrow before the end: this is where the wire goes."""
    note: str
    """In small print: the wire's number, or the colour of its insulation."""
    note_needed: bool
    """False: left out where there is no room."""


class Face:
    """Places the texts of one face; what cannot be legible goes to the lettering as a problem."""

    def __init__(
        self, *, wire: Wire, function: Function | None, words: Words, box: Rectangle, lettering: Lettering, look: Look
    ) -> None:
        self.function, self.words, self.box, self.look = function, words, box, look
        self.lettering, self.smallest = lettering, lettering.smallest
        stem, mark = (wire.stem, wire.mark) if function else (wire.head, "")
        self.stem, self.mark = lettering.known(stem, BOLD), lettering.known(mark, BOLD)
        self.end = lettering.known(words.end, REGULAR)
        self.note = lettering.known(words.note, REGULAR)

    def two_rows(self) -> list[Shape] | None:
        """Head and block, then the end; None when something does not fit so."""
        box = self.box
        row = Rectangle(box.x, box.y, box.width, HEAD_SHARE * box.height)
        head = self._head(row)
        end = self._end(box.width)
        if head is None or end is None:
            return None
        shapes, right = head
        note = self._small(self.note, box.width)
        if note is None:
            return None if self.words.note_needed else [*shapes, *self._end_shapes(end)]
        room = box.width - note.width - GAP
        if self._end_width(end) > room and right + GAP + note.width <= box.right + 1e-9:
            corner = note.at(box.right, row.y + note.above, anchor="end", colour=GREY)
            return [*shapes, *self._end_shapes(end), corner]
        beside = self._end(room)
        if beside is None:
            return None if self.words.note_needed else [*shapes, *self._end_shapes(end)]
        baseline = min(self._baseline, box.bottom - note.below)
        return [*shapes, *self._end_shapes(beside), note.at(box.right, baseline, anchor="end", colour=GREY)]

    def three_rows(self) -> list[Shape]:
        """Head in the full width, its block below it, then the end in the full width."""
        box = self.box
        top, middle = ROWS[0] * box.height, max(ROWS[1] * box.height, self.smallest / LETTER_SHARE + ROW_GAP)
        shapes: list[Shape] = []
        if not self.stem:
            top, middle = 0.0, top + middle
        else:
            row = Rectangle(box.x, box.y, box.width, top)
            largest = max(_largest(self.stem, top), self.smallest)
            stem = self.lettering.line(self.stem, width=box.width, largest=largest, face=BOLD)
            shapes += _stem(stem, box.x, row) if stem else ()
        shapes += self._block_row(Rectangle(box.x, box.y + top, box.width, middle - ROW_GAP))
        end = self._end(box.width, LOW_END_SHARE if self.stem else END_SHARE)
        if end is None or self._baseline - end[0].cap < box.y + top + middle - ROW_GAP:
            self.lettering.too_long(self.words.end)
            return shapes
        return [*shapes, *self._end_shapes(end)]

    def _block_row(self, row: Rectangle) -> list[Shape]:
        """Block and mark from the left, the note at the right."""
        x, shapes = row.x, list[Shape]()
        largest = max(NOTE_CAP, self.smallest)
        if self.function:
            block = Rectangle(x, row.y, self._block_width(row.height, alone=False), row.height)
            shapes += code_block(self.function, block, self.look)
            x = block.right + GAP / 2
        mark = self.lettering.line(self.mark, width=row.right - x, largest=largest, face=BOLD) if self.mark else None
        if mark:
            shapes.append(mark.at(x, _baseline_in(row, mark)))
            x += mark.width + GAP
        note = self._small(self.note, row.right - x)
        if note:
            shapes.append(note.at(row.right, _baseline_in(row, note), anchor="end", colour=GREY))
        elif self.words.note_needed:
            self.lettering.too_long(self.words.note)
        return shapes

    def _head(self, row: Rectangle) -> tuple[list[Shape], float] | None:
        """Stem, block, mark from the left, and where they end; None when the stem would be too low."""
        block = self._block_width(row.height, alone=not self.stem) if self.function else 0.0
        room = row.width - (block + GAP if block else 0) - (GAP / 2 if self.mark else 0)
        least = max(LEAST_HEAD, self.smallest)
        heights = (_largest(self.stem + self.mark, row.height), PREFERRED_HEAD, least)
        both = self._preferred(self.stem + self.mark, width=room, heights=heights, face=BOLD)
        if both is None or LETTER_SHARE * row.height < self.smallest:
            return None
        stem, mark = replace(both, text=self.stem), replace(both, text=self.mark)
        x, shapes = row.x, list[Shape]()
        if self.stem:
            shapes += _stem(stem, x, row)
            x += stem.width + GAP
        if self.function:
            shapes += code_block(self.function, Rectangle(x, row.y, block, row.height), self.look)
            x += block
        if self.mark:
            shapes.append(mark.at(x + GAP / 2, _baseline_in(row, mark)))
            x += GAP / 2 + mark.width
        return shapes, x

    def _block_width(self, height: float, *, alone: bool) -> float:
        letters = len(self.function.code) if self.function else 0
        return height * ((LONE_BLOCK_WIDTH if alone else BLOCK_WIDTH) + 0.4 * max(0, letters - 1))

    @property
    def _baseline(self) -> float:
        """Of the end's row: low enough to be apart from the head, high enough for a g within the face."""
        return self.box.bottom - 0.055 * self.box.height

    def _end(self, width: float, share: float = END_SHARE) -> tuple[Fitted, bool] | None:
        """The end's name, with its arrow where there is room for both."""
        heights = (share * self.box.height, PREFERRED_END, self.smallest)
        for arrow in (True, False) if self.words.leads_to else (False,):
            room = width - (ARROW + GAP if arrow else 0)
            if fitted := self._preferred(self.end, width=room, heights=heights, face=REGULAR):
                return fitted, arrow
        return None

    def _end_width(self, end: tuple[Fitted, bool]) -> float:
        return end[0].width + (ARROW + GAP if end[1] else 0)

    def _end_shapes(self, end: tuple[Fitted, bool]) -> list[Shape]:
        fitted, arrow = end
        baseline = min(self._baseline, self.box.bottom - fitted.below)
        if not arrow:
            return [fitted.at(self.box.x, baseline)]
        x = self.box.x
        return [*_arrow(x, baseline - fitted.cap / 2), fitted.at(x + ARROW + GAP, baseline)]

    def _small(self, text: str, width: float) -> Fitted | None:
        largest = max(NOTE_CAP, self.smallest)
        return fit(text, width=width, largest=largest, smallest=self.smallest) if text else None

    def _preferred(self, text: str, *, width: float, heights: Sequence[float], face: str) -> Fitted | None:
        """From the largest height down to the preferred, condensed if need be; then down to the smallest."""
        largest, preferred, smallest = heights
        largest = max(largest, smallest)
        if largest > preferred > smallest:
            first = fit(text, width=width, largest=largest, smallest=preferred, face=face)
            if first:
                return first
            largest = preferred
        return fit(text, width=width, largest=largest, smallest=smallest, face=face)


def _largest(text: str, height: float) -> float:
    """The cap height in a row: the usual share of it, less where the text reaches far up and down."""
    face = face_for(text, BOLD)
    above, below = reach(text, face)
    return min(STEM_SHARE * height, height * FACES[face].cap / (above + below))


def _baseline_in(row: Rectangle, text: Fitted, line: float = 0.0) -> float:
    """Capitals, with what is drawn below them, in the middle of the row; nothing beyond its edges."""
    middle = row.y + (row.height + text.cap - line) / 2
    return max(row.y + text.above, min(middle, row.bottom - max(line, text.below)))


def _arrow(x: float, y: float) -> list[Shape]:
    """To the right, as high as small letters."""
    tip, neck = x + ARROW, x + ARROW - 1.1
    return [
        Line(x1=x, y1=y, x2=neck, y2=y, width=0.35),
        Outline(runs=(((tip, y), (neck, y - 0.75), (neck, y + 0.75)),), closed=True, fill="#000000"),
    ]


def _stem(stem: Fitted, x: float, row: Rectangle) -> list[Shape]:
    """The number (or id) in the middle of its row, with a line below it where it would be misread upside down."""
    underlined = needs_underline(stem.text)
    below = UNDERLINE_REACH * stem.cap if underlined else 0.0
    baseline = _baseline_in(row, stem, below)
    shapes: list[Shape] = [stem.at(x, baseline)]
    if underlined:
        shapes.append(underline(stem, x + stem.width / 2, baseline, characters=len(stem.text)))
    return shapes
