"""Faults of a panel's diagram: each said once, at the builder's own place, and none of a diagram that is right."""

from typing import Any

import pytest
from checks.small_panel import GOOD, LEVERS, lever, panel_with, the_one
from wiring.wiring_builder import described, wired

from labelgen.checks.panel import panel_problems
from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.problems import Problem, Severity


def problems(plans: tuple[LeverPlan, ...] = LEVERS, **keys: Any) -> list[Problem]:
    return panel_problems(*panel_with(plans, **keys))


def test_a_diagram_that_is_right_has_none() -> None:
    assert problems() == []


def test_a_panel_without_anything_has_none() -> None:
    empty = Description.model_validate({"railway": "Marram Quay", "panels": {"HARBOUR": {}}})
    netlist = Netlist(railway="", circuits=(), strips=(), levers=(lever("1"),), wires=(), functions={})
    assert panel_problems(empty, netlist) == []


@pytest.mark.parametrize(
    ("track", "says", "at"),
    [
        ([[1, 9]], "fewer than two corners", "tracks/bad"),
        ([], "fewer than two corners", "tracks/bad"),
        ([[1, 9], [3, 9], [3, 9]], "[3, 9] twice in a row", "tracks/bad/2"),
        (["P1", [6, 5], [6, 8], [9, 9]], "[6, 5] twice in a row", "tracks/bad/1"),
    ],
)
def test_tracks_that_cannot_be_drawn(track: list[Any], says: str, at: str) -> None:
    found = [p for p in problems(tracks={**GOOD["tracks"], "bad": track}) if p.code == "bad-track"]
    _, message, place = the_one(found)
    assert says in message
    assert place == at
    assert found[0].severity is Severity.ERROR


@pytest.mark.parametrize(
    ("at", "says"),
    [
        ([6, 6], "lies on no track"),
        ([15, 5], "2 roads meet there"),
        ([19, 5], "one road ends there"),
        ([10, 5], "too wide an angle for a slip"),
    ],
)
def test_points_that_do_not_lie_where_three_roads_meet(at: list[float], says: str) -> None:
    code, message, place = the_one(problems(points={**GOOD["points"], "P2": at}))
    assert (code, place) == ("point-off-track", "points/P2")
    assert says in message


def test_a_point_a_hair_off_the_line_is_told_where_it_belongs() -> None:
    (problem,) = problems(points={**GOOD["points"], "P2": [6, 5.2]})
    assert problem.hint == "Write [6, 5] instead of [6, 5.2], if it belongs to the track there."


@pytest.mark.parametrize(
    ("form", "says"),
    [("three-way", "four roads meet"), ("double-slip", "two tracks cross at a shallow angle")],
)
def test_a_point_that_is_not_what_it_is_called(form: str, says: str) -> None:
    code, message, place = the_one(problems(points={"P1": {"at": [6, 5], "form": form}}))
    assert (code, place) == ("point-off-track", "points/P1")
    assert says in message
    assert "3 roads meet there" in message


@pytest.mark.parametrize(
    ("keys", "says", "at"),
    [
        ({"exits": {"to the sea": [15, 5]}}, "the exit 'to the sea' at [15, 5] is not at the end", "exits/to the sea"),
        ({"exits": {"to the sea": [15, 7]}}, "is not at the end of a track", "exits/to the sea"),
        ({"crossings": [[15, 5]]}, "no two tracks cross at [15, 5]", "crossings/0"),
        ({"bridges": [[15, 5]]}, "no track passes over another at [15, 5]", "bridges/0"),
        ({"fans": {"PLATE": [15, 7]}}, "fan PLATE at [15, 7] lies on no track", "fans/PLATE"),
        ({"turntables": {"TABLE": {"at": [16, 8]}}}, "no track ends on the rim", "turntables/TABLE"),
    ],
)
def test_what_is_placed_where_there_is_nothing_of_the_sort(keys: dict[str, Any], says: str, at: str) -> None:
    code, message, place = the_one(problems(**keys))
    assert (code, place) == ("point-off-track", at)
    assert says in message


def test_exits_fans_tables_diamonds_and_bridges_where_they_belong() -> None:
    right = {
        "tracks": {**GOOD["tracks"], "a": [[1, 8], [5, 8]], "b": [[5, 8], [9, 8]], "c": [[5, 8], [9, 9]]},
        "exits": {"to the sea": [19, 5]},
        "crossings": [[10, 5]],
        "bridges": [[10, 3]],
        "fans": {"PLATE": [5, 8]},
        "turntables": {"TABLE": {"at": [10, 10.9]}},
    }
    assert problems(**right) == []


def test_two_points_in_one_place_serve_four_roads() -> None:
    three_way = {"points": {"P1": [6, 5], "P2": [6, 5]}, "tracks": {**GOOD["tracks"], "dock": ["P1", [8, 7]]}}
    assert problems(**three_way) == []


def test_breaks_and_sections_off_the_line() -> None:
    assert the_one(problems(breaks=[[12, 5], [12, 6]]))[::2] == ("point-off-track", "breaks/1")
    assert the_one(problems(sections={"YARD": [15, 7]}))[::2] == ("point-off-track", "sections/YARD")


def test_a_normal_road_that_the_point_does_not_lead_to() -> None:
    code, message, place = the_one(problems(points={"P1": {"at": [6, 5], "normal": "over"}}))
    assert (code, place) == ("point-off-track", "points/P1/normal")
    assert "track over is not one of the roads" in message
    assert problems(points={"P1": {"at": [6, 5], "normal": "loop"}}) == []


def test_three_roads_that_meet_without_a_point() -> None:
    code, message, place = the_one(problems(tracks={**GOOD["tracks"], "siding": [[15, 5], [18, 8]]}))
    assert (code, place) == ("roads-without-point", "tracks/siding/0")
    assert "3 roads meet at [15, 5] (main, siding)" in message


def test_four_roads_that_do_not_just_cross() -> None:
    more = {**GOOD["tracks"], "a": [[15, 5], [18, 8]], "b": [[15, 5], [16, 8]]}
    assert the_one(problems(tracks=more))[0] == "roads-without-point"


FOUR = {"main": [[1, 5], [19, 5]], "left": ["P1", [9, 3], [19, 3]], "right": ["P1", [9, 7], [19, 7]]}
WIRED = "supplies: {S: {kind: pulse}, D: {kind: dc}, T: {kind: track}}\nstrips: {A1: {ways: 40}}\n"


def third_roads(points: str, tracks: dict[str, Any], places: dict[str, Any]) -> list[Problem]:
    text = f"{WIRED}points: {points}\npanels: {{Q: {{size: [200, 100], tracks: {tracks}, points: {places}}}}}"
    return [one for one in panel_problems(described(text), wired(text)[0]) if one.code == "third-road"]


@pytest.mark.parametrize("kind", ["twin-coil", "stall-motor"])
def test_four_roads_at_a_point_of_two(kind: str) -> None:
    (problem,) = third_roads(f"{{P1: {{kind: {kind}}}}}", FOUR, {"P1": [6, 5]})
    assert problem.place.source == "panels.Q.points.P1"
    assert problem.message == f"4 roads meet at P1, and its kind {kind} leads from one to 2 others"


def test_four_roads_where_they_belong() -> None:
    assert third_roads("{P1: {kind: three-way}}", FOUR, {"P1": [6, 5]}) == []
    assert third_roads("{P1: , P2: }", FOUR, {"P1": [6, 5], "P2": [6, 5]}) == [], "a tandem of two motors"
    three = {track: FOUR[track] for track in ("main", "left")}
    assert third_roads("{P1: }", three, {"P1": [6, 5]}) == []
    slip = {"main": [[1, 5], [19, 5]], "quay": [[2, 9], [10, 1]]}
    assert third_roads("{P1: }", slip, {"P1": [6, 5]}) == [], "a slip has two tracks that cross"


def test_two_points_in_one_square_of_three_roads() -> None:
    """Of one of them nothing is wrong; the other is said, and with whom it shares its square."""
    found = [one for one in problems(points={"P1": [6, 5], "P2": [6, 5]}) if one.code == "point-off-track"]
    _, message, place = the_one(found)
    assert message == "point P2 at [6, 5] lies in the square of P1, where only 3 roads meet"
    assert place == "points/P2"
