"""Fold-over flags: two for each wire that has them and is not a link, folded around the wire at their middle."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import floor, pi

from labelgen.drawings.flags.alike import alike
from labelgen.drawings.flags.faces import Face, Words
from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.drawings.flags.wires import board_of, diameter_mm, in_own_colour, label_of, number_text
from labelgen.drawings.lettering import Lettering
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist, Wire
from labelgen.problems import Problem

LEAST_WIDTH, LEAST_HEIGHT = 36.0, 10.0
"""mm: two faces of about 17 × 10 mm, so that neighbours on 8 mm ways do not hide each other."""
MARGIN = 1.0
"""mm kept free at the outer edges, for the printer's drift and the knife's."""
NECK_GAP = 0.3
LEAST_FACE_WIDTH, LEAST_FACE_HEIGHT = 9.0, 7.0
"""mm of print on each side of the neck: a head of three characters beside its code block."""
HIGHEST_FACE = 10.0
"""mm of print: higher, the code block would leave no room for the number beside it."""
FOLD_COLOUR = "#8c8c8c"


def flag_drawings(
    description: Description, netlist: Netlist, look: Look, cell: CellSize
) -> tuple[list[Drawing], list[Problem]]:
    """Flags in order of work, each as wide and high as its share of a cell; mm, unfolded, the fold at the middle.

    Problems: label-too-large, text-does-not-fit, character-missing.
    """
    size = flag_size(cell)
    drawings: list[Drawing] = []
    problems: dict[Problem, None] = {}
    rooms: dict[str, _Room] = {}
    flags = in_order_of_work(netlist, "fold")
    for pair in zip(flags[::2], flags[1::2], strict=True):
        wire = pair[0].wire
        if wire.size not in rooms:
            rooms[wire.size] = _Room(size=size, neck=neck_mm(wire))
        room = rooms[wire.size]
        if not room.enough:
            problems[_too_large(description, wire, room, cell)] = None
            continue
        for drawing, found in _flags(description, netlist, look, pair, room):
            drawings.append(drawing)
            problems.update(dict.fromkeys(found))
    return drawings, list(problems)


def flag_size(cell: CellSize) -> CellSize:
    """The share of a cell that one flag takes: 38.1 × 21.2 holds two, one above the other."""
    across, down = max(1, floor(cell.width / LEAST_WIDTH + 1e-9)), max(1, floor(cell.height / LEAST_HEIGHT + 1e-9))
    return CellSize(width=cell.width / across, height=cell.height / down)


def neck_mm(wire: Wire) -> float:
    """What the wire itself takes up: its circumference, π × the diameter over its insulation."""
    return pi * diameter_mm(wire)


@dataclass(frozen=True, kw_only=True)
class _Room:
    """Where there may be print on a flag."""

    size: CellSize
    neck: float

    @cached_property
    def left(self) -> Rectangle:
        width = self.size.width / 2 - self.neck / 2 - MARGIN - NECK_GAP
        height = min(HIGHEST_FACE, self.size.height - 2 * MARGIN)
        return Rectangle(MARGIN, (self.size.height - height) / 2, width, height)

    @cached_property
    def right(self) -> Rectangle:
        return Rectangle(self.size.width - MARGIN - self.left.width, self.left.y, self.left.width, self.left.height)

    @cached_property
    def fold(self) -> Line:
        middle = self.size.width / 2
        return Line(x1=middle, y1=0, x2=middle, y2=self.size.height, width=0.15, colour=FOLD_COLOUR, dash=(1.0, 0.8))

    @cached_property
    def folds(self) -> tuple[float]:
        return (self.fold.x1,)

    @property
    def enough(self) -> bool:
        return self.left.width >= LEAST_FACE_WIDTH and self.left.height >= LEAST_FACE_HEIGHT


def _too_large(description: Description, wire: Wire, room: _Room, cell: CellSize) -> Problem:
    needed = room.neck + 2 * (LEAST_FACE_WIDTH + MARGIN + NECK_GAP)
    return Problem(
        code="label-too-large",
        message=f"a flag around {wire.size or 'a wire'} takes {needed:.0f} × {LEAST_FACE_HEIGHT + 2 * MARGIN:.0f} mm, "
        f"the labels of the sheet are {cell.width:g} × {cell.height:g} mm",
        hint="Choose a sheet with larger labels under `sheets: flags:`; 38 × 21 mm holds two flags a label.",
        place=description.place_of("sheets", "flags"),
    )


def _flags(
    description: Description, netlist: Netlist, look: Look, pair: Sequence[FlagEnd], room: _Room
) -> Iterator[tuple[Drawing, list[Problem]]]:
    """Both flags of a wire, with the problems of each."""
    letterings = [
        Lettering(
            label=f"flag {flag.wire.head} at {flag.end.shown}", place=description.place_of(*flag.wire.path), look=look,
            hint="Give it a shorter `shown:`, or choose a sheet with larger labels under `sheets: flags:`.",
        )
        for flag in pair
    ]  # fmt: skip
    faces = [_faces(netlist, look, flag, room, own) for flag, own in zip(pair, letterings, strict=True)]
    shapes = alike([face for own in faces for face in own])
    for index, (flag, lettering) in enumerate(zip(pair, letterings, strict=True)):
        left, right = shapes[2 * index : 2 * index + 2]
        drawing = Drawing(
            width=room.size.width, height=room.size.height, shapes=(*left, *right, room.fold), name=lettering.label,
            place=lettering.place, board=board_of(netlist, flag), label=label_of(netlist, flag), folds=room.folds,
        )  # fmt: skip
        yield drawing, lettering.problems


def _faces(netlist: Netlist, look: Look, flag: FlagEnd, room: _Room, lettering: Lettering) -> tuple[Face, Face]:
    """Where its wire goes, and where it is."""
    wire = flag.wire
    function = in_own_colour(wire, netlist.functions.get(wire.function))
    colour = wire.colour or (function.colour if function else "")
    there = Words(end=flag.far.shown, leads_to=True, note=colour, note_needed=False)
    here = Words(end=flag.end.shown, leads_to=False, note=number_text(wire), note_needed=True)
    left, right = (
        Face(wire=wire, function=function, words=words, box=box, lettering=lettering, look=look)
        for words, box in ((there, room.left), (here, room.right))
    )
    return left, right
