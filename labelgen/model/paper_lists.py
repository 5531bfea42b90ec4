"""Lists of wires and devices that a builder keeps in a spreadsheet: how they are named, and what was read from them."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, WithJsonSchema

from labelgen.model.record import OrShort, Record, Table
from labelgen.model.scalars import FirstRow, Truth, Word, complaint, what
from labelgen.places import Path

JOINED_AT_MOST = 4
ROW_LIMIT = 20_000
COLUMN_LIMIT = 200


def _letters_or_headings(value: Any) -> Any:
    if isinstance(value, str):
        return (value,)
    if isinstance(value, (list, tuple)) and 1 <= len(value) <= JOINED_AT_MOST:
        return tuple(value)
    if isinstance(value, (list, tuple)):
        raise complaint("wrong-type", f"one to {JOINED_AT_MOST} columns are expected here", "Write two so: [C, D].")
    raise complaint("wrong-type", f"a column is expected here, not {what(value)}", "Write its letter or its heading.")


Column = Annotated[
    tuple[Word, ...],
    BeforeValidator(_letters_or_headings),
    WithJsonSchema({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
"""A column by its letter or heading; several, whose texts are joined."""


class WireColumns(Record):
    """Which column of a wire list holds what."""

    number: Column | None = None
    head: Column | None = None
    """Never read; filled in."""
    start: Column | None = Field(default=None, alias="from")
    from_side: Column | None = None
    finish: Column | None = Field(default=None, alias="to")
    to_side: Column | None = None
    function: Column | None = None
    colour: Column | None = None
    size: Column | None = None
    flags: Column | None = None
    length: Column | None = None
    """Never read; filled in."""
    note: Column | None = None


class DeviceColumns(Record):
    """Which column of a device list holds what."""

    id: Column | None = None
    kind: Column | None = None
    name: Column | None = None
    lever: Column | None = None
    board: Column | None = None
    panel: Column | None = None
    at: Column | None = None
    x: Column | None = None
    y: Column | None = None
    supply: Column | None = None
    strip: Column | None = None
    way: Column | None = None
    ways: Column | None = None
    swapped: Column | None = None
    not_in_use: Column | None = None
    ohms: Column | None = None
    milliamps: Column | None = None
    shown: Column | None = None


class _PaperFile(Record):
    file: Word
    """Beside the description, or in a folder there."""
    sheet: Word | None = None
    """Of a workbook; left out: the first that is not hidden."""
    first_row: FirstRow | None = None
    """The row of the first wire or device, where that cannot be told."""
    names: Table[dict[Word, Word]] = Field(default_factory=dict)
    """What the spreadsheet calls a thing: what the description calls it."""
    in_place: Truth = False
    """Whether it is given back with its blanks filled."""


class WireFile(_PaperFile):
    columns: WireColumns | None = None


class DeviceFile(_PaperFile):
    columns: DeviceColumns | None = None


def _just_a_file(value: Any) -> Any:
    return {"file": value} if isinstance(value, str) else value


WireListing = Annotated[WireFile, BeforeValidator(_just_a_file), OrShort("string")]
DeviceListing = Annotated[DeviceFile, BeforeValidator(_just_a_file), OrShort("string")]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperList:
    """A spreadsheet that was read, and what became of its rows."""

    key: Literal["wire_list", "device_list"]
    file: str
    """Its path below the description's folder."""
    content: bytes
    sheet: str | None = None
    """Of a workbook; None: the file is CSV."""
    encoding: str = "utf-8"
    delimiter: str = ","
    columns: Mapping[str, tuple[int, ...]]
    """Key: columns from 1."""
    rows: Mapping[int, Path]
    """Row, from 1: the entry of the description that it became."""
    one_ended: int = 0
    """Rows with one end alone."""
    endless: int = 0
    """Rows that say something, and name no end."""
    in_place: bool = False
