"""Prints a large drawing at actual size: on one page if it fits, else in tiles that are glued over one another.

Neighbouring tiles share 10 mm. In it both carry the same crosses, at the same places of the drawing: laid over each
other, they hold the whole to size. They stand where they spoil nothing that is drawn.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from labelgen.imposition.cross_places import CrossPlaces
from labelgen.imposition.cut_marks import CUT_COLOUR, CUT_WIDTH, RULE_HEIGHT, check_rule, cut_line, note
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Drawing, Line, Shape
from labelgen.model.sheet import PRINTABLE_EDGE, Placed, Sheet
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD

MARGIN = 8.0
HEAD = 14.0
"""Height in mm of the head of a tile, under the margin: its name, the key, the notes."""
OVERLAP = 10.0
CROSS = 2.0
"""Half the length of a cross's arms, in mm."""
_NAMED, _KEY_CAP = 3.0, 1.5
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Equal tiles of a drawing, on pages of a size."""

    page_width: float
    page_height: float
    columns: int
    rows: int
    width: float
    height: float

    def window(self, column: int, row: int) -> Rectangle:
        """What of the drawing a tile shows."""
        return Rectangle(column * (self.width - OVERLAP), row * (self.height - OVERLAP), self.width, self.height)


def tile(drawing: Drawing, paper: Paper) -> tuple[Sheet, ...]:
    """The pages of a drawing at actual size, row by row: one, portrait or landscape, if it fits, else tiles."""
    for width, height in ((paper.width, paper.height), (paper.height, paper.width)):
        room = Rectangle(0, 0, width, height).inset(MARGIN)
        if drawing.width <= room.width + _HAIR and drawing.height <= room.height + _HAIR:
            return (_one_page(drawing, width, height),)
    grid = _grid(drawing, paper)
    crosses = _crosses(drawing, grid)
    return tuple(
        _tile(drawing, grid, crosses, column, row) for row in range(grid.rows) for column in range(grid.columns)
    )


def _one_page(drawing: Drawing, width: float, height: float) -> Sheet:
    at = Placed(x=(width - drawing.width) / 2, y=(height - drawing.height) / 2, drawing=drawing)
    marks = (
        note(drawing.name, MARGIN, PRINTABLE_EDGE + 2, cap=2, face=BOLD),
        *check_rule(MARGIN, height - PRINTABLE_EDGE - RULE_HEIGHT),
    )
    return Sheet(width=width, height=height, placed=(at,), marks=marks)


def _grid(drawing: Drawing, paper: Paper) -> _Grid:
    """The fewest tiles; portrait where landscape is no better."""
    grids = []
    for page_width, page_height in ((paper.width, paper.height), (paper.height, paper.width)):
        columns, width = _tiles(drawing.width, page_width - 2 * MARGIN)
        rows, height = _tiles(drawing.height, page_height - 2 * MARGIN - HEAD)
        grids.append(
            _Grid(
                page_width=page_width, page_height=page_height, columns=columns, rows=rows, width=width, height=height
            )
        )
    return min(grids, key=lambda grid: grid.columns * grid.rows)


def _tiles(length: float, room: float) -> tuple[int, float]:
    """How many equal tiles a length takes, and how long each is."""
    count = max(1, ceil((length - OVERLAP) / (room - OVERLAP) - _HAIR))
    return count, (length + (count - 1) * OVERLAP) / count


def _tile(drawing: Drawing, grid: _Grid, crosses: Sequence[tuple[float, float]], column: int, row: int) -> Sheet:
    shown = grid.window(column, row)
    window = Rectangle((grid.page_width - grid.width) / 2, MARGIN + HEAD, grid.width, grid.height)
    dx, dy = window.x - shown.x, window.y - shown.y
    marks: list[Shape] = []
    for x, y in crosses:
        if shown.contains(Rectangle(x, y, 0, 0)):
            marks += _cross(x + dx, y + dy)
    marks += _corner_ticks(window)
    marks += _head(drawing, grid, column, row)
    marks += check_rule(MARGIN, grid.page_height - PRINTABLE_EDGE - RULE_HEIGHT)
    return Sheet(
        width=grid.page_width,
        height=grid.page_height,
        placed=(Placed(x=dx, y=dy, drawing=drawing),),
        marks=tuple(marks),
        window=window,
    )


def _crosses(drawing: Drawing, grid: _Grid) -> list[tuple[float, float]]:
    """Where crosses stand, at whole mm of the drawing: two in each stretch of overlap between two tiles."""
    places = CrossPlaces(drawing, CROSS)
    return [place for stretch in _stretches(grid) for place in places.in_stretch(stretch)]


def _stretches(grid: _Grid) -> Iterator[Rectangle]:
    """What two tiles have in common, but for what is common to four of them."""
    for row in range(grid.rows):
        for column in range(grid.columns):
            tile = grid.window(column, row)
            if column:
                top, foot = OVERLAP * (row > 0), OVERLAP * (row < grid.rows - 1)
                yield Rectangle(tile.x, tile.y + top, OVERLAP, tile.height - top - foot)
            if row:
                left, right = OVERLAP * (column > 0), OVERLAP * (column < grid.columns - 1)
                yield Rectangle(tile.x + left, tile.y, tile.width - left - right, OVERLAP)


def _cross(x: float, y: float) -> Iterator[Line]:
    """Black on white, so that it shows on a dark panel too."""
    for width, colour in ((0.5, "#ffffff"), (CUT_WIDTH, CUT_COLOUR)):
        yield Line(x1=x - CROSS, y1=y, x2=x + CROSS, y2=y, width=width, colour=colour)
        yield Line(x1=x, y1=y - CROSS, x2=x, y2=y + CROSS, width=width, colour=colour)


def _corner_ticks(window: Rectangle) -> Iterator[Line]:
    """Short lines outside of the tile's corners, along its edges: where to trim."""
    for x, out_x in ((window.x, -1), (window.right, 1)):
        for y, out_y in ((window.y, -1), (window.bottom, 1)):
            yield cut_line(x + 0.5 * out_x, y, x + 2.5 * out_x, y)
            yield cut_line(x, y + 0.5 * out_y, x, y + 2.5 * out_y)


def _head(drawing: Drawing, grid: _Grid, column: int, row: int) -> Iterator[Shape]:
    name = f"{tile_letter(row)}{column + 1}"
    left, right, top = MARGIN, grid.page_width - MARGIN, PRINTABLE_EDGE + 1
    number, count = row * grid.columns + column + 1, grid.columns * grid.rows
    yield note(name, left, top + 7, cap=7, face=BOLD)
    text_left = left + 22
    yield note(drawing.name, text_left, top + 2.2, cap=2.2, face=BOLD)
    yield note(f"sheet {number} of {count}, {OVERLAP:g} mm overlap", text_left, top + 6.4, cap=1.8)
    yield note("trim one sheet at its corner marks, lay cross over cross, glue", text_left, top + 10, cap=1.8)
    yield from _key(grid, column, row, right)


def _key(grid: _Grid, column: int, row: int, right: float) -> Iterator[Shape]:
    """How the tiles lie to one another, each with its name where there is room, this one filled."""
    height = min(4.0, 12.0 / grid.rows)
    width = min(height * 1.4, 40.0 / grid.columns)
    left, top = right - grid.columns * width, PRINTABLE_EDGE + 0.5
    for r in range(grid.rows):
        for c in range(grid.columns):
            here = (c, r) == (column, row)
            at_x, at_y = left + c * width, top + r * height
            fill = "#000000" if here else None
            yield Box(x=at_x, y=at_y, width=width, height=height, fill=fill, stroke="#000000", stroke_width=0.15)
            if height >= _NAMED and width >= _NAMED:
                name = note(
                    f"{tile_letter(r)}{c + 1}", at_x + width / 2, at_y + (height + _KEY_CAP) / 2, anchor="middle"
                )
                yield replace(name, colour="#ffffff") if here else name


def tile_letter(row: int) -> str:
    """A, B … Z, AA, AB …: rows have letters, columns numbers."""
    letters = ""
    row += 1
    while row:
        row, digit = divmod(row - 1, 26)
        letters = chr(ord("A") + digit) + letters
    return letters
