"""One face of a flag: the head in large, its code letter in the function's block; below it, an end of the wire."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import LETTER_SHARE, code_block
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import UNDERLINE_REACH, Fitted, fit, reach, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Wire
from labelgen.standards.legibility import PREFERRED_MINUTES, READ_AT_MM, cap_height
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for

HEAD_SHARE = 0.6
"""Of a face's height; the end's name takes the rest."""
STEM_SHARE = 0.76
"""A number's cap height in its row: room is left for the line that keeps 6 from being read as 9."""
BLOCK_WIDTH, LONE_BLOCK_WIDTH = 0.95, 1.6
"""Of a code block, in heights of its row; a chain's block stands alone, and is broader where there is room."""
PREFERRED_HEAD, LEAST_HEAD, PREFERRED_END = 3.0, 2.2, 2.0
"""mm of cap height: a text is condensed before it becomes lower than preferred; a head that would be lower than the
least beside its block takes a row of its own above it."""
ROW_GAP = 0.3
HEAD_ROW = 0.405
"""Of a face's height, where the note has a row of its own."""
END_SHARE, LOW_END_SHARE, NOTE_CAP = 0.235, 0.2, 1.5
COMFORTABLE_END = cap_height(READ_AT_MM, PREFERRED_MINUTES)
"""1.75 mm of cap height: an end that would be lower beside its note has the row to itself."""
DIP = 0.02
"""Per em: what a low letter reaches below the face's descent."""
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


Form = Literal["line", "corner", "row", "small"]
"""Where the note stands: on the end's line; in the corner above a long end; on a row of its own; and once more on the
end's line, with the end as small as it may be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Set:
    """A face that is set."""

    head: float
    """Cap height of its head, in mm."""
    shapes: list[Shape]


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

    @property
    def note_width(self) -> float:
        note = self._small(self.note, self.box.width)
        return note.width + GAP if note else 0.0

    def in_form(self, form: Form, *, beside: float, all_said: bool) -> Set | None:
        """The face in one of the forms that `alike` tries; None when something does not fit so.

        `beside`: what a note in the corner leaves free beside the head. `all_said`: else a long end loses its note, if
        that is not needed, or its arrow.
        """
        for arrow, note in list(self._arrows_and_notes())[: 1 if all_said else None]:
            if form == "row":
                found = self._with_a_row_for_the_note(arrow=arrow, note=note)
            elif form == "corner":
                found = self._in_two_rows(arrow=arrow, note=note, least=COMFORTABLE_END, beside=beside)
                found = found or self._in_two_rows(
                    arrow=arrow, note=note, least=self.smallest, in_corner=True, beside=beside
                )
            else:
                least = COMFORTABLE_END if form == "line" else self.smallest
                found = self._in_two_rows(arrow=arrow, note=note, least=least)
            if found is not None:
                return found
        return None

    def _arrows_and_notes(self) -> Iterator[tuple[bool, Fitted | None]]:
        """From all there is to say down to what must be said."""
        small = self._small(self.note, self.box.width)
        if small is None and self.note and self.words.note_needed:
            return
        notes = (small, None) if small is not None and not self.words.note_needed else (small,)
        for arrow in (True, False) if self.words.leads_to else (False,):
            for note in notes:
                yield arrow, note

    def _in_two_rows(
        self, *, arrow: bool, note: Fitted | None, least: float, in_corner: bool = False, beside: float = 0.0
    ) -> Set | None:
        """Head and block, then the end, with the note at its right, or in the corner above it."""
        box = self.box
        row = Rectangle(box.x, box.y, box.width, HEAD_SHARE * box.height)
        taken = note.width + GAP if note and not in_corner else 0.0
        end = self._end(box.width - taken, arrow=arrow, least=least)
        baseline = self._baseline(end, row.bottom, reaching=note.below if note else 0.0) if end else None
        if end is None or baseline is None:
            return None
        head = self._head(replace(row, width=row.width - beside))
        if head is None:
            return None
        shapes = [*head.shapes, *self._end_shapes(end, baseline, arrow=arrow)]
        if note:
            y = row.y + note.above if in_corner else baseline
            shapes.append(note.at(box.right, y, anchor="end", colour=GREY))
        return replace(head, shapes=shapes)

    def _with_a_row_for_the_note(self, *, arrow: bool, note: Fitted | None) -> Set | None:
        """Head and block, then the end in the full width, and the note at the foot."""
        box, low = self.box, (FACES[REGULAR].descent + DIP) / FACES[REGULAR].cap
        cap = max(NOTE_CAP, self.smallest)
        foot = box.bottom - cap * low
        baseline = foot - cap - ROW_GAP / 2 - LOW_END_SHARE * box.height * low
        row = Rectangle(box.x, box.y, box.width, HEAD_ROW * box.height)
        end = self._end(box.width, arrow=arrow, least=self.smallest, share=LOW_END_SHARE)
        head = self._head(row)
        if end is None or head is None or baseline - end.above < row.bottom + ROW_GAP:
            return None
        notes = [note.at(box.right, foot, anchor="end", colour=GREY)] if note else []
        return replace(head, shapes=[*head.shapes, *self._end_shapes(end, baseline, arrow=arrow), *notes])

    def three_rows(self) -> list[Shape]:
        """Head in the full width, its block below it, then the end in the full width."""
        box = self.box
        top, middle = ROWS[0] * box.height, max(ROWS[1] * box.height, self.smallest / LETTER_SHARE + ROW_GAP)
        shapes: list[Shape] = []
        if not self.stem:
            top, middle = 0.0, top + middle
        else:
            clear = ROW_GAP if needs_underline(self.stem) else 0.0
            row = Rectangle(box.x, box.y, box.width, top - clear)
            largest = max(_largest(self.stem, row.height), self.smallest)
            stem = self.lettering.line(self.stem, width=box.width, largest=largest, face=BOLD)
            shapes += _stem(stem, box.x, row) if stem else ()
        shapes += self._block_row(Rectangle(box.x, box.y + top, box.width, middle - ROW_GAP))
        share = LOW_END_SHARE if self.stem else END_SHARE
        for arrow in (True, False) if self.words.leads_to else (False,):
            end = self._end(box.width, arrow=arrow, least=self.smallest, share=share)
            baseline = self._baseline(end, box.y + top + middle - ROW_GAP) if end else None
            if end and baseline is not None:
                return [*shapes, *self._end_shapes(end, baseline, arrow=arrow)]
        self.lettering.too_long(self.words.end)
        return shapes

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

    def _head(self, row: Rectangle) -> Set | None:
        """Stem, block, mark from the left; None when the stem would be too low."""
        usual, widest = (self._block_width(row.height, alone=alone) for alone in (False, not self.stem))
        block = max(usual, min(widest, row.width - GAP)) if self.function else 0.0
        room = row.width - block - (GAP if block and self.stem else 0) - (GAP / 2 if self.mark else 0)
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
        return Set(head=both.cap, shapes=shapes)

    def _block_width(self, height: float, *, alone: bool) -> float:
        letters = len(self.function.code) if self.function else 0
        return height * ((LONE_BLOCK_WIDTH if alone else BLOCK_WIDTH) + 0.4 * max(0, letters - 1))

    def _baseline(self, end: Fitted, top: float, *, reaching: float = 0.0) -> float | None:
        """Of the end's row: one and the same for all ends, with room below it for a g; lower for a text so high that
        it would reach above `top`; None when it would even at the face's edge. `reaching`: how far down the note goes.
        """
        face = FACES[REGULAR]
        usual = self.box.bottom - END_SHARE * self.box.height * (face.descent + DIP) / face.cap
        lowest = self.box.bottom - max(end.below, reaching)
        highest = top + end.cap
        return None if highest > lowest + 1e-9 else min(lowest, max(usual, highest))

    def _end(self, width: float, *, arrow: bool, least: float, share: float = END_SHARE) -> Fitted | None:
        """The end's name in what an arrow leaves of that width."""
        heights = (share * self.box.height, PREFERRED_END, max(least, self.smallest))
        return self._preferred(self.end, width=width - (ARROW + GAP if arrow else 0), heights=heights, face=REGULAR)

    def _end_shapes(self, end: Fitted, baseline: float, *, arrow: bool) -> list[Shape]:
        x = self.box.x
        if not arrow:
            return [end.at(x, baseline)]
        return [*_arrow(x, baseline - end.cap / 2), end.at(x + ARROW + GAP, baseline)]

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


@lru_cache(maxsize=256)
def _arrow(x: float, y: float) -> tuple[Shape, ...]:
    """To the right, as high as small letters; flags of one size share it."""
    tip, neck = x + ARROW, x + ARROW - 1.1
    return (
        Line(x1=x, y1=y, x2=neck, y2=y, width=0.35),
        Outline(runs=(((tip, y), (neck, y - 0.75), (neck, y + 0.75)),), closed=True, fill="#000000"),
    )


def _stem(stem: Fitted, x: float, row: Rectangle) -> list[Shape]:
    """The number (or id) in the middle of its row, with a line below it where it would be misread upside down."""
    underlined = needs_underline(stem.text)
    below = UNDERLINE_REACH * stem.cap if underlined else 0.0
    baseline = _baseline_in(row, stem, below)
    shapes: list[Shape] = [stem.at(x, baseline)]
    if underlined:
        shapes.append(underline(stem, x + stem.width / 2, baseline, characters=len(stem.text)))
    return shapes
