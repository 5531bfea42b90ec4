"""Where single levers would have room: a smaller change than a larger panel."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from math import ceil, hypot

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.panel.form import Panel
from labelgen.model.panel.hole_room import comfortable, fit
from labelgen.model.panel.hole_sliding import FROM_EDGE_MM, FURTHEST_MM
from labelgen.model.panel.holes import PanelHole
from labelgen.model.panel.road_walks import PanelWalks, to_line

MOST_MOVED = 3
"""Who has to move more levers would rather have a larger panel."""
_STEP = 0.5
"""Squares."""
_HALF_A_LINE = 0.21
"""Squares: about half of a track's width."""
_WORKED = ("lever", "route")

Square = tuple[float, float]


def squares_with_room(
    panel: Panel, holes: Sequence[PanelHole], pairs: Sequence[tuple[PanelHole, PanelHole]]
) -> dict[str, Square]:
    """Lever: the nearest square on which its hole would have room; none where too many would have to move.

    `holes`: all of the panel's; `pairs`: those that are too close. Of each the later one moves, else the other.
    """
    tracks = PanelWalks(panel).tracks_but([])
    standing = {(hole.use, hole.thing, hole.contact, number): hole for number, hole in enumerate(holes)}
    key_of = {id(hole): key for key, hole in standing.items()}
    found: dict[str, Square] = {}
    for pair in pairs:
        first, second = (key_of[id(hole)] for hole in pair)
        if _has_room(standing[first], [standing[second]]):
            continue
        for key in (second, first):
            others = [hole for other, hole in standing.items() if other != key]
            square = next(_free_squares(panel, standing[key], others, tracks), None)
            if square is not None:
                found[standing[key].thing] = square
                standing[key] = replace(standing[key], at=_middle(panel, square))
                break
        else:
            return {}
        if len(found) > MOST_MOVED:
            return {}
    return found


def with_squares(description: Description, panel_id: str, squares: Mapping[str, Square]) -> Description:
    """The description with the holes of some levers on these squares of a panel."""
    panel = description.panels[panel_id]
    panel = panel.model_copy(update={"levers": {**panel.levers, **squares}})
    return description.model_copy(update={"panels": {**description.panels, panel_id: panel}})


def _free_squares(
    panel: Panel, hole: PanelHole, others: Sequence[PanelHole], tracks: Sequence[tuple[Point, Point]]
) -> Iterator[Square]:
    """The nearest first; none of a hole in a row, of one of several of its lever, or of what is no lever's."""
    in_a_row = panel.lever_row is not None and not isinstance(panel.levers.get(hole.thing), tuple)
    if hole.use != "lever" or hole.contact or in_a_row:
        return
    clear = hole.room.reach + _HALF_A_LINE * panel.grid
    for square in _around(panel, hole.at):
        moved = replace(hole, at=_middle(panel, square))
        on_a_track = any(to_line(moved.at, a, b) < clear for a, b in tracks)
        if not on_a_track and _on_the_panel(panel, moved) and _has_room(moved, others):
            yield square


def _around(panel: Panel, at: Point) -> list[Square]:
    """Half squares, as near as one takes a hole for that of its point."""
    reach = ceil(FURTHEST_MM / panel.grid / _STEP)
    x, y = (round(value / panel.grid / _STEP) for value in (at.x, at.y))
    steps = range(-reach, reach + 1)
    squares = [((x + dx) * _STEP, (y + dy) * _STEP) for dx, dy in product(steps, steps)]
    far = {square: hypot(square[0] * panel.grid - at.x, square[1] * panel.grid - at.y) for square in squares}
    return sorted((square for square in squares if far[square] <= FURTHEST_MM), key=lambda square: far[square])


def _middle(panel: Panel, square: Square) -> Point:
    return Point(square[0] * panel.grid, square[1] * panel.grid)


def _on_the_panel(panel: Panel, hole: PanelHole) -> bool:
    if panel.size is None:
        return True
    room = hole.room.reach + FROM_EDGE_MM
    return room <= hole.at.x <= panel.size[0] - room and room <= hole.at.y <= panel.size[1] - room


def _has_room(hole: PanelHole, others: Sequence[PanelHole]) -> bool:
    room = hole.room
    return all((comfortable if other.use in _WORKED else fit)(room, other.room) for other in others)
