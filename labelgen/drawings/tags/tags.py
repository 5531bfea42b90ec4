"""QR tags: a strip's id, a symbol, what it leads to, and the strip's ways in words, because phones run flat.

Sizes are mm, from the tag's top left corner. With an address a strip has one symbol; further tags carry words alone.
Without, each tag holds its part of the schedule as plain text, and the words of the same ways.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from labelgen.drawings.tags.head import Column, Head, columns
from labelgen.drawings.tags.table import words_table
from labelgen.drawings.tags.text import (
    Part,
    address_problem,
    one_line,
    plain_address,
    schedule_text,
    split,
    strip_address,
)
from labelgen.drawings.text_fitting import fit
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape, Text
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist, StripPlan
from labelgen.problems import Problem
from labelgen.typefaces import missing_characters

CAUTION = "Extra-low voltage only"
LARGEST_FOOT = 1.5
FOOT_AIR = 1.5
"""Between the words and the foot line, mm."""


def tag_drawings(
    description: Description, netlist: Netlist, look: Look, cell: CellSize
) -> tuple[list[Drawing], list[Problem]]:
    """The tags of every strip, to fill cells of that size.

    Problems: label-too-large, text-does-not-fit, character-missing (at the strip), wrong-type (`schedule`),
    missing-key (`tags`).
    """
    wrong = address_problem(description)
    if wrong is not None:
        return [], [wrong]
    drawings: list[Drawing] = []
    problems: list[Problem] = []
    for strip in netlist.strips:
        for holds in _held(description):
            tags = _Tags(
                description=description, strip=strip, holds=holds, railway=netlist.railway, look=look, cell=cell
            )
            made = tags.drawings()
            drawings += made
            problems += tags.missing_characters(made) if made else [tags.problem()]
    return drawings, list(dict.fromkeys(problems))


def _held(description: Description) -> Sequence[str]:
    """`address`, `text`, or one after the other."""
    wanted = description.printing.tags or ("address" if description.schedule else "text")
    return ("address", "text") if wanted == "both" else (wanted,)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tags:
    """The tags of one strip that hold one kind of thing."""

    description: Description
    strip: StripPlan
    holds: str
    railway: str
    look: Look
    cell: CellSize

    def drawings(self) -> list[Drawing]:
        """On as few tags as hold the symbols and the words; none when not even one way fits a tag."""
        for count in range(1, len(self.strip.ways) + 1):
            made = self._series(count)
            if made:
                return made
        return []

    def problem(self) -> Problem:
        """Why there are no drawings."""
        single = split(self.strip, len(self.strip.ways))
        narrow = any(not list(self._columns(part)) for part in single)
        size = f"{self.cell.width:g} × {self.cell.height:g} mm"
        strip = self.strip.shown
        return Problem(
            code="label-too-large" if narrow else "text-does-not-fit",
            message=f"the tag of strip {strip} does not fit a label of {size}"
            if narrow
            else f"the ways of strip {strip} cannot be printed legibly on a label of {size}",
            hint="Choose a sheet with larger labels: `sheets: {tags: …}`. About 100 × 50 mm holds twelve ways.",
            place=self.description.place_of_key("strips", self.strip.id),
        )

    def missing_characters(self, drawings: Sequence[Drawing]) -> list[Problem]:
        """One for each text in which there would be empty boxes."""
        texts = [shape for drawing in drawings for shape in drawing.shapes if isinstance(shape, Text)]
        lacking = {text.text: missing for text in texts if (missing := missing_characters(text.text, text.face))}
        return [
            Problem(
                code="character-missing",
                message=f"{text!r} cannot be printed on the tag of strip {self.strip.shown}: our typefaces have no"
                f" {', '.join(f'{c!r} (U+{ord(c):04X})' for c in missing)}",
                hint="Write it in letters that they have (Latin, Greek, Cyrillic).",
                place=self.description.place_of_key("strips", self.strip.id),
            )
            for text, missing in lacking.items()
        ]

    def _series(self, count: int) -> list[Drawing]:
        """The ways on that many tags; none when one of them does not hold its ways."""
        made: list[Drawing] = []
        for part in split(self.strip, count):
            shapes = self._shapes(part)
            if shapes is None:
                return []
            made.append(self._drawing(part, shapes))
        return made

    def _drawing(self, part: Part, shapes: list[Shape]) -> Drawing:
        return Drawing(
            width=self.cell.width,
            height=self.cell.height,
            shapes=tuple(shapes),
            name=" ".join(filter(None, ("tag", self.strip.shown, part.words))),
            place=self.description.place_of("strips", self.strip.id),
            board=self.strip.board,
            label=self.strip.id,
        )

    def _shapes(self, part: Part) -> list[Shape] | None:
        """With the largest symbol that leaves room for the words; the foot line only where there is room for it too."""
        for column in self._columns(part):
            for foot in (self._foot(column), []):
                height = column.words.height - (FOOT_AIR + LARGEST_FOOT if foot else 0)
                box = Rectangle(column.words.x, column.words.y, column.words.width, height)
                words = words_table(part, box, self.look.smallest_cap)
                if words is not None:
                    return [*column.shapes, *words, *foot]
        return None

    def _columns(self, part: Part) -> Iterator[Column]:
        return columns(self._head(part), self.cell, self.look)

    def _head(self, part: Part) -> Head:
        head = Head(title=one_line(self.strip.shown), notes=self._notes(), part=part.words)
        if self.holds == "text":
            return replace(head, holds=schedule_text(part, self.railway), caption="Scan for these ways as text")
        if part.index > 1:
            return head
        schedule = self.description.schedule
        return replace(
            head,
            holds=strip_address(schedule, self.strip.id),
            caption="Scan for its schedule",
            address=plain_address(schedule, self.strip.id).partition("://")[2],
        )

    def _notes(self) -> tuple[str, ...]:
        """The strip's name, its board, and the supplies whose chains land on it."""
        strip = self.description.strips.get(self.strip.id)
        board = self.description.boards.get(self.strip.board or "")
        said = (
            one_line(strip.name if strip else ""),
            one_line(board.name or board.shown or f"Board {self.strip.board}") if board else "",
            f"Fed by {one_line(', '.join(self.strip.supplies))}" if self.strip.supplies else "",
        )
        return tuple(filter(None, said))

    def _foot(self, column: Column) -> list[Shape]:
        """The railway and a caution, at the bottom under the words; nothing where the line is too long."""
        smallest = self.look.smallest_cap
        width, largest = column.words.width, max(LARGEST_FOOT, smallest)
        choices = (f"{one_line(self.railway)} · {CAUTION}", CAUTION)
        lines = filter(None, (fit(said, width=width, largest=largest, smallest=smallest) for said in choices))
        return [line.at(column.words.right, column.words.bottom, anchor="end") for line in islice(lines, 1)]
