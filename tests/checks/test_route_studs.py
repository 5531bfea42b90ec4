"""Buttons and studs on the panels: without a place, in each other's way, beyond the edge. Squares are of 10 mm."""

import pytest

from labelgen.checks.measures import unknown_lengths
from labelgen.checks.names import equal_heads
from labelgen.checks.routes import route_studs
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

RAILWAY = """
railway: Marram Quay
supplies: {{PULSE: {{kind: pulse}}}}
strips: {{A1: }}
points: {{P5: , P6: }}
panels: {{MAIN: {{size: [200, 100], {tracks} levers: {{5: [5, 5], 6: [12, 5]}}, routes: {{{places}}}}}}}
routes: {{Goods: {{5: normal}}, Yard: {{levers: {{6: reverse}}, stud: 9}}}}
"""


def told(places: str, tracks: str = "") -> list[tuple[str, str]]:
    text = RAILWAY.format(places=places, tracks=tracks)
    description, problems = read_description_text(text)
    assert description is not None, problems
    netlist, _ = expand(description, built_in_kinds())
    return [(problem.code, problem.message) for problem in route_studs(description, netlist)]


def test_with_places_of_their_own_all_is_well() -> None:
    assert told("Goods: [5, 2], Yard: [12, 2]", "tracks: {main: [[1, 5], [19, 5]]},") == []


@pytest.mark.parametrize(("tracks", "expected"), [("", 0), ("tracks: {main: [[1, 5], [19, 5]]},", 2)])
def test_only_a_panel_with_tracks_must_show_its_routes(tracks: str, expected: int) -> None:
    found = told("", tracks)
    assert [code for code, _ in found] == ["route-without-stud"] * expected


def test_two_routes_in_one_place() -> None:
    assert [code for code, _ in told("Goods: [5, 2], Yard: [5, 2]")] == ["route-stud-taken"]


def test_two_routes_too_close() -> None:
    """A button of 10 mm, a stud's head of 8 mm and 1 mm between them: 10 mm from middle to middle."""
    assert told("Goods: [5, 2], Yard: [6, 2]") == []
    ((code, message),) = told("Goods: [5, 2], Yard: [5.7, 2]")
    assert code == "route-without-stud"
    assert "7 mm apart" in message


def test_a_route_too_close_to_a_lever() -> None:
    """A washer of 11.5 mm and a button of 10 mm, 1 mm apart: 11.75 mm."""
    assert told("Goods: [5, 3.8], Yard: [12, 2]") == []
    ((code, message),) = told("Goods: [5, 4.2], Yard: [12, 2]")
    assert code == "route-without-stud"
    assert "lever 5" in message


@pytest.mark.parametrize(("at", "where"), [("[0.3, 2]", "on the edge"), ("[21, 2]", "beyond the edge")])
def test_off_the_panel(at: str, where: str) -> None:
    ((code, message),) = told(f"Goods: {at}, Yard: [12, 2]")
    assert code == "off-panel"
    assert where in message


def test_routes_without_a_panel_or_on_one_of_unknown_size_are_passed_over() -> None:
    text = "railway: x\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: }\nroutes: {a: {5: normal}}\n"
    for panels in ("", "panels: {M: {routes: {a: [99, 99]}}}\n"):
        description, netlist = _expanded(text + panels)
        assert route_studs(description, netlist) == []


def _expanded(text: str) -> tuple[Description, Netlist]:
    description, _ = read_description_text(text)
    assert description is not None
    return description, expand(description, built_in_kinds())[0]


NAMED = """
railway: Marram Quay
supplies: {PULSE: {kind: pulse}, LIGHT: {kind: dc}}
strips: {A1: }
points: {P5: }
devices: {1: {kind: lamps}}
functions: {lamp: {code: M}}
routes: {Goods: {5: normal}}
"""


def test_a_route_and_a_device_whose_wires_would_be_called_the_same() -> None:
    (problem,) = equal_heads(*_expanded(NAMED))
    assert problem.code == "equal-heads"
    assert "route 'Goods'" in problem.message
    assert "1M" in problem.message


def test_where_buttons_and_diodes_are_is_asked_for_by_name() -> None:
    text = """
railway: x
supplies: {PULSE: {kind: pulse, at: [0, 0]}}
strips: {A1: {at: [0, 0]}}
points: {P5: {at: [0, 0]}}
panels: {M: {at: [0, 0], size: [200, 100], levers: {row: 9}, routes: {a: [5, 5]}, MATRIX}}
routes: {a: {5: normal}, b: {5: reverse}}
"""
    (problem,) = unknown_lengths(*_expanded(text.replace("MATRIX", "matrix: [1, 1]")))
    assert "where ROUTE2 is" in problem.message
    (problem,) = unknown_lengths(*_expanded(text.replace(", MATRIX", "")))
    assert "where MATRIX, ROUTE2 are" in problem.message
