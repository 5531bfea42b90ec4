"""Where levers have their holes."""

from typing import Any

from labelgen.lengths import Point
from labelgen.model.panel_form import Panel
from labelgen.model.panel_places import lever_holes


def holes(works: dict[str, list[str]], **keys: Any) -> dict[str, Point]:
    return lever_holes(Panel.model_validate(keys), works)


def test_a_lever_stands_on_the_first_of_its_points_that_the_panel_draws() -> None:
    points = {"P10": [4, 2], "P2": [1, 2]}
    assert holes({"5": ["P10", "P2", "P1"]}, points=points, grid=12) == {"5": Point(12, 24)}


def test_a_lever_stands_on_its_section() -> None:
    assert holes({"11": ["YARD"]}, sections={"YARD": [3.5, 2]}) == {"11": Point(35, 20)}


def test_its_own_place_comes_first() -> None:
    keys = {"points": {"P1": [1, 1]}, "levers": {"1": [9, 9], "row": "4"}, "size": [100, 100]}
    assert holes({"1": ["P1"]}, **keys) == {"1": Point(90, 90)}


def test_a_row_spreads_the_others_evenly_in_natural_order() -> None:
    keys = {"levers": {"7": [9, 9], "row": "4"}, "size": [100, 100]}
    found = holes({"10": [], "2": [], "7": []}, **keys)
    assert found == {"2": Point(25, 40), "10": Point(75, 40), "7": Point(90, 90)}


def test_a_row_needs_a_size() -> None:
    assert holes({"1": []}, levers={"row": "4"}) == {}


def test_a_lever_that_nothing_draws_has_none() -> None:
    assert holes({"1": ["LAMP"]}, points={"P1": [1, 1]}) == {}
