"""Whether everything that is named is there (unknown-name), and nothing leads round in a circle (wrong-type)."""

from collections.abc import Mapping

from labelgen.model.description import BOTH, Board, Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.panel.form import Panel
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.kind_checks import kind_problems, rows_of
from labelgen.reading.known_things import Known, unknown_name

REFERENCES: Mapping[str, Mapping[str, str]] = {
    "boards": {"supply": "supplies", "kind": "kinds", "panel": "panels", "right_of": "boards"},
    "panels": {"board": "boards"},
    "supplies": {"board": "boards", "fed_by": "supplies"},
    "strips": {"board": "boards"},
    "levers": {"panel": "panels"},
    "points": {"board": "boards", "panel": "panels", "kind": "kinds", "supply": "supplies", "strip": "strips"},
    "devices": {"board": "boards", "panel": "panels", "kind": "kinds", "supply": "supplies", "strip": "strips"},
}
"""Of each table: its keys that name something, and the table in which that is."""


def plain_references(known: Known) -> list[Problem]:
    """The keys that hold one name."""
    description = known.description
    problems: list[Problem] = []
    for table, keys in REFERENCES.items():
        for id_, thing in getattr(description, table).items():
            for key, target in keys.items():
                problems += known.unknown(target, getattr(thing, key), (table, id_, key))
    return problems


def circles(known: Known) -> list[Problem]:
    """`right_of` and `fed_by` that lead back to where they began; a board that has two places."""
    description = known.description
    right_of = {id_: board.right_of for id_, board in description.boards.items()}
    fed_by = {id_: supply.fed_by for id_, supply in description.supplies.items()}
    problems = [
        *_circles(description, "boards", "right_of", right_of),
        *_circles(description, "supplies", "fed_by", fed_by),
    ]
    for id_, board in description.boards.items():
        problems += _two_places(description, id_, board)
    return problems


def _circles(description: Description, table: str, key: str, leads_to: Mapping[str, str | None]) -> list[Problem]:
    problems: list[Problem] = []
    done: set[str] = set()
    for start in leads_to:
        way: dict[str, None] = {}
        at: str | None = start
        while at is not None and at in leads_to and at not in done and at not in way:
            way[at] = None
            at = leads_to[at]
        if at is not None and at in way:
            circle = [*way][[*way].index(at) :]
            message = f"`{key}` leads round in a circle: {', '.join([*circle, at])}"
            hint = "One of them must stand by itself: take its line out."
            place = description.place_of(table, circle[-1], key)
            problems.append(Problem(code="wrong-type", message=message, hint=hint, place=place))
        done |= way.keys()
    return problems


def _two_places(description: Description, id_: str, board: Board) -> list[Problem]:
    if board.at is None or board.right_of is None:
        return []
    message = f"board `{id_}` has both `at` and `right_of`"
    place = description.place_of_key("boards", id_, "right_of")
    return [Problem(code="wrong-type", message=message, hint="Keep one of the two.", place=place)]


def device_kinds(known: Known) -> list[Problem]:
    """Devices without a kind (missing-key), and painted names of terminals that the kind does not have."""
    description = known.description
    kinds = {**built_in_kinds(), **description.kinds}
    problems: list[Problem] = []
    for table in ("points", "devices"):
        for id_, device in getattr(description, table).items():
            name = known.kind_of(device, table)
            if name is None:
                message = f"device `{id_}` has no `kind`"
                hint = "Add `kind:` to it, or give its board one for all that is on it."
                place = description.place_of_key(table, id_)
                problems.append(Problem(code="missing-key", message=message, hint=hint, place=place))
            elif name in kinds:
                for role, supply in device.supplies.items():
                    path = (table, id_, "supplies", role)
                    if role not in kinds[name].supply:
                        place = description.place_of_key(*path)
                        problems.append(unknown_name("role of a supply", role, tuple(kinds[name].supply), place))
                    problems += known.unknown("supplies", supply, path)
                for terminal in device.terminals:
                    path = (table, id_, "terminals", terminal)
                    problems += _terminal(description, terminal, tuple(kinds[name].terminals), path)
    return problems


def supply_terminals(known: Known) -> list[Problem]:
    """Painted names of terminals that a supply does not have, and orders of chains from such."""
    description = known.description
    return [
        problem
        for id_, supply in description.supplies.items()
        for key, named in (("terminals", supply.terminals), ("chain", supply.chain))
        for terminal in named
        if (key, terminal) != ("chain", BOTH)
        for problem in _terminal(description, terminal, SUPPLY_TERMINALS[supply.kind], ("supplies", id_, key, terminal))
    ]


def _terminal(description: Description, name: str, has: tuple[str, ...], path: Path) -> list[Problem]:
    return [] if name in has else [unknown_name("terminal", name, has, description.place_of_key(*path))]


def panels(known: Known) -> list[Problem]:
    """What a panel draws; and a panel with tracks but without a size (missing-key)."""
    description = known.description
    problems: list[Problem] = []
    for id_, panel in description.panels.items():
        path = ("panels", id_)
        for point in panel.points:
            problems += known.unknown("points", point, (*path, "points", point), key=True)
        for device in panel.sections:
            problems += known.unknown("devices", device, (*path, "sections", device), key=True)
        for device in panel.feeds:
            problems += known.unknown("devices", device, (*path, "feeds", device), key=True)
        for lever in panel.levers:
            if lever != "row":
                problems += known.unknown("levers", lever, (*path, "levers", lever), key=True)
        problems += _tracks(description, id_, panel)
        if panel.tracks and panel.size is None and (*path, "size") not in known.unsure:
            message = f"panel `{id_}` has tracks and no size"
            place = description.place_of_key(*path)
            hint = "Add `size: [w, h]`, in mm."
            problems.append(Problem(code="missing-key", message=message, hint=hint, place=place))
    return problems


def _tracks(description: Description, id_: str, panel: Panel) -> list[Problem]:
    problems: list[Problem] = []
    for track, corners in panel.tracks.items():
        for number, corner in enumerate(corners):
            if isinstance(corner, str) and corner not in panel.points:
                place = description.place_of("panels", id_, "tracks", track, number)
                problems.append(unknown_name("point on this panel", corner, panel.points, place))
    for point, placed in panel.points.items():
        if placed.normal is not None and placed.normal not in panel.tracks:
            place = description.place_of("panels", id_, "points", point, "normal")
            problems.append(unknown_name("track", placed.normal, panel.tracks, place))
    return problems


def kinds(known: Known) -> list[Problem]:
    """The builder's own kinds: whether they hang together (bad-kind), and name functions that there are."""
    description = known.description
    problems: list[Problem] = []
    for id_, kind in description.kinds.items():

        def place_of(path: Path, id_: str = id_) -> Place:
            return description.place_of("kinds", id_, *path)

        problems += kind_problems(kind, place_of)
        for path, row in rows_of(kind):
            problems += known.unknown("functions", row.function, ("kinds", id_, *path, "function"))
    return problems
