"""Wires in a screw entry."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.capacity import crowded_entries
from labelgen.problems import Problem


def crowded(railway: str) -> list[Problem]:
    return crowded_entries(described(railway), wired(railway)[0])


POINTS = "supplies: {PULSE: {kind: pulse}}\npoints: {P5: , P6: , P7A: , P7B: }\n"


def test_links_and_a_crossover_stay_within_two() -> None:
    assert crowded(POINTS + "strips: {A1: }") == []


def test_three_motors_on_one_lever_are_too_many() -> None:
    problems = crowded(POINTS.replace("P7B: ", "P7B: , X: {lever: 7}") + "strips: {A1: }")
    assert [(problem.code, problem.place.source) for problem in problems] == [("entry-crowded", "strips.A1")] * 2
    assert problems[0].message == ("3 wires meet in one screw entry: A1.7, layout side (from P7A.N, P7B.N, X.N)")


@pytest.mark.parametrize(("limit", "expected"), [("1", 4), ("2", 1), ("3", 0)])
def test_the_limit_is_the_strips(limit: str, expected: int) -> None:
    # One a screw: A1.2 (feed and link), A1.5 (link and link), A1.7 and A1.9 (two motors each) are over; A1.8 is not.
    # Two a screw: the listed wire makes three in A1.5.
    wires = "wires: [{from: A1.5, to: A1.12}]"
    assert len(crowded(POINTS + f"strips: {{A1: {{entry_limit: {limit}}}}}\n" + wires)) == expected


def test_each_side_has_an_entry_of_its_own() -> None:
    wires = "wires: [{from: A1.5/panel, to: A1.12/panel}]"
    assert crowded(POINTS + "strips: {A1: }\n" + wires) == []
    wires = "wires: [{from: A1.5/panel, to: A1.12/panel}, {from: A1.11/panel, to: A1.5/panel}]"
    (problem,) = crowded(POINTS + "strips: {A1: }\n" + wires)
    assert "A1.5, panel side (from L6.F, A1.12, A1.11)" in problem.message
