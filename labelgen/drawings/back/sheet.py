"""The back of a panel at 1:1, as it is seen with the lid open: what the builder holds while soldering.

Left and right change places against the fascia; everything written reads as usual. Problems: character-missing.
"""

from collections.abc import Iterator, Mapping, Sequence

from labelgen.drawings.back.blocks import Block, block_of
from labelgen.drawings.back.marks import edge_shapes, feed_links, leader_shapes, part_shapes, tab_shapes
from labelgen.drawings.back.parts import back_parts
from labelgen.drawings.back.placing import Laid, lay_blocks, part_obstacles
from labelgen.drawings.back.surroundings import Surroundings, surroundings
from labelgen.drawings.back.wires import FreeWire, free_wires, wire_shapes
from labelgen.drawings.clearances import Area, Obstacle, is_clear
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.moving import moved
from labelgen.drawings.text_fitting import fit
from labelgen.drawings.turning import upwards
from labelgen.lengths import Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Drawing, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.holes import panel_holes
from labelgen.natural_order import natural
from labelgen.problems import Problem

LEGEND_CAP = 1.6
LEGEND = "Seen from behind. Beside each part: contact, colour, head, wire number, where it goes."
EDGE_MM = 2.0
"""Nothing is written closer to the panel's edge."""


def back_drawings(description: Description, netlist: Netlist, look: Look) -> tuple[dict[str, Drawing], list[Problem]]:
    """One drawing for each panel that has a size and holes, exactly as large as the panel."""
    drawings: dict[str, Drawing] = {}
    problems: list[Problem] = []
    for id_ in sorted(description.panels, key=natural):
        if description.panels[id_].size is not None and panel_holes(description, netlist, id_):
            lettering = back_lettering(description, netlist, look, id_)
            drawings[id_] = _Back(description, netlist, look, id_, lettering).drawing()
            problems += dict.fromkeys(lettering.problems)
    return drawings, problems


def back_lettering(description: Description, netlist: Netlist, look: Look, panel_id: str) -> Lettering:
    """Who is told what cannot be printed on the back sheet of a panel."""
    label = f"back of panel {netlist.shown_id(panel_id)}"
    return Lettering(label=label, place=description.place_of_key("panels", panel_id), look=look, hint="")


class _Back:
    def __init__(self, description: Description, netlist: Netlist, look: Look, id_: str, lettering: Lettering) -> None:
        size = description.panels[id_].size
        assert size is not None
        self._netlist, self._look, self._lettering = netlist, look, lettering
        self._board = description.board_of_panel(id_)
        self._parts = back_parts(description, netlist, id_)
        self._width, self._height = size
        self._around: Surroundings = surroundings(description, netlist, look, id_)

    @property
    def _inside(self) -> Rectangle:
        return Rectangle(0, 0, self._width, self._height).inset(EDGE_MM)

    def drawing(self) -> Drawing:
        taken = [one.rectangle for one in self._around.obstacles if isinstance(one, Area)]
        wires = free_wires(self._parts, taken, self._inside)
        laid = self._laid(wires)
        return Drawing(
            width=self._width,
            height=self._height,
            shapes=(*self._shapes(wires, laid), *self._legend(wires, laid)),
            name=f"{self._lettering.label}, as seen with the lid open",
            place=self._lettering.place,
            board=self._board,
        )

    def _laid(self, wires: Sequence[FreeWire]) -> dict[str, Laid]:
        forms: dict[str, list[Block]] = {}
        for part in self._parts:
            whole = block_of(part, self._netlist, self._look, self._lettering)
            short = [Block(head=whole.head, lines=(), look=self._look)] if whole.head and whole.lines else []
            forms[part.mark] = [whole, *short] if whole.head or whole.lines else []
        strokes = [stroke for wire in wires for stroke in wire.strokes]
        return lay_blocks(self._parts, forms, self._around.obstacles, strokes, self._inside)

    def _shapes(self, wires: Sequence[FreeWire], laid: Mapping[str, Laid]) -> Iterator[Shape]:
        yield from edge_shapes(self._width, self._height)
        yield from self._around.shapes
        for part in self._parts:
            yield from part_shapes(part)
        yield from wire_shapes(wires, self._netlist, self._look)
        yield from feed_links(self._parts)
        for part in self._parts:
            yield from tab_shapes(part, self._look)
        for one in laid.values():
            yield from _block(one)
        for part in self._parts:
            if part.mark in laid:
                yield from leader_shapes(part, laid[part.mark])

    def _legend(self, wires: Sequence[FreeWire], laid: Mapping[str, Laid]) -> Iterator[Shape]:
        """What the lines say, along the lower or the upper edge, where there is room."""
        taken: list[Obstacle] = [*part_obstacles(self._parts), *self._around.obstacles]
        taken += [stroke for wire in wires for stroke in wire.strokes]
        taken += [Area(rectangle=one.place, what="") for one in laid.values()]
        cap = max(LEGEND_CAP, self._look.smallest_cap)
        fitted = fit(self._look.says(LEGEND), width=self._inside.width, largest=cap, smallest=cap)
        if fitted is None:
            return
        height = 1.4 * cap
        for y in (self._inside.bottom - height, self._inside.y):
            for x in range(int(self._inside.x), int(self._inside.right - fitted.width) + 1, 2):
                if is_clear(Rectangle(x, y, fitted.width, height), taken, 1):
                    yield fitted.at(x, y + cap)
                    return


def _block(laid: Laid) -> list[Shape]:
    shapes = list(laid.block.shapes())
    if laid.turned:
        shapes = upwards(shapes, laid.block.size[0])
    return moved(shapes, laid.place.x, laid.place.y)
