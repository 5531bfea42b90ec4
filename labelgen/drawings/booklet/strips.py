"""A booklet's strips: of each a picture, and the table of all that goes into its ways."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from labelgen.drawings.booklet.figures import throw_said
from labelgen.drawings.booklet.index import way_stop
from labelgen.drawings.booklet.pages import Chapter, opening
from labelgen.drawings.booklet.picture import idle_words, picture
from labelgen.drawings.booklet.strip_hanging import hanging
from labelgen.drawings.booklet.work import Work
from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.cells import NOTHING, Cell, PageNumber, Words
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, Writer
from labelgen.model.figure_views import FigureViews
from labelgen.model.lamp_leads import load_shown
from labelgen.model.netlist import End, EndKind, Netlist, Side, StripPlan, WayPlan, Wire
from labelgen.model.way_diodes import ends_said
from labelgen.standards.conductors import parse_size

PART = "Strips"
FRONT = {"left": "on the left", "right": "on the right", "up": "above", "down": "below"}
COLUMNS = (
    Column(heading="way", align="end"),
    Column(heading="side"),
    Column(heading="wire", most=20),
    Column(heading="no.", align="end", most=13),
    Column(heading="colour"),
    Column(heading="size", most=17),
    Column(heading="mm", align="end"),
    Column(heading="goes to", grows=True),
    Column(heading="page", align="end"),
)


class StripChapters:
    def __init__(self, work: Work, views: FigureViews) -> None:
        self._views = views
        self._work, self._description, self._netlist, self._writer = work, work.description, work.netlist, work.writer
        self._names = {(EndKind.LEVER, lever.id): lever.name for lever in self._netlist.levers}
        devices = {**self._description.points, **self._description.devices}
        self._names |= {(EndKind.DEVICE, id_): device.name for id_, device in devices.items()}

    def chapter(self, strip: StripPlan) -> Chapter:
        """On one page, when all of it fits there; else the picture on one and the table on the next."""
        setting, room = self._writer.setting, self._work.book.room.height
        head = [
            opening(f"Strip {self._writer.known(strip.shown)}", setting, self._writer.known(self._where(strip))),
            *(paragraph(self._writer.known(text), setting) for text in self._about(strip)),
        ]
        used = sum(piece.height for piece in head)
        ways = [title("Way by way", setting), *self._ways(strip), *self._figures(strip)]
        drawn = picture(strip, self._work, self._names, room - used - 1)
        whole = [*head, *drawn, space(4), *ways]
        fits = sum(piece.height for piece in whole) < room - 1
        return Chapter(
            title=f"Strip {strip.shown}",
            note=self._writer.known(self._where(strip)).removeprefix("under "),
            stop=f"strip {strip.id}",
            sections=(whole,) if fits else ([*head, *drawn], ways),
            part=PART,
        )

    def _where(self, strip: StripPlan) -> str:
        board = self._description.boards.get(strip.board or "")
        written = self._description.strips.get(strip.id)
        shown = self._netlist.shown_id(strip.board or "")
        named = f"{board.name} ({shown})" if board is not None and board.name else shown
        parts = [written.name if written is not None else "", f"under {named}" if named else ""]
        return ", ".join(part for part in parts if part) or " "

    def _about(self, strip: StripPlan) -> Iterator[str]:
        busy = sum(way.state not in ("spare", "kept") for way in strip.ways)
        fed = f", fed by {', '.join(strip.supplies)}" if strip.supplies else ""
        rows = f"; {strip.tiers} rows, the first next to the board" if strip.tiers > 1 else ""
        yield f"{busy} of {len(strip.ways)} ways in use{fed}{rows}.{self._issue(strip)}"
        front = FRONT[hanging(strip).front]
        edge = f"The thick line {front} is the board’s front edge"
        yield f"As it hangs, seen from below, looking up. {edge}."

    def _issue(self, strip: StripPlan) -> str:
        known = (
            (word, self._work.issues.get((kind, strip.id), ""))
            for kind, word in (("markers", "marker"), ("tags", "tag"))
        )
        said = ", ".join(f"{word} {issue}" for word, issue in known if issue)
        return f" Issue in force: {said}." if said else ""

    def _ways(self, strip: StripPlan) -> Iterator[Piece]:
        rows: list[Row] = []
        for empty, ways in groupby(strip.ways, key=lambda way: _is_empty(way, strip)):
            run = list(ways)
            rows += (
                [self._run(run)] if empty and len(run) > 2 else [row for way in run for row in self._way(strip, way)]
            )
        return table(COLUMNS, rows, self._writer.setting)

    def _figures(self, strip: StripPlan) -> Iterator[Piece]:
        """What is worked out of all that has its ways here."""
        view, netlist = self._views.of_strip(strip.id), self._netlist
        throws = "; ".join(f"{throw.shown} {throw_said(netlist, throw)}" for throw in view.throws)
        loads = "; ".join(
            f"{'a train at ' if load.train else ''}{load_shown(netlist, load.device, load.terminal)}"
            f" {load.amps:.2f} A at {load.volts:.1f} V"
            for load in view.loads
        )
        ways = ", ".join(f"way {way} {amps:.2f} A" for way, amps in sorted(view.ways.items()))
        said = [("One throw, at its weakest coil", throws), ("Steady loads", loads), ("Steady current at most", ways)]
        texts = [f"{name}: {text}." for name, text in said if text]
        if texts:
            yield space(3)
            yield title("Electrical figures", self._writer.setting)
            yield from (paragraph(self._writer.known(text), self._writer.setting) for text in texts)

    def _run(self, ways: Sequence[WayPlan]) -> Row:
        """Ways of which nothing is to be said."""
        first = self._writer.words(ways[0].number, bold=True)
        said = self._writer.words(f"to way {ways[-1].number}: spare")
        return Row(cells=(first, *[NOTHING] * 6, said, NOTHING))

    def _way(self, strip: StripPlan, way: WayPlan) -> Iterator[Row]:
        wires = [(side, wire) for side in Side for wire in way.entry(side)]
        number: Cell = self._writer.words(way.number, bold=True)
        stop, lasts = way_stop(strip.id, way.number), list(self._remarks(strip, way, idle=not wires))
        for side, wire in wires:
            far = _far(wire, strip.id, way.number)
            keeps = wire is not wires[-1][1] or bool(lasts)
            cells = (number, Words(text=side.value), *self._wire(wire, far))
            yield Row(cells=cells, stop=stop, keeps=keeps)
            number, stop = NOTHING, ""
        for text in lasts:
            cells = (number, *[NOTHING] * 6, self._writer.words(text), NOTHING)
            yield Row(cells=cells, stop=stop, keeps=text is not lasts[-1])
            number, stop = NOTHING, ""

    def _wire(self, wire: Wire, far: End) -> Iterator[Cell]:
        parsed, words = parse_size(wire.size), self._writer.words
        holes = f", through {', '.join(map(self._netlist.shown_id, wire.holes))}" if wire.holes else ""
        yield from named_cells(wire, self._netlist, self._writer)
        yield words((wire.size if parsed is None else parsed.notation) or UNSAID)
        yield words(UNSAID if wire.length is None else wire.length)
        yield from far_cells(wire, far, self._work, holes)

    def _remarks(self, strip: StripPlan, way: WayPlan, *, idle: bool) -> Iterator[str]:
        """What else is to be known of a way."""
        if idle:
            yield idle_words(way)
        if way.was:
            yield f"it was {way.was}"
        if way.test:
            yield "a test point"
        yield from ends_said(way)
        if way.swap_with:
            yield f"if it shorts, swap it with way {way.swap_with}"
        for bar in strip.bridges:
            if way.number in bar and way.bridged_to is None:
                yield f"bridged with {', '.join(str(other) for other in bar if other != way.number)}"


def _is_empty(way: WayPlan, strip: StripPlan) -> bool:
    bridged = any(way.number in bar for bar in strip.bridges)
    return way.state == "spare" and not (way.panel or way.layout or way.was or way.test or way.swap_with or bridged)


def named_cells(wire: Wire, netlist: Netlist, writer: Writer) -> Iterator[Cell]:
    """Head, number, colour."""
    yield writer.words(wire.head, bold=True)
    yield writer.words(wire.number)
    yield writer.swatch(replace(netlist.functions[wire.function], colour=wire.colour))


def far_cells(wire: Wire, far: End, work: Work, more: str = "") -> Iterator[Cell]:
    """Where it goes, and on which page that is."""
    stop = work.index.stop(far)
    yield replace(work.writer.words(f"{'link to ' if wire.link else ''}{far.shown}{more}"), leads_to=stop)
    yield PageNumber(stop=stop, numbers=work.book.numbers)


def _far(wire: Wire, strip: str, way: int) -> End:
    here = (EndKind.WAY, strip, str(way))
    return wire.finish if wire.start.point == here else wire.start
