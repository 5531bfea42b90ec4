"""Whether the routes name levers that there are, one way each, and have numbers of their own."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.panel.route_form import LIES, Lies, Route, levers_path, route_numbers
from labelgen.model.panel.routes import is_matrix
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.known_things import CALLED, Known
from labelgen.reading.near_names import did_you_mean

TABLES = ("boards", "panels", "supplies", "strips", "points", "devices", "plugs")


def routes(known: Known) -> list[Problem]:
    """Reports unknown-name, unknown-choice, missing-key, route-contradicts, route-stud-taken and bad-id."""
    description = known.description
    problems = [problem for name, route in description.routes.items() for problem in _route(known, name, route)]
    for id_, panel in description.panels.items():
        for name in panel.routes:
            problems += known.unknown("routes", name, ("panels", id_, "routes", name), key=True)
    return [*problems, *_numbers(description), *_like_ours(description)]


def _route(known: Known, name: str, route: Route) -> Iterator[Problem]:
    description = known.description
    yield from known.unknown("panels", route.panel, ("routes", name, "panel"))
    if route.number is not None and route.stud is not None:
        message = f"route {name!r} has both a `number` and a `stud`"
        hint = "Keep `stud` if it is touched with a probe, `number` if it has a button."
        yield Problem(code="wrong-type", message=message, hint=hint, place=_key(description, "routes", name, "stud"))
    yield from _levers(known, f"route {name!r}", route.levers, levers_path(name, route))


def roads(known: Known) -> list[Problem]:
    """Reports unknown-name, unknown-choice, missing-key and route-contradicts of the roads over slips and tandems."""
    description = known.description
    return [
        problem
        for id_, device in {**description.points, **description.devices}.items()
        for name, levers in device.roads.items()
        for problem in _levers(
            known, f"road {name!r} over {id_}", levers, (*description.device_path(id_), "roads", name)
        )
    ]


def _levers(known: Known, what: str, levers: Lies, at: Path) -> Iterator[Problem]:
    """Of a route or a road: levers that there are, each of them once, and how it lies."""
    description = known.description
    if not levers:
        place, hint = description.place_of_key(*at), "Write each lever and how it lies: {5: normal, 6: reverse}."
        yield Problem(code="missing-key", message=f"{what} names no lever", hint=hint, place=place)
    painted = {lever.shown: id_ for id_, lever in description.levers.items() if lever.shown}
    said: dict[str, tuple[str, str]] = {}
    for written, lie in levers.items():
        path = (*at, written)
        lever = painted.get(written, written)
        yield from known.unknown("levers", lever, path, key=True)
        if lie not in LIES:
            yield _no_lie(written, lie, description.place_of(*path))
        if lever in said:
            yield _twice(what, (written, lie), said[lever], description.place_of_key(*path))
        said.setdefault(lever, (written, lie))


def _key(description: Description, *path: str) -> Place:
    return description.place_of_key(*path)


def _no_lie(lever: str, lie: str, place: Place) -> Problem:
    message = f"lever {lever} lies `{lie}` here, which is neither normal nor reverse"
    if not lie:
        message = f"it is not said how lever {lever} lies"
    hint = f"{did_you_mean(lie, LIES)}Write normal or reverse."
    return Problem(code="unknown-choice", message=message, hint=hint, place=place)


def _twice(whose: str, one: tuple[str, str], other: tuple[str, str], place: Place) -> Problem:
    what = f"{other[1]} and {one[1]}" if one[1] != other[1] else f"{one[1]} twice"
    message = f"{whose} wants one lever {what}: {other[0]} and {one[0]} are the same"
    return Problem(code="route-contradicts", message=message, hint="Keep one of the two.", place=place)


def _numbers(description: Description) -> Iterator[Problem]:
    """Two routes of one number, whatever the case of its letters."""
    first: dict[str, str] = {}
    for name, number in route_numbers(description.routes).items():
        other = first.setdefault(number.lower(), name)
        if other != name:
            key = "number" if description.routes[name].stud is None else "stud"
            yield Problem(
                code="route-stud-taken",
                message=f"routes {other!r} and {name!r} would both have number {number}",
                hint="Give one of them another number.",
                place=description.place_of("routes", name, key),
            )


def _like_ours(description: Description) -> Iterator[Problem]:
    """Things that are called as the ends of the routes' wires are."""
    numbers = {number.lower() for number in route_numbers(description.routes).values()}
    for table in TABLES if description.routes else ():
        for id_ in getattr(description, table):
            small = id_.lower()
            if small.removeprefix("route") in numbers and small.startswith("route"):
                yield _taken(id_, "the button of a route", table, description)
            elif is_matrix(id_):
                yield _taken(id_, "the board with the routes' diodes", table, description)


def _taken(id_: str, what: str, table: str, description: Description) -> Problem:
    path: Path = (table, id_)
    message = f"`{id_}` is what {what} is called"
    hint = f"Call this {CALLED[table]} something else."
    return Problem(code="bad-id", message=message, hint=hint, place=description.place_of_key(*path))
