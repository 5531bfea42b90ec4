"""How this railway is wired, on one page: its boards, strips, levers and plugs in sentences, and what feeds what."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from labelgen.drawings.booklet.example import example, example_piece, said
from labelgen.drawings.booklet.index import thing_stop
from labelgen.drawings.booklet.pages import SOFT, Chapter, opening
from labelgen.drawings.booklet.things import SUPPLY_WORDS, supply_figures
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.lists.blocks import paragraph, space, title
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import count
from labelgen.drawings.shortening import shortened
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.netlist import EndKind
from labelgen.typefaces import BOLD, REGULAR

NAME = "How this railway is wired"
PROSE_CAP = 3.1
MOST_NAMED = 8
"""What is more than that is counted, not named."""
BOX, ARROW, LINE, AIR = 62.0, 14.0, 8.4, 4.0
"""A supply's box, the way to its boards, the height of one of these, and the air between supplies."""
EACH = (
    "A lever is wired to the panel side of a strip, and what it works to the layout side. What comes in at a way on one"
    " side leaves at the same way on the other, so a strip is where the two can be told apart and taken apart."
)
CHAINS = (
    "What many things need, a feed or a return, is a chain: a wire from the supply to the first of them, and on from"
    " each to the next, by short links on a strip and by one wire from strip to strip. Where a chain breaks, all behind"
    " the break is dead."
)
NUMBERS = (
    "Every wire has a number of its own, and a head that says what it is for. Both stand on the flags at its ends and"
    " in this book. A number never changes, and that of a wire that was taken out is not used again."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fed:
    """A supply, and the boards on which it feeds something."""

    id: str
    name: str
    kind: str
    boards: tuple[tuple[str, str], ...]
    """And what there."""


class WiringChapter:
    def __init__(self, work: Work) -> None:
        self._description, self._netlist, self._contents = work.description, work.netlist, work.contents
        larger = replace(work.writer.setting, cap=max(PROSE_CAP, work.writer.setting.cap))
        self._index, self._writer = work.index, replace(work.writer, setting=larger)

    def chapter(self) -> Chapter:
        pieces = [opening(NAME, self._writer.setting), *self._pieces()]
        return Chapter(title=NAME, stop="wiring", sections=(pieces,))

    def _pieces(self) -> Iterator[Piece]:
        setting, writer = self._writer.setting, self._writer
        walk = example(self._netlist)
        numbers = f"{NUMBERS} {said(walk, self._netlist)}" if walk else NUMBERS
        for text in (self._boards(), self._strips(), writer.says(EACH), writer.says(CHAINS), numbers):
            yield paragraph(writer.known(text), setting)
            yield space(1.4)
        if walk:
            yield space(1)
            yield example_piece(walk, self._netlist, self._index, writer)
        fed = [self._fed(id_) for id_ in self._contents.supplies]
        if fed:
            yield space(2)
            yield title("What feeds what", setting)
            yield from (self._supply(one) for one in fed)

    def _boards(self) -> str:
        boards = [self._board(id_) for id_ in self._description.boards]
        plugs = self._netlist.plugs
        if not boards:
            return f"{self._netlist.railway} is one piece: no boards are described."
        stands = f"{self._netlist.railway} stands on {_named(boards, 'board')}."
        if len(boards) == 1:
            return stands
        if not plugs:
            return f"{stands} No plugs are described, so the boards are taken as fixed together."
        used = sum(pin.state == "used" for plug in plugs for pin in plug.pins)
        pins = sum(len(plug.pins) for plug in plugs)
        joined = _named([plug.shown for plug in plugs], "plug")
        return f"{stands} They are joined by {joined}, with {used} of {pins} pins in use."

    def _board(self, id_: str) -> str:
        name, shown = self._description.boards[id_].name, self._netlist.shown_id(id_)
        return f"{name} ({shown})" if name else shown

    def _strips(self) -> str:
        ways = [way for strip in self._netlist.strips for way in strip.ways]
        busy = sum(way.state not in ("spare", "kept") for way in ways)
        levers = [lever for lever in self._netlist.levers if not lever.spare]
        circuits = self._netlist.circuits
        worked = sum(len(circuit.devices) for circuit in circuits if circuit.lever is not None)
        alone = sum(len(circuit.devices) for circuit in circuits if circuit.lever is None)
        panels = [panel.name or self._netlist.shown_id(id_) for id_, panel in self._description.panels.items()]
        where = f" in {_named(panels, 'panel', bare=True)}" if panels else ""
        work = (
            f"{count(len(levers), 'lever')}{where} {'works' if len(levers) == 1 else 'work'} {count(worked, 'device')}"
        )
        more = f"; {alone} more {'needs' if alone == 1 else 'need'} no lever" if alone else ""
        strips = f"Between them are {count(len(self._netlist.strips), 'strip')} with {busy} of {len(ways)} ways in use"
        return f"{work}{more}. {strips}." if self._netlist.strips else f"{work}{more}."

    def _fed(self, id_: str) -> _Fed:
        supply, shown = self._description.supplies[id_], self._netlist.shown_id(id_)
        strips: dict[str | None, list[str]] = {}
        for strip in self._netlist.strips:
            if shown in strip.supplies:
                strips.setdefault(strip.board, []).append(strip.shown)
        boards = [
            (self._board(board) if board in self._description.boards else "", _named(own, "strip"))
            for board, own in strips.items()
        ]
        kind = ", ".join((self._writer.says(SUPPLY_WORDS[supply.kind]), *supply_figures(supply)))
        name = f"{shown}  {supply.name}" if supply.name else shown
        return _Fed(id=id_, name=name, kind=kind, boards=tuple(boards))

    def _supply(self, fed: _Fed) -> Piece:
        setting, smallest = self._writer.setting, self._writer.lettering.smallest
        cap = setting.cap
        kind = self._writer.words(fed.kind).lines(cap, BOX - 6)
        tall = max(len(fed.boards), 1) * LINE
        height = max(tall, 4.6 + 1.2 * cap + len(kind) * LINE_HEIGHT * cap)

        def paint(y: float) -> list[Shape]:
            place = Rectangle(setting.left, y, BOX, height)
            known = self._writer.known(fed.name)
            name = shortened(known, width=BOX - 6, largest=1.2 * cap, smallest=smallest, face=BOLD)
            shapes: list[Shape] = [
                Box(x=place.x, y=y, width=BOX, height=height, fill="#f2f2f2", stroke="#000000", radius=1.5)
            ]
            if name is not None:
                text = name.at(place.x + 3, y + 3 + name.cap)
                shapes.append(replace(text, leads_to=thing_stop(EndKind.SUPPLY, fed.id)))
            shapes += [line.at(place.x + 3, y + 2.4 + 2.9 * cap + i * LINE_HEIGHT * cap) for i, line in enumerate(kind)]
            return [*shapes, *self._boards_fed(fed, place, tall)]

        return Piece(height=height + AIR, paint=paint)

    def _boards_fed(self, fed: _Fed, place: Rectangle, tall: float) -> Iterator[Shape]:
        """A line from the supply to each board, and what is there."""
        cap, right = self._writer.setting.cap, self._writer.setting.right
        trunk, first = place.right + ARROW / 2, place.y + (place.height - tall) / 2 + LINE / 2
        middle = place.y + place.height / 2
        last = first + (max(len(fed.boards), 1) - 1) * LINE
        yield Line(x1=place.right, y1=middle, x2=trunk, y2=middle, width=0.6)
        if len(fed.boards) > 1:
            yield Line(x1=trunk, y1=first - 0.3, x2=trunk, y2=last + 0.3, width=0.6)
        texts = fed.boards or (("", "nothing on a strip"),)
        for index, (board, what) in enumerate(texts):
            y = first + index * LINE
            yield Line(x1=trunk, y1=y, x2=place.right + ARROW, y2=y, width=0.6)
            x = place.right + ARROW + 2.5
            for text, face, colour in ((board, BOLD, "#000000"), (what, REGULAR, SOFT)):
                line = self._line(text, right - x, cap, face) if text else None
                if line is not None:
                    yield line.at(x, y + cap / 2, colour=colour)
                    x += line.width + 4

    def _line(self, text: str, width: float, cap: float, face: str) -> Fitted | None:
        smallest = self._writer.lettering.smallest
        return shortened(self._writer.known(text), width=width, largest=cap, smallest=smallest, face=face)


def _named(names: Sequence[str], what: str, *, bare: bool = False) -> str:
    """`2 boards: B1 and B2`; of many the count alone. `bare`: one by its name alone."""
    if len(names) > MOST_NAMED:
        return count(len(names), what)
    listed = " and ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)
    if len(names) == 1:
        return listed if bare else f"one {what}, {listed}"
    return f"{count(len(names), what)}, {listed}"
