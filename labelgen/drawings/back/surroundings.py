"""What else is on the back of a panel: the diodes of its routes, and where its wires leave it. Millimetres."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from labelgen.drawings.back.marks import EDGE, SOFT
from labelgen.drawings.clearances import Area, Obstacle
from labelgen.drawings.text_fitting import Fitted, fit
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.places import square

BOX = (24.0, 8.0)
EXIT = (3.2, 3.6)
CAP = 1.75


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    shapes: tuple[Shape, ...]
    obstacles: tuple[Obstacle, ...]


def surroundings(description: Description, netlist: Netlist, look: Look, panel_id: str) -> Surroundings:
    panel = description.panels[panel_id]
    assert panel.size is not None
    width, height = panel.size
    shapes: list[Shape] = []
    taken: list[Obstacle] = []
    cap = max(CAP, look.smallest_cap)
    boards = [matrix.id for matrix in netlist.matrices if matrix.panel == panel_id]
    if panel.matrix is not None and boards:
        at = square(panel, panel.matrix)
        name = fit(", ".join(boards), width=1000, largest=cap, smallest=cap)
        assert name is not None  # there is room enough
        wide = max(BOX[0], name.width + 2)
        box = Rectangle(width - at.x - wide / 2, at.y - BOX[1] / 2, wide, BOX[1])
        shapes += _board(name, box)
        taken.append(Area(rectangle=box, what="the diodes of the routes"))
    x, y = panel.exit if panel.exit is not None else (width / 2, height)
    exit_ = _exit_place(width - x, y)
    shapes += _exit(exit_)
    taken.append(Area(rectangle=exit_, what="the exit of the wires"))
    return Surroundings(shapes=tuple(shapes), obstacles=tuple(taken))


def _board(name: Fitted, box: Rectangle) -> Iterator[Shape]:
    """Dashed: how large the board is, its own drawing says."""
    corners = [(box.x, box.y), (box.right, box.y), (box.right, box.bottom), (box.x, box.bottom), (box.x, box.y)]
    for (x1, y1), (x2, y2) in pairwise(corners):
        yield Line(x1=x1, y1=y1, x2=x2, y2=y2, width=0.2, colour=SOFT, dash=(1.2, 0.8))
    yield name.at(box.x + box.width / 2, box.y + (box.height + name.cap) / 2, anchor="middle")


def _exit_place(x: float, y: float) -> Rectangle:
    return Rectangle(x - EXIT[0] / 2, y - EXIT[1] - 0.4, *EXIT)


def _exit(place: Rectangle) -> Iterator[Shape]:
    """An arrow head to where the wires go down."""
    middle = place.x + place.width / 2
    run = ((place.x, place.y), (place.right, place.y), (middle, place.bottom))
    yield Outline(runs=(run,), closed=True, fill=EDGE)
