"""What lies beyond the edges of its board."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.outside_boards import outside_boards
from labelgen.problems import Problem

RAILWAY = """
boards: {West: {size: [1200, 600]{HOLES}}, East: {size: [900, 600], right_of: West}, Loft: }
panels: {QUAY: {board: West}}
supplies: {PULSE: {kind: pulse, board: West}, CAB: {kind: dc, board: East}}
"""


def told(more: str, holes: str = "") -> list[Problem]:
    railway = RAILWAY.replace("{HOLES}", holes) + more
    return outside_boards(described(railway), wired(railway)[0])


@pytest.mark.parametrize(
    ("more", "path", "what"),
    [
        ("points: {P5: {board: West, at: [1201, 0]}}", "points.P5.at", "P5, at 1201, 0 mm,"),
        ("points: {P5: {board: West, at: [0, -1]}}", "points.P5.at", "P5, at 0, -1 mm,"),
        ("devices: {H1: {kind: lamps, board: West, at: [5, 601]}}", "devices.H1.at", "H1, at 5, 601 mm,"),
        ("strips: {W1: {board: West, at: [1300, 5]}}", "strips.W1.at", "strip W1, at 1300, 5 mm,"),
        ("supplies: {X: {kind: ac, board: West, at: [9999, 1]}}", "supplies.X.at", "X, at 9999, 1 mm,"),
        (
            "plugs: {J1: {boards: [West, East], pins: 5, at: {West: [1300, 1], East: [0, 1]}}}",
            "plugs.J1.at.West",
            "plug J1, at 1300, 1 mm,",
        ),
        (
            "strips: {W1: {board: West}}\ndevices: {H1: {kind: lamps, strip: W1, at: [1201, 1]}}",
            "devices.H1.at",
            "H1, at 1201, 1 mm,",
        ),
    ],
)
def test_what_is_outside(more: str, path: str, what: str) -> None:
    railway = RAILWAY.replace("{HOLES}", "")
    if more.startswith("supplies"):
        railway = railway.replace("supplies: {PULSE: {kind: pulse, board: West}, CAB: {kind: dc, board: East}}", "")
    (problem,) = outside_boards(described(railway + more), wired(railway + more)[0])
    assert (problem.code, problem.place.source) == ("outside-board", path)
    assert problem.message == f"{what} lies outside of board West, which is 1200 × 600 mm"


def test_a_hole() -> None:
    (problem,) = told("", ", holes: {H1: {at: [5, 700]}, H2: {at: [5, 600]}}")
    assert problem.place.source == "boards.West.holes.H1.at"


@pytest.mark.parametrize(
    "more",
    [
        "points: {P5: {board: West, at: [1200, 600]}, P6: {board: West, at: [0, 0]}}",  # on the edge
        "points: {P5: {board: Loft, at: [9000, 0]}}",  # without a size
        "points: {P5: {board: Attic, at: [9000, 0]}}",  # unknown: that is told elsewhere
        "points: {P5: {at: [9000, 0]}}",  # of no board: that as well
        "points: {P5: {panel: QUAY, at: [9000, 0]}}",  # it is where the panel's wires go down
        "points: {P5: {board: West}}",
    ],
)
def test_what_is_not(more: str) -> None:
    assert told(more) == []


def test_with_one_board_all_is_on_it() -> None:
    railway = "boards: {B: {size: [12, 6]}}\nsupplies: {D: {kind: dc, at: [20, 1]}}"
    (problem,) = outside_boards(described(railway), wired(railway)[0])
    assert problem.place.source == "supplies.D.at"


def test_many_are_told_together() -> None:
    """A board whose size was measured in centimetres."""
    points = ", ".join(f"P{n}: {{board: East, at: [{1000 + n}, 5]}}" for n in range(6))
    (problem,) = told(f"points: {{{points}}}")
    assert problem.place.source == "points.P0.at"
    assert problem.message.endswith("; so do 5 more")
