"""What the XML of a sheet tells besides the values of its cells: which are merged, and which were never worked out.

It is read tag by tag, so that a file made to harm costs no more than its length.
"""

import re
from dataclasses import dataclass, field
from typing import IO

from labelgen.model.paper_lists import COLUMN_LIMIT
from labelgen.reading.spreadsheet_grid import Row
from labelgen.spreadsheet_cells import column_number

_CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_TEXT_RESULT = "str"
"""ECMA-376 part 1, 18.18.11: the type of a cell whose formula came to a text, be it an empty one."""

LONGEST_TAG = 200_000
"""Bytes of one tag or remark, which in a spreadsheet never has a thousand."""
_PIECE = 65_536

Range = tuple[int, int, int, int]
"""Columns and rows from 1: left, top, right, bottom."""


@dataclass(slots=True, kw_only=True)
class SheetXml:
    merged: set[Range] = field(default_factory=set)
    never_computed: set[tuple[int, int]] = field(default_factory=set)
    """Row and column of formulas without a result: a program wrote them, and no spreadsheet has worked them out yet."""


def as_spreadsheets_write(part: IO[bytes]) -> bool:
    """False for XML with a document type, by which texts can be multiplied, or with a tag or remark without end.

    Readers that take it piece by piece may begin with an unfinished tag anew at each piece (CVE-2023-52425: Expat
    before 2.6.0). True for what is no XML at all: who reads it will say so.
    """
    from xml.parsers.expat import ExpatError, ParserCreate

    parser = ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse
    fed = 0
    try:
        while piece := part.read(_PIECE):
            parser.Parse(piece)
            fed += len(piece)
            if fed - parser.CurrentByteIndex > LONGEST_TAG:
                return False
    except ExpatError:
        return True
    except _DocumentTypeError:
        return False
    return True


def read_sheet_xml(sheet: bytes) -> SheetXml:
    """ExpatError: it is no XML."""
    from xml.parsers.expat import ParserCreate

    reader = _Reader()
    parser = ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartElementHandler = reader.start
    parser.EndElementHandler = reader.end
    parser.CharacterDataHandler = reader.text
    parser.Parse(sheet, True)  # noqa: FBT003 - it takes no names
    return reader.found


class _DocumentTypeError(Exception):
    """No spreadsheet declares one."""


def _refuse(*_: object) -> None:
    raise _DocumentTypeError


class _Reader:
    """Called for one tag or text after another."""

    def __init__(self) -> None:
        self.found = SheetXml()
        self._at = ""
        self._is_open = False
        """In a formula's cell of which no result has been seen."""
        self._in_result = False

    def start(self, name: str, attributes: dict[str, str]) -> None:
        name = name.rpartition(" ")[2]
        if name == "c":
            self._at = attributes.get("r", "") if attributes.get("t") != _TEXT_RESULT else ""
        elif name == "f":
            self._is_open = bool(self._at)
        elif name == "v":
            self._in_result = True
        elif name == "mergeCell":
            self._merge(attributes.get("ref", ""))

    def end(self, name: str) -> None:
        name = name.rpartition(" ")[2]
        if name == "v":
            self._in_result = False
        elif name == "c" and self._is_open:
            self._is_open = False
            at = _CELL.fullmatch(self._at)
            if at is not None:
                self.found.never_computed.add((int(at[2]), column_number(at[1])))

    def text(self, text: str) -> None:
        if self._in_result and not text.isspace():
            self._is_open = False

    def _merge(self, ref: str) -> None:
        first, _, last = ref.partition(":")
        one, other = _CELL.fullmatch(first), _CELL.fullmatch(last)
        if one is not None and other is not None:
            self.found.merged.add((column_number(one[1]), int(one[2]), column_number(other[1]), int(other[2])))


class Merged:
    """Cells that the builder merged: one above the other they say the same, side by side they are a heading."""

    def __init__(self, ranges: set[Range]) -> None:
        self._ranges: list[Range] = []
        done: dict[int, int] = {}
        for left, top, right, bottom in sorted(ranges):
            # Real ones never overlap; what does would only be looked at again and again.
            if left <= COLUMN_LIMIT and top > done.get(left, 0):
                self._ranges.append((left, top, right, bottom))
                done[left] = bottom

    def filled(self, rows: list[Row]) -> list[Row]:
        """With the text of a merged cell in each of its rows."""
        filled = [list(row) for row in rows]
        for left, top, _, bottom in self._ranges:
            text = rows[top - 1][left - 1 : left] if top <= len(rows) else ()
            for cells in filled[top : min(bottom, len(rows))] if any(text) else ():
                cells.extend([""] * (left - len(cells)))
                cells[left - 1] = text[0]
        return [tuple(row) for row in filled]

    def banners(self, rows: list[Row]) -> frozenset[int]:
        """Rows that hold one text alone, merged over several columns."""
        wide = [one for one in self._ranges if one[2] > one[0]]
        texts = [{column for column, cell in enumerate(row, 1) if cell} for row in rows] if wide else []
        return frozenset(
            row
            for left, top, _, bottom in wide
            for row in range(top, min(bottom, len(rows)) + 1)
            if texts[row - 1] <= {left}
        )
