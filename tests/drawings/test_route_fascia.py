"""Routes on the fascia: the hole of a button or stud in a ring, its number beside it, its name if there is room."""

from math import hypot

import pytest
from panel_railway import ink_of, text_ink, texts, track_ink
from shapely.geometry import Point as Dot

from labelgen.drawings.fascia.fascia import fascia_drawings
from labelgen.model.description import Description
from labelgen.model.drawing import Circle, Drawing, Text
from labelgen.model.look import Look
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_hardware, built_in_kinds
from labelgen.wiring.expansion import expand

TRACKS = {"main": [["2", "6"], ["30", "6"]], "loop": ["P5", ["20", "3"], ["30", "3"]]}


def fascia(routes: dict[str, list[str]], **panel: object) -> tuple[dict[str, Drawing], list[Problem]]:
    description = Description.model_validate(
        {
            "railway": "Marram Quay",
            "supplies": {"PULSE": {"kind": "pulse"}},
            "strips": {"A1": {}},
            "points": {"P5": {"name": "Harbour"}},
            "routes": {"Main line": {"5": "normal"}, "Loop": {"levers": {"5": "reverse"}, "stud": "66"}},
            "panels": {
                "MAIN": {
                    "size": ["320", "100"],
                    "tracks": TRACKS,
                    "points": {"P5": ["14", "6"]},
                    "routes": routes,
                    **panel,
                }
            },
        }
    )
    description = description.with_parts(built_in_hardware())
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    return fascia_drawings(description, netlist, Look(mono=False))


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    drawings, problems = fascia({"Main line": ["28", "5"], "Loop": ["28", "2"]})
    assert problems == []
    return drawings["MAIN"]


def near(drawing: Drawing, x: float, y: float) -> set[str]:
    return {text.text for text in texts(drawing) if hypot(text.x - x, text.y - y) < 25}


def test_each_route_has_the_hole_of_its_stud_its_number_and_its_name(drawing: Drawing) -> None:
    # A bush of 7 mm (common practice); ISO 273, medium series, M4.
    for x, y, number, name, hole in ((280, 50, "1", "Main line", 7.1), (280, 20, "66", "Loop", 4.5)):
        rings = [s for s in drawing.shapes if isinstance(s, Circle) and (s.x, s.y) == (x, y) and s.stroke]
        (ring,) = rings
        assert ring.radius - ring.stroke_width / 2 == pytest.approx(hole / 2)
        assert {number, name} <= near(drawing, x, y)


def test_its_number_has_the_colour_of_its_ring_and_is_smaller_than_a_levers(drawing: Drawing) -> None:
    by_text = {text.text: text for text in texts(drawing)}
    rings = {s.stroke for s in drawing.shapes if isinstance(s, Circle) and (s.x, s.y) == (280, 50) and s.stroke}
    assert {by_text["1"].colour} == rings
    assert by_text["5"].colour not in rings
    assert by_text["1"].size == by_text["66"].size < by_text["5"].size


def test_nothing_that_is_written_touches_a_button_a_track_or_another_text(drawing: Drawing) -> None:
    written = [(text.text, text_ink(text)) for text in drawing.shapes if isinstance(text, Text)]
    heads = [("button", Dot(280, 50).buffer(5)), ("stud", Dot(280, 20).buffer(4))]
    for index, (what, ink) in enumerate(written):
        for other, area in [*written[index + 1 :], *heads, ("track", track_ink(drawing))]:
            assert not ink.intersects(area), (what, other)
    assert all(not ink_of(s).is_empty for s in drawing.shapes if isinstance(s, Circle))


def test_a_route_without_a_place_is_not_drawn_nor_one_at_the_edge() -> None:
    drawings, problems = fascia({"Loop": ["31.9", "2"]})
    assert problems == []
    assert {"1", "66"} & {text.text for text in texts(drawings["MAIN"])} == set()


def test_a_panel_with_nothing_but_routes_has_a_fascia() -> None:
    drawings, _ = fascia({"Loop": ["5", "5"]}, tracks={}, points={}, sections={})
    assert {"66", "Loop"} <= {text.text for text in texts(drawings["MAIN"])}


def test_a_number_without_room_is_said_at_its_place() -> None:
    platforms = {f"p{n}": [["26", str(y)], ["31", str(y + 1)]] for n, y in enumerate((3.5, 5.5))}
    _, problems = fascia({"Main line": ["28", "5"]}, platforms=platforms | {"q": [["20", "3"], ["31.8", "7.5"]]})
    assert [problem.code for problem in problems] == ["text-does-not-fit"]
    assert "route Main line" in problems[0].message
