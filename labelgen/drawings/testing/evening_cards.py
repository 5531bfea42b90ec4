"""Evening cards: ten wires each, with their flags, ends, holes and lengths, and the tests that end the evening.

They are cut apart along straight lines; all are as wide as the sheet has room for.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import GAP, INDENT, Column, Row, Setting, paragraph, space, table
from labelgen.drawings.lists.cells import NOTHING, Ticks, Words
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, Writer, count
from labelgen.drawings.testing.words import leads, ohms
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist, Wire
from labelgen.model.test_plan import EveningCard, Reading, TestPlan
from labelgen.problems import Problem
from labelgen.typefaces import BOLD, REGULAR

CAP = 2.8
"""Height of a capital, mm: read at the bench, with the card in the hand."""
INSET, TOP, FOOT = 5.0, 14.0, 3.0
TITLE_CAP, TITLE_BASELINE, RULE_Y = 4.2, 9.4, 12.0
MOST_ACROSS = 3
"""Tests beside each other, where each has room on one line."""
TICK_SIZE = 4.8
BEFORE_BED = "Before bed: every box ticked, what is not finished taped up and written down, all supplies unplugged."
TICK = Ticks(size=TICK_SIZE)


def evening_cards(
    description: Description, netlist: Netlist, plan: TestPlan, look: Look, page: CellSize, *, board: str | None = None
) -> tuple[list[Drawing], list[Problem]]:
    """One card for each evening; those that fit twice on the page are half as high as it, for one cut across.

    `board`: only its evenings. Problems: text-does-not-fit, character-missing.
    """
    lettering = Lettering(
        label="evening card",
        place=description.place_of_key("railway"),
        look=look,
        hint="Shorten it, or give it a shorter `shown:`.",
    )
    setting = Setting(cap=max(CAP, look.smallest_cap), left=INSET, width=page.width - 2 * INSET, lettering=lettering)
    writer = Writer(look=look, setting=setting)
    cards = [
        _Card(card, description, netlist, writer).drawing(page, len(plan.evenings))
        for card in plan.evenings
        if board is None or card.board == board
    ]
    return cards, list(dict.fromkeys(lettering.problems))


@dataclass(frozen=True, slots=True)
class _Card:
    card: EveningCard
    description: Description
    netlist: Netlist
    writer: Writer

    def drawing(self, page: CellSize, cards: int) -> Drawing:
        pieces = list(self._pieces())
        height = TOP + sum(piece.height for piece in pieces) + FOOT
        shapes, y = [*self._head(cards)], TOP
        for piece in pieces:
            shapes += piece.paint(y)
            y += piece.height
        return Drawing(
            width=page.width,
            height=max(height, page.height / 2) if height <= page.height / 2 else height,
            shapes=tuple(shapes),
            name=f"evening card {self.card.number}",
            place=self.writer.lettering.place,
            board=self.card.board or None,
        )

    def _head(self, cards: int) -> Iterator[Shape]:
        setting, lettering = self.writer.setting, self.writer.lettering
        board = f", {self.netlist.shown_id(self.card.board)}" if self.card.board else ""
        right = f"{self.card.where}, {count(len(self.card.wires), 'wire')}"
        name = lettering.line(f"Evening {self.card.number} of {cards}{board}", width=90, largest=TITLE_CAP, face=BOLD)
        where = lettering.line(right, width=setting.width - 95, largest=setting.cap, face=REGULAR)
        yield from [name.at(setting.left, TITLE_BASELINE)] if name is not None else []
        yield from [where.at(setting.right, TITLE_BASELINE, anchor="end")] if where is not None else []
        yield Line(x1=setting.left, y1=RULE_Y, x2=setting.right, y2=RULE_Y, width=0.4)

    def _pieces(self) -> Iterator[Piece]:
        setting = self.writer.setting
        columns = (
            Column(heading="no.", align="end", most=12),
            Column(heading="wire", most=22),
            Column(heading="colour"),
            Column(heading="from", grows=True),
            Column(heading="to", grows=True),
            Column(heading="through", most=18),
            Column(heading="mm", align="end"),
            Column(heading="flags"),
            Column(heading="in"),
            Column(heading="beeps"),
            Column(heading="", align="end"),
        )
        pairs = zip(self.card.wires, self.card.whole, strict=True)
        yield from table(columns, [self._wire(wire, test) for wire, test in pairs], setting)
        yield space(1.5)
        if self.card.apart:
            across = self._across()
            said = ("must not beep", *[""] * (across - 1))
            test_columns = [
                column for text in said for column in (Column(heading=""), Column(heading=text, grows=True))
            ]
            yield from table(test_columns, list(self._tests(across)), setting)
        yield space(2)
        yield paragraph(self.writer.says(BEFORE_BED), setting)

    def _wire(self, wire: Wire, test: Reading) -> Row:
        words = self.writer.words
        holes = ", ".join(self._shown_hole(hole) for hole in wire.holes)
        function = replace(self.netlist.functions[wire.function], colour=wire.colour)
        return Row(
            cells=(
                words(wire.number, bold=True),
                words(wire.head, bold=True),
                self.writer.swatch(function),
                words(wire.start.shown),
                words(wire.finish.shown),
                words(holes),
                words(UNSAID if wire.length is None else wire.length),
                NOTHING if wire.link else Ticks(count=2, size=TICK_SIZE),
                TICK,
                TICK,
                words(ohms(test.ohms)),
            )
        )

    def _shown_hole(self, hole: str) -> str:
        found = (board.holes[hole].shown for board in self.description.boards.values() if hole in board.holes)
        return next(filter(None, found), hole)

    def _across(self) -> int:
        """How many tests stand beside each other, so that each is on one line."""
        setting = self.writer.setting
        widths = [self._apart(test).width(setting.cap) for test in self.card.apart]
        for across in range(min(MOST_ACROSS, len(widths)), 1, -1):
            needed = sum(TICK_SIZE + GAP + max(widths[place::across]) + GAP for place in range(across)) - GAP
            if needed <= setting.width - 2 * INDENT:
                return across
        return 1

    def _apart(self, test: Reading) -> Words:
        one, other = leads(test)
        least = f": {ohms(test.ohms)} or more" if test.ohms is not None else ""
        return self.writer.words(f"{one} – {other}{least}")

    def _tests(self, across: int) -> Iterator[Row]:
        tests = self.card.apart
        for first in range(0, len(tests), across):
            cells = [cell for test in tests[first : first + across] for cell in (TICK, self._apart(test))]
            yield Row(cells=(*cells, *[NOTHING] * (2 * across - len(cells))))
