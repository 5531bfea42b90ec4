"""Keys of the form that this version does not build yet, taken out before the rest is looked at.

What would change the wiring is an error (not-yet); what would only add to what is printed is a caution (left-out).
"""

from collections.abc import Iterator
from typing import Any

from labelgen.places import Path, Places
from labelgen.problems import Problem

WIRING_KEYS = ("plugs", "wire_list", "device_list", "routes")
PRINT_KEYS = ("stocks", "palette")
TABLES = ("boards", "panels", "supplies", "strips", "levers", "points", "devices", "kinds", "functions")


def set_aside(data: dict[str, Any], places: Places) -> list[Problem]:
    """Takes those keys out of `data`, and reports not-yet and left-out."""
    problems = [_not_yet(key, places.of_key((key,))) for key in WIRING_KEYS if _taken(data, key)]
    problems += [_left_out(key, places.of_key((key,))) for key in PRINT_KEYS if _taken(data, key)]
    for table, id_, thing in _things(data):
        path: Path = (table, id_)
        if table in ("points", "devices") and _taken(thing, "was"):
            problems.append(_not_yet("was", places.of_key((*path, "was"))))
        if table == "panels" and _taken(thing, "lamps"):
            problems.append(_left_out("lamps", places.of_key((*path, "lamps"))))
    for owner_path, owner in _accepting(data):
        if _taken(owner, "accepted"):
            problems.append(_left_out("accepted", places.of_key((*owner_path, "accepted"))))
    return problems


def _taken(owner: dict[str, Any], key: str) -> bool:
    if key not in owner:
        return False
    del owner[key]
    return True


def _things(data: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for table in TABLES:
        things = data.get(table)
        if isinstance(things, dict):
            yield from ((table, id_, thing) for id_, thing in list(things.items()) if isinstance(thing, dict))


def _accepting(data: dict[str, Any]) -> Iterator[tuple[Path, dict[str, Any]]]:
    """Everything beside which `accepted` may stand."""
    yield (), data
    for table, id_, thing in _things(data):
        yield (table, id_), thing
        holes = thing.get("holes")
        if table == "boards" and isinstance(holes, dict):
            yield from (((table, id_, "holes", hole), one) for hole, one in holes.items() if isinstance(one, dict))
    wires = data.get("wires")
    if isinstance(wires, list):
        yield from ((("wires", number), wire) for number, wire in enumerate(wires) if isinstance(wire, dict))


def _not_yet(key: str, place: Any) -> Problem:
    return Problem(
        code="not-yet",
        message=f"`{key}` cannot be carried out by this version yet",
        hint="Take it out, or turn it into a remark with # at the start of its lines, until a later version can.",
        place=place,
    )


def _left_out(key: str, place: Any) -> Problem:
    return Problem(
        code="left-out",
        message=f"`{key}` is not printed by this version yet" if key != "accepted" else f"`{key}` has no effect yet",
        hint="The rest is made without it. It may stay: a later version will use it.",
        place=place,
    )
