"""A label as the description has it: what it says, apart from how it looks, and what it is called in the record."""

from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import InitVar, dataclass, field, fields
from hashlib import sha256
from types import MappingProxyType
from typing import Any

from labelgen.model.built.built_labels import BLANKS, PrintedLabel
from labelgen.model.drawing import Drawing, Text
from labelgen.model.netlist import End, EndKind, Netlist, Wire

Key = tuple[str, str]
_LENGTH = 16
"""Hexadecimal digits of a fingerprint: among a million labels no two are alike by chance (64 bits)."""


NO_HOLES: Mapping[str, tuple[int, ...]] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """The one or more stickers that say the same, as the description has them."""

    kind: str
    label: str
    """As in `PrintedLabel`."""
    says: str
    content: InitVar[tuple[str, ...]]
    """All that it says; of a hundred thousand labels only the fingerprints are kept."""
    fingerprint: str = field(init=False)
    board: str = ""
    thing: str = ""
    """The wire's number, the strip, the hole …: what `label` says without a board."""
    holes: Mapping[str, tuple[int, ...]] = field(default_factory=lambda: NO_HOLES)
    pieces: int = 0
    """As in `PrintedLabel`; known when it is drawn."""

    def __post_init__(self, content: tuple[str, ...]) -> None:
        said = "\n".join(content).encode("utf-8", "surrogatepass")
        object.__setattr__(self, "fingerprint", sha256(said).hexdigest()[:_LENGTH])

    @property
    def key(self) -> Key:
        return (self.kind, self.label)

    def of_pieces(self, pieces: int) -> "Label":
        """With how many stickers it is, of places; of flags and markers that is known."""
        counted = copy(self)
        object.__setattr__(counted, "pieces", pieces if self.kind == "places" else 0)
        return counted

    def printed(self, issue: str) -> PrintedLabel:
        """The same, as the record keeps it."""
        return PrintedLabel(
            kind=self.kind, label=self.label, fingerprint=self.fingerprint, issue=issue, board=self.board,
            says=self.says, holes=self.holes, pieces=self.pieces,
        )  # fmt: skip


def board_of_end(netlist: Netlist, wire: Wire, end: End) -> str | None:
    """A strip's own board; an end at a lever is on the board of the lever's panel."""
    if end.kind is EndKind.LEVER and end.thing in netlist.lever_by_id:
        return netlist.lever_by_id[end.thing].board
    if end.kind is EndKind.PIN:
        return end.board
    if end.kind is EndKind.WAY and end.thing in netlist.strip_by_id:
        return netlist.strip_by_id[end.thing].board
    return wire.board


def flag_key(netlist: Netlist, wire: Wire, end: End) -> str:
    """The wire's number, for both of its flags; with their boards where these differ: then they are two labels."""
    boards = {board_of_end(netlist, wire, one) for one in wire.ends}
    board = board_of_end(netlist, wire, end)
    return f"{wire.number} on {board}" if len(boards) > 1 and board else str(wire.number)


def blank_label(number: int) -> Label:
    return Label(kind=BLANKS, label=str(number), says="blank", content=(str(number),), thing=str(number))


def label_of_drawings(kind: str, name: str, drawings: Sequence[Drawing], marks: Mapping[str, Sequence[str]]) -> Label:
    """Of a label that is known by its drawings alone.

    What it says is its words, however they are broken into lines, and the marks of the wires that land on the thing.
    """
    texts = (shape.text for drawing in drawings for shape in drawing.shapes if isinstance(shape, Text))
    first = drawings[0]
    return Label(
        kind=kind, label=name, says=_called(drawings), content=(*" ".join(texts).split(), *marks.get(first.label, ())),
        board=first.board or "", thing=first.label or name,
    )  # fmt: skip


def _called(drawings: Sequence[Drawing]) -> str:
    """`feed of TC, rails A and B`; of all else by the first of its stickers."""
    first, *others = (drawing.name.rpartition(" ") for drawing in drawings)
    if first[0].endswith(", rail") and all(one[0] == first[0] for one in others) and others:
        return f"{first[0]}s {' and '.join(one[2] for one in (first, *others))}"
    return drawings[0].name


def marks_at_things(netlist: Netlist) -> dict[str, list[str]]:
    """Id of a thing: how the wires that land on it are marked."""
    found: dict[str, dict[str, None]] = {}
    for wire in netlist.wires:
        mark = repr(function_said(netlist, wire.function, wire.colour))
        for end in wire.ends:
            found.setdefault(end.thing, {})[mark] = None
    return {thing: sorted(marks) for thing, marks in found.items()}


def wire_said(netlist: Netlist, wire: Wire) -> tuple[str, ...]:
    """The wire itself: its head, its mark and colour, its ends, its number."""
    mark = function_said(netlist, wire.function, wire.colour)
    ends = (wire.start.shown, wire.finish.shown)
    return (wire.head, wire.stem, wire.code, wire.mark, *mark, *ends, str(wire.number))


def function_said(netlist: Netlist, name: str, colour: str = "") -> tuple[str, ...]:
    function = netlist.functions.get(name)
    return (function.code, colour or function.colour, function.pattern) if function else ("", colour, "")


def fields_said(thing: Any, *left_out: str) -> list[str]:
    """A record's fields that are not as they are by default: what a later version adds makes nothing out of date."""
    return [
        f"{one.name}={value!r}"
        for one in fields(thing)
        if one.name not in left_out and (value := getattr(thing, one.name)) != one.default
    ]
