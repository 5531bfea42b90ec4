"""What a cut list says of the diodes on strips: how many to buy, for how much, and from where to where each goes."""

from collections.abc import Iterator

from labelgen.drawings.lists.blocks import Column, Row, paragraph, space, table, title
from labelgen.drawings.lists.cells import Ticks
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import UNSAID, Writer, count
from labelgen.model.description import Description
from labelgen.model.netlist import Diode, End, Netlist
from labelgen.model.way_diodes import DiodesToBuy, diodes_of, diodes_to_buy
from labelgen.standards.diodes import SURGE_AMPS

PULSE_DIODES = (
    f"The whole pulse of a coil goes through one diode: take diodes for 1 A or more that bear {SURGE_AMPS} A for an"
    " instant, as usual ones do (common practice)."
)
BAND = (
    "Each is soldered or screwed in from way to way of its strip, beside the wires. Its band marks the side to which"
    " current flows."
)
PLUS = "That is right when the supply's feed is its plus; if it is the minus, turn every diode round."
BUY_COLUMNS = (
    Column(heading=""),
    Column(heading="diodes"),
    Column(heading="reverse voltage"),
    Column(heading="pieces", align="end"),
    Column(heading="on strips", grows=True, lines=40),
)
FIT_COLUMNS = (
    Column(heading=""),
    Column(heading="from, plain end"),
    Column(heading="head"),
    Column(heading="to, band"),
    Column(heading="head"),
    Column(heading="for", grows=True),
)


def diodes_to_buy_blocks(description: Description, netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    """A row for each rating; nothing where no strip has any."""
    wanted = diodes_to_buy(description, netlist)
    if not wanted:
        return
    yield from table(BUY_COLUMNS, [_to_buy(each, writer) for each in wanted], writer.setting)
    yield space(writer.setting.cap)
    if any(each.rating.surge for each in wanted):
        yield paragraph(PULSE_DIODES, writer.setting)
        yield space(0.6 * writer.setting.cap)


def _to_buy(each: DiodesToBuy, writer: Writer) -> Row:
    rating, words = each.rating, writer.words
    surge = f", {SURGE_AMPS} A for an instant" if rating.surge else ""
    volts = f"{rating.reverse_volts} V or more" if rating.reverse_volts else "over twice the supply's"
    amps = f"{rating.amps:g} A or more{surge}"
    return Row(cells=(Ticks(), words(amps), words(volts), words(each.count), words(", ".join(each.strips))))


def diodes_to_fit(description: Description, netlist: Netlist, writer: Writer) -> Iterator[Piece]:
    """A row for each diode, to tick off; nothing where there are none."""
    rows: list[Row] = []
    alternating = True
    for circuit in netlist.circuits:
        supply = description.supplies.get(circuit.supply)
        for diode in diodes_of(netlist, circuit):
            alternating = alternating and supply is not None and supply.kind == "ac"
            rows.append(_to_fit(diode, _named(description, netlist, circuit.devices), netlist, writer))
    if not rows:
        return
    yield title(f"To fit on the strips: {count(len(rows), 'diode')}", writer.setting)
    yield paragraph(BAND if alternating else f"{BAND} {PLUS}", writer.setting, keeps=True)
    yield from table(FIT_COLUMNS, rows, writer.setting)
    yield space(4)


def _to_fit(diode: Diode, devices: str, netlist: Netlist, writer: Writer) -> Row:
    words = writer.words
    ends = [
        cell
        for end in (diode.anode, diode.cathode)
        for cell in (words(end.shown, bold=True), words(_head(end, netlist) or UNSAID))
    ]
    return Row(cells=(Ticks(), *ends, words(devices)))


def _head(end: End, netlist: Netlist) -> str:
    return netlist.strip_by_id[end.thing].ways[int(end.terminal) - 1].head


def _named(description: Description, netlist: Netlist, devices: tuple[str, ...]) -> str:
    given = {**description.points, **description.devices}
    return ", ".join(f"{netlist.shown_id(id_)} {given[id_].name if id_ in given else ''}".strip() for id_ in devices)
