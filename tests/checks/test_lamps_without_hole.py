"""Lamps to which wires lead on a panel, and which its diagram has no hole for."""

import pytest
from wiring.wiring_builder import described, netlist_of

from labelgen.checks.lamps import lamps_without_hole

TOP = """
supplies: {PULSE: {kind: pulse}, LAMPS: {kind: dc}}
strips: {A1: {ways: 40}}
"""
LIT = "{kind: twin-coil-lamps, supplies: {lamps: LAMPS}%s}"
TRACKS = "tracks: {main: [[1, 10], [39, 10]], siding: [P5, [16, 6], [36, 6]]}, "


def told(points: str, panel: str, more: str = "") -> list[tuple[str, str]]:
    text = f"{TOP}points: {points}\npanels: {{Q: {{size: [400, 180], {panel}}}}}\n{more}"
    found = lamps_without_hole(described(text), netlist_of(text))
    assert all(problem.code == "lamps-without-hole" for problem in found)
    return [(problem.place.source, problem.message) for problem in found]


def test_lamps_beside_the_lever() -> None:
    """Its kind has lamp-N and lamp-R beside the lever."""
    points = f"{{P5: {LIT % ''}}}"
    assert told(points, TRACKS + "points: {P5: [12, 10]}") == [
        (
            "panels.Q.points.P5",
            "wires lead to the lamps of P5 (L5.lamp-N, L5.lamp-R), and panel Q has no hole for them",
        )
    ]


@pytest.mark.parametrize("lamps", ["yes", "{P5.normal: [14, 10], P5.reverse: [14, 8]}", "{roads: yes}"])
def test_lamps_with_holes(lamps: str) -> None:
    assert told(f"{{P5: {LIT % ''}}}", TRACKS + f"points: {{P5: [12, 10]}}, lamps: {lamps}") == []


def test_a_panel_that_draws_nothing_has_no_lamps() -> None:
    assert told(f"{{P5: {LIT % ''}}}", "levers: {row: 5}") == []
    assert told("{P5: }", TRACKS + "points: {P5: [12, 10]}") == [], "nor has a point without"


def test_two_points_of_one_lever_are_said_once() -> None:
    points = f"{{P5A: {LIT % ''}, P5B: {LIT % ''}}}"
    panel = TRACKS.replace("P5", "P5A") + "points: {P5A: [12, 10], P5B: [16, 6]}"
    assert [place for place, _ in told(points, panel)] == ["panels.Q.points.P5A"]
    assert told(points, f"{panel}, lamps: {{P5B.normal: [20, 10]}}") == [], "they stand in the panel already"


def test_lamps_that_are_devices_of_a_panel() -> None:
    """Those that follow a lever are on its panel, other lamps where their `panel` says so."""
    own = "devices: {PL5: {kind: panel-lamps, lever: 5x, supply: LAMPS}}\nlevers: {5x: {panel: Q}}"
    place, message = told("{P5: }", TRACKS + "points: {P5: [12, 10]}", own)[0]
    assert place == "panels.Q"
    assert "the lamps of PL5 (PL5.N, PL5.R)" in message
    assert told("{P5: }", TRACKS + "points: {P5: [12, 10]}, lamps: {PL5.N: [3, 3], PL5.R: [4, 3]}", own) == []
    assert told("{P5: }", TRACKS + "points: {P5: [12, 10]}", own.replace("panel-lamps, lever: 5x", "lamps")) == []
    lit = "devices: {H: {kind: lamps, panel: Q, supply: LAMPS}}"
    assert "the lamps of H (H.L)" in told("{P5: }", TRACKS + "points: {P5: [12, 10]}", lit)[0][1]
