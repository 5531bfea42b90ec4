"""What is said to stand on a board, and lies beyond its edges."""

from collections.abc import Iterator, Mapping

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.places import Path
from labelgen.problems import Problem

TOLD_EACH = 5
"""Of one board; more have one cause, such as a board measured in centimetres, and are said together."""

Spot = tuple[str, tuple[float, float], Path]
"""What it is, where, and where that is written."""


def outside_boards(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports outside-board for devices, strips, supplies, holes and plugs. Boards without a size have no edges."""
    on_board: dict[str, list[Spot]] = {}
    for board, spot in _spots(description, netlist):
        if board in description.boards and _is_outside(spot[1], description.boards[board].size):
            on_board.setdefault(board, []).append(spot)
    return [problem for board, spots in on_board.items() for problem in _told(description, board, spots)]


def _is_outside(at: tuple[float, float], size: tuple[float, float] | None) -> bool:
    return size is not None and not all(0 <= where <= most for where, most in zip(at, size, strict=True))


def _spots(description: Description, netlist: Netlist) -> Iterator[tuple[str, Spot]]:
    """With the board of each; what has no place, or no board, is left out."""
    only = next(iter(description.boards)) if len(description.boards) == 1 else ""
    strips = {strip.id: strip.board for strip in netlist.strips}
    for what, board, at, path in (*_boxes(description, strips), *_devices(description, strips)):
        if at is not None:
            yield board or only, (what, at, (*path, "at"))
    for board, given in description.boards.items():
        for id_, hole in given.holes.items():
            yield board, (f"hole {id_}", hole.at, ("boards", board, "holes", id_, "at"))
    for id_, plug in description.plugs.items():
        for board, at in plug.at.items():
            yield board, (f"plug {id_}", at, ("plugs", id_, "at", board))


Boxes = Iterator[tuple[str, str | None, tuple[float, float] | None, Path]]
"""What it is, the board that it names, where it is, its path."""


def _boxes(description: Description, strips: Mapping[str, str | None]) -> Boxes:
    for id_, strip in description.strips.items():
        yield f"strip {id_}", strips.get(id_), strip.at, ("strips", id_)
    for id_, supply in description.supplies.items():
        yield id_, supply.board, supply.at, ("supplies", id_)


def _devices(description: Description, strips: Mapping[str, str | None]) -> Boxes:
    """Those on a panel alone are left out: they are where its wires go down."""
    for table, devices in (("points", description.points), ("devices", description.devices)):
        for id_, device in devices.items():
            if device.panel is None or device.board is not None:
                yield id_, device.board or strips.get(device.strip or ""), device.at, (table, id_)


def _told(description: Description, board: str, spots: list[Spot]) -> Iterator[Problem]:
    width, height = description.boards[board].size or (0, 0)
    together = len(spots) > TOLD_EACH
    for what, at, path in spots[:1] if together else spots:
        more = f"; so do {len(spots) - 1} more" if together else ""
        yield Problem(
            code="outside-board",
            message=f"{what}, at {at[0]:g}, {at[1]:g} mm, lies outside of board {board}, which is "
            f"{width:g} × {height:g} mm{more}",
            hint="Positions are mm from the board's own top left corner. Correct this one, or the board's `size`.",
            place=description.place_of(*path),
        )
