"""The railway's name on a fascia, and the panel's own."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.clearances import is_clear
from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.style import MARGIN_MM, NAME_CAP_MM, SMALL_CAP_MM, TITLE_CAP_MM
from labelgen.drawings.fascia.texts import Block, line
from labelgen.drawings.fascia.writing import Writing
from labelgen.lengths import Rectangle
from labelgen.typefaces import BOLD

_TITLE_INSET_MM = 4.5
_TITLE_CLEAR_MM = 3.0


def write_title(writing: Writing) -> None:
    """The railway's name, the panel's own below it, in the corner that has room; left out where none has."""
    plan = writing.plan
    railway = writing.known(plan.netlist.railway, ("railway",), BOLD)
    own = writing.known(plan.panel.name, ("panels", plan.id, "name"))
    for cap in writing.caps(TITLE_CAP_MM, NAME_CAP_MM):
        blocks = [line(railway, cap, BOLD)]
        if own and own != railway:
            blocks.append(line(own, max(cap * 0.62, SMALL_CAP_MM)))
        for place, anchor in _title_places(plan, blocks):
            if plan.inside.contains(place) and is_clear(place, writing.obstacles, _TITLE_CLEAR_MM):
                _write_lines(writing, blocks, place, anchor)
                return


def _write_lines(writing: Writing, blocks: Sequence[Block], place: Rectangle, anchor: str) -> None:
    top = place.y
    for block, colour in zip(blocks, (writing.plan.style.ink, writing.plan.style.soft), strict=False):
        rectangle = Rectangle(place.x, top, place.width, block.height)
        writing.write(block, rectangle, colour=colour, what="the title", anchor=anchor)
        top = rectangle.bottom + _line_gap(blocks)


def _line_gap(blocks: Sequence[Block]) -> float:
    return 0.35 * blocks[0].lines[0].cap


def _title_places(plan: FasciaPlan, blocks: Sequence[Block]) -> Iterator[tuple[Rectangle, str]]:
    width = max(block.width for block in blocks)
    height = sum(block.height for block in blocks) + (len(blocks) - 1) * _line_gap(blocks)
    room = plan.inside.inset(_TITLE_INSET_MM)
    for beside in dict.fromkeys((_beside_screws(plan), 0.0)):
        yield from _in_corners(Rectangle(room.x + beside, room.y, room.width - 2 * beside, room.height), width, height)


def _in_corners(room: Rectangle, width: float, height: float) -> Iterator[tuple[Rectangle, str]]:
    right, middle, bottom = room.right - width, room.x + (room.width - width) / 2, room.bottom - height
    for y in (room.y, bottom):
        yield Rectangle(room.x, y, width, height), "start"
        yield Rectangle(right, y, width, height), "end"
        yield Rectangle(middle, y, width, height), "middle"


def _beside_screws(plan: FasciaPlan) -> float:
    """How far further in a title stands that keeps clear of the screws in the corners."""
    reach = max((hole.at.x + hole.room.reach for hole in plan.drilled if hole.use == "screw" and hole.thing == "1"),
                default=0.0)  # fmt: skip
    return max(0.0, reach + _TITLE_CLEAR_MM - MARGIN_MM - _TITLE_INSET_MM)
