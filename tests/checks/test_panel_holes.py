"""Holes of a panel: what is without one, too close or beyond the edge."""

from typing import Any

import pytest
from checks.small_panel import GOOD, LEVERS, lever, panel_with, the_one

from labelgen.checks.panel_holes import panel_hole_problems
from labelgen.model.netlist import LeverPlan
from labelgen.problems import Problem, Severity


def problems(plans: tuple[LeverPlan, ...] = LEVERS, **keys: Any) -> list[Problem]:
    return panel_hole_problems(*panel_with(plans, **keys))


def test_holes_that_are_right_have_none() -> None:
    assert problems() == []


def test_a_panel_without_tracks_or_size_has_no_edge_and_needs_no_holes() -> None:
    nothing = dict.fromkeys(GOOD)
    assert problems((lever("12", "LAMP"),), **nothing) == []


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


def test_lamps_and_screws_beyond_the_edge() -> None:
    assert the_one(problems(lamps={"YARD": [[15, 3], [20.5, 3]]}))[::2] == ("off-panel", "lamps/YARD")
    found = problems(screws={"inset": "2"})
    assert [p.message.split(",")[0] for p in found] == [f"corner screw {n}" for n in (1, 2, 3, 4)]


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
