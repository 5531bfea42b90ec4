"""Fold-over flags: two for each wire that has them and is not a link, folded around the wire at their middle."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import floor, pi

from labelgen.drawings.flags.faces import Face, Words
from labelgen.drawings.flags.order import FlagEnd, in_order_of_work
from labelgen.drawings.flags.wires import board_of, diameter_mm, in_own_colour, label_of, number_text
from labelgen.drawings.lettering import Lettering
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Line, Shape
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
    for flag in in_order_of_work(netlist, "fold"):
        if flag.wire.size not in rooms:
            rooms[flag.wire.size] = _Room(size=size, neck=neck_mm(flag.wire))
        room = rooms[flag.wire.size]
        if not room.enough:
            problems[_too_large(description, flag.wire, room, cell)] = None
            continue
        drawing, found = _flag(description, netlist, look, flag, room)
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


def _flag(
    description: Description, netlist: Netlist, look: Look, flag: FlagEnd, room: _Room
) -> tuple[Drawing, list[Problem]]:
    wire = flag.wire
    name = f"flag {wire.head} at {flag.end.shown}"
    lettering = Lettering(
        label=name, place=description.place_of(*wire.path), look=look,
        hint="Give it a shorter `shown:`, or choose a sheet with larger labels under `sheets: flags:`.",
    )  # fmt: skip
    function = in_own_colour(wire, netlist.functions.get(wire.function))
    colour = wire.colour or (function.colour if function else "")
    left = Words(end=flag.far.shown, leads_to=True, note=colour, note_needed=False)
    right = Words(end=flag.end.shown, leads_to=False, note=number_text(wire), note_needed=True)
    faces = [
        Face(wire=wire, function=function, words=words, box=box, lettering=lettering, look=look)
        for words, box in ((left, room.left), (right, room.right))
    ]
    drawing = Drawing(
        width=room.size.width, height=room.size.height, shapes=(*_both(faces), room.fold), name=name,
        place=lettering.place, board=board_of(netlist, flag), label=label_of(netlist, flag), folds=room.folds,
    )  # fmt: skip
    return drawing, lettering.problems


def _both(faces: Sequence[Face]) -> list[Shape]:
    """Both faces in two rows, or, where one of them needs it, both in three."""
    in_two = [face.two_rows() for face in faces]
    if None in in_two:
        return [shape for face in faces for shape in face.three_rows()]
    return [shape for shapes in in_two for shape in shapes or ()]
