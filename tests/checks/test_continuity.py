"""Copper: every net is a tree, and nets that belong apart stay apart."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.continuity import copper
from labelgen.problems import Problem

QUAY = """
supplies: {PULSE: {kind: pulse}, LIGHTS: {kind: dc}}
strips: {A1: {BRIDGES}, A2: }
points: {P5: {strip: A1, way: 1}, P6: {strip: A1}}
devices: {H1: {kind: lamps, strip: A1}}
"""
"""P5 names its ways: a place that is looked for is never one where a bridge would join two nets.

A1: 1 5N, 2 F, 3 5R, 4 6N, 5 F, 6 6R, 7 L, 8 to 12 spare."""


def found(railway: str, *wires: str, bridges: str = "") -> list[Problem]:
    text = railway.replace("{BRIDGES}", bridges and f"{{bridges: {bridges}}}")
    text += "wires:\n" * bool(wires) + "".join(f"  - {{{wire}}}\n" for wire in wires)
    netlist, problems = wired(text)
    assert problems == []
    return copper(described(text), netlist)


def codes(*wires: str, bridges: str = "") -> list[tuple[str, str]]:
    return [(problem.code, problem.place.source) for problem in found(QUAY, *wires, bridges=bridges)]


def test_what_the_rules_make_is_a_tree() -> None:
    assert codes() == []


@pytest.mark.parametrize(
    "wire",
    [
        "from: A1.2, to: A1.5",  # beside the link is not the same wire twice: it is that wire
        "from: A1.8, to: A1.9",  # nothing there
        "from: A1.1, to: A1.8",  # a spare way joins in
        "from: A1.5, to: A2.1",
        "from: P5.N, to: A1.8",
    ],
)
def test_wires_that_do_no_harm(wire: str) -> None:
    assert codes(wire) == []


def test_a_ring_hides_a_broken_link() -> None:
    star = ("from: PULSE.feed, to: A1.2", "from: PULSE.feed, to: A1.5")
    assert codes(*star) == []
    assert codes(*star, "from: A1.2, to: A1.5") == [("ring", "wires.2")]
    assert codes("from: A1.8, to: A1.9", "from: A1.9, to: A1.10", "from: A1.10, to: A1.8") == [("ring", "wires.2")]
    returns = ("from: P5.C, to: PULSE.return", "from: P6.C, to: PULSE.return")
    assert codes(*returns, "from: P5.C, to: P6.C") == [("ring", "wires.2")]
    (problem,) = found(QUAY, *star, "from: A1.2, to: A1.5")
    assert problem.message == ("the listed wire from A1.2 to A1.5 joins what is joined already: it makes a ring")


@pytest.mark.parametrize(
    ("wire", "one", "other"),
    [
        ("from: A1.1, to: A1.4", "contact N of lever 5", "contact N of lever 6"),
        ("from: A1.1, to: A1.3", "contact N of lever 5", "contact R of lever 5"),
        ("from: A1.1, to: A1.2", "contact N of lever 5", "PULSE.feed"),
        ("from: P5.N, to: P6.R", "contact N of lever 5", "contact R of lever 6"),
        ("from: A1.2, to: P5.C", "PULSE.feed", "PULSE.return"),
        ("from: L5.F, to: PULSE.return", "PULSE.feed", "PULSE.return"),
        ("from: A1.2, to: A1.7", "PULSE.feed", "LIGHTS.feed"),
    ],
)
def test_nets_that_belong_apart(wire: str, one: str, other: str) -> None:
    (problem,) = found(QUAY, wire)
    assert (problem.code, problem.place.source) == ("nets-joined", "wires.0")
    assert f"joins {one} with {other}" in problem.message


def test_joined_by_a_detour() -> None:
    """The first wire does no harm; the second closes the short circuit."""
    assert codes("from: A1.1, to: A1.8", "from: A1.8, to: A1.4") == [("nets-joined", "wires.1")]
    assert codes("from: A1.9, to: A1.8", "from: A1.8, to: A1.4", "from: A1.9, to: A1.1") == [("nets-joined", "wires.2")]


@pytest.mark.parametrize(
    ("bridges", "expected"),
    [
        ("[[2, 5]]", []),  # the comb takes the place of the link
        ("[[2, 5], [5, 8]]", []),
        ("[[8, 9]]", []),
        ("[[8, 9], [9, 8]]", [("ring", "strips.A1.bridges.1")]),
        ("[[8, 9, 8]]", [("ring", "strips.A1.bridges.0")]),
        ("[[1, 2]]", [("nets-joined", "strips.A1.bridges.0")]),
        ("[[8, 9], [1, 3]]", [("nets-joined", "strips.A1.bridges.1")]),
    ],
)
def test_bridges(bridges: str, expected: list[tuple[str, str]]) -> None:
    assert codes(bridges=bridges) == expected


def test_a_wire_beside_a_bridge_is_a_ring() -> None:
    assert codes("from: A1.2, to: A1.5", bridges="[[2, 5]]") == [("ring", "wires.0")]


def test_the_input_of_a_supply_is_no_output() -> None:
    """PULSE is fed by LIGHTS: its input lies on the feed of LIGHTS, and its own feed is another net."""
    railway = QUAY.replace("{kind: pulse}", "{kind: pulse, fed_by: LIGHTS}")
    assert found(railway) == []
    (problem,) = found(railway, "from: PULSE.in-feed, to: A1.2")
    assert "joins LIGHTS.feed with PULSE.feed" in problem.message


OWN_KIND = """
supplies: {D: {kind: dc}}
strips: {A1: }
kinds:
  own: {terminals: {T: , U: }, supply: dc, lever_type: rotary, group: [GROUP], chain: [CHAIN]}
devices: {X1: {kind: own, lever: 1}}
"""


def of_kind(group: str, chain: str = "") -> list[tuple[str, str]]:
    railway = OWN_KIND.replace("GROUP", group).replace("CHAIN", chain)
    return [(problem.code, problem.place.source) for problem in found(railway)]


def test_a_kind_may_lead_two_contacts_to_one_terminal() -> None:
    assert of_kind("{function: lamp, contact: a, terminal: T}, {function: lamp, contact: b, terminal: T}") == []


def test_a_kind_that_makes_a_ring() -> None:
    assert of_kind("{function: lamp, contact: a, terminal: T}, {function: lamp, contact: a, terminal: T}") == [
        ("ring", "devices.X1")
    ]


def test_a_kind_that_makes_a_short_circuit() -> None:
    feed_and_return = "{function: feed, terminal: T, supply: feed}, {function: return, terminal: T, supply: return}"
    assert of_kind("", feed_and_return) == [("nets-joined", "devices.X1")]
    assert of_kind("{function: feed, contact: F, terminal: T, chain: feed}", feed_and_return.split("}, ")[1]) == [
        ("nets-joined", "devices.X1")
    ]
