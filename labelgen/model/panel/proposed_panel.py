"""A first fascia from the points' places on the boards, to be edited: a line through all of them, each with its road.

Places are in squares of `GRID_MM` from the panel's top left corner, y down, at whole and half squares.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural

GRID_MM = 10.0
APART = 3.0
"""Between neighbouring points on the line: 30 mm, for nuts, fingers, a number and a short road."""
WELL_APART = 4.0
"""What is taken where the size is ours to choose."""
LEVERS_APART, LEVER_ROWS = 2.5, 3.0
"""Between levers that stand in a row at the foot, and between such rows."""
SIDE, TOP, FOOT = 4.0, 6.5, 1.5
"""Free at either end, above the line (for the title and a road), and below the last row of levers."""
LINES, UNDER = 6.0, 3.5
"""From one line to the next, and what is needed below the last one."""
ROAD = 1.5
"""How far a road leads away from the line, and along it."""
LEAST_MM, WIDEST_MM = (240.0, 120.0), 1200.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ProposedPanel:
    id: str
    new: bool
    """False: the description has this panel already, without tracks."""
    size: tuple[float, float]
    tracks: Mapping[str, tuple[Point | str, ...]]
    points: Mapping[str, Point]
    levers: Mapping[str, Point]
    """Those that stand on no point."""
    routes: Mapping[str, Point]
    """Where their buttons go."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSmall:
    """What would be large enough, in mm."""

    size: tuple[float, float]


def proposed_panel(
    description: Description, netlist: Netlist, size: tuple[float, float] | None = None
) -> ProposedPanel | TooSmall | None:
    """The panel as it might be; None when it would have neither points nor levers. `size` in mm; left out: ours."""
    id_ = next((panel for panel, form in description.panels.items() if not form.tracks), None)
    points = _points(description, netlist, id_)
    drawn = {device for device, _ in points}
    mine = [lever for lever in netlist.levers if lever.panel in (None, id_)]
    levers = [lever.id for lever in mine if not drawn.intersection(lever.devices)]
    routes = [row.route for matrix in netlist.matrices if matrix.panel in (None, id_) for row in matrix.rows]
    if not points and not levers:
        return None
    given = size or (description.panels[id_].size if id_ is not None else None)
    room = given or _our_size(len(points), len(levers) + len(routes))
    lines = _line_count(len(points), room[0])
    foot = len(levers) + len(routes)
    needed = _needed_height(lines, foot, room[0])
    if room[0] < LEAST_MM[0] or room[1] < needed - 1e-6:
        wide = max(room[0], LEAST_MM[0])
        return TooSmall(size=(wide, _needed_height(_line_count(len(points), wide), foot, wide)))
    places = _placed(points, lines, room, needed)
    rows = _rows(foot, room)
    return ProposedPanel(
        id=id_ or _new_id(description),
        new=id_ is None,
        size=room,
        tracks=_tracks(places, room),
        points={point: at for line in places for point, at in line},
        levers=dict(zip(levers, rows, strict=False)),
        routes=dict(zip(routes, rows[len(levers) :], strict=True)),
    )


def _new_id(description: Description) -> str:
    taken = {thing.lower() for table in ("boards", "panels", "strips", "points", "devices", "supplies", "plugs")
             for thing in getattr(description, table)}  # fmt: skip
    return next(id_ for id_ in ("PANEL", *(f"PANEL{n}" for n in range(2, 20_000))) if id_.lower() not in taken)


def _points(description: Description, netlist: Netlist, panel: str | None) -> list[tuple[str, Point | None]]:
    """The points of this panel from left to right, with their places on the railway in mm; those without at the end."""
    panel_of = {device: lever.panel for lever in netlist.levers for device in lever.devices}
    origins = _origins(description)
    found: list[tuple[str, Point | None]] = []
    for id_ in sorted(description.points, key=natural):
        given = description.points[id_]
        if panel_of.get(id_) not in (None, panel):
            continue
        corner = origins.get(given.board or "", Point(0, 0))
        found.append((id_, Point(*given.at) + corner if given.at is not None else None))
    return sorted(found, key=lambda one: (one[1] is None, one[1].x if one[1] is not None else 0.0))


def _origins(description: Description) -> dict[str, Point]:
    """Where each board's top left corner is; a board that does not say stands to the right of all before it."""
    found: dict[str, Point] = {}
    waiting = list(description.boards)
    while waiting:
        ready = [id_ for id_ in waiting if description.boards[id_].right_of not in waiting] or waiting[:1]
        for id_ in ready:
            board, left = description.boards[id_], description.boards[id_].right_of or ""
            if board.at is not None:
                found[id_] = Point(*board.at)
            elif left in found:
                found[id_] = found[left] + Point((description.boards[left].size or (1000, 0))[0], 0)
            else:
                sizes = {one: description.boards[one].size or (1000.0, 0.0) for one in found}
                found[id_] = Point(max((found[one].x + sizes[one][0] for one in found), default=0.0), 0.0)
        waiting = [id_ for id_ in waiting if id_ not in found]
    return found


def _our_size(points: int, levers: int) -> tuple[float, float]:
    width = min(WIDEST_MM, max(360.0, GRID_MM * ceil(2 * SIDE + (points - 1) * WELL_APART)))
    return width, max(160.0, _needed_height(_line_count(points, width), levers, width))


def _line_count(points: int, width: float) -> int:
    return max(1, ceil(points / _on_a_line(width)))


def _on_a_line(width: float) -> int:
    return floor((width / GRID_MM - 2 * SIDE) / APART + 1e-9) + 1


def _in_a_row(width: float) -> int:
    return floor((width / GRID_MM - 2 * SIDE) / LEVERS_APART + 1e-9) + 1


def _needed_height(lines: int, levers: int, width: float) -> float:
    rows = ceil(levers / _in_a_row(width))
    squares = TOP + (lines - 1) * LINES + UNDER + rows * LEVER_ROWS + FOOT * (rows > 0)
    return max(LEAST_MM[1], GRID_MM * squares)


Line = list[tuple[str, Point]]
"""Its points in the order in which it reaches them."""


def _placed(
    points: Sequence[tuple[str, Point | None]], lines: int, room: tuple[float, float], needed: float
) -> list[Line]:
    """The points line by line. What height is over lets a single line wander as the points do."""
    share = ceil(len(points) / lines)
    placed = []
    for number in range(lines):
        part = points[number * share : (number + 1) * share]
        y = TOP + number * LINES
        xs = _spread(_scaled([at.x if at is not None else None for _, at in part], room[0]), room[0])
        over = floor((room[1] - needed) / GRID_MM * 2) / 2 if lines == 1 else 0.0
        ys = _wandering([at.y if at is not None else None for _, at in part], xs, y, over)
        line = [(id_, Point(x, y)) for (id_, _), x, y in zip(part, xs, ys, strict=True)]
        if number % 2:  # the line turns at the panel's end and comes back
            line = [(id_, Point(room[0] / GRID_MM - at.x, at.y)) for id_, at in line]
        placed.append(line)
    return placed


def _half(value: float) -> float:
    return round(value * 2) / 2


def _scaled(given: Sequence[float | None], width: float) -> list[float]:
    """Places in mm on the railway as squares across the panel; those that are not known follow the last."""
    known = [x for x in given if x is not None]
    low, span = min(known, default=0.0), (max(known, default=0.0) - min(known, default=0.0)) or 1.0
    room = floor(width / GRID_MM) - 2 * SIDE
    free = APART * sum(x is None for x in given)
    found: list[float] = []
    for x in given:
        at = SIDE + (x - low) / span * max(0.0, room - free) if x is not None else (found or [SIDE])[-1] + APART
        found.append(_half(at))
    return found


def _spread(wanted: Sequence[float], width: float) -> list[float]:
    """The same places, each at least `APART` from the one before, none beyond the last that there is room for."""
    found: list[float] = []
    for x in wanted:
        found.append(max(x, found[-1] + APART) if found else x)
    limit = floor(width / GRID_MM) - SIDE
    for index in range(len(found) - 1, -1, -1):
        found[index] = min(found[index], limit)
        limit = found[index] - APART
    return found


def _wandering(given: Sequence[float | None], xs: Sequence[float], top: float, over: float) -> list[float]:
    """How far down the line is at each of its points: no steeper between two than there is room for."""
    known = [y for y in given if y is not None]
    low, span = min(known, default=0.0), (max(known, default=0.0) - min(known, default=0.0)) or 1.0
    last = top + over / 2
    found: list[float] = []
    for index, y in enumerate(given):
        wanted = _half(top + (y - low) / span * over) if y is not None and over > 0 else last
        most = xs[index] - xs[index - 1] - ROAD - 0.5 if index else over
        last = min(max(wanted, last - most), last + most)
        last = min(max(_half(last), top), top + over)
        found.append(last)
    return found


def _tracks(places: Sequence[Line], room: tuple[float, float]) -> dict[str, tuple[Point | str, ...]]:
    """The main line from end to end, and for each point a short road that leaves it to the line's free side."""
    main: list[Point | str] = []
    roads: dict[str, tuple[Point | str, ...]] = {}
    ends = (1.0, floor(room[0] / GRID_MM) - 1.0)
    for number, line in enumerate(places):
        if not line:
            continue
        forth = 1 if number % 2 == 0 else -1
        main.append(Point(ends[0 if forth > 0 else 1], line[0][1].y))
        for (point, at), following in zip(line, [*line[1:], None], strict=False):
            main.append(point)
            dy = following[1].y - at.y if following is not None else 0.0
            if following is not None and dy:
                lead = min(1.0, abs(following[1].x - at.x) - ROAD - abs(dy))
                bend = following[1].x - forth * (lead + abs(dy))
                main += [Point(bend, at.y), Point(following[1].x - forth * lead, following[1].y)]
            side = -1 if dy > 0 else 1 if dy < 0 else (-1 if len(roads) % 2 == 0 else 1)
            away = Point(at.x + forth * ROAD, at.y + side * ROAD)
            roads[f"road of {point}"] = (point, away, away + Point(forth * 0.5, 0))
        main.append(Point(ends[1 if forth > 0 else 0], line[-1][1].y))
    return {"main": tuple(main), **roads} if main else {}


def _rows(count: int, room: tuple[float, float]) -> list[Point]:
    """So many places at the foot, row by row from left to right."""
    across = _in_a_row(room[0])
    last = ceil(count / across) - 1
    bottom = floor(room[1] / GRID_MM * 2) / 2 - FOOT
    places = [divmod(place, across) for place in range(count)]
    return [Point(SIDE + column * LEVERS_APART, bottom - (last - row) * LEVER_ROWS) for row, column in places]
