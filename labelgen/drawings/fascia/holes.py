"""The holes of a fascia as they are seen on it: bare, with a cross for the drill's point, and what tells them apart."""

from collections.abc import Iterator

from labelgen.drawings.clearances import Obstacle, Stroke
from labelgen.drawings.fascia.lever_rings import ring_shapes
from labelgen.drawings.fascia.plan import FasciaPlan
from labelgen.drawings.fascia.style import LEVER_RING_MM, RING_MM
from labelgen.lengths import Point
from labelgen.model.drawing import Box, Circle, Line, Shape
from labelgen.model.panel.holes import PanelHole
from labelgen.model.panel.lever_looks import lever_look

CROSS_MM = 1.6
HAIR_MM = 0.18
_EDGE_MM = 0.25
_STUD_RING_MM = 0.8
_BARE = "#FFFFFF"


def hole_shapes(plan: FasciaPlan) -> Iterator[Shape]:
    """Every hole that lies on the panel, lever by lever, then routes, lamps and screws."""
    colours = lever_colours(plan)
    for hole in plan.drilled:
        if hole.use == "lever":
            yield from _lever(plan, hole, colours.get(hole.thing, ()))
        elif hole.use == "route":
            yield from _stud(plan, hole)
        else:
            yield from _bare(plan, hole)
        yield from _cross(plan, hole)


def lever_colours(plan: FasciaPlan) -> dict[str, tuple[str, ...]]:
    """Lever: the colours of its ring. None for a black-and-white printer: its plate says what it is in words."""
    if plan.look.mono:
        return {}
    looks = {id_: lever_look(plan.description, plan.netlist, lever) for id_, lever in plan.levers.items()}
    return {id_: look.colours for id_, look in looks.items() if look.colours}


def ring_obstacles(plan: FasciaPlan) -> list[Obstacle]:
    """What texts must keep clear of, where a lever has a ring."""
    colours = lever_colours(plan)
    return [
        Stroke(start=start, end=end, reach=reach + LEVER_RING_MM, what=f"the hole of {hole.called}")
        for hole in plan.drilled
        if hole.use == "lever" and hole.thing in colours
        for start, end, reach in [hole.room.spine]
    ]


def _lever(plan: FasciaPlan, hole: PanelHole, colours: tuple[str, ...]) -> Iterator[Shape]:
    ground = plan.style.paper or _BARE
    if colours:
        yield from ring_shapes(hole.room, LEVER_RING_MM, colours, ground)
    if hole.part is not None and hole.part.slot is not None:
        yield from _slot(plan, hole, *hole.part.slot)
    yield Circle(x=hole.at.x, y=hole.at.y, radius=hole.diameter / 2 + RING_MM, fill=ground)
    yield _edge(plan, hole)


def _slot(plan: FasciaPlan, hole: PanelHole, width: float, height: float) -> Iterator[Shape]:
    x, y = hole.at.x - width / 2, hole.at.y - height / 2
    style = plan.style
    yield Box(x=x, y=y, width=width, height=height, fill=style.hole, stroke=style.ring, stroke_width=_EDGE_MM)


def _stud(plan: FasciaPlan, hole: PanelHole) -> Iterator[Shape]:
    """The button or stud of a route: in a ring of its own colour, so that it is no lever's."""
    style, radius = plan.style, hole.diameter / 2
    yield Circle(x=hole.at.x, y=hole.at.y, radius=radius + _STUD_RING_MM + RING_MM, fill=style.paper or _BARE)
    ring = radius + _STUD_RING_MM / 2
    yield Circle(
        x=hole.at.x, y=hole.at.y, radius=ring, fill=style.hole, stroke=style.accent, stroke_width=_STUD_RING_MM
    )


def _bare(plan: FasciaPlan, hole: PanelHole) -> Iterator[Shape]:
    """A lamp's hole, with a little ground around it; a screw's."""
    if hole.use == "lamp":
        around = hole.diameter / 2 + RING_MM / 2
        yield Circle(x=hole.at.x, y=hole.at.y, radius=around, fill=plan.style.paper or _BARE)
    yield _edge(plan, hole)


def _edge(plan: FasciaPlan, hole: PanelHole) -> Circle:
    """The drawn edge is the hole's: the line lies outside of it no further than half its own width."""
    style = plan.style
    radius = hole.diameter / 2
    return Circle(x=hole.at.x, y=hole.at.y, radius=radius, fill=style.hole, stroke=style.ring, stroke_width=_EDGE_MM)


def _cross(plan: FasciaPlan, hole: PanelHole) -> Iterator[Line]:
    arm = min(CROSS_MM, 0.6 * hole.diameter / 2)
    for way in (Point(arm, 0), Point(0, arm)):
        a, b = hole.at - way, hole.at + way
        yield Line(x1=a.x, y1=a.y, x2=b.x, y2=b.y, width=HAIR_MM, colour=plan.style.cross)
