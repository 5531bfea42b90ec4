"""What a panel names besides tracks and points: parts and lamps (unknown-name, wrong-type)."""

from collections.abc import Iterator

from labelgen.model.kinds import Kind
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hardware import Use
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.reading.known_things import Known, unknown_name

ALL_OF_A_USE = ("levers", "routes", "lamps")
"""The keys of `hardware:` that stand for all holes of a use; any other is a lever's id."""
_SERVES: dict[str, tuple[Use, ...]] = {
    "levers": ("lever", "button", "rotary", "stud"),
    "routes": ("button", "stud"),
    "lamps": ("lamp",),
}
_LEGS = ("normal", "reverse")
_OF_MANY_LIES = ("buttons", "rotary", "stud")
"""Lever types of points that may have a third road."""


def panel_parts(known: Known) -> list[Problem]:
    """Parts that are described nowhere, or serve for something else."""
    return [p for id_, panel in known.description.panels.items() for p in _parts(known, id_, panel)]


def panel_lamps(known: Known) -> list[Problem]:
    """Lamps that show nothing that there is."""
    return [p for id_, panel in known.description.panels.items() for p in _lamps(known, id_, panel)]


def _parts(known: Known, id_: str, panel: Panel) -> Iterator[Problem]:
    parts = {**built_in_hardware(), **known.description.hardware}
    for key, name in panel.hardware.items():
        path = ("panels", id_, "hardware", key)
        if key not in ALL_OF_A_USE:
            yield from known.unknown("levers", key, path, key=True)
        yield from known.unknown("hardware", name, path)
        serves = _SERVES.get(key, _SERVES["levers"])
        if name in parts and parts[name].use not in serves:
            fitting = ", ".join(sorted(one for one in parts if parts[one].use in serves))
            yield Problem(
                code="wrong-type",
                message=f"{name} is a {parts[name].use}, and cannot be the part of {_called(key)}",
                hint=f"Take one of these: {fitting}.",
                place=known.description.place_of(*path),
            )


def _called(key: str) -> str:
    return {"levers": "the levers", "routes": "the buttons of routes", "lamps": "the lamps"}.get(key, f"lever {key}")


def _lamps(known: Known, id_: str, panel: Panel) -> Iterator[Problem]:
    for name in panel.lamps:
        if name != "roads":
            yield from _lamp(known, name, ("panels", id_, "lamps", name))


def _lamp(known: Known, name: str, path: Path) -> Iterator[Problem]:
    """A point's road, a terminal of a device, a device (a section, say), or a supply."""
    thing, dot, rest = name.partition(".")
    names, place = known.names, known.description.place_of_key(*path)
    if not dot:
        shown = {*names["devices"], *names["supplies"]}
        if name in names["points"]:
            hint = f"Say which of its roads: `{name}.normal` or `{name}.reverse`."
            yield Problem(code="unknown-name", message=f"the lamp `{name}` shows no road", hint=hint, place=place)
        elif name not in shown:
            yield unknown_name("section, device, supply or road of a point", name, _shown(known), place)
    elif thing not in names["points"] and thing not in names["devices"]:
        yield unknown_name("section, device, supply or road of a point", name, _shown(known), place)
    elif rest not in (may := _terminals(known, thing)):
        yield unknown_name("road or terminal", rest, may, place)


def _shown(known: Known) -> set[str]:
    roads = {f"{point}.{leg}" for point in known.names["points"] for leg in _LEGS}
    return roads | known.names["devices"] | known.names["supplies"]


def _terminals(known: Known, thing: str) -> tuple[str, ...]:
    table = "points" if thing in known.description.points else "devices"
    device = getattr(known.description, table).get(thing)
    kinds: dict[str, Kind] = {**built_in_kinds(), **known.description.kinds}
    kind = kinds.get(known.kind_of(device, table) or "") if device is not None else None
    legs = _LEGS if thing in known.names["points"] else ()
    third = ("third",) if legs and kind is not None and kind.lever_type in _OF_MANY_LIES else ()
    return (*legs, *third, *(kind.terminals if kind is not None else ()))
