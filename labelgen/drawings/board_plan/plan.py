"""The plan of a board: what stands on it and where its wires run, from below and from above. Millimetres.

Offered as whole pages at the largest round scale that fits (`plan_pages`), and at 1:1 to be tiled (`plan_drawings`).
"""

from functools import cached_property

from labelgen.drawings.board_plan.cells import Cells
from labelgen.drawings.board_plan.frame import FOOT, HEAD
from labelgen.drawings.board_plan.said import Said
from labelgen.drawings.board_plan.sheet import AROUND, MARGIN, Board, BoardSheet
from labelgen.drawings.board_plan.things import BoardThings
from labelgen.drawings.board_plan.view import View
from labelgen.drawings.board_plan.wires import BoardWires
from labelgen.drawings.lettering import Lettering
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural
from labelgen.problems import Problem
from labelgen.standards.paper_sizes import Paper

SCALES = (1, 2, 5, 10, 15, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000)
BELOW_THEN_ABOVE = (True, False)


class BoardPlans:
    """The plans of one railway; its wires are laid once for all boards."""

    def __init__(self, description: Description, netlist: Netlist, look: Look) -> None:
        self._description, self._netlist, self._look = description, netlist, look
        self._things = BoardThings(description, netlist)
        self.problems: list[Problem] = []

    @cached_property
    def _wires(self) -> BoardWires:
        return BoardWires(self._description, self._netlist, self._things)

    def boards(self) -> list[str]:
        """Those with anything that has a place, in natural order."""
        return [board for board in sorted(self._description.boards, key=natural) if self._things.things[board]]

    def pages(self, board: str, paper: Paper) -> list[Drawing]:
        """From below, then from above; each as large as the paper, upright or across, strips way by way behind.

        Problems: character-missing.
        """
        scale, size = _fitting(self._things.extent(board), paper)
        sheet = self._sheet(board, scale)
        found = [page for below in BELOW_THEN_ABOVE for page in sheet.pages(size, paper, below=below)]
        self.problems += sheet.lettering.problems
        return found

    def full(self, board: str) -> list[Drawing]:
        """At 1:1, from below and from above. Problems: character-missing."""
        sheet = self._sheet(board, 1)
        found = [sheet.drawing(below=below) for below in BELOW_THEN_ABOVE]
        self.problems += sheet.lettering.problems
        return found

    def _sheet(self, board: str, scale: float) -> BoardSheet:
        lettering = Lettering(
            label=f"plan of board {self._netlist.shown_id(board)}",
            place=self._description.place_of_key("boards", board),
            look=self._look,
            hint="Give it a shorter name.",
        )
        drawn = Board(
            id=board,
            known_size=self._description.boards[board].size is not None,
            things=self._things.things[board],
            strips=self._things.strips_on(board),
            paths=self._wires.paths[board],
            neighbours=self._wires.neighbours(board),
        )
        view = View(extent=self._things.extent(board), scale=scale)
        said = Said(self._description, self._netlist, self._look, self._things, self._wires)
        return BoardSheet(drawn, view, said, Cells(self._netlist, self._look, lettering), lettering)


def _fitting(extent: Rectangle, paper: Paper) -> tuple[float, tuple[float, float]]:
    """The largest round scale at which it fits on the paper, upright or across; across where that is no smaller."""
    found = []
    for turned, (width, height) in enumerate(((paper.height, paper.width), (paper.width, paper.height))):
        room = (width - 2 * MARGIN - 2 * AROUND, height - 2 * MARGIN - HEAD - FOOT - 2 * AROUND)
        least = max(extent.width / room[0], extent.height / room[1])
        scale = next((scale for scale in SCALES if scale >= least), float(least))
        found.append((scale, turned, (width, height)))
    scale, _, size = min(found)
    return scale, size


def plan_pages(
    description: Description, netlist: Netlist, look: Look, paper: Paper, board: str | None = None
) -> tuple[dict[str, list[Drawing]], list[Problem]]:
    """Board: the pages of its plan, each as large as the paper. Boards with nothing that has a place have none."""
    plans = BoardPlans(description, netlist, look)
    pages = {one: plans.pages(one, paper) for one in plans.boards() if board in (None, one)}
    return pages, list(dict.fromkeys(plans.problems))


def plan_drawings(
    description: Description, netlist: Netlist, look: Look, board: str | None = None
) -> tuple[dict[str, list[Drawing]], list[Problem]]:
    """The same at 1:1, from below and from above, to be tiled."""
    plans = BoardPlans(description, netlist, look)
    drawings = {one: plans.full(one) for one in plans.boards() if board in (None, one)}
    return drawings, list(dict.fromkeys(plans.problems))
