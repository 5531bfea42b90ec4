"""What stands below the plan of a board: its strips enlarged, way by way, and what no picture says. Sizes: mm."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from labelgen.drawings.board_plan.cells import (
    CODE_HIGH,
    CODE_WIDE,
    HEAD_CAP,
    HEAD_HIGH,
    INK,
    NUMBER_HIGH,
    NUMBER_WIDE,
    Cells,
    rule,
    seen_side,
)
from labelgen.drawings.board_plan.labels import SAID
from labelgen.drawings.board_plan.things import PlacedStrip
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, break_lines, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Shape
from labelgen.model.netlist import WayPlan
from labelgen.typefaces import BOLD, REGULAR, face_for, size_for_cap, text_width

LEAST_WIDE, MOST_WIDE, CLOSER = 5.6, 12.0, 0.85
ROW_HIGH = 4.8
TITLE_HIGH, TITLE_CAP = 6.2, 3.4
RULE = 1.3
GAP_ACROSS, GAP_DOWN = 9.0, 3.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Something with a size that stands wherever there is room."""

    width: float
    height: float
    paint: Callable[[float, float], Sequence[Shape]]
    """Its shapes, with its upper left corner there."""


def strip_blocks(
    strips: Sequence[PlacedStrip], cells: Cells, lettering: Lettering, *, below: bool, room: float
) -> list[Block]:
    """Strips enlarged as they are seen from there, their ways all of one width; `room`: how wide the paper is."""
    wide = _cell_width(strips, room)
    return [block for strip in strips for block in _strip(strip, cells, lettering, below=below, room=room, wide=wide)]


def _strip(
    strip: PlacedStrip, cells: Cells, lettering: Lettering, *, below: bool, room: float, wide: float
) -> list[Block]:
    """In pieces where it is longer than the paper is wide."""
    across = 1 if strip.upright else max(1, int((room - 4) // wide))
    rows = _seen_rows(strip, below=below)
    ways = len(rows[0])
    pieces = [rows] if strip.upright else [[row[at : at + across] for row in rows] for at in range(0, ways, across)]
    return [_piece(strip, piece, cells, lettering, below=below, wide=wide) for piece in pieces]


def _seen_rows(strip: PlacedStrip, *, below: bool) -> list[list[WayPlan]]:
    """Row by row, from the back or the left; the row that is nearest to the eye last, so that below it is tier 1."""
    plan = strip.plan
    row = max(len(plan.ways) // plan.tiers, 1)
    tiers = [list(plan.ways[at : at + row]) for at in range(0, len(plan.ways), row)]
    along = strip.along.y if strip.upright else strip.along.x * (-1 if below else 1)
    return [tier if along > 0 else tier[::-1] for tier in tiers]


def _cell_width(strips: Sequence[PlacedStrip], room: float) -> float:
    """For the longest head, and wider to fill the line; a little less, where one more strip then stands on it."""
    heads = (_width(way.head, HEAD_CAP, BOLD) for strip in strips for way in strip.plan.ways)
    wide = min(max(max(heads, default=0.0) + 1.4, LEAST_WIDE), MOST_WIDE)
    ways = max((len(_seen_rows(strip, below=False)[0]) for strip in strips if not strip.upright), default=1)
    if not strips or ways * wide + 2 * RULE > room:
        return wide
    across = int((room + GAP_ACROSS) / (ways * max(CLOSER * wide, LEAST_WIDE) + 2 * RULE + GAP_ACROSS))
    filled = ((room + GAP_ACROSS) / min(across, len(strips)) - GAP_ACROSS - 2 * RULE) / ways - 1e-6
    return min(filled, MOST_WIDE)


def _width(text: str, cap: float, face: str) -> float:
    chosen = face_for(text, face)
    return text_width(text, chosen, size_for_cap(cap, chosen))


def _piece(
    strip: PlacedStrip,
    rows: Sequence[Sequence[WayPlan]],
    cells: Cells,
    lettering: Lettering,
    *,
    below: bool,
    wide: float,
) -> Block:
    if strip.upright:
        cell = (NUMBER_WIDE + CODE_WIDE + max(wide, 8.0), ROW_HIGH)
        width, height = cell[0] * len(rows), cell[1] * len(rows[0])
    else:
        cell = (wide, NUMBER_HIGH + CODE_HIGH + HEAD_HIGH)
        width, height = cell[0] * len(rows[0]), cell[1] * len(rows)
    title = _title(strip, lettering)

    def paint(x: float, y: float) -> list[Shape]:
        body = Rectangle(x + RULE, y + TITLE_HIGH + RULE, width, height)
        shapes: list[Shape] = [*_title_at(title, body.x, y + TITLE_CAP + 0.4)]
        for tier, row in enumerate(rows):
            for number, way in enumerate(row):
                across, down = (tier, number) if strip.upright else (number, tier)
                area = Rectangle(body.x + across * cell[0], body.y + down * cell[1], *cell)
                shapes += cells.full(way, area, upright=strip.upright)
        side = seen_side(strip.plan.panel_side, below=below)
        shapes.append(Box(x=body.x, y=body.y, width=width, height=height, stroke=INK, stroke_width=0.35))
        shapes.append(rule(body, side, RULE - 0.1))
        return shapes

    text = sum(line.width + 2 for line in title)
    return Block(width=max(width, text) + 2 * RULE, height=TITLE_HIGH + height + 2 * RULE, paint=paint)


def _title(strip: PlacedStrip, lettering: Lettering) -> list[Fitted]:
    plan = strip.plan
    found = [
        fit(lettering.known(plan.shown, BOLD), width=60, largest=TITLE_CAP, smallest=lettering.smallest, face=BOLD)
    ]
    return [one for one in found if one is not None]


def _title_at(title: Sequence[Fitted], x: float, y: float) -> Iterator[Shape]:
    for line in title:
        yield line.at(x, y, colour=INK)
        x += line.width + 2


def text_block(lead: str, text: str, lettering: Lettering, *, width: float, cap: float) -> Block:
    """A paragraph with a bold beginning."""
    first = f"{lead} " if lead else ""
    indent = _width(first, cap, BOLD) + (0.8 if lead else 0)
    known = lettering.known(text, REGULAR)
    lines = break_lines(known, width=width - indent, cap=cap)
    step = LINE_HEIGHT * cap

    def paint(x: float, y: float) -> list[Shape]:
        shapes: list[Shape] = []
        bold = fit(lettering.known(lead, BOLD), width=width, largest=cap, smallest=cap, face=BOLD) if lead else None
        shapes += [bold.at(x, y + cap, colour=INK)] if bold is not None else []
        for number, line in enumerate(lines):
            fitted = fit(line, width=width - indent, largest=cap, smallest=0.6 * cap)
            shapes += [fitted.at(x + indent, y + cap + number * step, colour=SAID)] if fitted is not None else []
        return shapes

    return Block(width=width, height=max(len(lines), 1) * step, paint=paint)


def flowed(blocks: Sequence[Block], rooms: Iterator[Rectangle]) -> list[list[Shape]]:
    """Beside each other from the left while there is room, row below row; room by room, the last ones as needed."""
    pages: list[list[Shape]] = [[]]
    room = next(rooms)
    x, y, row = room.x, room.y, 0.0
    for block in blocks:
        if x > room.x and x + block.width > room.right:
            x, y, row = room.x, y + row + GAP_DOWN, 0.0
        while y + block.height > room.bottom and (pages[-1] or len(pages) == 1):
            room = next(rooms)
            pages.append([])
            x, y, row = room.x, room.y, 0.0
        pages[-1] += block.paint(x, y)
        x, row = x + block.width + GAP_ACROSS, max(row, block.height)
    return pages
