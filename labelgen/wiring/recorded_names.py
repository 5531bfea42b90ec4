"""The as-built record in today's names: a device that says `was: OLDID` keeps its ways, wires and numbers."""

from collections.abc import Mapping
from dataclasses import replace

from labelgen.model.built_record import BuiltGroup, BuiltRecord, BuiltWire, strip_of
from labelgen.model.description import Description
from labelgen.problems import Problem
from labelgen.wiring.resolving import ResolvedDevice


def in_todays_names(
    record: BuiltRecord | None, description: Description, devices: list[ResolvedDevice]
) -> tuple[BuiltRecord, list[Problem]]:
    """The record with renamed devices, and the levers that were renamed with them; an empty one where there is none.

    Reports repeated-id. A `was` of which the record knows nothing any more has done its work, and stays without effect.
    """
    record = record or BuiltRecord(railway=description.railway)
    names, problems = _renamed_devices(record, description)
    if not names:
        return record, problems
    return _with_names(record, names, _renamed_levers(record, names, devices)), problems


def _renamed_devices(record: BuiltRecord, description: Description) -> tuple[dict[str, str], list[Problem]]:
    known = {strip_of(end) for wire in record.wires for end in wire.ends}
    known |= {strip_of(end) for pins in record.pins for end in pins.ends}
    known |= {device for group in record.groups for device in group.devices}
    things = {**description.points, **description.devices}
    names: dict[str, str] = {}
    problems = []
    for id_, thing in things.items():
        if thing.was is None or thing.was not in known or id_ in known:
            continue
        if thing.was in things or thing.was in names:
            other = names.get(thing.was, thing.was)
            message = f"{id_} cannot be what was {thing.was}: {other} is that already"
            hint = "One thing has one past: take `was` out at one of them, or take the old one out."
            place = description.place_of(*description.device_path(id_), "was")
            problems.append(Problem(code="repeated-id", message=message, hint=hint, place=place))
            continue
        names[thing.was] = id_
    return names, problems


def _renamed_levers(record: BuiltRecord, names: Mapping[str, str], devices: list[ResolvedDevice]) -> dict[str, str]:
    """A lever goes with its devices when all that it worked is called otherwise, and nothing is left of it."""
    lever_now = {device.id: device.lever for device in devices}
    in_use, recorded = set(lever_now.values()), {group.circuit for group in record.groups if group.by_lever}
    moving: dict[str, set[str | None]] = {}
    for group in record.groups:
        if group.by_lever and group.circuit not in in_use:
            found = {lever_now.get(names[device]) for device in group.devices if device in names}
            moving.setdefault(group.circuit, set()).update(found)
    levers: dict[str, str] = {}
    for old, found in moving.items():
        new = next(iter(found)) if len(found) == 1 else None
        if new is not None and new not in recorded and new not in levers.values():
            levers[old] = new
    return levers


def _with_names(record: BuiltRecord, names: Mapping[str, str], levers: Mapping[str, str]) -> BuiltRecord:
    things = {**names, **{f"L{old}": f"L{new}" for old, new in levers.items()}}

    def end(text: str) -> str:
        thing, _, terminal = text.rpartition(".")
        return f"{things.get(thing, thing)}.{terminal}"

    def group(one: BuiltGroup) -> BuiltGroup:
        circuit = (levers if one.by_lever else names).get(one.circuit, one.circuit)
        return replace(one, circuit=circuit, devices=tuple(names.get(device, device) for device in one.devices))

    def circuit(id_: str) -> str:
        return levers.get(id_) or names.get(id_, id_)

    def wire(one: BuiltWire) -> BuiltWire:
        return replace(one, start=end(one.start), finish=end(one.finish), circuit=circuit(one.circuit))

    return replace(
        record,
        groups=tuple(group(one) for one in record.groups),
        wires=tuple(wire(one) for one in record.wires),
        retired=tuple(wire(one) for one in record.retired),
        pins=tuple(
            replace(pins, start=end(pins.start), finish=end(pins.finish), circuit=circuit(pins.circuit))
            for pins in record.pins
        ),
    )
