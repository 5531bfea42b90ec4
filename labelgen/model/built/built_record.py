"""The as-built record: which way, number, pin and place on a matrix everything has for good. Section 8 of the format.

It stands beside the description as `NAME.built.yaml`. Ends of wires are `THING.TERMINAL`, without side.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from labelgen.model.built.built_labels import BLANKS, MadeLabel, MadeSheet, PartSheet, PrintedLabel

Ends = frozenset[str]
"""The two ends of a wire, whichever is named first: a wire with the same two ends is the same wire."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltGroup:
    """The ways of one circuit on one strip."""

    by_lever: bool
    circuit: str
    """The lever's id, else the device's."""
    strip: str
    devices: tuple[str, ...]
    ways: Mapping[str, int]
    """Row of the kind (its function and mark): way."""

    @property
    def key(self) -> tuple[bool, str]:
        return (self.by_lever, self.circuit)

    def places(self) -> Iterator[tuple[str, int]]:
        """Strip and way of each row."""
        return ((self.strip, way) for way in self.ways.values())


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltWire:
    number: int | str
    """An integer of ours, or the builder's own text."""
    head: str
    start: str
    finish: str
    circuit: str
    """The lever or device it serves, a chain's supply, "" for a wire that the builder listed."""
    function: str

    @property
    def ends(self) -> Ends:
        return frozenset((self.start, self.finish))


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltPins:
    """The plug pins through which a wire runs, from board to board."""

    start: str
    finish: str
    """The ends of the whole wire, as it would be without plugs."""
    circuit: str
    pins: tuple[str, ...]
    """`J1.7`, in the order in which they are passed from `start`."""

    @property
    def ends(self) -> Ends:
        return frozenset((self.start, self.finish))


@dataclass(frozen=True, slots=True, kw_only=True)
class SpareWay:
    """A way that was freed: spare until the description names it."""

    strip: str
    way: int
    head: str
    """What was called so before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SparePin:
    """A pin of a plug that was freed: spare until a listed wire names it."""

    plug: str
    pin: int
    head: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltMatrix:
    """A board with diodes: its id is on its wires' flags, and never another one's."""

    id: str
    panel: str
    """"": none."""
    supply: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltRoute:
    """The number by which a route is called on its panel. One that is gone keeps it until another names it."""

    name: str
    number: str
    matrix: str


@dataclass(frozen=True, kw_only=True)
class BuiltRecord:
    railway: str
    groups: tuple[BuiltGroup, ...] = ()
    spare: tuple[SpareWay, ...] = ()
    wires: tuple[BuiltWire, ...] = ()
    """In the order in which they first appeared."""
    pins: tuple[BuiltPins, ...] = ()
    spare_pins: tuple[SparePin, ...] = ()
    matrices: tuple[BuiltMatrix, ...] = ()
    """All that ever were."""
    routes: tuple[BuiltRoute, ...] = ()
    """All that ever were, but for those whose number another one was given."""
    retired: tuple[BuiltWire, ...] = ()
    """Wires that are gone: their numbers are never given again."""
    made_only: tuple[str, ...] = ()
    """The kinds of thing that were made last; none: all."""
    made_board: str = ""
    """The only board whose labels were made last; "": all."""
    made_changed: bool = False
    """Only what was new or changed was made last."""
    made: tuple[MadeLabel, ...] = ()
    made_sheets: tuple[MadeSheet, ...] = ()
    sheets: tuple[PartSheet, ...] = ()
    printed: tuple[PrintedLabel, ...] = ()

    @property
    def blank_numbers(self) -> tuple[int, ...]:
        """Numbers that stand on blank flags which are printed: for the builder's pen, and for no other wire."""
        return tuple(int(label.label) for label in self.printed if label.kind == BLANKS)

    @cached_property
    def spare_heads(self) -> dict[tuple[str, int], str]:
        """(strip or plug, way or pin): what was, or is, called so there; of all that is given or kept spare."""
        landing: dict[str, str] = {}
        owned: dict[tuple[str, str], str] = {}
        for wire in self.wires:
            for end in wire.ends:
                landing.setdefault(end, wire.head)
                owned.setdefault((end, wire.circuit), wire.head)
        found = {(spare.strip, spare.way): spare.head for spare in self.spare}
        found |= {(spare.plug, spare.pin): spare.head for spare in self.spare_pins}
        # Where only a wire of the builder's own lands is no free place either.
        found |= {_numbered(end): head for end, head in landing.items() if end.rpartition(".")[2].isdecimal()}
        for group in self.groups:
            for strip, way in group.places():
                end = f"{strip}.{way}"
                found[strip, way] = owned.get((end, group.circuit)) or landing.get(end) or group.circuit
        for passage in self.pins:
            for pin in passage.pins:
                found.setdefault(_numbered(pin), self._head_through(passage, strip_of(pin), landing))
        return found

    @staticmethod
    def _head_through(passage: BuiltPins, plug: str, landing: Mapping[str, str]) -> str:
        """Of a wire that takes several pins of one plug: it lands on the first of them alone."""
        heads = (landing[pin] for pin in passage.pins if strip_of(pin) == plug and pin in landing)
        return next(heads, passage.circuit)

    def only_printed(self) -> "BuiltRecord":
        """What may not move even when all the rest is laid out anew: what a printed label says."""
        labels = {label.key for label in self.printed}
        things = {label.partition(" on ")[0] for kind, label in labels if kind in ("markers", "tags", "places")}
        fascias = {label for kind, label in labels if kind == "fascia"}
        flags = {label for kind, label in labels if kind == "flags"}
        flagged = flags | {label.rpartition(" on ")[0] for label in flags}

        def holds(wire: BuiltWire) -> bool:
            return str(wire.number) in flagged or any(strip_of(end) in things for end in wire.ends)

        wires = tuple(wire for wire in self.wires if holds(wire))
        ends = {end for wire in wires for end in wire.ends}
        groups = (
            group
            for group in self.groups
            if group.strip in things or any(f"{strip}.{way}" in ends for strip, way in group.places())
        )
        on_panels = {matrix.id for matrix in self.matrices if matrix.panel in fascias}
        named = {strip_of(end) for end in ends}
        routes = tuple(one for one in self.routes if one.matrix in on_panels or f"ROUTE{one.number}" in named)
        boards = named | {route.matrix for route in routes}
        return replace(
            self,
            groups=tuple(groups),
            spare=tuple(spare for spare in self.spare if spare.strip in things),
            wires=wires,
            pins=tuple(pins for pins in self.pins if ends & {*pins.pins}),
            spare_pins=tuple(spare for spare in self.spare_pins if spare.plug in things),
            matrices=tuple(matrix for matrix in self.matrices if matrix.id in boards),
            routes=routes,
            retired=tuple(wire for wire in self.retired if holds(wire)),
        )


def strip_of(end: str) -> str:
    """The thing that an end belongs to: `A1` of `A1.3`."""
    return end.rpartition(".")[0]


def _numbered(end: str) -> tuple[str, int]:
    """A strip and its way, or a plug and its pin."""
    thing, _, number = end.rpartition(".")
    return thing, int(number)


ENDING = ".built.yaml"


def record_path(description: Path) -> Path:
    """`quay.built.yaml` beside `quay.yaml`."""
    return description.with_name(f"{description.stem}{ENDING}")
