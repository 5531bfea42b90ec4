"""Slips of the pen, crossings without a name, islands and sections of a panel: each said once, at its own place."""

from typing import Any

import pytest
from checks.small_panel import PathsAsPlaces

from labelgen.checks.diagram import crossing_problems, island_problems, near_track_problems, section_problems
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem, Severity

MAIN = [[0, 6], [30, 6]]


def problems(**panel: Any) -> list[Problem]:
    description = Description.model_validate({"railway": "Marram Quay", "panels": {"HARBOUR": panel}})
    description = description.with_places(PathsAsPlaces())
    netlist = Netlist(railway="Marram Quay", circuits=(), strips=(), levers=(), wires=(), functions={})
    checks = (near_track_problems, crossing_problems, island_problems, section_problems)
    return [problem for check in checks for problem in check(description, netlist)]


def said(found: list[Problem]) -> list[tuple[str, str]]:
    assert all(problem.severity is Severity.CAUTION for problem in found)
    return [(problem.code, problem.place.file.removeprefix("panels/HARBOUR/")) for problem in found]


def test_a_plain_line_has_none() -> None:
    assert problems(tracks={"main": MAIN}) == []
    assert problems() == []


@pytest.mark.parametrize(
    ("corner", "meant"),
    [
        ([12, 5.8], "[12, 6]"),  # short of the line
        ([12, 6.3], "[12, 6]"),  # beyond it
        ([0.2, 6.3], "[0, 6]"),  # beside its end
    ],
)
def test_a_track_that_ends_beside_another(corner: list[float], meant: str) -> None:
    found = [p for p in problems(tracks={"main": MAIN, "siding": [[16, 2], corner]}) if p.code == "near-miss"]
    assert said(found) == [("near-miss", "tracks/siding/1")]
    assert found[0].hint.startswith(f"Write {meant} instead of [{corner[0]:g}, {corner[1]:g}]")


def test_a_slanting_line_is_met_where_it_passes() -> None:
    (problem,) = problems(tracks={"main": [[0, 0], [9, 3]], "siding": [[3, 1.3], [3, 8]]})[:1]
    assert "Write [3.09, 1.03] instead of [3, 1.3]" in problem.hint


def test_an_inner_corner_that_nearly_meets_another_tracks_corner_is_said_once() -> None:
    tracks = {"a": [[0, 0], [5, 5], [9, 5]], "b": [[0, 9], [5, 5.3], [9, 9]]}
    found = [p for p in problems(tracks=tracks) if p.code == "near-miss"]
    assert said(found) == [("near-miss", "tracks/b/1")]
    assert "Write [5, 5] instead of [5, 5.3]" in found[0].hint


@pytest.mark.parametrize(
    "siding",
    [
        [[16, 2], [12, 6]],  # meets it
        [[16, 2], [12, 5.5]],  # half a square away
        [[12, 6], [12.4, 5.7], [13, 5], [16, 2]],  # leaves it in a curve
        [[12, 6], [12.4, 5.7], [13, 5], [13, 5], "P9"],
    ],
)
def test_tracks_that_do_not_nearly_meet(siding: list[Any]) -> None:
    assert "near-miss" not in {p.code for p in problems(tracks={"main": MAIN, "siding": siding})}


def test_a_line_that_crosses_near_its_own_corner_is_no_slip() -> None:
    tracks = {"main": MAIN, "over": [[12, 9], [12, 5.8], [16, 2]]}
    assert said(problems(tracks=tracks)) == [("crossing-not-named", "tracks/over")]


def test_a_point_close_to_another_track_is_no_corner() -> None:
    tracks = {"main": MAIN, "siding": ["P1", [16, 2]]}
    assert "near-miss" not in {p.code for p in problems(tracks=tracks, points={"P1": [12, 5.8]})}


def test_a_crossing_without_a_name() -> None:
    tracks = {"main": MAIN, "over": [[10, 1], [10, 9]]}
    (problem,) = problems(tracks=tracks)
    assert said([problem]) == [("crossing-not-named", "tracks/over")]
    assert problem.message == "main and over cross at [10, 6], and nothing says how"
    assert "`crossings: [[10, 6]]`" in problem.hint
    assert "`bridges: [[10, 6]]`" in problem.hint
    assert problems(tracks=tracks, crossings=[[10, 6]]) == []
    assert problems(tracks=tracks, bridges=[[10, 6]], exits={"sea": [10, 1], "land": [0, 6]}) == []


def test_the_line_to_write_keeps_what_is_named_already() -> None:
    tracks = {"main": MAIN, "a": [[10, 1], [10, 9]], "b": [[20, 1], [20, 9]]}
    (problem,) = problems(tracks=tracks, crossings=[[10, 6]])
    assert "`crossings: [[10, 6], [20, 6]]`" in problem.hint


def test_a_slip_a_fan_and_a_turntable_are_names_too() -> None:
    tracks = {"main": MAIN, "over": [[7, 3], [13, 9]]}
    assert problems(tracks=tracks, points={"P1": [10, 6]}) == []
    assert problems(tracks=tracks, fans={"F": [10, 6]}) == []
    assert problems(tracks=tracks, turntables={"T": {"at": [10, 6]}}) == []


def test_an_island() -> None:
    tracks = {"main": MAIN, "lost": [[5, 9], [9, 9]], "too": [[9, 9], [12, 9]], "other": [[20, 9], [22, 9]]}
    found = problems(tracks=tracks, exits={"sea": [30, 6]})
    assert said(found) == [("track-island", "tracks/too"), ("track-island", "tracks/other")]
    assert found[0].message.startswith("nothing leads to tracks lost and too:")
    assert found[1].message.startswith("nothing leads to track other:")


@pytest.mark.parametrize(
    "keys",
    [
        {"sections": {"X": [7, 9]}},
        {"exits": {"sea": [9, 9]}},
        {"fans": {"F": [9, 9]}},
        {"turntables": {"T": {"at": [9, 9]}}},
        {"points": {"P1": [7, 9]}},
    ],
)
def test_a_piece_of_its_own_on_which_there_is_something_is_no_island(keys: dict[str, Any]) -> None:
    found = problems(tracks={"main": MAIN, "lost": [[5, 9], [9, 9]]}, **keys)
    assert said(found) == [("track-island", "tracks/main")]


def test_of_pieces_with_nothing_on_them_the_longest_is_none() -> None:
    found = problems(tracks={"lost": [[5, 9], [9, 9]], "main": [[0, 6], [9, 6], [20, 6]]})
    assert said(found) == [("track-island", "tracks/lost")]


def test_two_sections_on_one_stretch() -> None:
    found = problems(tracks={"main": MAIN}, sections={"A": [3, 6], "B": [20, 6]})
    assert said(found) == [("section-twice", "sections/B")]
    assert problems(tracks={"main": MAIN}, sections={"A": [3, 6], "B": [20, 6]}, breaks=[[10, 6]]) == []


def test_a_break_that_divides_nothing() -> None:
    loop = {"main": MAIN, "loop": [[5, 6], [8, 3], [15, 3], [18, 6]]}
    points = {"P1": [5, 6], "P2": [18, 6]}
    assert said(problems(tracks=loop, points=points, breaks=[[10, 6]])) == [("idle-break", "breaks/0")]
    assert problems(tracks=loop, points=points, breaks=[[10, 6], [10, 3]]) == []
    assert problems(tracks={"main": MAIN}, breaks=[[30, 6]]) == []
