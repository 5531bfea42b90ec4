"""A strip as it hangs, seen from below: its ways from top to bottom, what goes into each on either side. Sizes: mm."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from labelgen.drawings.booklet.strip_hanging import hanging
from labelgen.drawings.booklet.strip_links import in_lanes, strip_links
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lists.blocks import Setting
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.shortening import shortened
from labelgen.drawings.text_fitting import centred, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import EndKind, Side, StripPlan, WayPlan, Wire
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.typefaces import BOLD, face_for, size_for_cap, text_width

BODY_WIDTH = 34.0
LARGEST, SMALLEST = 15.0, 7.0
"""Of a way's height, where it has no more than a wire on either side."""
SLOT = 6.4
"""Of the height of each wire of an entry that has several."""
SCREW, SCREW_IN, SLOT_WIDTH = 2.5, 5.2, 0.5
NUMBER_CAP, HEAD_CAP, FAR_CAP = 3.6, 3.3, 3.0
TAIL, MARK_WIDTH, MARK_HEIGHT = 3.0, 12.8, 4.4
LANES, LANE = 2.0, 2.6
"""From the marks to the first lane of links, and from lane to lane."""
LINK_WIDTH, LINK_RIM = 1.3, 0.25
TEXT_GAP, LEAST_HEAD, MOST_HEAD, FAR_GAP = 2.0, 10.0, 22.0, 3.0
NAME_CAP, LEAST_NAME_CAP, NAME_GAP = 2.6, 2.5, 2.0
BAR_LANES = (9.4, BODY_WIDTH - 9.4, 11.4, BODY_WIDTH - 11.4)
"""From the body's left edge: where bridges run, left and right of the numbers by turns."""
TEST = 3.3
"""Radius of the ring around a test point's number."""
BAR = 1.2
"""How thick a bridge is drawn, and the board's front edge."""
OVERLAP = 0.1
"""Of the front edge's pieces, lest hairs of white shine through between them."""
BODY, WALL, SOFT, INK = "#ececec", "#8a8a8a", "#4d4d4d", "#000000"


Names = Mapping[tuple[EndKind, str], str]
"""Of things: what the builder calls them besides their ids."""


def picture(strip: StripPlan, work: Work, names: Names, room: float) -> list[Piece]:
    """A piece for each way, between the names of the sides and the foot; on a page that has so much room, if it can."""
    drawn = _Picture(strip, work, names)
    return list(drawn.pieces(room))


class _Picture:
    def __init__(self, strip: StripPlan, work: Work, names: Names) -> None:
        self._strip, self._names = strip, names
        self._netlist, self._index, self._writer = work.netlist, work.index, work.writer
        self._hanging = hanging(strip)
        self._bridges = in_lanes([((min(bar), 0), (max(bar), 0)) for bar in strip.bridges], strip.bridges)
        self._links = {side: strip_links(strip, side) for side in Side}
        self._tier = -(-len(strip.ways) // strip.tiers)
        self._head_rooms = {side: self._head_room(side) for side in Side}
        left, right = (self._far_from(side) for side in (self._hanging.left, self._hanging.right))
        self._left = self._setting.left + (self._setting.width - BODY_WIDTH + left - right) / 2
        """So that there is as much room for what a wire goes to on one side as on the other."""

    def _head_room(self, side: Side) -> float:
        heads = [wire.head for way in self._strip.ways for wire in way.entry(side)]
        widest = max((_width(head, BOLD, self._cap(HEAD_CAP)) for head in heads), default=0.0)
        return min(max(LEAST_HEAD, widest), MOST_HEAD)

    def _head_from(self, side: Side) -> float:
        """How far from the body's edge the heads begin, beyond marks and links."""
        lanes = 1 + max((link.lane for link in self._links[side]), default=-1)
        return TAIL + MARK_WIDTH + TEXT_GAP + (LANES + lanes * LANE if lanes else 0)

    def _far_from(self, side: Side) -> float:
        return self._head_from(side) + self._head_rooms[side] + FAR_GAP

    @property
    def _setting(self) -> Setting:
        return self._writer.setting

    def _cap(self, cap: float) -> float:
        return max(cap, self._setting.lettering.smallest)

    def pieces(self, room: float) -> Iterator[Piece]:
        head, foot = self._sides(), self._foot()
        least = sum(self._height(way, SMALLEST) for way in self._strip.ways)
        free = (room - head.height - foot.height - least) / len(self._strip.ways)
        usual = min(LARGEST, SMALLEST + max(0.0, free))
        yield head
        for way in self._strip.ways:
            yield self._way(way, self._height(way, usual), head)
        yield foot

    def _height(self, way: WayPlan, usual: float) -> float:
        return max(usual, max(len(way.panel), len(way.layout)) * SLOT + 1.4)

    def _sides(self) -> Piece:
        """The names of the sides over the wires, and the board's front edge where it is above."""
        front = self._front_line("up")
        height = 8.0 + front

        def paint(y: float) -> list[Shape]:
            shapes: list[Shape] = [self._edge(y)] if front else []
            for side, x, anchor in self._outer():
                line = fit(f"{side} side", width=70, largest=self._cap(FAR_CAP), smallest=1, face=BOLD)
                shapes += [line.at(x, y + front + 5.0, anchor=anchor)] if line is not None else []
            return shapes

        return Piece(height=height, paint=paint, keeps=True)

    def _outer(self) -> Iterator[tuple[Side, float, str]]:
        edge = 4.0
        yield self._hanging.left, self._left - edge, "end"
        yield self._hanging.right, self._left + BODY_WIDTH + edge, "start"

    def _foot(self) -> Piece:
        front = self._front_line("down")
        return Piece(height=2.0 + front, paint=lambda y: [self._edge(y + front)] if front else [])

    def _front_line(self, where: str) -> float:
        return 4.0 if self._hanging.front == where else 0.0

    def _edge(self, y: float) -> Line:
        """The board's front edge, above or below."""
        return Line(x1=self._setting.left, y1=y, x2=self._setting.right, y2=y, width=BAR)

    def _way(self, way: WayPlan, height: float, head: Piece) -> Piece:
        def paint(y: float) -> list[Shape]:
            place = Rectangle(self._left, y, BODY_WIDTH, height)
            shapes = [*self._block(way, place), *self._leads(way, place), *self._screws(way, place)]
            for side in Side:
                shapes += self._side(way, side, place)
            return [*shapes, *self._beside(y, height)]

        return Piece(height=height, paint=paint, again=(head,), keeps=way is self._strip.ways[-1])

    def _beside(self, y: float, height: float) -> Iterator[Shape]:
        """The board's front edge, where it is on the left or on the right."""
        if self._hanging.front in ("left", "right"):
            x = self._setting.left + BAR / 2 if self._hanging.front == "left" else self._setting.right - BAR / 2
            yield Line(x1=x, y1=y, x2=x, y2=y + height + OVERLAP, width=BAR)

    def _block(self, way: WayPlan, place: Rectangle) -> Iterator[Shape]:
        """A piece of the strip's body."""
        x, y = place.x, place.y
        yield Box(x=x, y=y, width=place.width, height=place.height, fill=BODY)
        thick = way.number > 1 and (way.number - 1) % self._tier == 0
        yield Line(x1=x, y1=y, x2=place.right, y2=y, width=0.8 if thick else 0.25, colour=INK if thick else WALL)
        for edge in (x, place.right):
            yield Line(x1=edge, y1=y, x2=edge, y2=place.bottom, width=0.3)
        if way.number in (1, len(self._strip.ways)):
            end = y if way.number == 1 else place.bottom
            yield Line(x1=x, y1=end, x2=place.right, y2=end, width=0.3)

    def _leads(self, way: WayPlan, place: Rectangle) -> Iterator[Line]:
        """The bare ends, which come together under the screw."""
        middle = place.y + place.height / 2
        for side, edge, out in self._edges(place):
            for slot in range(len(way.entry(side))):
                y = self._slot_y(way, side, slot, place)
                yield Line(x1=edge + out * TAIL, y1=y, x2=edge, y2=y, width=0.9, colour=SOFT)
                yield Line(x1=edge, y1=y, x2=edge - out * SCREW_IN, y2=middle, width=0.9, colour=SOFT)

    def _edges(self, place: Rectangle) -> Iterator[tuple[Side, float, int]]:
        """Each side, the body's edge there, and whither its wires leave: -1 to the left."""
        yield self._hanging.left, place.x, -1
        yield self._hanging.right, place.right, 1

    def _screws(self, way: WayPlan, place: Rectangle) -> Iterator[Shape]:
        x, middle = place.x, place.y + place.height / 2
        yield from self._bars(way, place)
        for screw in (x + SCREW_IN, place.right - SCREW_IN):
            yield Circle(x=screw, y=middle, radius=SCREW, fill="#ffffff", stroke=SOFT, stroke_width=0.25)
            yield Line(
                x1=screw - 0.7 * SCREW,
                y1=middle,
                x2=screw + 0.7 * SCREW,
                y2=middle,
                width=SLOT_WIDTH,
                colour=SOFT,
            )
        number = fit(str(way.number), width=9, largest=self._cap(NUMBER_CAP), smallest=1, face=BOLD)
        if number is not None:
            yield from centred(number, place)
        if way.test:
            yield Circle(x=x + place.width / 2, y=middle, radius=TEST, stroke=INK, stroke_width=0.3)

    def _bars(self, way: WayPlan, place: Rectangle) -> Iterator[Shape]:
        """Bridges: a bar beside the number, with an arm to every screw that it is under."""
        middle = place.y + place.height / 2
        for bar, lane in self._bridges:
            if not min(bar) <= way.number <= max(bar):
                continue
            x = place.x + BAR_LANES[lane % len(BAR_LANES)]
            screw = place.x + (SCREW_IN if lane % 2 == 0 else place.width - SCREW_IN)
            top = middle - BAR / 2 if way.number == min(bar) else place.y
            bottom = middle + BAR / 2 if way.number == max(bar) else place.bottom + OVERLAP
            yield Line(x1=x, y1=top, x2=x, y2=bottom, width=BAR)
            if way.number in bar:
                yield Line(x1=x, y1=middle, x2=screw, y2=middle, width=BAR)

    def _side(self, way: WayPlan, side: Side, place: Rectangle) -> Iterator[Shape]:
        """What is in one entry; of a way without wires, why, at the right hand."""
        wires = way.entry(side)
        out = -1 if side is self._hanging.left else 1
        edge = place.x if out < 0 else place.right
        yield from self._lanes(way, side, place, edge, out)
        for slot, wire in enumerate(wires):
            y = self._slot_y(way, side, slot, place)
            yield from self._wire(wire, way, side, (edge, y), out)
        if not way.panel and not way.layout and out > 0:
            said = f"{idle_words(way)}, was {way.was}" if way.was else idle_words(way)
            width = self._setting.right - edge - TAIL - 3
            known = self._writer.known(said)
            smallest = self._setting.lettering.smallest
            line = shortened(known, width=width, largest=self._cap(FAR_CAP), smallest=smallest)
            y = place.y + (place.height + self._cap(FAR_CAP)) / 2
            yield from [line.at(edge + TAIL, y, colour=SOFT)] if line is not None else []

    def _slot_y(self, way: WayPlan, side: Side, slot: int, place: Rectangle) -> float:
        count = len(way.entry(side))
        return place.y + place.height / 2 + (slot - (count - 1) / 2) * SLOT

    def _wire(self, wire: Wire, way: WayPlan, side: Side, at: tuple[float, float], out: int) -> Iterator[Shape]:
        edge, y = at
        x = edge + out * TAIL
        left = x if out > 0 else x - MARK_WIDTH
        function = replace(self._netlist.functions[wire.function], colour=wire.colour)
        yield from mark(function, Rectangle(left, y - MARK_HEIGHT / 2, MARK_WIDTH, MARK_HEIGHT), self._writer.look)
        yield from self._texts(wire, way, side, at, out)

    def _texts(self, wire: Wire, way: WayPlan, side: Side, at: tuple[float, float], out: int) -> Iterator[Shape]:
        edge, y = at
        x = edge + out * self._head_from(side)
        smallest = self._setting.lettering.smallest
        anchor = "start" if out > 0 else "end"
        known = self._writer.known
        cap, room = self._cap(HEAD_CAP), self._head_rooms[side]
        head = shortened(known(wire.head), width=room, largest=cap, smallest=smallest, face=BOLD)
        baseline = y + self._cap(FAR_CAP) / 2
        if head is not None:
            yield head.at(x, baseline, anchor=anchor)
        far = wire.finish if wire.start.point == (EndKind.WAY, self._strip.id, str(way.number)) else wire.start
        said = f"link to way {far.terminal}" if wire.link else known(far.shown)
        x = edge + out * self._far_from(side)
        width = (self._setting.right - x if out > 0 else x - self._setting.left) - 2.0
        line = shortened(said, width=width, largest=self._cap(FAR_CAP), smallest=smallest, tail=len(far.terminal) + 1)
        if line is None:
            return
        yield replace(line.at(x, baseline, anchor=anchor), leads_to="" if wire.link else self._index.stop(far))
        name = self._names.get((far.kind, far.thing), "")
        width -= line.width + NAME_GAP
        cap = self._cap(NAME_CAP)
        least = self._cap(LEAST_NAME_CAP)
        whole = fit(known(name), width=width, largest=cap, smallest=least) if name and width > 0 else None
        if whole is not None:
            yield whole.at(x + out * (line.width + NAME_GAP), baseline, anchor=anchor, colour=SOFT)

    def _lanes(self, way: WayPlan, side: Side, place: Rectangle, edge: float, out: int) -> Iterator[Shape]:
        """As much of each link as passes this way."""
        for link in self._links[side]:
            (upper, first), (lower, last) = link.ends
            if not upper <= way.number <= lower:
                continue
            x = edge + out * (TAIL + MARK_WIDTH + LANES + link.lane * LANE)
            top = self._slot_y(way, side, first, place) if way.number == upper else place.y
            bottom = self._slot_y(way, side, last, place) if way.number == lower else place.bottom
            start = edge + out * (TAIL + MARK_WIDTH)
            stub = {upper: top, lower: bottom}.get(way.number)
            yield from _cord(link.wire, self._writer.look, (x, top, x, bottom))
            if stub is not None:
                yield from _cord(link.wire, self._writer.look, (start, stub, x, stub))


def _cord(wire: Wire, look: Look, run: tuple[float, float, float, float]) -> Iterator[Line]:
    """A link's wire: its colour in a dark rim."""
    x1, y1, x2, y2 = run
    letters = letters_of(wire.colour)
    paint = COLOURS[letters[0]].paint if letters and not look.mono else "#ffffff"
    half = LINK_WIDTH / 2 if y1 == y2 else 0.0
    over = half if x2 >= x1 else -half
    yield Line(x1=x1, y1=y1, x2=x2 + over, y2=y2, width=LINK_WIDTH, colour=INK)
    yield Line(x1=x1, y1=y1, x2=x2, y2=y2, width=LINK_WIDTH - 2 * LINK_RIM, colour=paint)


def idle_words(way: WayPlan) -> str:
    """Of a way on which no wire lands: what it carries all the same, or that it is free."""
    if way.bridged_to is not None:
        return f"{way.head}, bridged to way {way.bridged_to}"
    return {"taken": f"taken: {way.head}", "kept": "kept free"}.get(way.state, "spare")


def _width(text: str, face: str, cap: float) -> float:
    chosen = face_for(text, face)
    return text_width(text, chosen, size_for_cap(cap, chosen))
