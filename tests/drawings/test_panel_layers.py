"""A fascia in layers."""

from labelgen.drawings.panel_layers import panel_layers
from labelgen.lengths import Point
from labelgen.model.drawing import Box, Circle, Drawing, Outline, Text
from labelgen.model.hardware import Hardware
from labelgen.model.panel_holes import PanelHole
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
    assert [type(shape) for shape in layers.engrave] == [Outline, Text]
    engraved, words = layers.engrave
    assert isinstance(engraved, Outline)
    assert isinstance(words, Text)
    assert (engraved.fill, engraved.stroke, engraved.closed, len(engraved.runs)) == ("#000000", None, True, 1)
    assert words.colour == "#000000"
    assert [(c.x, c.y, c.radius) for c in layers.drill if isinstance(c, Circle)] == [(20, 25, 2), (80, 25, 2)]
    assert [(b.x, b.y, b.width, b.height) for b in layers.cut if isinstance(b, Box)] == [
        (18, 12, 4, 26),
        (0, 0, 100, 50),
    ]


def test_what_two_parts_share_is_cut_once() -> None:
    layers = panel_layers(FASCIA, [hole(20, 25, SLOTTED), hole(20, 25, SLOTTED)])
    assert len(layers.cut) == 2
