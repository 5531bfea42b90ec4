"""What is said of a hole that is too small. Fill: NEC chapter 9, table 1; wires of 16/0.2 are 1.6 mm thick."""

from dataclasses import replace

import pytest
from drawings.strip_railway import LEVER, described, harbour

from labelgen.checks.holes import small_holes
from labelgen.problems import Problem, Severity


def problems(diameter: str | None, points: int = 2) -> list[Problem]:
    netlist = harbour(points=points, ways=3 * points)
    wires = [replace(wire, holes=("H1",)) if wire.start.kind is LEVER else wire for wire in netlist.wires]
    hole = {"at": ["0", "0"], "diameter": diameter} if diameter else {"at": ["0", "0"]}
    boards = {"WEST": {"holes": {"H1": hole}}}
    netlist = replace(netlist, wires=tuple(wires))
    return small_holes(described(netlist, boards=boards), netlist)


@pytest.mark.parametrize("diameter", [None, "6.2", "8", "20"])
def test_room_enough(diameter: str | None) -> None:
    assert problems(diameter) == []


def test_too_full() -> None:
    """6 × 1.6² / 6² = 43 %."""
    (problem,) = problems("6")
    assert (problem.code, problem.severity) == ("hole-too-small", Severity.CAUTION)
    assert problem.message == (
        "hole H1 is 6 mm across, too small for what goes through it: 6 wires, 4.8 mm thick together, fill 43 % of it, "
        "and 40 % is the most that is usual"
    )
    assert problem.hint == "Drill it 6.2 mm or larger, or describe another hole that wires may take."


def test_the_bundle_alone_is_thicker_than_the_hole() -> None:
    (problem,) = problems("3", points=1)
    assert problem.message.endswith(
        "3 wires, 3.4 mm thick together, fill 85 % of it, and 40 % is the most that is usual"
    )
    (problem,) = problems("2", points=1)
    assert problem.message.endswith("3 wires, 3.4 mm thick together")


def test_more_than_one_hole_is_needed() -> None:
    """120 wires want a hole of 27.7 mm, and the largest stocked drill is 25."""
    (problem,) = problems("20", points=40)
    assert problem.hint == "Describe another hole beside it: they need more than one of 25 mm."
