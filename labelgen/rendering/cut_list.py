"""The cut list as CSV for spreadsheets: what to cut, in the order in which it is pulled."""

import csv
from collections.abc import Iterator
from io import StringIO

from labelgen.model.cut_list import CutGroup, CutRow, cut_list
from labelgen.model.netlist import Netlist
from labelgen.rendering.tables import BYTE_ORDER_MARK
from labelgen.spreadsheet_cells import write_cell
from labelgen.standards.trade_words import TradeWords, said

CUT_COLUMNS = (
    "order",
    "strip",
    "holes",
    "number",
    "head",
    "colour",
    "size",
    "length",
    "reel",
    "ferrule",
    "bare end",
    "from",
    "to",
    "flags",
    "link",
    "tag",
)
"""Lengths and bare ends in mm; the reel only where there are several of one colour and size."""

TAGS = {
    "fold": "1 flag each end",
    "wrap": "1 wrap each end",
    "sleeve": "1 sleeve each end, before the ferrule",
}


def cut_list_csv(netlist: Netlist, words: TradeWords = "british") -> bytes:
    """One wire a line, written and guarded as in the wire list (`rendering.tables`).

    Columns keep their names in American words, for programs know them by these.
    """
    into = StringIO(newline="")
    writer = csv.writer(into, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(CUT_COLUMNS)
    for order, row in enumerate(_rows(netlist, words), 1):
        writer.writerow([order, *(write_cell(value) for value in row)])
    return f"{BYTE_ORDER_MARK}{into.getvalue()}".encode()


def _rows(netlist: Netlist, words: TradeWords) -> Iterator[tuple[str | int | None, ...]]:
    for group in cut_list(netlist).groups:
        yield from ((_strip(netlist, group), *_cells(row, words)) for row in group.rows)


def _strip(netlist: Netlist, group: CutGroup) -> str | None:
    return None if group.pull.strip is None else netlist.shown_id(group.pull.strip)


def _cells(row: CutRow, words: TradeWords) -> tuple[str | int | None, ...]:
    wire = row.wire
    return (
        " ".join(wire.holes),
        wire.number,
        wire.head,
        wire.colour,
        row.size,
        wire.length,
        row.reel,
        row.ferrule.notation if row.ferrule else None,
        row.ferrule.bare_mm if row.ferrule else None,
        wire.start.shown,
        wire.finish.shown,
        row.flags,
        "yes" if wire.link else "no",
        None if wire.link else said(TAGS[wire.flag_form], words),
    )
