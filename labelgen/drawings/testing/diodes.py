"""Test sheets of diodes: each is read forward and backward, by itself."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import Writer, count
from labelgen.drawings.testing.words import READ, TICK
from labelgen.model.netlist import Diode, Netlist
from labelgen.model.way_diodes import strip_diodes

HOW = (
    "Before the wires to the motors are fitted, or with those lifted from the ways below: motors would join them. Set"
    " the meter to test diodes. It reads volts then; forward 0.4 to 0.8 is right for a usual diode (common practice).",
    "The leads changed over, it reads nothing. A reading both ways is a short; none either way is a break; a reading"
    " that is the wrong way about is a diode that is.",
)
FORWARD, BACKWARD = "0.4 to 0.8", "nothing"


def diodes_on(netlist: Netlist, board: str) -> tuple[Diode, ...]:
    """Those on the strips of a board; "" where there are no boards."""
    return tuple(one for one in strip_diodes(netlist) if (netlist.strip_by_id[one.anode.thing].board or "") == board)


def diode_pieces(diodes: Sequence[Diode], writer: Writer) -> Iterator[Piece]:
    """A row for each, with room for both readings; nothing where there are none."""
    if not diodes:
        return
    yield space(5)
    yield title(f"Diodes: {count(2 * len(diodes), 'reading')}", writer.setting)
    for text in HOW:
        yield paragraph(writer.says(text), writer.setting, keeps=True)
    columns = (
        Column(heading=""),
        Column(heading="red lead at", grows=True),
        Column(heading="black, at the band", grows=True),
        Column(heading="forward"),
        Column(heading="reads"),
        Column(heading="turned round"),
        Column(heading="reads"),
    )
    yield from table(columns, [_row(diode, writer) for diode in diodes], writer.setting)


def _row(diode: Diode, writer: Writer) -> Row:
    words = writer.words
    ends = (words(diode.anode.shown, bold=True), words(diode.cathode.shown, bold=True))
    return Row(cells=(TICK, *ends, words(FORWARD), READ, words(BACKWARD), READ))
