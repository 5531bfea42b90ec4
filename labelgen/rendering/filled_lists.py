"""A builder's own spreadsheet, given back in its columns and order with only its blanks filled."""

import csv
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from io import BytesIO, StringIO
from pathlib import PurePosixPath

from labelgen.model.netlist import Circuit, Netlist, Wire
from labelgen.model.paper_lists import PaperList
from labelgen.spreadsheet_cells import write_cell

Value = str | int
Filling = tuple[int, int, Value]
"""Row and column, from 1, and what goes there if it is blank."""


def filled_files(papers: Iterable[PaperList], netlist: Netlist) -> dict[str, bytes]:
    """Name and content of each file that is to be given back; two lists in one workbook come back in one."""
    names: dict[str, str] = {}
    files: dict[str, bytes] = {}
    for paper in papers:
        if not paper.in_place:
            continue
        path = PurePosixPath(paper.file)
        ending = "csv" if paper.sheet is None else "xlsx"
        plain = f"{path.stem}-filled.{ending}"
        # Two lists of one name in two folders: their folders tell them apart.
        whole = f"{'-'.join(path.with_suffix('').parts)}-filled.{ending}"
        name = names.setdefault(paper.file, whole if plain in files else plain)
        files[name] = filled(replace(paper, content=files.get(name, paper.content)), netlist)
    return files


def filled(paper: PaperList, netlist: Netlist) -> bytes:
    """The same list, with the blanks filled that stand in a column which has a name, in a row that became something."""
    fillings = list(_fillings(paper, netlist))
    return _csv(paper, fillings) if paper.sheet is None else _xlsx(paper, fillings)


def _fillings(paper: PaperList, netlist: Netlist) -> Iterator[Filling]:
    wires: dict[int, Wire] = {}
    for wire in netlist.wires:
        if wire.listed is not None:
            wires.setdefault(wire.listed, wire)  # through plugs one row is several wires: the first has its number
    circuits = {device: circuit for circuit in netlist.circuits for device in circuit.devices}
    for row, path in paper.rows.items():
        thing = path[1]
        values: Mapping[str, Value | None] = {}
        if isinstance(thing, int) and thing in wires:
            values = _of_wire(wires[thing])
        elif isinstance(thing, str) and thing in circuits:
            values = _of_device(thing, circuits[thing])
        for key, columns in paper.columns.items():
            value = values.get(key)
            # A value that was put together from several columns cannot be taken apart again.
            if value not in (None, "") and value is not None and len(columns) == 1:
                yield row, columns[0], value


def _of_wire(wire: Wire) -> dict[str, Value | None]:
    return {
        "number": wire.number,
        "head": wire.head,
        "function": wire.function,
        "colour": wire.colour,
        "size": wire.size,
        "length": wire.length,
    }


def _of_device(device: str, circuit: Circuit) -> dict[str, Value | None]:
    group = next((group for group in circuit.groups if device in group.devices), None)
    ways = [group.ways[row] for row in sorted(group.ways)] if group is not None else []
    together = bool(ways) and ways == list(range(ways[0], ways[0] + len(ways)))
    return {
        "kind": circuit.kind_name,
        "lever": circuit.lever,
        "board": group.board if group is not None else None,
        "strip": group.strip if group is not None else None,
        "way": ways[0] if together else None,
        "ways": ", ".join(map(str, ways)),
    }


def _csv(paper: PaperList, fillings: list[Filling]) -> bytes:
    text = paper.content.decode(paper.encoding)
    rows = list(csv.reader(StringIO(text, newline=""), delimiter=paper.delimiter))
    for row, column, value in fillings:
        cells = rows[row - 1]
        cells += [""] * (column - len(cells))
        if not cells[column - 1].strip():
            cells[column - 1] = str(write_cell(value))
    into = StringIO(newline="")
    line_end = "\r\n" if "\r\n" in text else "\n"
    csv.writer(into, delimiter=paper.delimiter, lineterminator=line_end).writerows(rows)
    try:
        return into.getvalue().encode(paper.encoding)
    except UnicodeEncodeError:
        # What was filled in has a sign that the old code page lacks.
        return into.getvalue().encode("utf-8-sig")


def _xlsx(paper: PaperList, fillings: list[Filling]) -> bytes:
    import warnings

    from openpyxl import load_workbook
    from openpyxl.cell import MergedCell

    from labelgen.rendering.workbook import put, settled

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # about drop-down lists and the like, which are lost
        book = load_workbook(BytesIO(paper.content), rich_text=True)
    sheet = book[paper.sheet]
    for row, column, value in fillings:
        cell = sheet.cell(row, column)
        if not isinstance(cell, MergedCell) and (cell.value is None or not str(cell.value).strip()):
            put(cell, value)
    return settled(book)
