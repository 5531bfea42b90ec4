"""What came, went and moved between two as-built records."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.built.built_record import BuiltPins, BuiltRecord, BuiltWire


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Something that has another place than before."""

    what: str
    """Lever and row of a circuit (`lever 5 normal`), or the ends of a wire through plugs."""
    was: str
    now: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    came: tuple[BuiltWire, ...]
    went: tuple[BuiltWire, ...]
    moved: tuple[Move, ...]

    def __bool__(self) -> bool:
        return bool(self.came or self.went or self.moved)


def changes(before: BuiltRecord | None, now: BuiltRecord) -> Changes:
    """`before`: in today's names; None when nothing was ever made."""
    before = before or BuiltRecord(railway=now.railway)
    then, today = {wire.number for wire in before.wires}, {wire.number for wire in now.wires}
    return Changes(
        came=tuple(wire for wire in now.wires if wire.number not in then),
        went=tuple(wire for wire in before.wires if wire.number not in today),
        moved=(*_moved_ways(before, now), *_moved_pins(before, now)),
    )


def _moved_ways(before: BuiltRecord, now: BuiltRecord) -> Iterator[Move]:
    """Rows by which a device has other ways than it had."""
    earlier = {
        (device, row): f"{group.strip}.{way}"
        for group in before.groups
        for device in group.devices
        for row, way in group.ways.items()
    }
    for group in now.groups:
        for row, way in group.ways.items():
            place = f"{group.strip}.{way}"
            was = {earlier[device, row]: device for device in group.devices if (device, row) in earlier}
            for old, device in was.items():
                if old != place:
                    yield Move(what=f"{device} {row}", was=old, now=place)


def _moved_pins(before: BuiltRecord, now: BuiltRecord) -> Iterator[Move]:
    earlier = {pins.ends: pins for pins in before.pins}
    for pins in now.pins:
        old = earlier.get(pins.ends)
        if old is not None and sorted(old.pins) != sorted(pins.pins):
            yield Move(what=f"{pins.start} to {pins.finish}", was=_listed(old), now=_listed(pins))


def _listed(pins: BuiltPins) -> str:
    return ", ".join(pins.pins)
