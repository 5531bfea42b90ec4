"""A panel that draws what is worked from another."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.panel_levers import levers_of_others

RAILWAY = """
supplies: {PULSE: {kind: pulse}}
strips: {A1: }
points: {P5: , P6: {lever: none}}
levers: {5: {panel: YARD, shown: V}, 9: {spare: yes, panel: YARD}}
panels: {QUAY: {QUAY}, YARD: {levers: {row: 3, 9: [1, 1]}, points: {P5: [4, 4]}}}
"""


def told(quay: str) -> list[tuple[str, str]]:
    railway = RAILWAY.replace("{QUAY}", quay)
    found = levers_of_others(described(railway), wired(railway)[0])
    assert {problem.code for problem in found} <= {"lever-on-another-panel"}
    return [(problem.place.source, problem.message) for problem in found]


@pytest.mark.parametrize(
    ("quay", "place", "drawn"),
    [
        ("{levers: {5: [2, 2]}}", "panels.QUAY.levers.5", "a hole for lever V"),
        ("{points: {P5: [2, 2]}}", "panels.QUAY.points.P5", "point P5"),
        ("{levers: {5: [2, 2]}, points: {P5: [2, 2]}}", "panels.QUAY.levers.5", "a hole for lever V"),  # said once
    ],
)
def test_what_is_drawn_on_the_wrong_panel(quay: str, place: str, drawn: str) -> None:
    assert told(quay) == [(place, f"panel QUAY draws {drawn}, and lever V is on panel YARD")]


@pytest.mark.parametrize("quay", ["{levers: {row: 2}}", "{points: {P6: [2, 2]}}", "{levers: {77: [2, 2]}}", "{}"])
def test_what_is_nobody_elses(quay: str) -> None:
    """A row takes the panel's own levers; P6 has no lever; of an unknown lever the reading stage tells."""
    assert told(quay) == []
