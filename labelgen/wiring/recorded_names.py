"""The as-built record in today's names: what says `was: OLDID` keeps its ways, wires, pins and numbers."""

from collections.abc import Mapping
from dataclasses import replace

from labelgen.model.built.built_record import BuiltGroup, BuiltRecord, BuiltWire, strip_of
from labelgen.model.description import Description
from labelgen.problems import Problem
from labelgen.wiring.resolving import ResolvedDevice


def in_todays_names(
    record: BuiltRecord | None, description: Description, devices: list[ResolvedDevice]
) -> tuple[BuiltRecord, list[Problem]]:
    """The record with renamed things, and the levers that were renamed with devices; an empty one where there is none.

    Reports repeated-id. A `was` of which the record knows nothing any more has done its work, and stays without effect.
    """
    record = record or BuiltRecord(railway=description.railway)
    names, problems = _renamed_things(record, description)
    levers = _levers_that_say_so(record, description, devices)
    levers |= _renamed_levers(record, names, devices, {*levers, *levers.values()})
    return (_with_names(record, names, levers) if names or levers else record), problems


def _renamed_things(record: BuiltRecord, description: Description) -> tuple[dict[str, str], list[Problem]]:
    known = _recorded_things(record)
    tables = ("points", "devices", "strips", "supplies", "plugs")
    things = {id_: (table, thing) for table in tables for id_, thing in getattr(description, table).items()}
    names: dict[str, str] = {}
    problems = []
    for id_, (table, thing) in things.items():
        # A device that serves as a supply stands in both tables.
        if thing.was is None or thing.was not in known or id_ in known or names.get(thing.was) == id_:
            continue
        if thing.was in things or thing.was in names:
            other = names.get(thing.was, thing.was)
            message = f"{id_} cannot be what was {thing.was}: {other} is that already"
            hint = "One thing has one past: take `was` out at one of them, or take the old one out."
            place = description.place_of(table, id_, "was")
            problems.append(Problem(code="repeated-id", message=message, hint=hint, place=place))
            continue
        names[thing.was] = id_
    return names, problems


def _recorded_things(record: BuiltRecord) -> set[str]:
    known = {strip_of(end) for wire in record.wires for end in wire.ends}
    known |= {strip_of(end) for pins in record.pins for end in (*pins.ends, *pins.pins)}
    known |= {thing for group in record.groups for thing in (group.strip, *group.devices)}
    return known | {spare.strip for spare in record.spare} | {spare.plug for spare in record.spare_pins}


def _levers_that_say_so(record: BuiltRecord, description: Description, devices: list[ResolvedDevice]) -> dict[str, str]:
    """Levers with a `was` that works nothing any more."""
    recorded = {group.circuit for group in record.groups if group.by_lever}
    in_use = {device.lever for device in devices}
    levers: dict[str, str] = {}
    for id_, lever in description.levers.items():
        if lever.was in recorded - in_use - levers.keys() and id_ not in recorded:
            levers[lever.was] = id_
    return levers


def _renamed_levers(
    record: BuiltRecord, names: Mapping[str, str], devices: list[ResolvedDevice], settled: set[str]
) -> dict[str, str]:
    """A lever goes with its devices when all that it worked is called otherwise, and nothing is left of it.

    `settled`: those of which that is known already.
    """
    lever_now = {device.id: device.lever for device in devices}
    in_use, recorded = set(lever_now.values()), {group.circuit for group in record.groups if group.by_lever}
    moving: dict[str, set[str | None]] = {}
    for group in record.groups:
        if group.by_lever and group.circuit not in in_use | settled:
            found = {lever_now.get(names[device]) for device in group.devices if device in names}
            moving.setdefault(group.circuit, set()).update(found)
    levers: dict[str, str] = {}
    for old, found in moving.items():
        new = next(iter(found)) if len(found) == 1 else None
        if new is not None and new not in recorded | settled and new not in levers.values():
            levers[old] = new
    return levers


def _with_names(record: BuiltRecord, names: Mapping[str, str], levers: Mapping[str, str]) -> BuiltRecord:
    things = {**names, **{f"L{old}": f"L{new}" for old, new in levers.items()}}

    def end(text: str) -> str:
        thing, _, terminal = text.rpartition(".")
        return f"{things.get(thing, thing)}.{terminal}"

    def group(one: BuiltGroup) -> BuiltGroup:
        circuit = (levers if one.by_lever else names).get(one.circuit, one.circuit)
        devices = tuple(names.get(device, device) for device in one.devices)
        return replace(one, circuit=circuit, devices=devices, strip=names.get(one.strip, one.strip))

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
            replace(
                passage,
                start=end(passage.start),
                finish=end(passage.finish),
                circuit=circuit(passage.circuit),
                pins=tuple(map(end, passage.pins)),
            )
            for passage in record.pins
        ),
        spare=tuple(replace(one, strip=names.get(one.strip, one.strip)) for one in record.spare),
        spare_pins=tuple(replace(one, plug=names.get(one.plug, one.plug)) for one in record.spare_pins),
        matrices=tuple(replace(one, supply=names.get(one.supply, one.supply)) for one in record.matrices),
    )
