"""Wires in a screw entry."""

import re

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.capacity import crowded_entries
from labelgen.checks.continuity import copper
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


# What the hint says is tried out: it helps, and makes no ring.

MOTORS = """
    supplies: {{D: {{kind: dc}}, T: {{kind: track}}}}
    strips: {{A1: {{ways: 30, bridges: [{bridges}]}}}}
    points: {{P6: {{kind: stall-motor}}, P7: {{kind: stall-motor}}, P8: {{kind: stall-motor}}}}
"""


def test_links_between_ways_with_a_motor_give_way_to_a_bridge() -> None:
    """Rails come in, go on, and lead down to the motor at 3 and 5, 8 and 10: three wires each."""
    problems = crowded(MOTORS.format(bridges=""))
    assert len(problems) == 4
    bridges = {hint.partition("[[")[2].partition("]]")[0] for hint in (problem.hint for problem in problems)}
    assert bridges == {"3, 8, 13", "5, 10, 15"}
    bridged = MOTORS.format(bridges=", ".join(f"[{ways}]" for ways in sorted(bridges)))
    assert crowded(bridged) == []
    assert copper(described(bridged), wired(bridged)[0]) == []


def test_devices_on_strips_of_their_own() -> None:
    points = "points: {P7A: %s, P7B: %s, X: {lever: 7%s}}\nstrips: {A1: , B1: }\nsupplies: {PULSE: {kind: pulse}}"
    assert "Name a `strip` at each" in crowded(points % ("", "", ""))[0].hint
    assert crowded(points % ("{strip: A1}", "{strip: A1}", ", strip: B1")) == []


def test_a_wire_of_the_builders_own_lands_beside() -> None:
    lamps = "supplies: {D: {kind: dc}}\nstrips: {A1: {bridges: [[1, 2]]}}\ndevices: {H: {kind: lamps}}\n"
    assert "bridged to this one" in crowded(lamps + "wires: [{from: A1.1, to: A1.12}]")[0].hint
    assert crowded(lamps + "wires: [{from: A1.2, to: A1.12}]") == []


def test_what_only_a_larger_screw_helps() -> None:
    """On the panel side of way 1 the lever's wire comes in and goes on to the other motor's way."""
    railway = (
        MOTORS.format(bridges="").replace("ways: 30", "ways: 30, entry_limit: 1").replace("P7: {", "Q6: {lever: 6, ")
    )
    assert "Spread its wires" in crowded(railway)[0].hint


CHAINED = """
boards: {West: {size: [1200, 600], at: [0, 0]}, East: {size: [900, 600], right_of: West}}
supplies: {D: {kind: dc, board: West, at: [0, 0]}}
strips:
  A1: {board: West, at: [200, 300], bridges: [%s]}
  A2: {board: West, at: [600, 300], bridges: [%s]}
  A3: {board: East, at: [200, 300]}
plugs: {J1: {boards: [West, East], pins: 9, at: {West: [1200, 400], East: [0, 400]}}}
devices:
  H1: {kind: lamps, strip: A1}
  H2: {kind: lamps, strip: A2}
  H3: {kind: lamps, strip: A3}
"""


def test_a_chain_from_strip_to_strip_leaves_by_a_bridged_way() -> None:
    """In from the supply, down to the lamps, on to the next strip: the two lines of each hint are tried out."""
    problems = crowded(CHAINED % ("", ""))
    recipes = [re.findall(r"`([^`]*)`", problem.hint)[:2] for problem in problems]
    assert recipes == [
        ["bridges: [[1, 12]]", "- {from: A1.12, to: A2.1}"],
        ["bridges: [[1, 12]]", "- {from: A2.12, to: A3.1}"],  # past the plug
    ]
    followed = CHAINED % ("[1, 12]", "[1, 12]") + "wires:\n" + "".join(f"  {line}\n" for _, line in recipes)
    assert crowded(followed) == []
    assert copper(described(followed), wired(followed)[0]) == []
    assert wired(followed)[1] == []


def test_of_the_recipe_the_bridge_alone_does_nothing_and_no_way_is_offered_twice() -> None:
    assert len(crowded(CHAINED % ("[1, 12]", "[1, 12]"))) == 2
    hint = crowded(CHAINED % ("[11, 12]", ""))[0].hint
    assert "`bridges: [[11, 12], [1, 10]]`" in hint or "`bridges: [[11, 12], [1, 12]]`" in hint
    lamps = ", ".join(
        f"H{n}: {{kind: lamps, strip: A1, supply: D{n}}}, K{n}: {{kind: lamps, strip: A2, supply: D{n}}}"
        for n in (1, 2)
    )
    two = (
        "boards: {West: {size: [1200, 600]}}\nsupplies: {D1: {kind: dc, at: [0, 0]}, D2: {kind: dc, at: [0, 90]}}\n"
        f"strips: {{A1: {{at: [200, 300]}}, A2: {{at: [600, 300]}}}}\ndevices: {{{lamps}}}"
    )
    taken = re.findall(r"from: (A1\.\d+)", " ".join(problem.hint for problem in crowded(two)))
    assert taken == ["A1.12", "A1.11"]
