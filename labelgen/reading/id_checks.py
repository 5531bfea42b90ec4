"""Whether everything is called by a name of its own."""

from collections.abc import Iterator

from labelgen.model.scalars import ID, ID_LENGTH, RESERVED
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.known_things import CALLED, Known

ID_TABLES = ("boards", "panels", "supplies", "strips", "points", "devices", "plugs")


def ids(known: Known) -> list[Problem]:
    """Reports repeated-id at the second thing of a name, and bad-id for a name that reads like a lever."""
    levers = {f"l{lever.lower()}": lever for lever in known.names["levers"]}
    first: dict[str, str] = {}
    problems: list[Problem] = []
    for place, called, id_ in sorted(_things(known), key=lambda one: (one[0].line, one[0].column)):
        small = id_.lower()
        if small in first:
            message = f"`{id_}` is taken: it is {first[small]}"
            hint = "Call one of them something else; capitals do not tell them apart."
            problems.append(Problem(code="repeated-id", message=message, hint=hint, place=place))
        elif small in levers:
            message = f"`{id_}` reads like lever {levers[small]}"
            hint = f"Wires are said to end at L{levers[small]}: call this {called} something else."
            problems.append(Problem(code="bad-id", message=message, hint=hint, place=place))
        first.setdefault(small, f"the {called} on line {place.line}")
    return problems


def _things(known: Known) -> Iterator[tuple[Place, str, str]]:
    """(place, what it is, id) of everything that shares one space of names."""
    description = known.description
    for table in ID_TABLES:
        for id_ in getattr(description, table):
            yield description.place_of_key(table, id_), CALLED[table], id_
    for board_id, board in description.boards.items():
        for id_ in board.holes:
            yield description.place_of_key("boards", board_id, "holes", id_), "hole", id_


def lever_ids(known: Known) -> list[Problem]:
    """Reports bad-id for a lever that cannot be called so, and repeated-id for two that differ in capitals alone."""
    description = known.description
    named: list[tuple[Place, str]] = [(description.place_of_key("levers", id_), id_) for id_ in description.levers]
    for table, device, lever in known.worked_levers():
        path: Path = (table, device)
        given = getattr(description, table)[device].lever is not None
        place = description.place_of(*path, "lever") if given else description.place_of_key(*path)
        named.append((place, lever))
    first: dict[str, tuple[str, str]] = {}
    problems: list[Problem] = []
    for place, id_ in sorted(named, key=lambda one: (bool(one[0].cell), one[0].line, one[0].column)):
        problems += _lever_form(id_, place)
        here = f"in cell {place.cell}" if place.cell else f"on line {place.line}"
        other, where = first.setdefault(id_.lower(), (id_, here))
        if other != id_:
            message = f"lever `{id_}` and lever `{other}` {where} differ in capitals alone"
            hint = "Write both alike if they are one lever; else call one of them something else."
            problems.append(Problem(code="repeated-id", message=message, hint=hint, place=place))
    return problems


def _lever_form(id_: str, place: Place) -> list[Problem]:
    if ID.fullmatch(id_) and len(id_) <= ID_LENGTH and id_.lower() not in RESERVED:
        return []
    message = f"{id_!r} cannot be the id of a lever"
    hint = f"Use letters a to z, digits, - and _, at most {ID_LENGTH}; or `none`, if no lever works it."
    return [Problem(code="bad-id", message=message, hint=hint, place=place)]
