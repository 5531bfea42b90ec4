"""A fascia in layers."""

from dataclasses import replace
from math import pi

import pytest
from shapely.geometry import Point as Dot
from shapely.geometry import Polygon
from shapely.geometry import box as shapely_box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from labelgen.drawings.fascia.panel_layers import panel_layers
from labelgen.lengths import Point
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Text
from labelgen.model.panel.hardware import Hardware
from labelgen.model.panel.holes import PanelHole
from labelgen.places import Place

SLOTTED = Hardware(about="lever", use="lever", hole=4, slot=(4, 26), covers=30, fingers=30, body=(12, 45))
TRIM = Box(x=0.1, y=0.1, width=99.8, height=49.8, stroke="#767676", stroke_width=0.2)
GROUND = Box(x=0, y=0, width=100, height=50, fill="#435560")
PLATFORM = Box(x=10, y=10, width=30, height=5, stroke="#94875F")
TRACK = Outline(runs=(((5, 20), (95, 20)), ()), stroke="#FFF6DC", stroke_width=4, round_ends=True)
CORE = Outline(runs=(((5, 19), (95, 19), (95, 21)),), closed=True, fill="#435560")
NAME = Text(x=10, y=40, text="Quay", face="B612-Regular", size=4, colour="#FFFFFF")
FASCIA = Drawing(
    width=100,
    height=50,
    shapes=(GROUND, PLATFORM, TRACK, CORE, NAME, TRIM),
    name="fascia of panel BOX",
    place=Place(file="box.yaml"),
)


def hole(x: float, y: float, part: Hardware | None) -> PanelHole:
    return PanelHole(use="lever", thing="5", called="lever 5", at=Point(x, y), diameter=4, part=part)


def test_each_tool_has_its_own() -> None:
    layers = panel_layers(FASCIA, [hole(20, 25, SLOTTED), hole(80, 25, None)])
    assert layers.print == (GROUND, PLATFORM, TRACK, CORE, NAME)
    assert [type(shape) for shape in layers.engrave] == [Outline, Outline, Text]
    platform, engraved, words = layers.engrave
    assert isinstance(platform, Outline)
    assert isinstance(engraved, Outline)
    assert isinstance(words, Text)
    assert (engraved.fill, engraved.stroke, engraved.closed, len(engraved.runs)) == ("#000000", None, True, 1)
    assert words.colour == "#000000"
    assert [(c.x, c.y, c.radius) for c in layers.drill if isinstance(c, Circle)] == [(20, 25, 2), (80, 25, 2)]
    assert [(b.x, b.y, b.width, b.height) for b in layers.cut if isinstance(b, Box)] == [
        (18, 12, 4, 26),
        (0, 0, 100, 50),
    ]


def area(outline: Outline) -> BaseGeometry:
    """What is filled, a run inside of another being a hole."""
    outer, *inner = (Polygon(run) for run in outline.runs)
    return outer.difference(unary_union(inner))


def test_rims_platforms_and_underlines_are_engraved_as_wide_as_they_are_drawn() -> None:
    """Circles and round corners within 0.01 mm; judged by shapely."""
    rim = Circle(x=70, y=20, radius=9, stroke="#000000", stroke_width=0.7)
    box = Box(x=10, y=10, width=30, height=6, radius=0.8, fill="#EEEEEE", stroke="#94875F", stroke_width=0.18)
    line = Line(x1=50, y1=40, x2=56, y2=40, width=0.5)
    shapes = (GROUND, box, rim, line, TRIM)
    edge, ring, under = panel_layers(replace(FASCIA, shapes=shapes), []).engrave
    assert isinstance(ring, Outline)
    assert isinstance(edge, Outline)
    assert isinstance(under, Outline)
    true_ring = Dot(70, 20).buffer(9.35, quad_segs=400).difference(Dot(70, 20).buffer(8.65, quad_segs=400))
    assert area(ring).symmetric_difference(true_ring).area < 0.01 * 2 * pi * 18
    inside = shapely_box(10.8, 10.8, 39.2, 15.2)
    true_edge = inside.buffer(0.89, quad_segs=200).difference(inside.buffer(0.71, quad_segs=200))
    assert area(edge).symmetric_difference(true_edge).area < 0.01 * 2 * 72
    assert area(under).bounds == pytest.approx((49.75, 39.75, 56.25, 40.25), abs=0.01)


def test_what_belongs_to_a_hole_or_to_the_grid_is_not_engraved() -> None:
    shapes = (
        Circle(x=20, y=25, radius=5, stroke="#000000", stroke_width=0.9),
        Box(x=12, y=8, width=16, height=34, radius=8, stroke="#000000", stroke_width=0.9),
        Line(x1=18, y1=25, x2=22, y2=25),
        Line(x1=0, y1=30, x2=100, y2=30),
        Line(x1=30, y1=0, x2=30, y2=50),
    )
    assert panel_layers(replace(FASCIA, shapes=shapes), [hole(20, 25, SLOTTED)]).engrave == ()


def test_what_two_parts_share_is_cut_once() -> None:
    layers = panel_layers(FASCIA, [hole(20, 25, SLOTTED), hole(20, 25, SLOTTED)])
    assert len(layers.cut) == 2
