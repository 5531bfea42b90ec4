"""What overlaps on a fascia. Judge: shapely, on what the drawing shows.

Texts are boxes by the typefaces' own widths and heights of capitals, tracks are thick lines, holes are circles as they
are drawn; what covers a hole is a disc by its part's data. Nothing is taken from the lists by which texts were placed.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise

from panel_railway import ink_of, text_ink, texts
from shapely import STRtree, union_all
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from labelgen.model.description import Description
from labelgen.model.drawing import Circle, Drawing, Outline
from labelgen.model.netlist import Netlist
from labelgen.model.panel.form import Panel
from labelgen.model.panel.holes import PanelHole, panel_holes


def overlapping(description: Description, netlist: Netlist, drawing: Drawing, id_: str) -> Iterator[str]:
    """What overlaps, in words."""
    panel, holes = description.panels[id_], panel_holes(description, netlist, id_)
    tracks, zones = _tracks(drawing), [(hole, _zone(hole)) for hole in holes]
    written = [(text.text, text_ink(text)) for text in texts(drawing)]
    for name, ink in written:
        if ink.distance(tracks) < 0.3:
            yield f"text {name} and a track"
        yield from (f"text {name} and {hole.called}" for hole, zone in zones if zone.distance(ink) < 0.3)
    tree = STRtree([ink for _, ink in written])
    for one, other in tree.query([ink for _, ink in written], predicate="dwithin", distance=0.3).T:
        if one < other:
            yield f"texts {written[one][0]} and {written[other][0]}"
    for (hole, zone), (other_hole, other_zone) in combinations(zones, 2):
        if zone.distance(other_zone) < 0.9:
            yield f"{hole.called} and {other_hole.called}"
    yield from _on_foreign_tracks(panel, drawing, netlist, zones)
    edge = box(0, 0, drawing.width, drawing.height).buffer(1e-6)
    yield from (f"{shape} leaves the panel" for shape in drawing.shapes if not edge.covers(ink_of(shape)))
    drilled = {(s.x, s.y): s.radius for s in drawing.shapes if isinstance(s, Circle) and s.stroke}
    yield from (f"{hole.called} is not drawn" for hole in holes if (hole.at.x, hole.at.y) not in drilled)


def _zone(hole: PanelHole) -> BaseGeometry:
    radius = hole.part.covers / 2 if hole.part is not None else hole.diameter
    return Dot(hole.at.x, hole.at.y).buffer(radius, quad_segs=32)


def _tracks(drawing: Drawing) -> BaseGeometry:
    thick = [
        LineString(part).buffer(outline.stroke_width / 2)
        for outline in drawing.shapes
        if isinstance(outline, Outline) and outline.round_ends
        for run in outline.runs
        for part in pairwise(run)
    ]
    return union_all(thick)


def _on_foreign_tracks(
    panel: Panel, drawing: Drawing, netlist: Netlist, zones: list[tuple[PanelHole, BaseGeometry]]
) -> Iterator[str]:
    """A lever covers only tracks that pass where it belongs: those of its point or section."""
    widths = [s.stroke_width for s in drawing.shapes if isinstance(s, Outline) and s.round_ends]
    width = max(widths, default=0.0)
    places = {point: placed.at for point, placed in panel.points.items()} | panel.sections
    lines = {
        track: LineString([places[c] if isinstance(c, str) else c for c in corners])
        for track, corners in panel.tracks.items()
    }
    devices = {lever.id: lever.devices for lever in netlist.levers}
    for hole, zone in zones:
        own = [Dot(*places[device]) for device in devices.get(hole.thing, ()) if device in places]
        for track, line in lines.items():
            scaled = LineString([(x * panel.grid, y * panel.grid) for x, y in line.coords])
            foreign = hole.use == "lever" and all(line.distance(place) > 0.01 for place in own)
            if foreign and zone.distance(scaled) < width / 2:
                yield f"{hole.called} covers track {track}"
