"""The printed routes: the diodes are read back from the drawing alone, and compared with what the routes ask for."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import pytest
from drawn_extents import text_extent
from hypothesis import given, settings
from hypothesis import strategies as st

from labelgen.drawings.lists.route_pages import route_pages
from labelgen.model.description import Description
from labelgen.model.drawing import Box, Circle, Drawing, Line, Text
from labelgen.model.look import Look
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_kinds
from labelgen.standards.paper_sizes import PAPERS
from labelgen.wiring.expansion import expand

HOLE = 2.54
"""mm: 0.1 inch."""
LOOK = Look(mono=False)


def railway(routes: dict[str, Any], *, levers: Iterable[str] = ("5", "6"), **more: Any) -> tuple[Description, Netlist]:
    description = Description.model_validate(
        {
            "railway": "Marram Quay",
            "supplies": {"PULSE": {"kind": "pulse"}},
            "strips": {"A1": {"ways": "200"}, "A2": {"ways": "200"}},
            "panels": {"MAIN": {}},
            "points": {f"P{lever}": {"name": f"point {lever}"} for lever in levers},
            "routes": routes,
            **more,
        }
    )
    netlist, problems = expand(description, built_in_kinds())
    assert problems == []
    return description, netlist


def pages_of(described: tuple[Description, Netlist], paper: str = "a4") -> list[Drawing]:
    pages, problems = made(described, paper)
    assert problems == []
    return pages


def made(described: tuple[Description, Netlist], paper: str = "a4") -> tuple[list[Drawing], list[Problem]]:
    return route_pages(*described, LOOK, PAPERS[paper])


HARBOUR = {
    "Harbour": {"5": "reverse", "6": "normal"},
    "Coal road": {"5": "normal", "6": "reverse"},
    "Through": {"5": "normal", "6": "normal"},
}


def texts(pages: Iterable[Drawing]) -> list[str]:
    return [shape.text for page in pages for shape in page.shapes if isinstance(shape, Text)]


def terminals(page: Drawing) -> dict[tuple[float, float], str]:
    """Middle of each terminal's ring: what stands in it."""
    rings = [shape for shape in page.shapes if isinstance(shape, Circle) and shape.stroke is not None]
    inside = {}
    for ring in rings:
        within = [
            shape
            for shape in page.shapes
            if isinstance(shape, Text) and abs(shape.x - ring.x) < 0.1 and abs(shape.y - ring.y) < ring.radius
        ]
        (text,) = within
        inside[ring.x, ring.y] = text.text
    return inside


def bodies(page: Drawing) -> list[Box]:
    """Of diodes: 5.2 mm long and 2.7 mm thick, as a usual one for 1 A (common practice, no source)."""
    boxes = [shape for shape in page.shapes if isinstance(shape, Box)]
    return [box for box in boxes if (round(box.width, 3), round(box.height, 3)) == (2.7, 5.2)]


def lies_on(page: Drawing, x: float, y: float) -> list[Line]:
    """The straight lines that pass through a place."""
    lines = [shape for shape in page.shapes if isinstance(shape, Line)]
    return [
        one
        for one in lines
        if min(one.x1, one.x2) - 1e-6 <= x <= max(one.x1, one.x2) + 1e-6
        and min(one.y1, one.y2) - 1e-6 <= y <= max(one.y1, one.y2) + 1e-6
    ]


def diode_at(page: Drawing, body: Box) -> str:
    """Row and column of a diode, found by following the lines from both of its ends to a terminal."""
    middle = body.x + body.width / 2
    (lead,) = [one for one in lies_on(page, middle, body.y + 1) if one.x1 == one.x2]
    (row,) = [one for one in lies_on(page, lead.x1, lead.y1) if one.y1 == one.y2 and not one.dash]
    (bend,) = [one for one in lies_on(page, lead.x2, lead.y2) if one.y1 == one.y2]
    (column,) = [one for one in lies_on(page, bend.x2, bend.y2) if one.dash]
    named = terminals(page)
    (letter,) = [name for (x, y), name in named.items() if abs(y - row.y1) < 1e-6 and x < row.x1]
    # Of several boards on one page, the terminal next below.
    _, number = min((y, name) for (x, y), name in named.items() if abs(x - column.x1) < 1e-6 and y > column.y2)
    return f"{letter}{number}"


def drawn_diodes(pages: Iterable[Drawing]) -> list[str]:
    return [diode_at(page, body) for page in pages for body in bodies(page)]


def test_each_diode_stands_where_the_routes_need_it() -> None:
    """Worked out by hand: columns 5R 6N 5N 6R, in the order in which the routes first need them."""
    assert sorted(drawn_diodes(pages_of(railway(HARBOUR)))) == ["A1", "A2", "B3", "B4", "C2", "C3"]


def test_every_band_points_away_from_the_rows() -> None:
    page = pages_of(railway(HARBOUR))[0]
    filled = [shape for shape in page.shapes if isinstance(shape, Box) and shape.fill == "#000000"]
    for body in bodies(page):
        (band,) = [box for box in filled if box.x == body.x and body.y <= box.y <= body.y + body.height]
        assert band.y + band.height / 2 > body.y + 0.75 * body.height


def test_all_that_is_soldered_lies_on_holes_at_true_size() -> None:
    page = pages_of(railway(HARBOUR))[0]
    (board,) = [s for s in page.shapes if isinstance(s, Box) and s.fill == "#f7f7f7"]
    joints = [s for s in page.shapes if isinstance(s, Circle) and s.stroke is None]
    assert len(joints) > 3 * len(bodies(page))
    for joint in joints:
        for along in ((joint.x - board.x) / HOLE, (joint.y - board.y) / HOLE):
            assert abs(along - round(along)) < 1e-6
    for body in bodies(page):
        (lead,) = [one for one in lies_on(page, body.x + body.width / 2, body.y + 1) if one.x1 == one.x2]
        # A body of 5.2 mm wants its leads bent 10.16 mm apart: 4 holes.
        assert lead.y2 - lead.y1 == pytest.approx(4 * HOLE)


def test_the_lists_say_what_goes_where() -> None:
    said = texts(pages_of(railway(HARBOUR)))
    assert "3 routes, 4 coils, 6 diodes, fed by PULSE." in said
    start = said.index("Inputs: one for each route")
    row = said.index("Coal road", start)
    assert said[row - 2 : row + 5] == ["B", "2", "Coal road", "5N 6R", "B3 B4", "ROUTE2.M", "19"]
    start = said.index("Outputs: one for each coil")
    row = said.index("point 5, reverse", start)
    assert said[row - 2 : row + 4] == ["1", "5R", "point 5, reverse", "1", "L5.R", "21"]
    start = said.index("Feed")
    row = said.index("L5.F", start)
    assert said[row - 1 : row + 3] == ["F", "L5.F", "ROUTE1.F", "15"]


def test_below_each_column_stand_its_head_and_its_wire() -> None:
    page = pages_of(railway(HARBOUR))[0]
    named = {name: x for (x, _), name in terminals(page).items()}
    below = [s.text for s in page.shapes if isinstance(s, Text) and abs(s.x - named["3"]) < 0.1]
    assert below == ["3", "5N", "23"]


def test_long_heads_and_numbers_run_upwards() -> None:
    described = railway({"a": {"Lighthouse": "normal", "5": "reverse"}}, levers=("Lighthouse", "5"))
    page = pages_of(described)[0]
    turned = {s.text for s in page.shapes if isinstance(s, Text) and s.turn == -90}
    assert turned == {"LighthouseN", "5R", *[str(w.number) for w in described[1].wires if w.start.thing == "MATRIX"]}


def test_studs_have_no_feed_wires() -> None:
    said = texts(pages_of(railway({"a": {"levers": {"5": "normal"}, "stud": "1"}})))
    assert "The studs have their feed from the panel's probe." in said
    assert "ROUTE1.F" not in said


def test_without_routes_there_is_no_page() -> None:
    assert made(railway({})) == ([], [])


def test_what_cannot_be_printed_is_said() -> None:
    _, problems = made(railway({"\U00013000": {"5": "normal"}}))
    assert "character-missing" in {problem.code for problem in problems}
    _, problems = made(railway({"a": {"W" * 24: "normal"}}, levers=("W" * 24,)))
    assert "text-does-not-fit" in {problem.code for problem in problems}


def test_a_number_that_is_too_long_is_said_and_the_rest_is_drawn() -> None:
    pages, problems = made(railway({"a": {"levers": {"5": "normal"}, "number": "W" * 24}}))
    assert {problem.code for problem in problems} == {"text-does-not-fit"}
    assert drawn_diodes(pages) == ["A1"]


def test_a_coil_without_a_diode_in_one_part_still_has_its_terminal_there() -> None:
    routes = {"first": {"5": "reverse"}} | {f"road {n}": {"6": "normal"} for n in range(14)}
    pages = pages_of(railway(routes))
    assert [text for text in texts(pages) if text == "5R"].count("5R") > 2
    assert len(drawn_diodes(pages)) == 15


def test_a_railway_without_a_panel_has_its_routes_too() -> None:
    assert "MATRIX" in texts(pages_of(railway({"a": {"5": "normal"}}, panels={})))


LEVERS = [str(number) for number in range(1, 31)]
LIES = st.dictionaries(st.sampled_from(LEVERS), st.sampled_from(["normal", "reverse"]), min_size=1, max_size=5)


@settings(max_examples=6)
@given(routes=st.lists(LIES, min_size=1, max_size=20), paper=st.sampled_from(["a4", "letter"]))
def test_however_large_every_diode_is_drawn_once_and_nothing_leaves_its_page(
    routes: list[dict[str, str]], paper: str
) -> None:
    described = railway({f"road {n} of the quay": lies for n, lies in enumerate(routes, 1)}, levers=LEVERS)
    pages = pages_of(described, paper)
    wanted = [diode.position for matrix in described[1].matrices for diode in matrix.diodes]
    assert sorted(drawn_diodes(pages)) == sorted(wanted)
    for page in pages:
        assert (page.width, page.height) == (PAPERS[paper].width, PAPERS[paper].height)
        for shape in page.shapes:
            if isinstance(shape, Text):
                left, top, right, bottom = text_extent(shape)
                assert left > 5
                assert top > 5
                assert right < page.width - 5
                assert bottom < page.height - 5


def test_rows_and_columns_stand_where_they_are_built_even_if_one_between_them_is_gone() -> None:
    """As built, routes A, B and C; B and its column 2 are gone: 2 x 12.7 mm and 2 x 7.62 mm are left between."""
    description, netlist = railway({"a": {"5": "normal"}, "b": {"5": "reverse"}, "c": {"6": "normal"}})
    (matrix,) = netlist.matrices
    less = replace(matrix, rows=matrix.rows[::2], columns=matrix.columns[::2])
    page = route_pages(description, replace(netlist, matrices=(less,)), LOOK, PAPERS["a4"])[0][0]
    places = {name: place for place, name in terminals(page).items()}
    assert set(places) == {"A", "C", "1", "3"}
    assert places["C"][1] - places["A"][1] == pytest.approx(10 * HOLE)
    assert places["3"][0] - places["1"][0] == pytest.approx(6 * HOLE)
    assert drawn_diodes([page]) == ["A1", "C3"]
