"""Tables for the terminal: wide enough for the screen, or for everything when nobody watches."""

import sys
from collections.abc import Sequence

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from labelgen.model.built.record_changes import Changes
from labelgen.model.netlist import End, Netlist, Wire
from labelgen.model.sheet import ROLL, Stock

UNWATCHED_WIDTH = 240
"""Columns of a table that goes into a file or another program: nothing is folded."""


def print_wires(netlist: Netlist) -> None:
    """The wire list, one wire a line, and what it adds up to."""
    titles = ("no.", "head", "from", "to", "colour", "size", "mm", "board", "holes", "note")
    print_table(titles, [_row(wire) for wire in netlist.wires], right={0, 6})
    lengths = [wire.length for wire in netlist.wires if wire.length is not None]
    without = len(netlist.wires) - len(lengths)
    total = f"{len(netlist.wires)} wires, {sum(lengths) / 1000:.1f} m"
    _console().print(total + (f", and {without} of unknown length" if without else ""), highlight=False)


def print_changes(changes: Changes) -> None:
    """What came, went and moved since the record was last written."""
    if not changes:
        _console().print("nothing came, went or moved since this was last made")
        return
    rows = [
        (word, str(wire.number), wire.head, wire.start, wire.finish)
        for word, wires in (("came", changes.came), ("went", changes.went))
        for wire in wires
    ]
    rows += [("moved", "", move.what, move.was, move.now) for move in changes.moved]
    print_table(("", "no.", "head", "from", "to"), rows, right={1})


def print_stocks(stocks: Sequence[Stock]) -> None:
    """The label sheets, by their geometry."""
    rows = [
        (
            stock.id,
            "roll" if stock.paper == ROLL else f"{stock.columns} × {stock.rows}",
            f"{stock.width:g} × {stock.height:g}{' round' * (stock.shape == 'round')}",
            f"{stock.pitch_x:g} × {stock.pitch_y:g}",
            f"{stock.left:g} / {stock.top:g}",
        )
        for stock in stocks
    ]
    print_table(("sheet", "labels", "label, mm", "pitch, mm", "left / top, mm"), rows, right=set())


def _row(wire: Wire) -> tuple[str, ...]:
    return (
        str(wire.number),
        f"{wire.stem}{wire.code}{wire.mark}",
        _end(wire.start),
        _end(wire.finish),
        wire.colour or "–",
        wire.size,
        "?" if wire.length is None else str(wire.length),
        wire.board or "",
        " ".join(wire.holes),
        ", ".join(part for part in ("link" if wire.link else "", wire.note) if part),
    )


def _end(end: End) -> str:
    return f"{end.shown}/{end.side}" if end.side else end.shown


def print_table(titles: Sequence[str], rows: Sequence[Sequence[str]], *, right: set[int]) -> None:
    """Rows under their titles; the columns in `right` are set to the right."""
    table = Table(box=box.SIMPLE_HEAD, show_edge=False, pad_edge=False)
    for number, title in enumerate(titles):
        table.add_column(title, justify="right" if number in right else "left", no_wrap=True)
    for row in rows:
        table.add_row(*(Text(cell) for cell in row))
    _console().print(table)


def _console() -> Console:
    return Console(width=None if sys.stdout.isatty() else UNWATCHED_WIDTH)
