"""The drilling template of a panel at 1:1: a cross and a circle for each hole, as seen on the face. Millimetres."""

from collections.abc import Iterable, Iterator, Mapping

from labelgen.drawings.clearances import Area, Obstacle, Stroke, disc
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.number_placing import Wanted, place_all
from labelgen.drawings.text_fitting import Fitted, fit
from labelgen.lengths import Point, Rectangle
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Shape
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel.hole_marks import hole_marks
from labelgen.model.panel.holes import PanelHole, panel_holes
from labelgen.natural_order import natural
from labelgen.typefaces import BOLD, REGULAR

CROSS_MM, EDGE_MM, TRIM_MM = 0.12, 0.15, 0.2
"""Of the crosses: as thin as a laser printer draws without gaps, so that a punch finds the middle."""
BEYOND_MM = 2.2
"""The cross reaches so far beyond its hole, and stays to be seen when the hole is drilled too far."""
MARK_CAP, SIZE_CAP = 2.2, 1.6
SAID_MM = 1.0
"""Between the mark and the diameter below it."""
SOFT = "#555555"


def drilling_drawings(description: Description, netlist: Netlist, look: Look) -> dict[str, Drawing]:
    """One drawing for each panel that has a size and holes, exactly as large as the panel."""
    drawings = {}
    for id_ in sorted(description.panels, key=natural):
        panel = description.panels[id_]
        holes = panel_holes(description, netlist, id_)
        if panel.size is not None and holes:
            drawings[id_] = Drawing(
                width=panel.size[0],
                height=panel.size[1],
                shapes=tuple(_shapes(dict(zip(hole_marks(netlist, holes), holes, strict=True)), look, *panel.size)),
                name=drilling_name(netlist, id_),
                place=description.place_of_key("panels", id_),
                board=description.board_of_panel(id_),
            )
    return drawings


def drilling_name(netlist: Netlist, panel_id: str) -> str:
    return f"drilling template of panel {netlist.shown_id(panel_id)}"


def drilling_lettering(description: Description, netlist: Netlist, look: Look, panel_id: str) -> Lettering:
    """Who is told what cannot be printed."""
    place = description.place_of_key("panels", panel_id)
    return Lettering(label=drilling_name(netlist, panel_id), place=place, look=look, hint="Give it a shorter name.")


def _shapes(holes: Mapping[str, PanelHole], look: Look, width: float, height: float) -> Iterator[Shape]:
    edge = (TRIM_MM / 2, TRIM_MM / 2, width - TRIM_MM, height - TRIM_MM)
    yield Box(x=edge[0], y=edge[1], width=edge[2], height=edge[3], stroke="#000000", stroke_width=TRIM_MM)
    for hole in holes.values():
        yield from _hole(hole)
    yield from _marks(holes, look, Rectangle(0, 0, width, height).inset(1))


def _hole(hole: PanelHole) -> Iterator[Shape]:
    x, y, radius = hole.at.x, hole.at.y, hole.diameter / 2
    if hole.part is not None and hole.part.slot is not None:
        w, h = hole.part.slot
        yield Box(x=x - w / 2, y=y - h / 2, width=w, height=h, stroke="#000000", stroke_width=EDGE_MM)
    yield Circle(x=x, y=y, radius=radius, stroke="#000000", stroke_width=EDGE_MM)
    arm = radius + BEYOND_MM
    yield Line(x1=x - arm, y1=y, x2=x + arm, y2=y, width=CROSS_MM)
    yield Line(x1=x, y1=y - arm, x2=x, y2=y + arm, width=CROSS_MM)


def _marks(holes: Mapping[str, PanelHole], look: Look, inside: Rectangle) -> Iterator[Shape]:
    """What each hole is called, and below it how wide it is; nearest to its hole, never over another."""
    set_ = {mark: _set(mark, hole, look) for mark, hole in holes.items()}
    wanted = [
        Wanted(key=mark, spot=holes[mark].at, reach=_reach(holes[mark]), sizes=(_size(*lines),), furthest=16)
        for mark, lines in set_.items()
    ]
    spots = [hole.at for hole in holes.values()]
    found, _ = place_all(wanted, _obstacles(holes.values()), spots, inside)
    for mark, (name, diameter) in set_.items():
        if mark in found:
            place = found[mark].place
            yield name.at(place.x, place.y + name.cap)
            yield diameter.at(place.x, place.y + name.cap + SAID_MM + diameter.cap, colour=SOFT)


def _set(mark: str, hole: PanelHole, look: Look) -> tuple[Fitted, Fitted]:
    caps = (max(MARK_CAP, look.smallest_cap), max(SIZE_CAP, look.smallest_cap))
    texts = ((mark, BOLD), (f"{hole.diameter:g} mm", REGULAR))
    name, diameter = (
        fit(text, width=1000, largest=cap, smallest=cap, face=face)
        for cap, (text, face) in zip(caps, texts, strict=True)
    )
    assert name is not None
    assert diameter is not None
    return name, diameter


def _size(name: Fitted, diameter: Fitted) -> tuple[float, float]:
    return max(name.width, diameter.width), name.cap + SAID_MM + diameter.cap + 0.3


def _reach(hole: PanelHole) -> float:
    """A mark may stand between the arms of the cross."""
    return hole.diameter / 2 + 0.6


def _obstacles(holes: Iterable[PanelHole]) -> list[Obstacle]:
    found: list[Obstacle] = []
    for hole in holes:
        arm = hole.diameter / 2 + BEYOND_MM
        found.append(disc(hole.at, hole.diameter / 2, hole.called))
        found += (
            Stroke(start=hole.at - way, end=hole.at + way, reach=CROSS_MM / 2, what=hole.called)
            for way in (Point(arm, 0), Point(0, arm))
        )
        if hole.part is not None and hole.part.slot is not None:
            w, h = hole.part.slot
            found.append(Area(rectangle=Rectangle(hole.at.x - w / 2, hole.at.y - h / 2, w, h), what=hole.called))
    return found
