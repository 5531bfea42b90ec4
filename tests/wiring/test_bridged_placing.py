"""Automatic placing and `bridges`: a comb or jumper never comes to join what belongs apart."""

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from wiring.recorded_builder import Made
from wiring.wiring_builder import described, wired

from labelgen.checks.continuity import copper
from labelgen.problems import has_errors


def ways(strip: str, points: str = "P6: , P7: ") -> list[list[int]]:
    netlist, problems = wired(
        f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {{{strip}}}}}\npoints: {{{points}}}"
    )
    assert not has_errors(problems)
    return [sorted(group.ways.values()) for circuit in netlist.circuits for group in circuit.groups]


@pytest.mark.parametrize(
    ("strip", "expected"),
    [
        ("bridges: [[1, 4]]", [[1, 2, 3], [5, 6, 7]]),  # else 6N would be 7N
        ("bridges: [[2, 5, 8, 11]]", [[1, 2, 3], [4, 5, 6]]),  # the feed's own comb is what it is for
        ("bridges: [[1, 2]]", [[2, 3, 4], [5, 6, 7]]),  # one group's own ways belong apart too
        ("bridges: [[1, 2], [2, 3]]", [[3, 4, 5], [6, 7, 8]]),  # bridges that share a way are one piece
        ("bridges: [[1, 12]], taken: {12: doorbell}", [[2, 3, 4], [5, 6, 7]]),
        ("bridges: [[1, 12]], keep: [12]", [[1, 2, 3], [4, 5, 6]]),
    ],
)
def test_a_run_that_a_bridge_would_join_is_passed_over(strip: str, expected: list[list[int]]) -> None:
    assert ways(strip) == expected


def test_a_named_strip_without_another_run_is_full() -> None:
    text = (
        "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {ways: 6, bridges: [[1, 4]]}}\npoints: {P6: , P7: {strip: A1}}"
    )
    assert [one.code for one in wired(text)[1]] == ["strip-full"]


def test_what_is_recorded_counts() -> None:
    made = Made("supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {}}\npoints: {P6: }")
    more = made.then("supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {bridges: [[3, 5]]}}\npoints: {P6: , P7: }")
    assert more.ways("P7") == ["A1.6", "A1.7", "A1.8"]


def test_a_group_that_grows_minds_bridges_too() -> None:
    supplies = "supplies: {PULSE: {kind: pulse}, CAB: {kind: track}}\n"
    made = Made(supplies + "strips: {A1: {}}\npoints: {P6: }")
    grown = made.then(supplies + "strips: {A1: {bridges: [[1, 4]]}}\npoints: {P6: {kind: twin-coil-frog}}")
    assert grown.ways("P6") == ["A1.1", "A1.2", "A1.3", "A1.5", "A1.6", "A1.7"]


@given(
    st.lists(st.lists(st.integers(1, 16), min_size=2, max_size=4, unique=True), max_size=3),
    st.sampled_from(["P6: , P7: ", "P6A: {kind: twin-coil-frog}, P6B: {kind: twin-coil-frog}", "P6: , P7A: , P7B: "]),
)
def test_no_placing_ever_joins_two_nets(bridges: list[list[int]], points: str) -> None:
    text = (
        "supplies: {PULSE: {kind: pulse}, CAB: {kind: track}}\n"
        f"strips: {{A1: {{ways: 16, bridges: {bridges}}}}}\npoints: {{{points}}}"
    )
    netlist, problems = wired(text)
    if not has_errors(problems):
        found = {problem.code for problem in copper(described(text), netlist)}
        assert "nets-joined" not in found
        combs: nx.Graph[str] = nx.Graph([(f"A1.{a}", f"A1.{b}") for a, *rest in bridges for b in rest])
        combs.add_edges_from((wire.start.name, wire.finish.name) for wire in netlist.wires)
        for one, other in (("PULSE.feed", "PULSE.return"), ("L6.N", "L6.R"), ("L6.N", "PULSE.feed")):
            assert not (one in combs and other in combs and nx.has_path(combs, one, other))
