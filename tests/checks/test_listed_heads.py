"""Wires of the builder's own that would be taken for others by what stands on their flags."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.listed_heads import functions_not_said, listed_heads

QUAY = """
supplies: {PULSE: {kind: pulse}}
strips: {A1: {BRIDGE}}
points: {P5: }
wires:
"""
"""A1: 1 5N, 2 F, 3 5R, 4 to 12 spare."""


def told(*wires: str, bridge: str = "") -> list[tuple[str, str]]:
    railway = QUAY.replace("{BRIDGE}", bridge) + "".join(f"  - {{{wire}}}\n" for wire in wires)
    netlist, problems = wired(railway)
    assert problems == []
    found = listed_heads(described(railway), netlist)
    assert {problem.code for problem in found} <= {"heads-alike"}
    return [(problem.place.source, problem.message) for problem in found]


def test_one_that_is_called_as_a_wire_of_the_rules() -> None:
    (problem,) = told("from: A1.8, to: A1.9", "from: L5.F, to: A1.9, function: normal")
    assert problem == (
        "wires.1",
        "the listed wire from L5.F to A1.9 is called 5N, as is the one from L5.N to A1.1, and nothing joins the two",
    )


def test_a_chain_s_code_is_a_name_too() -> None:
    (problem,) = told("from: A1.8, to: A1.9, function: feed", "from: A1.10, to: A1.11, function: feed")
    assert problem[0] == "wires.0"
    assert problem[1].endswith("; so it is with 1 more")


@pytest.mark.parametrize(
    "wires",
    [
        ["from: A1.1, to: A1.9"],  # joined with 5N, and called so
        ["from: A1.8, to: A1.9, function: lamp"],  # alone
        ["from: L5.N, to: A1.1, number: 9"],  # that wire itself
        ["from: L5.F, to: A1.9, function: spare", "from: L5.N, to: A1.10, function: spare"],  # nameless
    ],
)
def test_what_cannot_be_confused(wires: list[str]) -> None:
    assert told(*wires) == []


def test_a_bridge_joins() -> None:
    wires = ("from: A1.7, to: A1.8, function: lamp", "from: A1.9, to: A1.10, function: lamp")
    assert [place for place, _ in told(*wires)] == ["wires.1"]
    assert told(*wires, bridge="{bridges: [[8, 12, 9]]}") == []


def unsaid(*wires: str) -> list[tuple[str, str]]:
    railway = QUAY.replace("{BRIDGE}", "") + "".join(f"  - {{{wire}}}\n" for wire in wires)
    found = functions_not_said(described(railway), wired(railway)[0])
    assert {problem.code for problem in found} <= {"function-not-said"}
    return [(problem.place.source, problem.message) for problem in found]


def test_wires_of_which_nobody_says_what_they_are_for_are_told_once() -> None:
    wires = ["from: L5.N, to: A1.1", "from: A1.10, to: A1.11", "from: A1.8, to: A1.9", "from: A1.1, to: A1.12"]
    assert unsaid(*wires) == [
        (
            "wires.1",
            "nothing says what the wire from A1.10 to A1.11 is for, so that it counts as a spare;"
            " 1 more wire is listed so",
        )
    ]
    more = unsaid(*wires, "from: A1.6, to: A1.7")
    assert more[0][1].endswith("; 2 more wires are listed so")


@pytest.mark.parametrize(
    "wire",
    [
        "from: A1.10, to: A1.11, function: lamp",
        "from: A1.10, to: A1.11, function: spare",  # said
        "from: A1.1, to: A1.11",  # as the way it lands on
        "from: L5.N, to: A1.1",  # the rules make it
    ],
)
def test_a_wire_whose_use_is_known(wire: str) -> None:
    assert unsaid(wire) == []
