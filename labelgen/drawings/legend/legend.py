"""Legends: for each board and each panel a card that says what its letters, colours, patterns and signs mean."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.legend.blocks import Setting, functions, heading, lines, pictures, row
from labelgen.drawings.legend.facts import LegendFacts
from labelgen.drawings.legend.signs import signs
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.pages import Piece, filled
from labelgen.drawings.text_fitting import fit
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import PANEL_KINDS, EndKind, Netlist, Wire
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.standards.legibility import HEADS_READ_AT_MM, LEAST_MINUTES, cap_height
from labelgen.typefaces import BOLD, REGULAR

WIDTH = 97.0
"""mm: four on a page of A4 or US Letter, each about as large as A6."""
INSET, TOP, FOOT = 5.0, 13.5, 4.0
TITLE_CAP, TITLE_BASELINE, RULE_Y = 4.2, 9.2, 11.2
KIND_WIDTH = 24.0
GREY = "#4d4d4d"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Subject:
    """What one legend is of."""

    title: str
    name: str
    label: str
    place: Place
    board: str | None
    facts: LegendFacts


def legend_drawings(
    description: Description, netlist: Netlist, look: Look, page: CellSize
) -> tuple[list[Drawing], list[Problem]]:
    """The cards, boards first, at most half as high as the page; a fuller one is as high as the page is wide.

    The lower ones are all as high as the fullest of them, and so are the tall ones, for straight cuts.
    Problems: text-does-not-fit, character-missing.
    """
    cards: list[_Card] = []
    for subject in (*_boards(description, netlist), *_panels(description, netlist)):
        if subject.facts.wires:
            cards += _cards(subject, netlist, look, min(page.width, page.height))
    tall = [card.height > page.height / 2 for card in cards]
    heights = {one: max(card.height for card, other in zip(cards, tall, strict=True) if other == one) for one in tall}
    drawings = [card.drawing(heights[one]) for card, one in zip(cards, tall, strict=True)]
    return drawings, list(dict.fromkeys(problem for card in cards for problem in card.setting.lettering.problems))


def _boards(description: Description, netlist: Netlist) -> Iterator[_Subject]:
    boards: list[str | None] = [*sorted(description.boards, key=natural)]
    for board in boards or [None]:
        facts = LegendFacts(
            description=description,
            netlist=netlist,
            wires=[wire for wire in netlist.wires if board in (None, wire.board) and not _inside_a_panel(wire)],
            strips=[strip for strip in netlist.strips if board is None or strip.board == board],
        )
        shown = description.railway if board is None else netlist.shown_id(board)
        yield _Subject(
            title=shown,
            name="" if board is None else description.boards[board].name,
            label=f"legend of {shown}",
            place=description.place_of_key("railway" if board is None else "boards", *([board] if board else [])),
            board=board,
            facts=facts,
        )


def _inside_a_panel(wire: Wire) -> bool:
    """Between two parts of it, so that it is not met under a board."""
    return all(end.kind in PANEL_KINDS for end in wire.ends)


def _panels(description: Description, netlist: Netlist) -> Iterator[_Subject]:
    for panel in sorted(description.panels, key=natural):
        shown = netlist.shown_id(panel)
        yield _Subject(
            title=shown,
            name=description.panels[panel].name,
            label=f"legend of panel {shown}",
            place=description.place_of_key("panels", panel),
            board=description.board_of_panel(panel),
            facts=LegendFacts(
                description=description, netlist=netlist, wires=_wires_of_panel(description, netlist, panel)
            ),
        )


def _wires_of_panel(description: Description, netlist: Netlist, panel: str) -> list[Wire]:
    """Those that end in it or behind it."""
    levers = {(EndKind.LEVER, lever.id) for lever in netlist.levers if lever.panel == panel}
    matrices = [matrix for matrix in netlist.matrices if matrix.panel == panel]
    routes = {(EndKind.ROUTE, row.number) for matrix in matrices for row in matrix.rows}
    devices = {id_ for id_, device in {**description.points, **description.devices}.items() if device.panel == panel}
    there = levers | routes | {(EndKind.MATRIX, matrix.id) for matrix in matrices}
    there |= {(EndKind.DEVICE, device) for device in devices}
    return [wire for wire in netlist.wires if any((end.kind, end.thing) in there for end in wire.ends)]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Card:
    subject: _Subject
    pieces: Sequence[Piece]
    setting: Setting
    part: str
    """`2/3`; "" of one that stands alone."""

    @property
    def height(self) -> float:
        return TOP + sum(piece.height for piece in self.pieces) + FOOT

    def drawing(self, height: float) -> Drawing:
        shapes = list(self._head())
        y = TOP
        for piece in self.pieces:
            shapes += piece.paint(y)
            y += piece.height
        name = f"{self.subject.label}{f', {self.part}' if self.part else ''}"
        return Drawing(
            width=WIDTH, height=height, shapes=tuple(shapes), name=name,
            place=self.subject.place, board=self.subject.board,
        )  # fmt: skip

    def _head(self) -> Iterator[Shape]:
        lettering, right = self.setting.lettering, WIDTH - INSET
        room = WIDTH - 2 * INSET - KIND_WIDTH
        title = lettering.line(self.subject.title, width=room, largest=TITLE_CAP, face=BOLD)
        used = 0.0
        if title is not None:
            yield title.at(INSET, TITLE_BASELINE)
            used = title.width + 2.5
        if self.subject.name and room - used > 10:
            known, cap = lettering.known(self.subject.name, REGULAR), 0.7 * TITLE_CAP
            name = fit(known, width=room - used, largest=cap, smallest=lettering.smallest)  # the id is enough without
            yield from [name.at(INSET + used, TITLE_BASELINE)] if name is not None else []
        kind = lettering.line(f"legend {self.part}".strip(), width=KIND_WIDTH, largest=self.setting.cap, face=REGULAR)
        yield from [kind.at(right, TITLE_BASELINE, anchor="end", colour=GREY)] if kind is not None else []
        yield Line(x1=INSET, y1=RULE_Y, x2=right, y2=RULE_Y, width=0.4)


def _cards(subject: _Subject, netlist: Netlist, look: Look, highest: float) -> list[_Card]:
    lettering = Lettering(label=subject.label, place=subject.place, look=look, hint="Give it a shorter name.")
    cap = max(cap_height(HEADS_READ_AT_MM, LEAST_MINUTES), look.smallest_cap)
    setting = Setting(left=INSET, width=WIDTH - 2 * INSET, cap=cap, look=look, lettering=lettering)
    pages = list(filled(list(legend_pieces(subject.facts, netlist, setting)), highest - TOP - FOOT))
    parts = [f"{number}/{len(pages)}" if len(pages) > 1 else "" for number in range(1, len(pages) + 1)]
    return [
        _Card(subject=subject, pieces=page, setting=setting, part=part) for page, part in zip(pages, parts, strict=True)
    ]


def legend_pieces(facts: LegendFacts, netlist: Netlist, setting: Setting) -> Iterator[Piece]:
    """What a legend explains, block by block."""
    yield from functions(facts.functions(), setting)
    yield heading("Heads and ends of wires", setting)
    contacts = facts.contacts() if not facts.strips or not facts.description.panels else []
    for sample, means in (*facts.heads(), *facts.ends(), *contacts):
        yield row(sample, means, setting)
    found = list(signs(netlist, facts.strips, setting.look, facts.turning_number()))
    if found:
        yield heading("Signs on the markers", setting)
        yield from pictures(found, setting)
    terminals = facts.terminals()
    if terminals:
        yield heading("Terminals", setting)
    for text in terminals:
        yield lines(text, setting)
