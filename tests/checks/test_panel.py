"""Faults of a panel's diagram: each said once, at the builder's own place, and none of a diagram that is right."""

from typing import Any

import pytest

from labelgen.checks.panel import panel_problems
from labelgen.model.description import Description
from labelgen.model.netlist import LeverPlan, Netlist
from labelgen.places import Path, Place
from labelgen.problems import Problem, Severity


class PathsAsPlaces:
    """Says the path itself instead of a line."""

    def of_key(self, path: Path) -> Place:
        return Place(file="/".join(map(str, path)))

    of_value = of_key


def lever(id_: str, *devices: str, spare: bool = False) -> LeverPlan:
    return LeverPlan(
        id=id_,
        shown=id_,
        name="",
        type="sprung",
        panel="HARBOUR",
        board=None,
        normal="up",
        spare=spare,
        devices=devices,
        path=("levers", id_),
    )


GOOD: dict[str, Any] = {
    "size": [200, 100],
    "tracks": {"main": [[1, 5], [19, 5]], "loop": ["P1", [8, 3], [19, 3]], "over": [[10, 1], [10, 9]]},
    "points": {"P1": [6, 5]},
    "sections": {"YARD": [15, 5]},
    "breaks": [[12, 5]],
    "platforms": {"Quay": [[2, 6], [5, 7]]},
    "texts": {"to the sea": [17, 8]},
}
LEVERS = (lever("1", "P1"), lever("11", "YARD"))


def problems(plans: tuple[LeverPlan, ...] = LEVERS, **keys: Any) -> list[Problem]:
    panel = {key: value for key, value in {**GOOD, **keys}.items() if value is not None}
    description = Description.model_validate({"railway": "Marram Quay", "panels": {"HARBOUR": panel}})
    netlist = Netlist(railway="Marram Quay", circuits=(), strips=(), levers=plans, wires=(), functions={})
    return panel_problems(description.with_places(PathsAsPlaces()), netlist)


def the_one(found: list[Problem]) -> tuple[str, str, str]:
    (problem,) = found
    assert problem.hint
    return problem.code, problem.message, problem.place.file.removeprefix("panels/HARBOUR/")


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
        ([10, 5], "4 roads meet there"),
    ],
)
def test_points_that_do_not_lie_where_three_roads_meet(at: list[float], says: str) -> None:
    code, message, place = the_one(problems(points={**GOOD["points"], "P2": at}))
    assert (code, place) == ("point-off-track", "points/P2")
    assert says in message


def test_two_points_in_one_place_serve_four_roads() -> None:
    three_way = {"points": {"P1": [6, 5], "P2": [6, 5]}, "tracks": {**GOOD["tracks"], "dock": ["P1", [8, 7]]}}
    assert problems(**three_way) == []


def test_breaks_and_sections_off_the_line() -> None:
    assert the_one(problems(breaks=[[12, 5], [12, 6]]))[::2] == ("point-off-track", "breaks/1")
    assert the_one(problems(sections={"YARD": [15, 7]}))[::2] == ("point-off-track", "sections/YARD")


def test_a_normal_road_that_the_point_does_not_lead_to() -> None:
    code, message, place = the_one(problems(points={"P1": {"at": [6, 5], "normal": "over"}}))
    assert (code, place) == ("point-off-track", "points/P1/normal")
    assert "track over is not one of the two roads" in message
    assert problems(points={"P1": {"at": [6, 5], "normal": "loop"}}) == []


def test_three_roads_that_meet_without_a_point() -> None:
    code, message, place = the_one(problems(tracks={**GOOD["tracks"], "siding": [[15, 5], [18, 8]]}))
    assert (code, place) == ("roads-without-point", "tracks/siding/0")
    assert "3 roads meet at [15, 5] (main, siding)" in message


def test_four_roads_that_do_not_just_cross() -> None:
    more = {**GOOD["tracks"], "a": [[15, 5], [18, 8]], "b": [[15, 5], [16, 8]]}
    assert the_one(problems(tracks=more))[0] == "roads-without-point"


def test_a_lever_without_a_hole() -> None:
    assert the_one(problems((*LEVERS, lever("12", "LAMP"))))[::2] == ("lever-without-hole", "levers/12")
    assert problems((*LEVERS, lever("12", "LAMP")), levers={"12": [3, 3]}) == []
    assert problems((*LEVERS, lever("10", spare=True))) == []


@pytest.mark.parametrize(
    ("keys", "says", "at"),
    [
        ({"tracks": {**GOOD["tracks"], "far": [[18, 8], [21, 8]]}}, "a corner of track far", "tracks/far/1"),
        ({"tracks": {**GOOD["tracks"], "far": [[18, 8], [18, -0.5]]}}, "180, -5 mm", "tracks/far/1"),
        ({"levers": {"1": [19.8, 3]}}, "on the edge", "levers/1"),
        ({"levers": {"1": [20.3, 3]}}, "beyond the edge", "levers/1"),
        ({"levers": {"row": "9.9"}}, "the hole of lever 1,", "levers/row"),
        ({"platforms": {"Quay": [[2, 6], [5, 11]]}}, "a corner of platform 'Quay'", "platforms/Quay/1"),
        ({"texts": {"sea": [17, 12]}}, "the text 'sea'", "texts/sea"),
        ({"exit": [100, 101]}, "the exit of its wires", "exit"),
    ],
)
def test_what_lies_beyond_the_edge(keys: dict[str, Any], says: str, at: str) -> None:
    found = [p for p in problems(**keys) if p.code == "off-panel"]
    assert says in found[0].message
    assert found[0].place.file == f"panels/HARBOUR/{at}"
    assert found[0].severity is Severity.CAUTION
    assert len(found) == (2 if "row" in at else 1)


def test_a_hole_that_a_point_puts_at_the_edge() -> None:
    main = {"main": [[0, 5], [19, 5]], "loop": ["P1", [8, 3], [19, 3]]}
    assert the_one(problems(tracks=main, points={"P1": [0.4, 5]}))[::2] == ("off-panel", "points/P1")


def test_holes_too_close_for_their_nuts() -> None:
    code, message, place = the_one(problems(levers={"11": [6.5, 5]}))
    assert (code, place) == ("lever-without-hole", "levers/11")
    assert "levers 1 and 11 are 5 mm apart" in message


def test_points_breaks_and_sections_beyond_the_edge() -> None:
    tracks = {**GOOD["tracks"], "far": [[19, 8], [30, 8]]}
    found = problems(
        tracks=tracks, points={**GOOD["points"], "P2": [22, 8]}, sections={"YARD": [23, 8]}, breaks=[[24, 8]]
    )
    assert {p.place.file.removeprefix("panels/HARBOUR/") for p in found if p.code == "off-panel"} == {
        "tracks/far/1",
        "points/P2",
        "sections/YARD",
        "breaks/0",
    }
