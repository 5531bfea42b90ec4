"""The ways part of a strip marker: one cell for each way, exactly its pitch wide."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.markers.bridges import LANE, Bridge, bridge_shapes, lanes_height
from labelgen.drawings.markers.holes import REACH, hole_cross
from labelgen.drawings.markers.meter_sign import SIGN, meter_sign
from labelgen.drawings.markers.rows import SAFE, WORTH_TURNING, Row, narrowed, row_of
from labelgen.drawings.markers.swap_sign import swap_sign
from labelgen.drawings.text_fitting import centred, fit_in, fit_lines, stacked
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Function, Netlist, Side, WayPlan
from labelgen.typefaces import BOLD, REGULAR, missing_characters

HEIGHT = 10.0
NUMBER_TOP, NUMBER_BOTTOM, HEAD_TOP, HEAD_BOTTOM, BAND_TOP = 0.35, 2.4, 3.0, 7.25, 7.5
"""mm from the block's edge of the marker (0) to its wires' edge (10)."""
LANES_TOP, LOWEST = 2.5, 9.4
"""Where the bars of bridges begin; where words end that have the whole cell."""
NUMBER_CAP, HEAD_CAP, WORDS_CAP, KEPT_CAP = 1.55, 3.25, 2.0, 1.6
CROSSED = 2.0
DIGIT = 1.0
"""What a digit of a way's number takes at least, in cap heights."""
NUMBER_ROOM = 3.2
"""mm for a way's number in the middle of its cell."""
DIVIDER = 0.15
GREY, FAINT = "#4d4d4d", "#9a9a9a"


def height_of(bridges: Sequence[Bridge], higher: float, scale: float) -> float:
    """Of a marker with those bridges, in mm; `higher`: what its heads need more than on the usual one."""
    return (HEIGHT + lanes_height(bridges)) * scale + higher


def head_room(pitch: float, scale: float) -> Rectangle:
    """Of a head in its cell, on the usual marker."""
    return Rectangle(0, 0, pitch, (HEAD_BOTTOM - HEAD_TOP) * scale)


class Cells:
    """Cells from left to right as the marker is read; the first one starts at `start` mm."""

    def __init__(
        self,
        *,
        netlist: Netlist,
        look: Look,
        lettering: Lettering,
        pitch: float,
        side: Side,
        ways: Sequence[WayPlan],
        bridges: Sequence[Bridge],
        holes: Sequence[float],
        start: float,
        scale: float,
        higher: float,
        wires_below: bool,
    ) -> None:
        """`holes`: x of the strip's fixing holes, those that lie among the cells. `higher`: as `height_of` has it."""
        self.netlist, self.look, self.lettering, self.side, self.ways = netlist, look, lettering, side, ways
        self.pitch, self.start, self.scale, self.wires_below = pitch, start, scale, wires_below
        self.bridges, self.holes = bridges, holes
        self.lanes, self.higher = lanes_height(self.bridges), higher / scale
        self.height = HEIGHT + self.lanes + self.higher
        self.numbers = self._row(REGULAR, NUMBER_CAP, self._number_box, lambda way: str(way.number))
        self.heads = self._row(
            BOLD, HEAD_CAP, self._head_box, lambda way: way.head if way.state == "used" else "", look.head_cap
        )

    def shapes(self) -> Iterator[Shape]:
        length, height = self.pitch * len(self.ways), self.height * self.scale
        yield Box(x=self.start, y=0, width=length, height=height, fill="#ffffff")
        for index, way in enumerate(self.ways):
            yield from self._cell(index, way)
        for index in range(1, len(self.ways)):
            x = self.start + index * self.pitch
            yield Line(x1=x, y1=0, x2=x, y2=height, width=DIVIDER, colour=GREY)
        yield from self._bridges()
        row = self._stretch(0, NUMBER_TOP, NUMBER_BOTTOM)
        for x in self.holes:
            yield from hole_cross(x, row.y + row.height / 2, self.scale)

    def _cell(self, index: int, way: WayPlan) -> Iterator[Shape]:
        number = str(way.number)
        yield from self._text(number, self._number_box(index), self.numbers, len(number))
        if way.test:
            yield from meter_sign(self._sign_box(index), self.scale)
        if way.state == "used":
            yield from self._used(index, way)
        elif way.state == "taken":
            yield from self._words(way.head, self._below_number(index))
        elif way.state == "kept":
            yield from self._kept(index, way)
        else:
            yield from self._spare(index, way)

    def _used(self, index: int, way: WayPlan) -> Iterator[Shape]:
        band = self._lower(index, BAND_TOP + self.higher, HEIGHT + self.higher)
        if (function := self.netlist.functions.get(way.function)) is not None:
            yield from mark(self._in_own_colour(function, way), band, self.look)
        if way.swap_with:
            yield from swap_sign(str(way.swap_with), band, smallest=self.lettering.smallest, scale=self.scale)
        yield from self._head(way, self._head_box(index))

    def _in_own_colour(self, function: Function, way: WayPlan) -> Function:
        """The function's pattern in the colour of the wires that land here, where that is one and the same."""
        colours = {wire.colour for wire in way.entry(self.side)}
        return replace(function, colour=colours.pop()) if len(colours) == 1 and "" not in colours else function

    def _bridges(self) -> Iterator[Shape]:
        if not self.bridges:
            return
        middles = {way.number: self.start + (index + 0.5) * self.pitch for index, way in enumerate(self.ways)}
        ends = (self.start, self.start + self.pitch * len(self.ways))
        rising = self.ways[0].number <= self.ways[-1].number
        first = LANES_TOP + LANE / 2
        y, down = (first, LANE) if self.wires_below else (self.height - first, -LANE)
        yield from bridge_shapes(
            self.bridges, middles, ends if rising else ends[::-1], y=y * self.scale, lane=down * self.scale
        )

    def _stretch(self, index: int, top: float, bottom: float) -> Rectangle:
        """A part of one cell, given from its block's edge (0) on."""
        y = top if self.wires_below else self.height - bottom
        return Rectangle(self.start + index * self.pitch, y * self.scale, self.pitch, (bottom - top) * self.scale)

    def _lower(self, index: int, top: float, bottom: float) -> Rectangle:
        """A part of one cell below its number, given as if there were no bridges, which push it down."""
        return self._stretch(index, top + self.lanes, bottom + self.lanes)

    def _number_box(self, index: int) -> Rectangle:
        """The middle of the row, or, where that is taken, what a fixing hole and a test point's sign leave of it."""
        row = self._stretch(index, NUMBER_TOP, NUMBER_BOTTOM)
        reach = REACH * self.scale
        taken = [(x - reach, x + reach) for x in self.holes if row.x - reach < x < row.right + reach]
        if self.ways[index].test:
            sign = self._sign_box(index)
            taken.append((sign.x, sign.right))
        return _free_part(row, taken, NUMBER_ROOM * self.scale)

    def _sign_box(self, index: int) -> Rectangle:
        """Of a test point's sign: the right end of the row.

        The left one where a fixing hole is at the right, if the way's number has room between them.
        """
        row, wide = self._stretch(index, NUMBER_TOP, NUMBER_BOTTOM), SIGN * self.scale
        reach, digits = REACH * self.scale, len(str(self.ways[index].number))
        free = [x - reach - row.x - wide for x in self.holes if row.right - wide - reach < x < row.right + reach]
        at_left = bool(free) and free[0] >= digits * DIGIT * self.lettering.smallest
        return Rectangle(row.x if at_left else row.right - wide, row.y, wide, row.height)

    def _head_box(self, index: int) -> Rectangle:
        return self._lower(index, HEAD_TOP, HEAD_BOTTOM + self.higher)

    def _below_number(self, index: int) -> Rectangle:
        return narrowed(self._lower(index, HEAD_TOP, LOWEST + self.higher), SAFE)

    def _row(
        self,
        face: str,
        largest: float,
        box: Callable[[int], Rectangle],
        text_of: Callable[[WayPlan], str],
        wanted: float = 0.0,
    ) -> Row:
        largest = max(largest * self.scale, self.lettering.smallest)
        texts = [(text, box(index)) for index, way in enumerate(self.ways) if (text := text_of(way))]
        return row_of(texts, face=face, largest=largest, smallest=self.lettering.smallest, wanted=wanted)

    def _head(self, way: WayPlan, box: Rectangle) -> list[Shape]:
        """In one line; where that could not be read, its number or id over its code letter."""
        first, second = way.stem, way.head.removeprefix(way.stem)
        inside = narrowed(box, self.heads.margin)
        smallest, turn = self.lettering.smallest, self.heads.turn
        known = self.lettering.known(way.head, BOLD)
        one_line = fit_in(
            known, inside, largest=self.heads.cap, smallest=smallest, face=BOLD, underline=True, turn=turn
        )
        if one_line is not None or not (first and second) or known != way.head:
            return self._text(way.head, box, self.heads, len(way.stem))
        lines = fit_lines(f"{first} {second}", width=inside.width, height=inside.height, largest=self.heads.cap,
                          smallest=smallest, face=BOLD)  # fmt: skip
        if not lines or [line.text for line in lines] != [first, second]:
            return self._text(way.head, box, self.heads, len(way.stem))
        return stacked(lines, inside)

    def _text(self, text: str, box: Rectangle, row: Row, digits: int) -> list[Shape]:
        """A text in its box; its first digits are underlined when upside down they would be another number."""
        box = narrowed(box, row.margin)
        underlined = digits if needs_underline(text[:digits]) else 0
        wanted = self.look.head_cap if row is self.heads else 0.0
        fitted = self.lettering.inside(text, box, largest=row.cap, face=row.face, turn=row.turn, wanted=wanted)
        if fitted is None:
            return []
        return centred(fitted, box, underlined=underlined, room_for_line=True, turn=row.turn)

    def _words(self, text: str, box: Rectangle) -> list[Shape]:
        """The builder's own words for what has taken the way."""
        known = self.lettering.known(text, REGULAR)
        shapes = self._set(known, box)
        if known and not shapes:
            self.lettering.too_long(text)
        return shapes

    def _set(self, text: str, box: Rectangle, *, cap: float = WORDS_CAP, colour: str = "#000000") -> list[Shape]:
        """Words over one or more lines: level, or upwards where that is clearly larger; none that cannot be read."""
        smallest = self.lettering.smallest
        largest = max(cap * self.scale, smallest)
        level = fit_lines(text, width=box.width, height=box.height, largest=largest, smallest=smallest)
        upright = fit_lines(text, width=box.height, height=box.width, largest=largest, smallest=smallest)
        if level and (not upright or upright[0].cap <= WORTH_TURNING * level[0].cap):
            return stacked(level, box, colour=colour)
        return stacked(upright, box, colour=colour, turn=-90) if upright else []

    def _kept(self, index: int, way: WayPlan) -> Iterator[Shape]:
        """A crossed box, as at a plug's pin that is kept empty, and the words below it."""
        side = min(CROSSED * self.scale, 0.6 * self.pitch)
        room = self._lower(index, HEAD_TOP, HEAD_TOP + CROSSED)
        yield from _crossed_box(room, side)
        words = narrowed(self._lower(index, HEAD_TOP + CROSSED + 0.4, LOWEST + self.higher), SAFE)
        was = _was(way)
        for said in (f"kept, was {was}" if was else "kept free", "kept"):
            if shapes := self._set(said, words, cap=KEPT_CAP):
                yield from shapes
                return

    def _spare(self, index: int, way: WayPlan) -> Iterator[Shape]:
        """A faint dash and room for a pencil; of a way that was freed, the head of what it held, small and grey."""
        level = narrowed(self._lower(index, BAND_TOP + self.higher, HEIGHT - 0.4 + self.higher), SAFE)
        was = _was(way)
        for box, turn in ((level, 0.0), (self._below_number(index), -90.0)) if was else ():
            for said in (f"was {was}", was):
                if shapes := self._past(said, box, turn):
                    yield from shapes
                    if turn == 0:
                        yield self._dash(self._head_box(index))
                    return
        yield self._dash(self._head_box(index))

    def _past(self, said: str, box: Rectangle, turn: float) -> list[Shape]:
        """What is no more of use is left out where it could not be read, without a word."""
        smallest = self.lettering.smallest
        fitted = fit_in(said, box, largest=smallest, smallest=smallest, face=REGULAR, turn=turn)
        return centred(fitted, box, colour=GREY, turn=turn) if fitted is not None else []

    def _dash(self, box: Rectangle) -> Line:
        half = min(1.0, box.width / 4)
        x, y = box.x + box.width / 2, box.y + box.height / 2
        return Line(x1=x - half, y1=y, x2=x + half, y2=y, width=0.3, colour=FAINT)


def _free_part(row: Rectangle, taken: Sequence[tuple[float, float]], needed: float) -> Rectangle:
    """The middle as far as it is free, where that is enough; else the widest part that is free."""
    edges = [row.x, *(edge for span in sorted(taken) for edge in span), row.right]
    spans = [(max(a, row.x), min(b, row.right)) for a, b in zip(edges[::2], edges[1::2], strict=True)]
    middle = row.x + row.width / 2
    half = max((min(middle - a, b - middle) for a, b in spans), default=0.0)
    if 2 * half >= needed:
        return Rectangle(middle - half, row.y, 2 * half, row.height)
    a, b = max(spans, key=lambda span: span[1] - span[0])
    return Rectangle(a, row.y, b - a, row.height)


def _was(way: WayPlan) -> str:
    """The head of what a way held; nothing if it cannot be printed."""
    return "" if missing_characters(way.was, REGULAR) else way.was


def _crossed_box(room: Rectangle, side: float) -> Iterator[Shape]:
    """Nothing may be put in here."""
    x, y = room.x + (room.width - side) / 2, room.y + (room.height - side) / 2
    yield Box(x=x, y=y, width=side, height=side, stroke="#000000", stroke_width=0.25)
    yield Line(x1=x, y1=y, x2=x + side, y2=y + side, width=0.25)
    yield Line(x1=x, y1=y + side, x2=x + side, y2=y, width=0.25)
