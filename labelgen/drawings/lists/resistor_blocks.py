"""What a cut list says of resistors before lamps: which to buy, and where each goes."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from labelgen.drawings.lists.blocks import Column, Row, space, table
from labelgen.drawings.lists.cells import Ticks
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, Writer
from labelgen.model.lamp_resistors import LampResistor, ohms_said
from labelgen.model.netlist import Netlist

COLUMNS = (
    Column(heading=""),
    Column(heading="resistors"),
    Column(heading="watts", align="end"),
    Column(heading="pieces", align="end"),
    Column(heading="in the wire at", grows=True, lines=40),
)


def resistors_to_buy(resistors: Sequence[LampResistor], netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    """A row for each value and rating, small ones first; nothing where no lamp needs one."""
    found: dict[tuple[Fraction, Fraction], list[str]] = {}
    for one in resistors:
        if one.resistor is not None:
            key = (one.resistor.ohms, one.resistor.rating_watts or Fraction(0))
            found.setdefault(key, []).append(one.place(netlist))
    rows = [_row(ohms, watts, places, writer) for (ohms, watts), places in sorted(found.items())]
    if rows:
        yield from table(COLUMNS, rows, writer.setting)
        yield space(writer.setting.cap)


def _row(ohms: Fraction, watts: Fraction, places: Sequence[str], writer: Writer) -> Row:
    return Row(
        cells=(
            Ticks(),
            writer.words(ohms_said(ohms)),
            writer.words(str(watts) if watts else UNSAID),
            writer.words(len(places)),
            writer.words(", ".join(places)),
        )
    )
