"""The wire list as CSV for spreadsheets, and as JSON for programs."""

import csv
import json
from io import StringIO

from labelgen.model.netlist import End, Netlist, Wire
from labelgen.spreadsheet_cells import COLUMNS, write_cell

BYTE_ORDER_MARK = "\ufeff"
"""Without it a common spreadsheet reads UTF-8 as an old code page and garbles every accent."""


def wires_csv(netlist: Netlist) -> bytes:
    """One wire a line under a line of headings; UTF-8 with a mark, commas, lines end in CR LF (RFC 4180).

    Texts stand in quotes, numbers (a wire number of ours, a length in mm) do not.
    """
    into = StringIO(newline="")
    writer = csv.writer(into, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows([write_cell(value) for value in wire_row(wire)] for wire in netlist.wires)
    return f"{BYTE_ORDER_MARK}{into.getvalue()}".encode()


def wires_json(netlist: Netlist) -> str:
    """The wires as section 9 of the format says; sides are null at ends that are no ways."""
    table = {"railway": netlist.railway, "wires": [_record(wire) for wire in netlist.wires]}
    return json.dumps(table, ensure_ascii=False, indent=2) + "\n"


def wire_row(wire: Wire) -> tuple[str | int | None, ...]:
    """What stands under each heading of `COLUMNS`."""
    return (
        wire.number,
        wire.head,
        wire.circuit,
        wire.function,
        wire.code,
        wire.colour,
        wire.size,
        wire.start.shown,
        _side(wire.start),
        wire.finish.shown,
        _side(wire.finish),
        "yes" if wire.link else "no",
        wire.board,
        " ".join(wire.holes),
        wire.length,
        wire.note,
    )


def _record(wire: Wire) -> dict[str, object]:
    return {
        "number": wire.number,
        "circuit": wire.circuit,
        "function": wire.function,
        "code": wire.code,
        "head": wire.head,
        "colour": wire.colour,
        "size": wire.size,
        "from": wire.start.name,
        "to": wire.finish.name,
        "from_side": _side(wire.start),
        "to_side": _side(wire.finish),
        "link": wire.link,
        "board": wire.board,
        "holes": list(wire.holes),
        "length": wire.length,
    }


def _side(end: End) -> str | None:
    return None if end.side is None else end.side.value
