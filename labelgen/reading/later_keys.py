"""Keys of the form that this version does not build yet, taken out before the rest is looked at.

They would only add to what is printed, so that is a caution (left-out).
"""

from collections.abc import Iterator
from typing import Any

from labelgen.places import Path, Places
from labelgen.problems import Problem

PRINT_KEYS = ("stocks", "palette")
ACCEPTING = (("points",), ("devices",))
"""Where something can be accepted already."""
ACCEPTED = ("moved",)
"""What can be accepted there."""
TABLES = ("boards", "panels", "supplies", "strips", "levers", "points", "devices", "plugs", "kinds", "functions")


def set_aside(data: dict[str, Any], places: Places) -> list[Problem]:
    """Takes those keys out of `data`, and reports left-out."""
    problems = [_left_out(key, places.of_key((key,))) for key in PRINT_KEYS if _taken(data, key)]
    for owner_path, owner in _accepting(data):
        if owner_path[:1] in ACCEPTING and isinstance(owner.get("accepted"), dict):
            codes = [code for code in owner["accepted"] if code not in ACCEPTED]
            paths = [(*owner_path, "accepted", code) for code in codes if _taken(owner["accepted"], code)]
            problems += [_left_out("accepted", places.of_key(path)) for path in paths]
        elif owner_path[:1] not in ACCEPTING and _taken(owner, "accepted"):
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


def _left_out(key: str, place: Any) -> Problem:
    return Problem(
        code="left-out",
        message=f"`{key}` is not printed by this version yet" if key != "accepted" else f"`{key}` has no effect yet",
        hint="The rest is made without it. It may stay: a later version will use it.",
        place=place,
    )
