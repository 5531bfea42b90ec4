"""Test sheets of steps: the proof of a motor's common, the order in which power comes on, the check at a show."""

from collections.abc import Iterable, Iterator, Sequence

from labelgen.drawings.lists.blocks import Band, Column, Row, paragraph, space, table
from labelgen.drawings.lists.cells import NOTHING, Cell
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import Writer, count
from labelgen.drawings.testing.words import CAUTION, READ, TICK, expected, ohms
from labelgen.model.netlist import Netlist
from labelgen.model.test_plan import MotorRow, ShowAct, ShowStep, SupplyStart, TestPlan

MOTORS = (
    "Before its leads are fitted, or with them lifted: from coil to coil a motor reads twice what either coil reads to"
    " the common. So the lead that is not in the highest reading is the common. Its colour proves nothing."
)
POWER = (
    "Only when every reading is right. One supply at a time, from the top; between two of them all is off again. Keep"
    " one hand away, and stop at the first spark, smell or hum.",
    "The lamp in series is a filament lamp of at least the supply's volts. While it stands in the feed, a short only"
    " lights it: lit for good means a short or a contact that stays made. Switch off, isolate, and find it.",
)
KINDS = {"dc": "steady (dc)", "ac": "steady (ac)", "track": "track", "digital": "digital", "pulse": "pulse"}
SHOW = (
    "One person throws, one watches; ten seconds a throw. Look at each plug before its throws: is it home, latched, no"
    " pin bent, no wire pulled? What fails is noted and not fiddled with; the fault finder tells where to measure."
)
STEPS = Column(heading="", grows=True)
COIL_EMS = 7.0
"""In cap heights: a longer coil is broken before its ohms, lest a motor's name have no room."""


def motor_pieces(motors: Sequence[MotorRow], writer: Writer) -> Iterator[Piece]:
    """A row for every motor, with room for its three readings."""
    setting = writer.setting
    yield paragraph(writer.says(CAUTION), setting)
    yield paragraph(writer.says(MOTORS), setting)
    yield space(2)
    columns = (
        Column(heading=""),
        Column(heading="motor", grows=True),
        Column(heading="one coil", align="end", most=COIL_EMS * setting.cap),
        Column(heading="reads"),
        Column(heading="other coil", align="end", most=COIL_EMS * setting.cap),
        Column(heading="reads"),
        Column(heading="both: twice", align="end"),
        Column(heading="reads"),
    )
    rows = [_motor(row, writer) for row in motors]
    yield from table(columns, rows, setting)
    yield space(3)
    asked = sum(not row.not_in_use for row in motors)
    yield paragraph(f"{count(asked, 'motor')}, three readings each: {3 * asked}.", setting)


def _motor(row: MotorRow, writer: Writer) -> Row:
    name = writer.words(f"{row.shown} {row.name}".strip(), bold=True)
    if row.not_in_use:
        said = writer.words(f"{row.shown} not in use: {row.not_in_use}")
        return Row(cells=(NOTHING, said, *[NOTHING] * 6))
    cells: list[Cell] = []
    first, second = row.coils
    for ends, factor in (((first, row.common), 1), ((second, row.common), 1), ((first, second), 2)):
        figure = f" {ohms(row.ohms * factor)}" if row.ohms is not None else ""
        cells += [writer.words(f"{ends[0]}–{ends[1]}{figure}"), READ]
    return Row(cells=(TICK, name, *cells))


def power_pieces(starts: Sequence[SupplyStart], writer: Writer) -> Iterator[Piece]:
    """Supply by supply, what is done in which order."""
    setting = writer.setting
    for text in (CAUTION, *POWER):
        yield paragraph(writer.says(text), setting)
    yield space(2)
    rows: list[Row | Band] = []
    for place, start in enumerate(starts, 1):
        called = f"{place}. {start.shown} {start.name}".strip()
        rows.append(Band(text=writer.known(called), right=KINDS[start.kind]))
        steps = list(_steps(start))
        for number, (text, reads) in enumerate(steps, 1):
            cells = (TICK, writer.words(writer.says(text)), READ if reads else NOTHING)
            rows.append(Row(cells=cells, keeps=number < len(steps)))  # nobody turns a page with a supply on
    yield from table((Column(heading=""), STEPS, Column(heading="")), rows, setting)


def _steps(start: SupplyStart) -> Iterator[tuple[str, bool]]:
    """Each step, and whether something is read."""
    yield "All supplies isolated; levers that stay where they are put lie normal; no train on the rails.", False
    if start.fed_by:
        yield f"It is fed by {start.fed_by}: that one was tried before it, and comes on with it.", False
    if start.reading is not None and start.across is not None:
        one, other = start.reading.shown
        red = ", red lead on the first" if start.reading.red_first else ""
        yield f"Its wires still off: from that of {one} to that of {other}{red} the meter reads: {_said(start)}", True
    numbers = ", ".join(str(wire.number) for wire in start.wires)
    lamp = start.across[0] if start.across is not None else start.shown
    yield f"Put its wires back (no. {numbers}), with the lamp in series at {lamp}.", False
    yield f"Switch on. {_lamp(start.kind)}", False
    if start.measured_at is not None:
        volts = f"{start.volts:g} volts" if start.volts is not None else "its volts"
        one, other = start.measured_at
        yield f"From {one} to {other} the meter reads {volts} (a little less through the lamp).", True
    yield "Switch off, take the lamp out, switch on, and measure again.", True
    if start.kind == "pulse":
        yield "Throw one lever each way; wait between for the bank to fill.", False
        yield "Switch off, isolate, discharge the bank through a resistor, and measure: less than 1 volt.", True


def _said(start: SupplyStart) -> str:
    reading = start.reading
    if reading is None or reading.expect == "nothing":
        return "nothing at all."
    return "no beep, above 2 ohms." if reading.expect == "no-short" else f"{expected(reading)}, through coils."


def _lamp(kind: str) -> str:
    if kind == "pulse":
        return "The lamp lights while the bank fills, and goes out."
    return "The lamp stays dark, or glows for what is on; bright is a short."


def show_pieces(plan: TestPlan, netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    """Plug by plug: look, then throw."""
    setting = writer.setting
    acts = sum(len(step.acts) for step in plan.show)
    yield paragraph(writer.says(SHOW), setting)
    minutes = -(-acts * 10 // 60)
    yield paragraph(f"{count(acts, 'throw')}: about {count(minutes, 'minute')}.", setting)
    yield space(2)
    columns = (
        Column(heading="", most=40),
        Column(heading=""),
        Column(heading=""),
        Column(heading=""),
        Column(heading=""),
        Column(heading="must work", grows=True),
        Column(heading="on"),
    )
    rows: list[Row | Band] = []
    for step in plan.show:
        rows.append(_plug_band(step, netlist, writer))
        rows += [_throws(acts_, netlist, writer) for acts_ in _by_lever(step.acts)]
    yield from table(columns, rows, setting)


def _plug_band(step: ShowStep, netlist: Netlist, writer: Writer) -> Band:
    if not step.plug:
        return Band(text="Without a plug between")
    boards = " to ".join(netlist.shown_id(board) for board in step.boards)
    used = f"{step.pins} of {step.of_pins} pins" if step.of_pins else ""
    return Band(text=writer.known(f"Plug {step.shown}, {boards}"), right=used)


def _by_lever(acts: Iterable[ShowAct]) -> Iterator[list[ShowAct]]:
    """Two throws of one lever to a row."""
    row: list[ShowAct] = []
    for act in acts:
        if row and (row[0].shown != act.shown or len(row) == 2):
            yield row
            row = []
        row.append(act)
    if row:
        yield row


def _throws(acts: Sequence[ShowAct], netlist: Netlist, writer: Writer) -> Row:
    cells: list[Cell] = []
    for act in acts:
        cells += [writer.words(act.lie), TICK]
    cells += [NOTHING] * (4 - len(cells))
    board = netlist.shown_id(acts[0].board)
    works = ", ".join(acts[0].works)
    return Row(cells=(writer.words(acts[0].shown, bold=True), *cells, writer.words(works), writer.words(board)))
