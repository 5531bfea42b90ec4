"""What is written beside a part of a back sheet: a line for each wire at each of its contacts. Millimetres."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from labelgen.drawings.back.parts import BackPart, Contact, Soldered
from labelgen.drawings.back.tabs import MINUS
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import Fitted, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Netlist
from labelgen.standards.colour_letters import letters_of
from labelgen.typefaces import BOLD, REGULAR

CAP = 1.75
"""Read at 400 mm, where a soldering iron is held: 15 minutes of arc (NUREG-0700 rev. 3, 1.3.1-4)."""
ROW_SHARE = 1.75
SWATCH = (4.6, 2.1)
GAP = 1.0
PAD = 0.5
ARROW = "\N{RIGHTWARDS ARROW}"
Cells = tuple[str, str, str, str, str]
"""Contact, colour's letters, head, wire number, where it goes."""
FACES = (BOLD, REGULAR, BOLD, REGULAR, REGULAR)


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockLine:
    contact: str
    first: bool
    """The first of its contact: a leader comes here."""
    function: Function
    cells: Cells


@dataclass(frozen=True, kw_only=True)
class Block:
    """The lines of one part, and above them, where no number stands on the part itself, what the part is called."""

    head: str
    lines: tuple[BlockLine, ...]
    look: Look

    @property
    def cap(self) -> float:
        return max(CAP, self.look.smallest_cap)

    @property
    def row(self) -> float:
        return ROW_SHARE * self.cap

    @cached_property
    def widths(self) -> list[float]:
        return [max((self._set(line.cells[i], i).width for line in self.lines), default=0.0) for i in range(5)]

    @property
    def size(self) -> tuple[float, float]:
        words = sum(width + GAP for width in self.widths if width) + SWATCH[0] if self.lines else 0.0
        head = self._set(self.head, 0).width if self.head else 0.0
        return max(words, head) + 2 * PAD, self.row * (len(self.lines) + bool(self.head)) + 2 * PAD

    def middle_of(self, contact: str) -> float:
        """How far down the first line of a contact has its middle."""
        index = next(i for i, line in enumerate(self.lines) if line.contact == contact)
        return PAD + self.row * (index + bool(self.head) + 0.5)

    @property
    def contacts(self) -> list[str]:
        return [line.contact for line in self.lines if line.first]

    def shapes(self) -> Iterator[Shape]:
        """From its own top left corner."""
        width, height = self.size
        yield Box(x=0, y=0, width=width, height=height, fill="#FFFFFF")
        y = PAD
        if self.head:
            yield self._set(self.head, 0).at(PAD, y + (self.row + self.cap) / 2)
            y += self.row
        for line in self.lines:
            yield from self._line(line, y)
            y += self.row

    def _line(self, line: BlockLine, y: float) -> Iterator[Shape]:
        x, baseline = PAD, y + (self.row + self.cap) / 2
        for index, width in enumerate(self.widths):
            if index == 1:
                yield from mark(line.function, Rectangle(x, y + (self.row - SWATCH[1]) / 2, *SWATCH), self.look)
                x += SWATCH[0] + GAP
            text = line.cells[index]
            if text and (index or line.first):
                yield self._set(text, index).at(x, baseline)
            x += width + GAP if width else 0

    def _set(self, text: str, index: int) -> Fitted:
        fitted = fit(text, width=1000, largest=self.cap, smallest=self.cap, face=FACES[index])
        assert fitted is not None  # there is room enough
        return fitted


def block_of(part: BackPart, netlist: Netlist, look: Look, lettering: Lettering) -> Block:
    """The block of a part: of a lever in the order of its tabs from top to bottom."""
    lamp = part.hole.use == "lamp"
    contacts = part.contacts if lamp else sorted(part.contacts, key=lambda c: (round(c.tab.at.y, 3), c.tab.at.x))
    lines = [
        BlockLine(
            contact=contact.tab.contact,
            first=index == 0,
            function=wire_function(netlist, soldered),
            cells=_cells(contact, soldered, lettering),
        )
        for contact in (*contacts, *part.loose)
        for index, soldered in enumerate(contact.wires)
    ]
    return Block(head=_head(part, lettering), lines=tuple(lines), look=look)


def _head(part: BackPart, lettering: Lettering) -> str:
    """Of what has no number above it, and is no screw."""
    if part.short or part.hole.part is None:
        return ""
    return lettering.known(f"{part.mark}  {part.hole.thing}", BOLD)


def _cells(contact: Contact, soldered: Soldered, lettering: Lettering) -> Cells:
    wire = soldered.wire
    letters = "".join(letters_of(wire.colour) or ())
    number, goes = lettering.known(str(wire.number), REGULAR), lettering.known(soldered.far.shown, REGULAR)
    resistor = f", {contact.resistor}" if contact.resistor and soldered is contact.wires[0] else ""
    tab, head = contact.tab.contact.replace("-", MINUS), lettering.known(wire.head, BOLD)
    return tab, letters, head, number, f"{ARROW} {goes}{resistor}"


def wire_function(netlist: Netlist, soldered: Soldered) -> Function:
    """How the wire is marked: its function, in the colour that this very wire has."""
    wire = soldered.wire
    return replace(netlist.functions[wire.function], colour=wire.colour)
