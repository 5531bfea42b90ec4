"""Self-laminating wraps: a colour ring and lines along the wire, again and again around it, on the white part alone.

The label's upper edge is laid along the wire and the label wound on: the white first, the clear tail over it. Only the
last turn of the white stays in sight, so its lines fill the whole white; what is wound below does not matter, and a
wire that is a little thicker than usual does no harm. The heads at the right stand between the lines, so that from
nearly every side a head is seen whole.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import floor

from labelgen.drawings.flags.lines import FlagLine, Said, largest
from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.drawings.flags.wires import board_of, diameter_mm, in_own_colour, label_of, number_text
from labelgen.drawings.flags.wrap_fit import wrap_problems, wrap_suits
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.moving import moved
from labelgen.drawings.turning import upwards
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Netlist, Wire
from labelgen.model.sheet import Stock
from labelgen.problems import Problem
from labelgen.standards.legibility import PREFERRED_MINUTES, READ_AT_MM, cap_height
from labelgen.standards.wraps import print_circumference_mm, seen_mm
from labelgen.typefaces import BOLD, REGULAR

EDGE, TAIL_EDGE = 0.6, 0.6
"""mm of white kept free at the top and at the clear tail, for the printer's drift."""
SIDE = 1.0
RING, RING_GAP = 2.3, 0.9
"""The colour ring at the end that lies next to the screw, and what stands free behind it."""
COLUMN_GAP, HEAD_GAP = 0.4, 1.1
"""Beside the room that follows every word; and between two heads."""
LEADING = 0.45
"""In cap heights, between the ink of two lines."""
AIR = 0.6
"""In cap heights, between two blocks around a thick wire, at least."""
PREFERRED, LARGEST = cap_height(READ_AT_MM, PREFERRED_MINUTES), 3.0
HAIR = 1e-6


def wrap_drawings(
    description: Description, netlist: Netlist, look: Look, stock: Stock, stocks: Sequence[Stock] = ()
) -> tuple[list[Drawing], list[Problem]]:
    """Wraps in order of work, each as large as a label of the stock, with ink on its white part alone; mm, unwound.

    `stocks`: those that a hint may name. Problems: flag-unsuited, text-does-not-fit, character-missing.
    """
    flags = in_order_of_work(netlist, "wrap")
    problems = dict.fromkeys(wrap_problems(description, [flag.wire for flag in flags], look, stock, stocks))
    drawings: list[Drawing] = []
    for flag in flags:
        if wrap_suits(diameter_mm(flag.wire), stock, look):
            drawing, found = _wrap(description, netlist, look, flag, stock)
            drawings.append(drawing)
            problems.update(dict.fromkeys(found))
    return drawings, list(problems)


WORTH_A_LINE = 0.9
"""Of the height of a capital: so much is left of it for a line more, where the gap between two would hold one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Zone:
    """The white part of a label around a wire."""

    lines: Rectangle
    """Where lines may stand."""
    around: float
    """What of it lies outside once it is wound."""
    seen: float
    """How much of that is seen from one side."""


def _wrap(
    description: Description, netlist: Netlist, look: Look, flag: FlagEnd, stock: Stock
) -> tuple[Drawing, list[Problem]]:
    wire, white = flag.wire, stock.print_zone or 0.0
    name = f"wrap {wire.head} at {flag.end.shown}"
    lettering = Lettering(
        label=name, place=description.place_of(*wire.path), look=look,
        hint="Give it a shorter `shown:`, or choose another form of flag for this wire.",
    )  # fmt: skip
    ring = Rectangle(SIDE, EDGE, RING, white - EDGE - TAIL_EDGE)
    left = ring.right + RING_GAP
    zone = _Zone(
        lines=Rectangle(left, ring.y, stock.width - SIDE - left, ring.height),
        around=print_circumference_mm(diameter_mm(wire), white),
        seen=seen_mm(diameter_mm(wire), white),
    )
    function = in_own_colour(wire, netlist.functions.get(wire.function))
    shapes = [*_ring(function, ring, look), *_lines(flag, zone, lettering)]
    drawing = Drawing(
        width=stock.width, height=stock.height, shapes=tuple(shapes), name=name, place=lettering.place,
        board=board_of(netlist, flag), label=label_of(netlist, flag),
    )  # fmt: skip
    return drawing, lettering.problems


def _ring(function: Function | None, ring: Rectangle, look: Look) -> list[Shape]:
    return mark(function, ring, look) if function else []


def _lines(flag: FlagEnd, zone: _Zone, lettering: Lettering) -> list[Shape]:
    parts = said_of(flag, lettering)
    return _around(parts, zone, lettering) or _along(parts, zone, lettering)


def said_of(flag: FlagEnd, lettering: Lettering) -> tuple[Said, Said, Said, Said]:
    """Head, the end it is at, the end it leads to, number."""
    wire: Wire = flag.wire
    return (
        Said(text=lettering.known(wire.head, BOLD), bold=True),
        Said(text=lettering.known(flag.end.shown, REGULAR)),
        Said(text=lettering.known(flag.far.shown, REGULAR), arrow=True),
        Said(text=lettering.known(number_text(wire), REGULAR)),
    )


def _along(parts: tuple[Said, Said, Said, Said], zone: _Zone, lettering: Lettering) -> list[Shape]:
    """Two lines again and again, and the head alone at their right, between the lines.

    Once or twice, as a head is then whole from more sides; where words are too long for that, without further heads;
    then on three lines.
    """
    head, near, far, number = parts
    two = (FlagLine(said=(head, near, number)), FlagLine(said=(head, far)))
    three = (FlagLine(said=(head, number)), FlagLine(said=(near,)), FlagLine(said=(far,)))
    there = replace(far, arrow=False), replace(near, arrow=True)
    mirrored = FlagLine(said=(head, there[0], number)), FlagLine(said=(head, there[1]))
    alone = FlagLine(said=(head,))
    forms = (
        [_Columns(lines=two, mirrored=mirrored, head=alone, heads=heads) for heads in (1, 2)],
        [_Columns(lines=two, mirrored=mirrored, head=alone)],
        [_Columns(lines=three, mirrored=[FlagLine(said=(each,)) for each in there], head=alone)],
    )
    for alike in forms:
        sized = [(form, form.sized(zone, lettering.smallest)) for form in alike]
        found = [(form, size) for form, size in sized if size is not None]
        if found:
            form, size = min(found, key=lambda one: one[0].blind(zone, one[1][0]))
            return list(form.shapes(zone, *size))
    lettering.too_long(max((said.text for said in parts), key=len))
    return []


@dataclass(frozen=True, slots=True, kw_only=True)
class _Columns:
    """What is said again and again around the wire."""

    lines: Sequence[FlagLine]
    mirrored: Sequence[FlagLine]
    """Those of the flag at the wire's other end, which is to be of the same size."""
    head: FlagLine
    heads: int = 0
    """How often the head stands at the right of the lines, each time a part of a line higher."""

    def sized(self, zone: _Zone, smallest: float) -> tuple[float, float] | None:
        """Cap height and stretch; None where the words are too long, or not all lines come to lie outside."""
        outside = min(zone.around - TAIL_EDGE, zone.lines.height)
        most = min(LARGEST, outside / (self._tall + (len(self.lines) - 1) * self._step))
        if self.heads:
            most = min(most, zone.seen / (1 + self._step / (self.heads + 1)))
        if most < smallest:
            return None
        # larger than what is read well only as far as a head is whole on either side of the seam as well
        most = min(most, max(PREFERRED, (zone.seen - TAIL_EDGE) / 2))
        beside = [FlagLine(said=(*line.said, *self.head.said * self.heads)) for line in (*self.lines, *self.mirrored)]
        width = zone.lines.width - self.heads * COLUMN_GAP
        found = largest(beside, width=width, most=most, least=smallest)
        closer = 0.0 if found is None or self.heads else self._with_a_line_more(zone, found[0])
        return found if closer < smallest else largest(beside, width=width, most=closer, least=smallest)

    def _with_a_line_more(self, zone: _Zone, cap: float) -> float:
        """The cap height with which one more line stands around the wire, where it costs little; else 0."""
        lines = _times(self._turn(zone, cap), self._step * cap)
        less = (self._turn(zone, cap) + self._tall * cap) / (self._tall + lines * self._step)
        return less if lines == len(self.lines) and less > WORTH_A_LINE * cap else 0.0

    def shapes(self, zone: _Zone, cap: float, stretch: float) -> Iterator[Shape]:
        """From the clear tail upwards, evenly over the white."""
        lowest = zone.lines.bottom - self._ink[1] * cap
        span = lowest - zone.lines.y - self._ink[0] * cap
        step = self._even_step(zone, cap)
        for row in range(_times(span, step)):
            line = self.lines[row % len(self.lines)]
            yield from line.shapes(zone.lines.x, lowest - row * step, cap, stretch)
        width = self.head.width(cap, stretch)
        for column in range(1, self.heads + 1):
            x = zone.lines.right - width - (self.heads - column) * (width + HEAD_GAP)
            lifted = column * step / (self.heads + 1)
            for row in range(_times(span - lifted, step)):
                yield from self.head.shapes(x, lowest - lifted - row * step, cap, stretch)

    def blind(self, zone: _Zone, cap: float) -> float:
        """How much of what lies outside can be turned to the eye, about the seam, without a whole head: mm."""
        step = self._even_step(zone, cap) / (self.heads + 1)
        before = self._turn(zone, cap) % step if self._turn(zone, cap) % step < step - HAIR else 0.0
        return max(0.0, 2 * cap + TAIL_EDGE + before - zone.seen)

    def _even_step(self, zone: _Zone, cap: float) -> float:
        """So that a head begins where the outer turn does, if heads are then seen whole from nearly every side.

        Wherever one looks, seam aside, a head begins within a step of the columns: cap + step / columns ≤ seen.
        """
        columns, least, turn = self.heads + 1, self._step * cap, self._turn(zone, cap)
        even = columns * turn / max(1, floor(columns * turn / least + HAIR))
        outside = turn / (len(self.lines) - 1)
        seen = columns * (zone.seen - cap) if self.heads else even
        return max(least, min(even, outside, seen))

    def _turn(self, zone: _Zone, cap: float) -> float:
        """From the first baseline to the last of the outer turn at most."""
        return min(zone.around - TAIL_EDGE, zone.lines.height) - self._tall * cap

    @property
    def _ink(self) -> tuple[float, float]:
        """How far the lines reach above and below their baselines, in cap heights."""
        lines = (*self.lines, *self.mirrored, self.head)
        return max(line.rises() for line in lines), max(line.dips() for line in lines)

    @property
    def _tall(self) -> float:
        return sum(self._ink)

    @property
    def _step(self) -> float:
        """From line to line at least, in cap heights."""
        return self._tall + LEADING


def _times(span: float, step: float) -> int:
    """How many lines there are on a span between the first baseline and the last."""
    return floor(span / step + HAIR) + 1 if span >= -HAIR else 0


def _around(parts: tuple[Said, Said, Said, Said], zone: _Zone, lettering: Lettering) -> list[Shape]:
    """Around a thick wire, where all its words are seen whole from one side: square to the wire, and read like a flag.

    Nothing where they are not.
    """
    lines = [FlagLine(said=(said,)) for said in parts]
    longest = max(line.width(1.0, 1.0) for line in lines)
    once, twice = min(zone.seen, zone.lines.height) / longest, zone.lines.height / (2 * longest + AIR)
    cap = min(LARGEST, once, twice if twice >= PREFERRED else once)
    tall = cap * sum(line.rises() + line.dips() for line in lines)
    if cap < max(PREFERRED, lettering.smallest) or tall + (len(lines) - 1) * LEADING * cap > zone.lines.width:
        return []
    leading = min(2 * AIR * cap, (zone.lines.width - tall) / (len(lines) - 1))
    block: list[Shape] = []
    top = 0.0
    for line in lines:
        block += line.shapes(0.0, top + line.rises() * cap, cap, 1.0)
        top += (line.rises() + line.dips()) * cap + leading
    size = (top - leading, longest * cap)
    return list(_again_and_again(upwards(block, size[1]), size, cap, zone.lines))


def _again_and_again(block: Sequence[Shape], size: tuple[float, float], cap: float, room: Rectangle) -> Iterator[Shape]:
    """The block as often as there is room for it, from the ring and from the clear tail on, evenly."""
    width, height = size
    for x in _even(room.width, width, 2 * AIR * cap):
        for y in _even(room.height, height, AIR * cap):
            yield from moved(block, room.x + x, room.bottom - height - y)


def _even(room: float, length: float, gap: float) -> list[float]:
    """Where equal lengths begin, as many as fit with at least that gap between them, from the one end to the other."""
    count = max(1, floor((room + gap) / (length + gap) + HAIR))
    return [index * (room - length) / max(1, count - 1) for index in range(count)]
