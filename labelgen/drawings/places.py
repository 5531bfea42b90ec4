"""Labels for plugs and holes: board-end plates with their pin tables, the ends of jumpers, both faces of holes.

They belong to `places.pdf`. Sizes are mm.
"""

from collections.abc import Sequence
from itertools import product
from math import floor

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places_hole import FORMS, hole_shapes
from labelgen.drawings.places_jumper import jumper_shapes
from labelgen.drawings.places_plate import LEAST_HEIGHT, LEAST_WIDTH, Plate, plates
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import CellSize, Look
from labelgen.model.netlist import Netlist
from labelgen.model.threaded_holes import ThreadedHole, threaded_holes
from labelgen.places import Path
from labelgen.problems import Problem

SHARE_WIDTH, SHARE_HEIGHT = 48.0, 16.0
"""mm: what is small takes a share of a cell that is at least so large: 99 × 68 holds eight."""
MARGIN = 2.0
"""mm kept free at the edges: a cell's corners are round, and sheets print up to 1 mm off."""
HINT = "Choose a sheet with larger labels under `sheets: places:`, or a shorter `shown:`."

Found = tuple[list[Drawing], list[Problem]]


def place_drawings(description: Description, netlist: Netlist, look: Look, cell: CellSize) -> Found:
    """Plug by plug the plates of both its boards; then the ends of the jumpers; then the holes, both faces of each.

    Problems: label-too-large, text-does-not-fit, character-missing.
    """
    holes = threaded_holes(description, netlist)
    if (netlist.plugs or holes) and (cell.width < LEAST_WIDTH or cell.height < LEAST_HEIGHT):
        return [], [_too_large(description, cell)]
    maker = _Maker(description, look)
    drawings = [
        maker.plate(plate)
        for plug in netlist.plugs
        for board in plug.boards
        for plate in plates(netlist, plug, board, cell)
    ]
    drawings += [maker.jumper(netlist, plug.id, board, cell) for plug in netlist.plugs for board in plug.boards]
    for hole in holes:
        drawings += maker.hole(netlist, hole, cell)
    return drawings, list(dict.fromkeys(maker.problems))


def share(cell: CellSize, rows: int = 1, *, whole: bool = False) -> CellSize:
    """Of a cell, for what is small: so many rows of its shares; `whole`: over its whole width."""
    across = 1 if whole else max(1, floor(cell.width / SHARE_WIDTH + 1e-9))
    down = max(1, floor(cell.height / (SHARE_HEIGHT * rows) + 1e-9))
    return CellSize(width=cell.width / across, height=cell.height / down)


class _Maker:
    """Draws the labels of one description."""

    def __init__(self, description: Description, look: Look) -> None:
        self._description = description
        self._look = look
        self.problems: list[Problem] = []

    def plate(self, plate: Plate) -> Drawing:
        lettering = self._lettering(f"plate of plug {plate.plug.shown}", ("plugs", plate.plug.id))
        name = " ".join(filter(None, (lettering.label, f"on {plate.here}", plate.words)))
        drawing = self._drawing(plate.cell, plate.shapes(lettering, self._look), name, lettering, plate.board)
        self.problems += lettering.problems
        return drawing

    def jumper(self, netlist: Netlist, plug: str, board: str, cell: CellSize) -> Drawing:
        plan = netlist.plug_by_id[plug]
        lettering = self._lettering(f"jumper end of plug {plan.shown}", ("plugs", plug))
        size = share(cell)
        face = Rectangle(0, 0, size.width, size.height).inset(MARGIN)
        there = netlist.shown_id(plan.facing(board))
        shapes = jumper_shapes(plan, netlist.shown_id(board), there, face, lettering)
        name = f"{lettering.label} on {netlist.shown_id(board)}"
        self.problems += lettering.problems
        return self._drawing(size, shapes, name, lettering, board)

    def hole(self, netlist: Netlist, hole: ThreadedHole, cell: CellSize) -> list[Drawing]:
        """The same for both faces, in the fullest form that fits, on the smallest share of a cell that holds it."""
        sizes = [share(cell), share(cell, whole=True), share(cell, 2, whole=True), cell]
        shapes, lettering, size = self._first_that_fits(netlist, hole, sizes)
        self.problems += lettering.problems
        return [
            self._drawing(size, shapes, f"{lettering.label}, {face} face", lettering, hole.board)
            for face in ("first", "second")
        ]

    def _first_that_fits(
        self, netlist: Netlist, hole: ThreadedHole, sizes: Sequence[CellSize]
    ) -> tuple[list[Shape], Lettering, CellSize]:
        for form, size in product(range(FORMS), sizes):
            lettering = self._lettering(f"label of hole {hole.shown}", hole.path)
            face = Rectangle(0, 0, size.width, size.height).inset(MARGIN)
            shapes = hole_shapes(hole, netlist.shown_id(hole.board), face, lettering, form)
            if not any(problem.code == "text-does-not-fit" for problem in lettering.problems):
                break
        return shapes, lettering, size

    def _lettering(self, label: str, path: Path) -> Lettering:
        place = self._description.place_of_key(*path)
        return Lettering(label=label, place=place, look=self._look, hint=HINT)

    @staticmethod
    def _drawing(size: CellSize, shapes: Sequence[Shape], name: str, lettering: Lettering, board: str) -> Drawing:
        return Drawing(
            width=size.width, height=size.height, shapes=tuple(shapes), name=name, place=lettering.place, board=board
        )


def _too_large(description: Description, cell: CellSize) -> Problem:
    return Problem(
        code="label-too-large",
        message=f"a plug's plate takes {LEAST_WIDTH:g} × {LEAST_HEIGHT:g} mm, "
        f"the labels of the sheet are {cell.width:g} × {cell.height:g} mm",
        hint="Choose a sheet with larger labels under `sheets: places:`.",
        place=description.place_of("sheets", "places"),
    )
