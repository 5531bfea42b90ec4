"""The test sheets: how to test, a chart for every board, then plugs, motors, power, and the check at a show.

Each is on pages of its own, so that a helper can be given one.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.lists.blocks import Band, Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.pages import ListPaper, Piece, list_pages
from labelgen.drawings.lists.writing import Writer, count, writer_on
from labelgen.drawings.testing.diodes import diode_pieces, diodes_on
from labelgen.drawings.testing.steps import motor_pieces, power_pieces, show_pieces
from labelgen.drawings.testing.words import BEFORE, CAP, CAUTION, HOW, POSITIONS, READ, TICK, WALK, expected, leads
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Diode, Netlist
from labelgen.model.test_plan import BoardChart, PlugChart, Reading, ShowStep, TestPlan
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

HINT = "Shorten it, or give it a shorter `shown:`."


@dataclass(frozen=True, slots=True, kw_only=True)
class TestPart:
    """What has pages of its own."""

    title: str
    """In the running head; in a booklet its chapter."""
    heading: str
    """Over its first page."""
    pieces: Callable[[Writer], Iterable[Piece]]
    board: str | None = None
    under: str | None = None
    """In a booklet below the chapter's title; the heading, where that would not say the same again."""


def pages_of_tests(
    description: Description, netlist: Netlist, plan: TestPlan, look: Look, paper: Paper, *, board: str | None = None
) -> tuple[list[Drawing], list[Problem]]:
    """All test sheets but the evening cards, each as large as its paper; none of a railway without wires.

    `board`: only what concerns that board. Problems: text-does-not-fit, character-missing.
    """
    if not plan.charts:
        return [], []
    place = description.place_of_key("railway")
    lettering = Lettering(label="test sheet", place=place, look=look, hint=HINT)
    railway = lettering.known(description.railway, BOLD)
    pages: list[Drawing] = []
    for part in parts_of_tests(description, netlist, plan, board):
        on = ListPaper(paper=paper, railway=railway, title=lettering.known(part.title, BOLD))
        writer = writer_on(on, lettering, look, CAP)
        pieces = [title(writer.known(part.heading), writer.setting), *part.pieces(writer)]
        pages += [replace(page, board=part.board) for page in list_pages(pieces, on, lettering)]
    return pages, list(dict.fromkeys(lettering.problems))


def parts_of_tests(description: Description, netlist: Netlist, plan: TestPlan, board: str | None) -> list[TestPart]:
    """What has pages of its own, in order; for a booklet too."""
    return list(_parts(_of_board(plan, board), netlist, description)) if plan.charts else []


def _of_board(plan: TestPlan, board: str | None) -> TestPlan:
    """What concerns one board; all of it when none is named."""
    if board is None:
        return plan
    return replace(
        plan,
        charts=tuple(chart for chart in plan.charts if chart.board == board),
        plugs=tuple(plug for plug in plan.plugs if board in plug.boards),
        motors=tuple(row for row in plan.motors if row.board == board),
        starts=tuple(start for start in plan.starts if start.board == board),
        show=tuple(_near(step, board) for step in plan.show if board in step.boards),
    )


def _near(step: ShowStep, board: str) -> ShowStep:
    """Of what needs no plug only the acts on a board."""
    return step if step.plug else replace(step, acts=tuple(act for act in step.acts if act.board == board))


def _parts(plan: TestPlan, netlist: Netlist, description: Description) -> Iterator[TestPart]:
    names = {id_: board.name for id_, board in description.boards.items()}
    pulled = ", its plugs pulled" if plan.plugs else ""
    yield TestPart(title="how to test", heading="Before you test", pieces=lambda writer: _how(plan, writer))
    for chart in plan.charts:
        shown = netlist.shown_id(chart.board)
        called = f"board {shown}" if chart.board else "all wires"
        name = names.get(chart.board, "")
        heading = f"{called[0].upper()}{called[1:]} {name}".strip() + pulled
        yield TestPart(
            title=f"tests, {called}",
            heading=heading,
            under=(name + pulled).removeprefix(", "),
            board=chart.board or None,
            pieces=partial(_chart, chart, diodes_on(netlist, chart.board)),
        )
    if plan.plugs:
        pieces = partial(_plugs, plan, netlist)
        yield TestPart(title="tests, plugs in", heading="With the plugs in", pieces=pieces)
    if plan.motors:
        pieces = partial(motor_pieces, plan.motors)
        yield TestPart(title="tests, motors", heading="Which lead is the common", pieces=pieces)
    if plan.starts:
        pieces = partial(power_pieces, plan.starts)
        yield TestPart(title="power on", heading="The order in which power comes on", pieces=pieces)
    if any(step.acts for step in plan.show):
        pieces = partial(show_pieces, plan, netlist)
        yield TestPart(
            title="ten minutes at a show",
            heading="Before the doors open, in order of the plugs",
            pieces=pieces,
        )


def _how(plan: TestPlan, writer: Writer) -> Iterator[Piece]:
    setting = writer.setting
    yield paragraph(writer.says(CAUTION), setting, bold=True)
    for text in BEFORE:
        yield paragraph(writer.says(text), setting)
    yield space(2)
    yield title("What the meter must do", setting)
    columns = (Column(heading=""), Column(heading="", grows=True))
    rows = [Row(cells=(writer.words(what, bold=True), writer.words(writer.says(means)))) for what, means in HOW]
    yield from table(columns, rows, setting)
    yield space(3)
    for text in WALK:
        yield paragraph(writer.says(text), setting)
    yield space(2)
    yield title("How many readings, and why not fewer", setting)
    for text in _counts(plan):
        yield paragraph(text, setting)


def _counts(plan: TestPlan) -> Iterator[str]:
    yield (
        f"{count(len(plan.whole), 'reading')} must beep. Every end of a net has to be touched, and a reading touches"
        f" two: {plan.fewest_whole} are the fewest that prove all nets whole, wire by wire and joint by joint."
    )
    if plan.plugged:
        yield (
            f"{count(len(plan.plugged), 'reading')} more must beep with the plugs in, for their pins;"
            f" {plan.fewest_plugged} are the fewest."
        )
    if plan.again:
        yield (
            f"{count(len(plan.again), 'reading')} of these are taken again with all levers and blades reverse: while"
            " they lie normal, their contacts would hide that two wires are crossed."
        )
    yield (
        f"{count(len(plan.apart), 'reading')} must not beep: they prove {plan.pairs - len(plan.unread)} pairs of nets"
        " apart that lie side by side somewhere. Nets that coils join are one group: between two groups one reading is"
        " enough. Within a group a reading falls by nearly half or more where a coil on its way is bridged, straight or"
        f" through another coil beside it: so one reading proves several pairs. {_fewest_apart(plan)}"
    )
    if plan.unread:
        pairs = ", ".join(f"{one} and {other}" for one, other in plan.unread)
        yield f"No meter can tell these apart, for contacts join them however the levers lie: {pairs}."


def _fewest_apart(plan: TestPlan) -> str:
    least = plan.fewest_apart
    return f"{least} are the fewest." if len(plan.apart) == least else f"Fewer than {least} cannot do."


def _chart(chart: BoardChart, diodes: Sequence[Diode], writer: Writer) -> Iterator[Piece]:
    """What must beep and what must not, on one board."""
    yield paragraph(writer.says(CAUTION), writer.setting)
    for idle in chart.idle:
        yield paragraph(writer.known(f"{idle.shown} is not in use ({idle.reason}): it is left out."), writer.setting)
    apart = dict(chart.apart)
    parts = {
        "Must beep": chart.whole,
        POSITIONS["normal"]: apart.pop("normal", ()),
        "Must beep again, all levers and blades reverse": chart.again,
        **{POSITIONS[levers]: readings for levers, readings in apart.items()},
    }
    filled = {heading: readings for heading, readings in parts.items() if readings}
    for number, (heading, readings) in enumerate(filled.items()):
        yield space(5 if number else 0)
        yield title(f"{heading}: {count(len(readings), 'reading')}", writer.setting)
        yield from readings_table(readings, writer)
    yield from diode_pieces(diodes, writer)


def readings_table(readings: Iterable[Reading], writer: Writer) -> Iterator[Piece]:
    """Readings to tick, with what they must read, a band over those at one place."""
    columns = (
        Column(heading=""),
        Column(heading="one lead at", grows=True),
        Column(heading="other lead at", grows=True),
        Column(heading="wires", most=46),
        Column(heading="must read", align="end"),
        Column(heading="reads"),
    )
    rows: list[Row | Band] = []
    band = ""
    for reading in readings:
        if reading.band != band:
            band = reading.band
            rows.append(Band(text=writer.known(band)))
        one, other = leads(reading)
        ends = (writer.words(one, bold=True), writer.words(other, bold=True))
        rows.append(Row(cells=(TICK, *ends, writer.words(reading.what), writer.words(expected(reading)), READ)))
    yield from table(columns, rows, writer.setting)


def _plugs(plan: TestPlan, netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    setting = writer.setting
    yield paragraph("When all boards are tested, join them and put every plug in. Supplies stay off.", setting)
    for plug in plan.plugs:
        yield space(2)
        yield title(writer.known(f"Plug {plug.shown}: {count(len(plug.readings), 'reading')} must beep"), setting)
        yield paragraph(writer.known(_between(plug, netlist)), setting, keeps=True)
        yield from readings_table([replace(reading, band="") for reading in plug.readings], writer)


def _between(plug: PlugChart, netlist: Netlist) -> str:
    one, other = (netlist.shown_id(board) for board in plug.boards)
    return f"Between {one} and {other}. Wiggle it while the leads are on."
