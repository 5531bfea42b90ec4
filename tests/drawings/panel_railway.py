"""A small harbour terminus with one panel, for the tests of fascias; and a judge of what a fascia shows."""

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Any

from shapely import affinity
from shapely.geometry import LineString, MultiLineString, box
from shapely.geometry import Point as Dot
from shapely.geometry.base import BaseGeometry

from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Outline, Text
from labelgen.model.look import Look
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware
from labelgen.typefaces import FACES, text_width

HARBOUR: dict[str, Any] = {
    "name": "Harbour panel",
    "size": [360, 160],
    "tracks": {
        "main": [[2, 6], [34.5, 6]],
        "loop": [[2, 4], [24, 4], "P2"],
        "release": ["P4", "P3"],
        "goods": ["P1", [29, 8], [2, 8]],
        "crossover": ["P5A", "P5B"],
        "yard": ["P6", [15, 10], [2, 10]],
        "quay": ["P7", [22, 12], [2, 12]],
        "wharf": ["P8", [14, 14], [8, 14], "P9"],
    },
    "points": {
        "P1": [31, 6],
        "P2": [26, 6],
        "P3": [9, 4],
        "P4": [7, 6],
        "P5A": [20, 6],
        "P5B": [22, 8],
        "P6": [17, 8],
        "P7": [26, 8],
        "P8": [16, 12],
        "P9": [6, 12],
    },
    "sections": {"YARD": [9, 8], "QUAY": [20, 12]},
    "breaks": [[19.5, 8], [24, 10]],
    "platforms": {"Platform 2": [[11, 2.5], [22, 3.4]], "Platform 1": [[18, 5.4], [11, 4.6]]},
    "texts": {"to Sandhaven": [33.2, 7.1]},
}
NAMES = {"1": "Goods line", "2": "Loop", "5": "Goods crossover", "6": "Yard", "9": "Wharf"}


def lever(id_: str, *devices: str, name: str = "", shown: str = "") -> LeverPlan:
    return LeverPlan(
        id=id_,
        shown=shown or id_,
        name=name,
        type="sprung",
        panel="HARBOUR",
        board=None,
        normal="up",
        spare=False,
        devices=devices,
        path=("levers", id_),
    )


def harbour_levers() -> list[LeverPlan]:
    points = {n: ["P5A", "P5B"] if n == "5" else [f"P{n}"] for n in "123456789"}
    levers = [lever(n, *works, name=NAMES.get(n, "")) for n, works in points.items()]
    return [*levers, lever("11", "YARD"), lever("12", "QUAY")]


def fascia(
    plans: Iterable[LeverPlan] = (),
    /,
    look: Look | None = None,
    railway: str = "Marram Quay",
    levers_keys: Mapping[str, Any] | None = None,
    **panel: Any,
) -> tuple[Drawing | None, list[Problem]]:
    """The fascia of one panel."""
    sections = {id_: {"kind": "section", "name": id_.title()} for id_ in panel.get("sections", {})}
    description = Description.model_validate(
        {"railway": railway, "panels": {"HARBOUR": panel}, "devices": sections, "levers": levers_keys or {}}
    )
    description = description.with_parts(built_in_hardware())
    netlist = Netlist(railway=railway, circuits=(), strips=(), levers=tuple(plans), wires=(), functions={})
    drawings, problems = fascia_drawings(description, netlist, look or Look())
    return drawings.get("HARBOUR"), problems


def drawn(plans: Iterable[LeverPlan] = (), /, **keys: Any) -> Drawing:
    """A fascia about which there is nothing to say."""
    drawing, problems = fascia(plans, **keys)
    assert problems == []
    assert drawing is not None
    return drawing


def texts(drawing: Drawing) -> list[Text]:
    return [shape for shape in drawing.shapes if isinstance(shape, Text)]


def text_of(drawing: Drawing, text: str) -> Text:
    """The largest text that says that."""
    return max((shape for shape in texts(drawing) if shape.text == text), key=lambda shape: shape.size)


def track_lines(drawing: Drawing) -> MultiLineString:
    return MultiLineString([run for shape in drawing.shapes if isinstance(shape, Outline) for run in shape.runs])


def track_ink(drawing: Drawing) -> BaseGeometry:
    """What is covered by tracks: lines with round ends and corners."""
    (outline,) = (shape for shape in drawing.shapes if isinstance(shape, Outline))
    assert outline.round_ends
    return track_lines(drawing).buffer(outline.stroke_width / 2, quad_segs=32)


def ink_of(shape: object) -> BaseGeometry:
    """The room that a shape takes, its stroke included."""
    match shape:
        case Text():
            return text_ink(shape)
        case Box():
            grow = shape.stroke_width / 2 if shape.stroke else 0
            return box(shape.x, shape.y, shape.x + shape.width, shape.y + shape.height).buffer(grow, join_style="mitre")
        case Circle():
            grow = shape.stroke_width / 2 if shape.stroke else 0
            return Dot(shape.x, shape.y).buffer(shape.radius + grow)
        case Line():
            return LineString([(shape.x1, shape.y1), (shape.x2, shape.y2)]).buffer(shape.width / 2, cap_style="flat")
        case Outline():
            lines = [LineString(pair) for run in shape.runs for pair in pairwise(run)]
            return MultiLineString(lines).buffer(shape.stroke_width / 2)
    raise AssertionError(shape)


def text_ink(text: Text) -> BaseGeometry:
    """From the top of its capitals to its baseline, or to the foot of a g."""
    width = text_width(text.text, text.face, text.size) * text.stretch
    left = text.x - {"start": 0, "middle": width / 2, "end": width}[text.anchor]
    face = FACES[text.face]
    below = face.descent * text.size if set(text.text) & set("gjpqy") else 0
    flat = box(left, text.y - face.cap * text.size, left + width, text.y + below)
    return affinity.rotate(flat, text.turn, origin=(text.x, text.y))
