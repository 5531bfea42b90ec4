"""Slips for sleeves: once around the wire, two lines along it, a colour ring at the end next to the screw.

A slip is curled round the wire under a clear sleeve that shrinks on it. Both go on before the ferrule: nothing passes
over that.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.flags.lines import FlagLine, Said, largest
from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.drawings.flags.wires import board_of, diameter_mm, form_place, in_own_colour, label_of
from labelgen.drawings.flags.wrap_fit import named, tenths
from labelgen.drawings.flags.wrap_flags import said_of
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist, Wire
from labelgen.problems import Problem
from labelgen.standards.legibility import PREFERRED_MINUTES, READ_AT_MM, cap_height
from labelgen.standards.sleeves import around_mm, bore_for, sleeved_wires_mm

USUAL, LONG = (10.0, 12.0, 15.0), (20.0, 25.0, 30.0)
"""mm: 10 to 15 is common practice, no source; longer only where names are. Few lengths, for the knife's sake."""
RING, RING_GAP, RIGHT = 2.0, 0.9, 0.8
EDGE, LEADING = 0.3, 0.25
"""mm free above and below the lines, and between them, at least."""
PREFERRED, LARGEST_HEAD, LARGEST_END = cap_height(READ_AT_MM, PREFERRED_MINUTES), 3.0, 2.0
SHARES = (1.35, 1.2, 1.1, 1.0)
"""How much higher the head is than the ends, where there is room."""
NUMBER_GAP = 1.0
"""Before the number, in cap heights, as behind every head."""
TALL = 1.11
"""Of a line without low letters: its ink, in cap heights."""
HAIR = 1e-9


def sleeve_drawings(description: Description, netlist: Netlist, look: Look) -> tuple[list[Drawing], list[Problem]]:
    """Slips in order of work, uncurled: as long as their words ask for, and as high as the wire is around (π × d).

    Problems: flag-unsuited, text-does-not-fit, character-missing.
    """
    flags = in_order_of_work(netlist, "sleeve")
    drawings: list[Drawing] = []
    problems = dict.fromkeys(sleeve_problems(description, [flag.wire for flag in flags], look))
    for flag in flags:
        if not sleeve_suits(diameter_mm(flag.wire), look):
            continue
        drawing, found = _slip(description, netlist, look, flag)
        drawings.append(drawing)
        problems.update(dict.fromkeys(found))
    return drawings, list(problems)


def sleeve_problems(description: Description, wires: Sequence[Wire], look: Look) -> list[Problem]:
    """One for each thickness of wire that no sleeve suits. flag-unsuited."""
    unsuited: dict[float, dict[int | str, Wire]] = {}
    for wire in wires:
        if not sleeve_suits(diameter_mm(wire), look):
            unsuited.setdefault(diameter_mm(wire), {})[wire.number] = wire
    return [_unsuited(description, list(found.values()), look) for _, found in sorted(unsuited.items())]


def sleeve_suits(wire_mm: float, look: Look) -> bool:
    return bore_for(wire_mm) is not None and around_mm(wire_mm) >= _lowest(look)


def _lowest(look: Look) -> float:
    """One line of the smallest text."""
    return TALL * look.smallest_cap + 2 * EDGE


def _unsuited(description: Description, wires: Sequence[Wire], look: Look) -> Problem:
    thin, thick = sleeved_wires_mm()
    least = max(thin, _lowest(look) / around_mm(1.0))
    return Problem(
        code="flag-unsuited",
        message=f"{named(wires)} {diameter_mm(wires[0]):.1f} mm thick; sleeves that can be read go over wires "
        f"of {tenths(least, up=True)} to {tenths(thick, up=False)} mm",
        hint="Write `flags: fold` at its function or at the wire.",
        place=form_place(description, wires[0]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Size:
    """Of a slip's two lines, or of its one."""

    length: float
    head: float
    ends: float
    """Cap heights; `head` 0: all on one line."""
    stretch: float


def _slip(description: Description, netlist: Netlist, look: Look, flag: FlagEnd) -> tuple[Drawing, list[Problem]]:
    wire, height = flag.wire, around_mm(diameter_mm(flag.wire))
    name = f"sleeve {wire.head} at {flag.end.shown}"
    lettering = Lettering(
        label=name, place=description.place_of(*wire.path), look=look,
        hint="Give it a shorter `shown:`, or choose another form of flag for this wire.",
    )  # fmt: skip
    words = _Words(*said_of(flag, lettering))
    size = words.sized(height, lettering.smallest)
    if size is None:
        lettering.too_long(words.longest)
    function = in_own_colour(wire, netlist.functions.get(wire.function))
    ring = mark(function, Rectangle(0, 0, RING, height), look) if function else []
    drawing = Drawing(
        width=size.length if size else LONG[-1], height=height,
        shapes=(*ring, *(words.shapes(size, height) if size else ())),
        name=name, place=lettering.place, board=board_of(netlist, flag), label=label_of(netlist, flag),
    )  # fmt: skip
    return drawing, lettering.problems


class _Words:
    """The head with the number at its right, and below it both ends; or, on a thin wire, all on one line."""

    def __init__(self, head: Said, near: Said, far: Said, number: Said) -> None:
        self.head, self.number = FlagLine(said=(head,)), FlagLine(said=(number,))
        self.first_line = FlagLine(said=(head, number))
        self.ends = FlagLine(said=(near, far))
        self.one_line = FlagLine(said=(head, near, far, number))
        self.longest = max((head.text, near.text, far.text, number.text), key=len)

    def sized(self, height: float, smallest: float) -> _Size | None:
        """On the shortest usual length on which they are read well; else as well as they can be, then longer."""
        for length, least in [
            *((length, max(PREFERRED, smallest)) for length in USUAL),
            *((length, smallest) for length in (*USUAL, *LONG)),
        ]:
            for share in SHARES:
                size = self._two_lines(length, height, share, least)
                if size is not None:
                    return size
        one_line = (self._one_line(length, height, smallest) for length in (*USUAL, *LONG))
        return next((size for size in one_line if size is not None), None)

    def _two_lines(self, length: float, height: float, share: float, least: float) -> _Size | None:
        """`share`: how much higher the head is than the ends, where there is room for it."""
        tall = share * _ink(self.head) + _ink(self.ends)
        most = min(LARGEST_END, LARGEST_HEAD / share, (height - LEADING - 2 * EDGE) / tall)
        width = length - RING - RING_GAP - RIGHT
        lines = [self.first_line, self.ends]
        sized = largest(lines, width=width, most=most, least=least) if most >= least - HAIR else None
        if sized is None:
            return None
        ends, stretch = sized
        room = width - self.number.width(ends, stretch) - NUMBER_GAP * ends
        head = min(share * ends, ends * room / self.head.width(ends, stretch))
        return _Size(length=length, head=head, ends=ends, stretch=stretch)

    def _one_line(self, length: float, height: float, smallest: float) -> _Size | None:
        most = min(LARGEST_END, (height - 2 * EDGE) / _ink(self.one_line))
        width = length - RING - RING_GAP - RIGHT
        sized = largest([self.one_line], width=width, most=most, least=smallest) if most >= smallest - HAIR else None
        return sized and _Size(length=length, head=0.0, ends=sized[0], stretch=sized[1])

    def shapes(self, size: _Size, height: float) -> Iterator[Shape]:
        x = RING + RING_GAP
        if not size.head:
            low = height - EDGE - self.one_line.dips() * size.ends
            yield from self.one_line.shapes(x, min(low, (height + size.ends) / 2), size.ends, size.stretch)
            return
        upper, lower = self._baselines(size, height)
        yield from self.head.shapes(x, upper, size.head, size.stretch)
        right = size.length - RIGHT - self.number.width(size.ends, size.stretch)
        yield from self.number.shapes(right, upper, size.ends, size.stretch)
        yield from self.ends.shapes(x, lower, size.ends, size.stretch)

    def _baselines(self, size: _Size, height: float) -> tuple[float, float]:
        """Capitals with as much free above as below, and no more between; nothing beyond the edges."""
        air = max(EDGE, (height - size.head - size.ends) / 3)
        lower = min(height - air, height - EDGE - self.ends.dips() * size.ends)
        between = self.head.dips() * size.head + LEADING + self.ends.rises() * size.ends
        return min(max(air + size.head, EDGE + self.head.rises() * size.head), lower - between), lower


def _ink(line: FlagLine) -> float:
    """From the top of a line's ink to its foot, in cap heights."""
    return line.rises() + line.dips()
