"""Where strips lie: over the edge of their board, or on each other."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.checks.measures import SMALLEST_PITCH_MM
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, StripPlan
from labelgen.problems import Problem

SLIP_MM = 1.0
"""Less than this is how exactly people measure."""
SIDEWAYS = {"left", "right"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """What a strip surely covers of its board: mm from the top left corner, y to the front."""

    id: str
    left: float
    back: float
    right: float
    front: float
    long: float
    """From its first screw to its last, or from one fixing hole to the other, if that is more."""
    way_1: str


def strips_over_edges(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports outside-board for strips whose middle is on their board, and an end of theirs is not."""
    problems = []
    for board, lies in _lies(description, netlist).items():
        if board is None or board not in description.boards or (size := description.boards[board].size) is None:
            continue
        for lie in lies:
            edge, over = _over(lie, size)
            if over > SLIP_MM:
                problems.append(_over_edge(description, lie, board, edge, over))
    return problems


def _edges(lie: Lie) -> tuple[str, str]:
    """Those at which its ends lie."""
    return ("left", "right") if lie.way_1 in SIDEWAYS else ("back", "front")


def _over(lie: Lie, size: tuple[float, float]) -> tuple[str, float]:
    """The edge beyond which it reaches furthest, and how far; nothing where its middle is beyond one already."""
    middle = ((lie.left + lie.right) / 2, (lie.back + lie.front) / 2)
    if not all(0 <= at <= most for at, most in zip(middle, size, strict=True)):
        return "", 0.0
    beyond = {"left": -lie.left, "right": lie.right - size[0], "back": -lie.back, "front": lie.front - size[1]}
    edge = max(_edges(lie), key=lambda one: beyond[one])
    return edge, beyond[edge]


def _over_edge(description: Description, lie: Lie, board: str, edge: str, over: float) -> Problem:
    runs = "from left to right" if lie.way_1 in SIDEWAYS else "from back to front"
    return Problem(
        code="outside-board",
        message=f"strip {lie.id} is {lie.long:.3g} mm long, and reaches {over:.3g} mm beyond the {edge} edge of board"
        f" {board}",
        hint=f"`at` is a strip's middle, and with `way_1: {lie.way_1}` it lies {runs}. Correct one of these, or the"
        " board's `size`.",
        place=description.place_of("strips", lie.id, "at"),
    )


def strips_on_each_other(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports strips-overlap for each strip that lies on one of the same board."""
    problems = []
    for board, lies in _lies(description, netlist).items():
        order = {id_: number for number, id_ in enumerate(description.strips)}
        for a, b in _first_pairs(sorted(lies, key=lambda lie: (lie.left, order[lie.id]))):
            first, second = sorted((a, b), key=lambda lie: order[lie.id])
            problems.append(_overlap(description, first, second, board))
    return problems


def _first_pairs(lies: Sequence[Lie]) -> Iterator[tuple[Lie, Lie]]:
    """Each strip with the first one, from the left, that it lies on."""
    open_: list[Lie] = []
    for lie in lies:
        open_ = [one for one in open_ if one.right > lie.left + SLIP_MM]
        under = next((one for one in open_ if _both(one.back, one.front, lie.back, lie.front) > SLIP_MM), None)
        if under is not None:
            yield under, lie
        open_.append(lie)


def _both(start: float, end: float, other_start: float, other_end: float) -> float:
    """How long two stretches run beside each other."""
    return min(end, other_end) - max(start, other_start)


def _overlap(description: Description, first: Lie, second: Lie, board: str | None) -> Problem:
    where = f" on board {board}" if board in description.boards else ""
    return Problem(
        code="strips-overlap",
        message=f"strips {first.id} and {second.id} lie on each other{where}: {_length(first)}, {_length(second)}",
        hint="`at` is a strip's middle, in mm from its board's top left corner. Correct that of one of them.",
        place=description.place_of("strips", second.id, "at"),
    )


def _length(lie: Lie) -> str:
    if lie.way_1 in SIDEWAYS:
        return f"{lie.id} is from {lie.left:.4g} to {lie.right:.4g} mm across"
    return f"{lie.id} is from {lie.back:.4g} to {lie.front:.4g} mm from the back"


def _lies(description: Description, netlist: Netlist) -> dict[str | None, list[Lie]]:
    """By board: the strips that have a place."""
    found: dict[str | None, list[Lie]] = {}
    for strip in netlist.strips:
        at = description.strips[strip.id].at
        if at is not None and (strip.board is not None or not description.boards):
            found.setdefault(strip.board, []).append(_lie(description, strip, at))
    return found


def _lie(description: Description, strip: StripPlan, at: tuple[float, float]) -> Lie:
    """Of a strip that nobody measured, what the smallest strip of so many ways would cover."""
    pitch = strip.pitch if strip.measured else SMALLEST_PITCH_MM
    long = max((description.strips[strip.id].row_ways - 1) * pitch, strip.fixing or 0)
    along, across = max(long, pitch) / 2, pitch / 2
    dx, dy = (along, across) if strip.way_1 in SIDEWAYS else (across, along)
    return Lie(
        id=strip.id,
        left=at[0] - dx,
        back=at[1] - dy,
        right=at[0] + dx,
        front=at[1] + dy,
        long=long,
        way_1=strip.way_1,
    )
