"""The printed cut list: what to buy, every wire in the order in which it is pulled, what goes through each hole.

To be ticked off with a pencil, on one's back under a baseboard: no capital is lower than 2.5 mm.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from labelgen.drawings.flags.sleeve_key import bores_said
from labelgen.drawings.flags.to_buy import sleeves_to_buy, wraps_to_buy
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Band, Column, Row, grid, paragraph, space, table, title
from labelgen.drawings.lists.cells import CAP, NOTHING, Cell, Ticks, WriteIn
from labelgen.drawings.lists.diode_blocks import diodes_to_buy_blocks, diodes_to_fit
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.resistor_blocks import resistors_to_buy
from labelgen.drawings.lists.to_buy_blocks import flags_to_buy, to_buy
from labelgen.drawings.lists.writing import UNSAID, Writer, count, metres, writer_on
from labelgen.model.cut_list import CutGroup, CutList, CutRow, StuffTotal, cut_list, strips_to_buy
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.flag_form import FlagForm
from labelgen.model.lamp_resistors import lamp_resistors
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

TITLE = "cut list"
CAUTIONS = (
    "Switch off, isolate and unplug every supply before you work. Discharge the capacitor bank of a pulse supply, and"
    " measure.",
    "Lengths are worked out from where things stand in the description, slack included. Pull the first wire of each"
    " run before you cut the rest.",
    "Put the flags on before you pull, the ferrules after. A ferrule is for an end that a strip's screw holds: all"
    " others are soldered or crimped. Two wires in one screw entry may share a twin ferrule.",
    "How thick a wire is, and how full a hole may be, are usual figures: measure your wire where it is tight.",
)
FORMS = {"fold": "flag", "wrap": "wrap", "sleeve": "sleeve"}
LEAST_LEFT = 100
"""mm: what is less is not worth saying."""
TICK = Column(heading="")
NUMBER = Column(heading="", align="end")


def cut_list_pages(
    description: Description, netlist: Netlist, look: Look, paper: Paper
) -> tuple[list[Drawing], list[Problem]]:
    """The pages of the cut list, each as large as its paper; none without wires.

    Problems: text-does-not-fit, character-missing.
    """
    if not netlist.wires:
        return [], []
    hint = "Shorten it, or give it a shorter `shown:`."
    lettering = Lettering(label=TITLE, place=description.place_of_key("railway"), look=look, hint=hint)
    on = ListPaper(paper=paper, railway=lettering.known(description.railway, BOLD), title=TITLE)
    writer = writer_on(on, lettering, look, CAP)
    pieces = list(cut_list_pieces(description, netlist, look, writer))
    return list_pages(pieces, on, lettering), list(dict.fromkeys(lettering.problems))


def cut_list_pieces(description: Description, netlist: Netlist, look: Look, writer: Writer) -> Iterator[Piece]:
    """The same in pieces, for pages that hold more than it."""
    cuts = cut_list(netlist)
    holes = threaded_holes(description, netlist)
    yield from to_buy(cuts, strips_to_buy(description), dict(netlist.shown), writer)
    yield from flags_to_buy(sleeves_to_buy(description, netlist, look), wraps_to_buy(netlist), writer)
    yield from resistors_to_buy(lamp_resistors(description, netlist), netlist, writer)
    yield from diodes_to_buy_blocks(description, netlist, writer)
    yield title("Before you start", writer.setting)
    for caution in (*CAUTIONS, *_of_sleeves(netlist)):
        yield paragraph(writer.says(caution), writer.setting)
    yield from _Wires(netlist, cuts, holes, writer).pieces()
    yield from diodes_to_fit(description, netlist, writer)
    yield from _through_holes(netlist, holes, writer)
    yield from _off_reels(cuts, writer)


def _forms(netlist: Netlist) -> set[FlagForm]:
    return {wire.flag_form for wire in netlist.wires if not wire.link}


def _of_sleeves(netlist: Netlist) -> list[str]:
    """What is bought for them, and when they go on."""
    if "sleeve" not in _forms(netlist):
        return []
    sleeved = [wire for wire in netlist.wires if wire.flag_form == "sleeve" and not wire.link]
    every = "Every wire" if len(_forms(netlist)) == 1 else "A wire with sleeves"
    return [f"{every} takes 1 sleeve each end, before the ferrule: nothing passes over that.", *bores_said(sleeved)]


class _Wires:
    """The table of all wires, a band over those that are pulled one after the other."""

    def __init__(self, netlist: Netlist, cuts: CutList, holes: Sequence[ThreadedHole], writer: Writer) -> None:
        self._netlist, self._cuts, self._writer = netlist, cuts, writer
        self._holes = {hole.id: hole.shown for hole in holes}
        self._several_reels = any(row.reel is not None for row in cuts.rows)
        self._several_forms = len(_forms(netlist)) > 1

    def pieces(self) -> Iterator[Piece]:
        rows: list[Row | Band] = []
        for group in self._cuts.groups:
            rows += [self._band(group), *(self._row(row) for row in group.rows)]
        yield title("To cut, in order of pulling", self._writer.setting)
        yield from table(self._columns(), rows, self._writer.setting)
        yield space(4)

    def _columns(self) -> list[Column]:
        reel = [Column(heading="reel", align="end")] if self._several_reels else []
        return [
            Column(heading="cut"),
            Column(heading="no.", align="end", most=12),
            Column(heading="wire", most=20),
            Column(heading="colour"),
            Column(heading="size", most=16),
            Column(heading="mm", align="end"),
            *reel,
            Column(heading="ferrule"),
            Column(heading="from", grows=True),
            Column(heading="to", grows=True),
            Column(heading="flags"),
            *([Column(heading="tag")] if self._several_forms else []),
            Column(heading="in"),
        ]

    def _row(self, row: CutRow) -> Row:
        wire, words = row.wire, self._writer.words
        return Row(
            cells=(
                Ticks(),
                words(wire.number, bold=True),
                words(wire.head, bold=True),
                self._writer.swatch(replace(self._netlist.functions[wire.function], colour=wire.colour)),
                words(row.size or UNSAID),
                WriteIn() if wire.length is None else words(wire.length),
                *([words(row.reel or "")] if self._several_reels else []),
                words(f"{row.ferrules} × {row.ferrule.mm2:g}" if row.ferrule else UNSAID),
                words(wire.start.shown),
                words(wire.finish.shown),
                Ticks(count=row.flags) if row.flags else NOTHING,
                *([self._form(wire.flag_form) if row.flags else NOTHING] if self._several_forms else []),
                Ticks(),
            )
        )

    def _form(self, form: FlagForm) -> Cell:
        return self._writer.words(self._writer.says(FORMS[form]))

    def _band(self, group: CutGroup) -> Band:
        lengths = [row.wire.length for row in group.rows if row.wire.length is not None]
        sums = [count(len(group.rows), "link" if group.pull.links else "wire")]
        if lengths:
            sums.append(metres(sum(lengths)))
        return Band(text=self._writer.known(self._where(group)), right=", ".join(sums))

    def _where(self, group: CutGroup) -> str:
        pull = group.pull
        where = "No strip" if pull.strip is None else f"Strip {self._netlist.shown_id(pull.strip)}"
        if pull.board is not None:
            where = f"{where} on {self._netlist.shown_id(pull.board)}"
        if pull.links:
            return f"{where}: links"
        holes = ", ".join(self._holes.get(hole, hole) for hole in pull.holes)
        return f"{where}, through {holes}" if holes else where


def _through_holes(netlist: Netlist, holes: Sequence[ThreadedHole], writer: Writer) -> Iterator[Piece]:
    if holes:
        yield title("To thread, hole by hole", writer.setting)
    for hole in holes:
        where = writer.known(f"Hole {hole.shown} in {netlist.shown_id(hole.board)}")
        entries: list[Sequence[Cell]] = [
            (Ticks(), writer.words(wire.number, bold=True), writer.words(wire.head)) for wire in hole.wires
        ]
        band = Band(text=where, right=_room(hole))
        yield from grid(band, [TICK, NUMBER, Column(heading="")], entries, writer.setting)
        yield space(4)


def _room(hole: ThreadedHole) -> str:
    """How thick the bundle is, and what hole it needs, or how full it makes the one it has."""
    sizeless = f" ({hole.unknown} of no size)" if hole.unknown else ""
    bundle = f"{count(len(hole.wires), 'wire')}{sizeless}, bundle {hole.bundle:.1f} mm"
    if hole.fill is None:
        drill = "more than one hole" if hole.drill is None else f"drill {hole.drill:g} mm"
        return f"{bundle}: {drill}"
    full = f"{bundle}, hole {hole.diameter:g} mm: {100 * hole.fill:.0f} % full"
    if hole.fits:
        return f"{full}, at most {100 * hole.fill_limit:.0f} %"
    return f"{full}, too small; {'make another' if hole.drill is None else f'drill {hole.drill:g} mm'}"


def _off_reels(cuts: CutList, writer: Writer) -> Iterator[Piece]:
    """Which wires come off which reel, where there are several of one colour and size."""
    totals = [total for total in cuts.totals if len(total.plan.reels) > 1]
    if totals:
        yield title("To cut from each reel, longest first", writer.setting)
    for total in totals:
        yield from _reels_of(total, writer)


def _reels_of(total: StuffTotal, writer: Writer) -> Iterator[Piece]:
    for number, reel in enumerate(total.plan.reels, 1):
        stuff = " ".join(part for part in (total.colour, total.size, f"reel {number}") if part)
        over = f"{metres(reel.left, down=True)} left over" if reel.left >= LEAST_LEFT else "all used"
        left = f"{reel.length / 1000:g} m reel, {over}"
        wires = [total.wires[index] for index in reel.cuts]
        entries: list[Sequence[Cell]] = [
            (Ticks(), writer.words(wire.number, bold=True), writer.words(wire.length)) for wire in wires
        ]
        yield from grid(Band(text=writer.known(stuff), right=left), [TICK, NUMBER, NUMBER], entries, writer.setting)
        yield space(4)
