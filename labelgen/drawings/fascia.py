"""The mimic diagram of a control panel at 1:1, to be screwed to it and drilled through."""

from labelgen.drawings.fascia_labels import write_all
from labelgen.drawings.fascia_plan import FasciaPlan, fascia_plan
from labelgen.drawings.fascia_style import BREAK_GAP_MM, HOLE_RADIUS_MM, RING_MM
from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel_places import STUD_HOLE_RADIUS_MM
from labelgen.natural_order import natural
from labelgen.problems import Problem

_TRIM_MM = 0.2
_CROSS_MM = 1.6
_STUD_RING_MM = 0.8
_STUD_CROSS_MM = 1.2
_HAIR_MM = 0.18


def fascia_drawings(description: Description, netlist: Netlist, look: Look) -> tuple[dict[str, Drawing], list[Problem]]:
    """One drawing for each panel that has a size, and tracks or levers: exactly as large as the panel.

    Problems: text-does-not-fit, character-missing.
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
    shapes = [*_ground(plan), *_tracks(plan), *_holes(plan), *_studs(plan), *writing.shapes, _trim(plan)]
    drawing = Drawing(
        width=plan.width,
        height=plan.height,
        shapes=tuple(shapes),
        name=plan.name,
        place=plan.description.place_of_key("panels", plan.id),
        board=plan.description.board_of_panel(plan.id),
    )
    return drawing, writing.problems


def _ground(plan: FasciaPlan) -> list[Shape]:
    style = plan.style
    ground: list[Shape] = []
    if style.paper:
        ground.append(Box(x=0, y=0, width=plan.width, height=plan.height, fill=style.paper))
    for box in plan.platforms.values():
        edge = box.inset(_HAIR_MM / 2)
        ground.append(
            Box(
                x=edge.x,
                y=edge.y,
                width=edge.width,
                height=edge.height,
                fill=style.platform,
                stroke=style.platform_edge,
                stroke_width=_HAIR_MM,
                radius=min(0.8, edge.width / 2, edge.height / 2),
            )
        )
    return ground


def _tracks(plan: FasciaPlan) -> list[Shape]:
    """All tracks as one path, so that they are one thing to select in a drawing program; then the breaks' marks."""
    drawn: list[Shape] = []
    runs = tuple(tuple((place.x, place.y) for place in run.places) for run in plan.runs)
    if runs:
        drawn.append(Outline(runs=runs, stroke=plan.style.track, stroke_width=plan.track_width, round_ends=True))
    for a, b in plan.marks:
        drawn.append(Line(x1=a.x, y1=a.y, x2=b.x, y2=b.y, width=BREAK_GAP_MM / 4, colour=plan.style.accent))
    return drawn


def _holes(plan: FasciaPlan) -> list[Shape]:
    """Each hole with a ring of bare ground around it and a cross for the drill's point."""
    style = plan.style
    drawn: list[Shape] = []
    for hole in plan.holes.values():
        drawn.append(Circle(x=hole.x, y=hole.y, radius=HOLE_RADIUS_MM + RING_MM, fill=style.paper or "#FFFFFF"))
        drawn.append(
            Circle(
                x=hole.x,
                y=hole.y,
                radius=HOLE_RADIUS_MM,
                fill=style.hole,
                stroke=style.ring,
                stroke_width=0.25,
            )
        )
        drawn += [_hair(hole, Point(_CROSS_MM, 0), style.cross), _hair(hole, Point(0, _CROSS_MM), style.cross)]
    return drawn


def _studs(plan: FasciaPlan) -> list[Shape]:
    """The button or stud of each route: a smaller hole in a ring of its own colour, so that it is no lever's."""
    style = plan.style
    drawn: list[Shape] = []
    for stud in plan.studs.values():
        ground = STUD_HOLE_RADIUS_MM + _STUD_RING_MM + RING_MM
        drawn.append(Circle(x=stud.x, y=stud.y, radius=ground, fill=style.paper or "#FFFFFF"))
        ring = STUD_HOLE_RADIUS_MM + _STUD_RING_MM / 2
        drawn.append(
            Circle(x=stud.x, y=stud.y, radius=ring, fill=style.hole, stroke=style.accent, stroke_width=_STUD_RING_MM)
        )
        drawn += [_hair(stud, way, style.cross) for way in (Point(_STUD_CROSS_MM, 0), Point(0, _STUD_CROSS_MM))]
    return drawn


def _hair(middle: Point, way: Point, colour: str) -> Line:
    a, b = middle - way, middle + way
    return Line(x1=a.x, y1=a.y, x2=b.x, y2=b.y, width=_HAIR_MM, colour=colour)


def _trim(plan: FasciaPlan) -> Box:
    """Where to cut: the outer edge of the line is the panel's edge."""
    return Box(
        x=_TRIM_MM / 2,
        y=_TRIM_MM / 2,
        width=plan.width - _TRIM_MM,
        height=plan.height - _TRIM_MM,
        stroke=plan.style.trim,
        stroke_width=_TRIM_MM,
    )
