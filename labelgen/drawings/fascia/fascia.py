"""The mimic diagram of a control panel at 1:1, to be screwed to it and drilled through."""

from labelgen.drawings.fascia.grid import grid_shapes
from labelgen.drawings.fascia.holes import HAIR_MM, hole_shapes
from labelgen.drawings.fascia.labels import write_all
from labelgen.drawings.fascia.plan import FasciaPlan, fascia_plan
from labelgen.drawings.fascia.track_shapes import track_shapes
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Drawing, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural
from labelgen.problems import Problem

_TRIM_MM = 0.2


def fascia_drawings(description: Description, netlist: Netlist, look: Look) -> tuple[dict[str, Drawing], list[Problem]]:
    """One drawing for each panel that has a size, and tracks or levers: exactly as large as the panel.

    Problems: text-does-not-fit, text-in-the-way, character-missing.
    """
    drawings: dict[str, Drawing] = {}
    problems: list[Problem] = []
    for id_ in sorted(description.panels, key=natural):
        plan = fascia_plan(description, netlist, look, id_)
        if plan is not None:
            drawings[id_], found = _drawing(plan)
            problems += found
    return drawings, problems


def _drawing(plan: FasciaPlan) -> tuple[Drawing, list[Problem]]:
    writing = write_all(plan)
    grid = grid_shapes(plan) if plan.look.grid else ()
    under = [*_ground(plan), *grid, *_platforms(plan), *track_shapes(plan)]
    shapes = [*under, *hole_shapes(plan), *writing.shapes, trim(plan)]
    drawing = Drawing(
        width=plan.width,
        height=plan.height,
        shapes=tuple(shapes),
        name=plan.name,
        place=plan.description.place_of_key("panels", plan.id),
        board=plan.description.board_of_panel(plan.id),
        label=plan.id,
    )
    return drawing, writing.problems


def _ground(plan: FasciaPlan) -> list[Shape]:
    if plan.style.paper is None:
        return []
    return [Box(x=0, y=0, width=plan.width, height=plan.height, fill=plan.style.paper)]


def _platforms(plan: FasciaPlan) -> list[Shape]:
    style = plan.style
    drawn: list[Shape] = []
    for box in plan.platforms.values():
        edge = box.inset(HAIR_MM / 2)
        drawn.append(
            Box(
                x=edge.x,
                y=edge.y,
                width=edge.width,
                height=edge.height,
                fill=style.platform,
                stroke=style.platform_edge,
                stroke_width=HAIR_MM,
                radius=min(0.8, edge.width / 2, edge.height / 2),
            )
        )
    return drawn


def trim(plan: FasciaPlan) -> Box:
    """Where to cut: the outer edge of the line is the panel's edge."""
    return Box(
        x=_TRIM_MM / 2,
        y=_TRIM_MM / 2,
        width=plan.width - _TRIM_MM,
        height=plan.height - _TRIM_MM,
        stroke=plan.style.trim,
        stroke_width=_TRIM_MM,
    )
