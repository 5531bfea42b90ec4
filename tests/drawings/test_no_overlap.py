"""No overlap on 200 generated track plans and the example. Judge: shapely, on what the drawing shows.

Texts are boxes by the typefaces' own widths and heights of capitals, tracks are thick lines, holes are circles as they
are drawn; what covers a hole is a disc by its part's data. Nothing is taken from the lists by which texts were placed.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from generated_track_plans import track_plans
from panel_railway import ink_of, text_ink, texts
from shapely import STRtree, union_all
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from labelgen.checks.check_list import check
from labelgen.data_files import layouts
from labelgen.drawings.fascia import fascia_drawings
from labelgen.model.description import Description
from labelgen.model.drawing import Circle, Drawing, Outline
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.model.panel_form import Panel
from labelgen.model.panel_holes import PanelHole, panel_holes
from labelgen.model.panel_scaling import on_squares
from labelgen.pipeline import check_file

PLANS = 200
LARGER = 6
"""How many of the plans need a larger panel than was asked for: squares of 9 or 10 mm instead of 8."""
CROWDED = range(3, PLANS, 10)
"""Those that are drawn again with a lamp on each road, on squares seven tenths as large."""
CROWDED_LARGER = 4
"""How many of those need larger squares than that."""
ROOM = {"text-does-not-fit", "too-close", "lever-without-hole"}
"""The problems that say that there is no room."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("plans")


def test_nothing_overlaps_on_any_of_the_generated_plans(folder: Path) -> None:
    larger = {}
    for number, text in enumerate(track_plans(PLANS)):
        path = folder / f"plan{number}.yaml"
        path.write_text(text, encoding="utf-8")
        checked, _ = check_file(path)
        assert checked is not None
        grid, overlaps = first_with_room(checked.description, checked.netlist)
        assert overlaps == [], (number, grid, text)
        if grid != checked.description.panels["BOX"].grid:
            larger[number] = grid
    assert len(larger) == LARGER, larger


def test_nothing_overlaps_on_crowded_plans_with_lamps(folder: Path) -> None:
    larger = {}
    plans = track_plans(PLANS)
    for number in CROWDED:
        path = folder / f"crowded{number}.yaml"
        path.write_text(plans[number].replace("    tracks:", "    lamps: yes\n    tracks:"), encoding="utf-8")
        checked, _ = check_file(path)
        assert checked is not None
        asked = round(0.7 * checked.description.panels["BOX"].grid)
        grid, overlaps = first_with_room(on_squares(checked.description, "BOX", asked), checked.netlist)
        assert overlaps == [], (number, grid)
        if grid != asked:
            larger[number] = grid
    assert len(larger) == CROWDED_LARGER, larger


def first_with_room(description: Description, netlist: Netlist) -> tuple[float, list[str]]:
    """The grid, as asked for or the next larger one, at which nothing is said of room; and what overlaps there."""
    asked = description.panels["BOX"].grid
    for grid in (asked, *(asked + more for more in range(1, int(asked) + 1))):
        tried = description if grid == asked else on_squares(description, "BOX", grid)
        drawings, problems = fascia_drawings(tried, netlist, Look())
        if not ROOM & {problem.code for problem in (*problems, *check(tried, netlist))}:
            return grid, list(overlapping(tried, netlist, drawings["BOX"], "BOX"))
    raise AssertionError("no panel would do")


@pytest.mark.parametrize("lamps", ["no", "yes"])
def test_nothing_overlaps_on_the_example(folder: Path, lamps: str) -> None:
    text = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
    path = folder / "example.yaml"
    more = f"    grid: 10\n    lamps: {lamps}\n    screws: yes\n"
    path.write_text(text.replace("    grid: 10\n", more), encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    drawings, problems = fascia_drawings(checked.description, checked.netlist, Look())
    assert problems == []
    assert list(overlapping(checked.description, checked.netlist, drawings["HARBOUR"], "HARBOUR")) == []


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
    width = max(s.stroke_width for s in drawing.shapes if isinstance(s, Outline) and s.round_ends)
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
