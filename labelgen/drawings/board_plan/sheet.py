"""One board on paper: its plan by itself, and as pages with all that belongs to it. Millimetres."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import repeat

from labelgen.drawings.board_plan.blocks import Block, flowed, strip_blocks, text_block
from labelgen.drawings.board_plan.cells import Cells, seen_side
from labelgen.drawings.board_plan.frame import FOOT, HEAD, edges, foot, head
from labelgen.drawings.board_plan.labels import ID_CAP, SMALL_CAP, Words, Written, fixed, obstacles, written
from labelgen.drawings.board_plan.marks import (
    board_ground,
    bundle_shapes,
    front_edge,
    reach_of,
    strip_shapes,
    thing_shapes,
    written_in_place,
)
from labelgen.drawings.board_plan.routing import Corners
from labelgen.drawings.board_plan.runs import Bundles, bundles
from labelgen.drawings.board_plan.said import Said
from labelgen.drawings.board_plan.things import PlacedStrip, Thing
from labelgen.drawings.board_plan.view import View
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.moving import moved
from labelgen.lengths import Point, Rectangle
from labelgen.model.drawing import Drawing, Shape
from labelgen.standards.paper_sizes import Paper
from labelgen.typefaces import BOLD, REGULAR

MARGIN = 10.0
AROUND = 5.5
"""Beside and below the board, for the names of its edges."""
STRIP_TIMES = 1.25
"""The ids of strips are larger than others: by them one finds one's way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """What there is to draw of one board."""

    id: str
    known_size: bool
    things: Sequence[Thing]
    strips: Sequence[PlacedStrip]
    paths: Mapping[tuple[Corners, bool], int]
    neighbours: Sequence[tuple[str, str]]
    """At which edge, seen from above, and what each is called."""


class BoardSheet:
    """The plan of one board at one scale, from either side."""

    def __init__(self, board: Board, view: View, said: Said, cells: Cells, lettering: Lettering) -> None:
        self._board, self._view, self._said, self._cells = board, view, said, cells
        self.lettering = lettering
        self._caps = (max(ID_CAP, lettering.smallest), max(SMALL_CAP, lettering.smallest))
        self._strip_by_id = {strip.plan.id: strip for strip in board.strips}

    @cached_property
    def _bundles(self) -> Bundles:
        return bundles(self._board.paths, self._view.extent, self._view.scale)

    @cached_property
    def _written(self) -> Written:
        things, strips = self._board.things, self._board.strips
        wanted = [*map(self._words, things), *self._end_numbers()]
        return written(wanted, self._bundles, obstacles(things, strips, self._view), self._view, self._caps[1])

    def _words(self, thing: Thing) -> Words:
        id_cap, cap = self._caps
        known, at, key = self.lettering.known, self._view.on_paper(thing.at), f"{thing.kind} {thing.id}"
        more = tuple(fixed(known(text, REGULAR), cap, REGULAR) for text in self._said.of_thing(thing) if text)
        if thing.kind != "strip":
            id_ = fixed(known(thing.shown, BOLD), id_cap, BOLD)
            return Words(key=key, at=at, reach=reach_of(thing, self._view.scale), id=id_, more=more)
        body = self._view.area_on_paper(self._strip_by_id[thing.id].body)
        return Words(
            key=key,
            at=at,
            reach=min(body.width, body.height) / 2,
            id=fixed(known(thing.shown, BOLD), STRIP_TIMES * id_cap, BOLD),
            more=more,
            longest=max(body.width, body.height) / 2,
        )

    def _end_numbers(self) -> Iterator[Words]:
        """At either end of a strip that is too small to be written on: the number of the way that is there."""
        for strip in self._board.strips:
            if written_in_place(strip, self._view.scale):
                continue
            row = max(len(strip.ways) // strip.plan.tiers, 1)
            for way, out in {1: -1, row: 1}.items():
                yield Words(
                    key=f"{strip.plan.id}.{way}",
                    at=self._view.on_paper(strip.ways[way - 1]),
                    reach=strip.plan.pitch / 2 / self._view.scale + 0.3,
                    id=fixed(str(way), self._caps[1], BOLD),
                    ahead=Point(out * strip.along.x, out * strip.along.y),
                    needed=False,
                )

    def shapes(self, *, below: bool) -> list[Shape]:
        """From the upper left corner of the board."""
        view = View(extent=self._view.extent, scale=self._view.scale, below=below)
        shapes: list[Shape] = [
            *board_ground(view, known_size=self._board.known_size),
            *bundle_shapes(self._bundles, view),
        ]
        shapes += [front_edge(view)] if self._board.known_size else []
        for strip in self._board.strips:
            shapes += strip_shapes(strip, self._cells, view)
        shapes += thing_shapes(self._board.things, view)
        shapes += self._written.shapes(view)
        neighbours = [(seen_side(side, below=below), self._towards(name)) for side, name in self._board.neighbours]
        return [*shapes, *edges(view, neighbours, self.lettering, known_size=self._board.known_size)]

    def _towards(self, board: str) -> str:
        return f"to {self.lettering.known(board, BOLD)}"

    def drawing(self, *, below: bool) -> Drawing:
        """The plan by itself, with the names of its edges around it."""
        view = self._view
        return self._finished(
            moved(self.shapes(below=below), AROUND, AROUND),
            (view.width + 2 * AROUND, view.height + 2 * AROUND),
            below=below,
        )

    def _finished(self, shapes: Sequence[Shape], size: tuple[float, float], *, below: bool) -> Drawing:
        name = f"plan of board {self._said.name(self._board.id)[0]}, seen from {'below' if below else 'above'}"
        return Drawing(
            width=size[0],
            height=size[1],
            shapes=tuple(shapes),
            name=name,
            place=self.lettering.place,
            board=self._board.id,
        )

    def pages(self, size: tuple[float, float], paper: Paper, *, below: bool) -> list[Drawing]:
        room = Rectangle(0, 0, *size).inset(MARGIN)
        view = View(extent=self._view.extent, scale=self._view.scale, below=below)
        x, y = room.x + (room.width - view.width) / 2, room.y + HEAD + AROUND - 2
        board = self._said.name(self._board.id)
        first = [
            *head(board, view, room, self.lettering),
            *moved(self.shapes(below=below), x, y),
            *foot(view, room, paper.shown, self._bundles, self.lettering),
        ]
        strips, remarks = self._strip_blocks(room.width, below=below), self._remarks(room.width)
        under = y + view.height + AROUND + 1.5
        rooms = _rooms(room, under)
        fits = not strips or under + strips[0].height <= room.bottom - FOOT
        blocks = [*strips, *remarks] if fits else [*remarks, *strips]
        laid = flowed(blocks, rooms) if blocks else [[]]
        pages = [self._finished([*first, *laid[0]], size, below=below)]
        for shapes in laid[1:]:
            top = head(board, view, room, self.lettering, note=self.lettering.says("Strips way by way"))
            pages.append(self._finished([*top, *shapes], size, below=below))
        return pages

    def _strip_blocks(self, width: float, *, below: bool) -> list[Block]:
        """Those that are not written on in their places."""
        strips = [strip for strip in self._board.strips if not written_in_place(strip, self._view.scale)]
        return strip_blocks(strips, self._cells, self.lettering, below=below, room=width)

    def _remarks(self, width: float) -> list[Block]:
        left_out = [one.id.text for one in self._written.left_out]
        remarks = self._said.remarks(self._board.id, left_out=left_out)
        return [text_block(lead, text, self.lettering, width=width, cap=self._caps[1]) for lead, text in remarks]


def _rooms(room: Rectangle, under: float) -> Iterator[Rectangle]:
    """Below the plan, and then whole pages."""
    yield Rectangle(room.x, under, room.width, max(room.bottom - FOOT - under, 0))
    yield from repeat(Rectangle(room.x, room.y + HEAD, room.width, room.height - HEAD))
