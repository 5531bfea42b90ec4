"""The list behind a back sheet: every contact of a panel with its wires, to tick off while soldering."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.back.blocks import wire_function
from labelgen.drawings.back.parts import BackPart, Contact, back_parts
from labelgen.drawings.back.sheet import back_lettering
from labelgen.drawings.back.tabs import MINUS, Tab, tab_words
from labelgen.drawings.lists.blocks import Band, Column, Row, paragraph, space, table
from labelgen.drawings.lists.cells import CAP, NOTHING, Ticks
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import UNSAID, Writer, writer_on
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

HOW = (
    "Tabs are named as they are seen from behind, with the panel's upper edge on top. A toggle is a seesaw inside: when"
    " its handle points up, the lower tab is closed (common practice; try one of yours with a meter before you solder)."
)
CHANGEOVER = (
    "Of a changeover, A and B are its two arms, in the middle. P and M are closed in normal. Solder two jumpers"
    " crosswise, from P and from M to the free tab of the other pole."
)
GUESSED = "A question mark, and a grey tab on the drawing: which tab it is, only a meter can tell."
LAMPS = (
    "A lamp of the light-emitting kind needs a resistor in its plus lead or in the shared wire (about 1 kilohm at"
    " 12 volts; where it is worked out, its ohms stand below); its longer leg is the plus."
)
STUDS = "Studs have one wire each; their feed comes by the probe with which they are touched."
CAUTION = "Switch off and unplug every supply, and discharge the capacitor bank, before you solder."


def back_list(
    description: Description, netlist: Netlist, look: Look, paper: Paper, panel_id: str
) -> tuple[list[Drawing], list[Problem]]:
    """The pages of one panel, each as large as its paper. Problems: text-does-not-fit, character-missing."""
    lettering = back_lettering(description, netlist, look, panel_id)
    on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=lettering.label)
    parts = [part for part in back_parts(description, netlist, panel_id) if part.hole.part is not None]
    writer = _List(netlist, writer_on(on, lettering, look, CAP))
    pages = list_pages(list(writer.pieces(parts)), on, lettering) if parts else []
    return pages, list(dict.fromkeys(lettering.problems))


class _List:
    def __init__(self, netlist: Netlist, writer: Writer) -> None:
        self._netlist, self._writer = netlist, writer

    def pieces(self, parts: Sequence[BackPart]) -> Iterator[Piece]:
        setting = self._writer.setting
        yield from (paragraph(self._writer.says(text), setting) for text in _notes(parts))
        yield space(1)
        columns = (
            Column(heading="contact", most=30),
            Column(heading="tab", most=26),
            Column(heading="colour", most=34),
            Column(heading="head", most=24),
            Column(heading="wire", align="end", most=22),
            Column(heading="goes to", grows=True),
            Column(heading=""),
        )
        yield from table(columns, [row for part in parts for row in self._part(part)], setting)

    def _part(self, part: BackPart) -> Iterator[Row | Band]:
        about = self._writer.known(part.name)
        yield Band(text=f"{part.mark}  {about}", right=_said(part))
        for contact in (*part.contacts, *part.loose):
            yield from self._contact(part, contact)
        for tab, free in part.jumpers():
            far = tab_words(Tab(contact="", at=free))
            yield self._besides("jumper", f"from {tab.contact}, {tab_words(tab)}, to the free tab, {far}")

    def _besides(self, what: str, said: str) -> Row:
        """What is soldered there that is no wire of the list."""
        words = self._writer.words
        return Row(cells=(words(what, bold=True), *[NOTHING] * 4, words(said), Ticks()))

    def _contact(self, part: BackPart, contact: Contact) -> Iterator[Row]:
        words = self._writer.words
        tab = "" if part.hole.use == "lamp" else tab_words(contact.tab)
        if contact in part.loose:
            tab = "beside it"
        name = (words(contact.tab.contact.replace("-", MINUS), bold=True), words(tab))
        for index, soldered in enumerate(contact.wires):
            wire = soldered.wire
            yield Row(
                cells=(
                    *(name if index == 0 else (NOTHING, NOTHING)),
                    self._writer.swatch(wire_function(self._netlist, soldered)),
                    words(wire.head, bold=True),
                    words(wire.number),
                    words(soldered.far.shown),
                    Ticks(),
                )
            )
        if not contact.wires:
            colour = self._writer.insulation(contact.lead) if contact.lead else words(UNSAID)
            said = f"link from F of {contact.joined}" if contact.joined else "no wire in the description"
            tick = Ticks() if contact.joined else NOTHING
            yield Row(cells=(*name, colour, NOTHING, NOTHING, words(said), tick))
        if contact.resistor:
            yield self._besides("resistor", f"{contact.resistor}, in series")


def _said(part: BackPart) -> str:
    """What is in the hole, and how its handle lies."""
    lever = part.lever
    if lever is None:
        return part.hole.part_id
    return ", ".join(word for word in (lever.type, part.hole.part_id, f"normal {lever.normal}") if word)


def _notes(parts: Sequence[BackPart]) -> Iterator[str]:
    yield CAUTION
    levers = [part.lever for part in parts if part.lever is not None]
    if levers:
        yield HOW
    if any(lever.type == "changeover" for lever in levers):
        yield CHANGEOVER
    if any(not contact.tab.known for part in parts for contact in part.contacts):
        yield GUESSED
    if any(part.hole.use == "lamp" for part in parts):
        yield LAMPS
    if any(part.hole.use == "route" and len(part.contacts) == 1 for part in parts):
        yield STUDS
