"""Ways of one kind that would bear the same head."""

import pytest
from wiring.wiring_builder import built_in_kinds, described, netlist_of

from labelgen.checks.kind_heads import heads_within_kinds
from labelgen.problems import Problem, Severity

LAMPS = """
supplies: {D: {kind: dc}}
strips: {A1: {ways: 12}}
devices: {S7: {kind: sig, lever: 7}, S8: {kind: sig, lever: 8}}
kinds:
  sig:
    terminals: {R: , G: , C: }
    supply: dc
    lever_type: rotary
    group: [{function: feed, contact: F, chain: feed}, %s]
    chain: [{function: return, terminal: C, supply: return}]
"""


SUPPLIES = {"pulse": "P", "dc": "D", "ac": "A", "track": "T", "digital": "N"}


def told(text: str) -> list[Problem]:
    return heads_within_kinds(described(text), netlist_of(text))


def test_two_lamps_of_one_lever_and_one_head() -> None:
    """Both 7L: said once for the kind, at its second row."""
    rows = "{function: lamp, contact: 1, terminal: R}, {function: lamp, contact: 2, terminal: G}"
    (problem,) = told(LAMPS % rows)
    assert (problem.code, problem.severity, problem.place.source) == (
        "heads-alike",
        Severity.CAUTION,
        "kinds.sig.group.2",
    )
    assert problem.message == (
        "two ways of the kind sig are both called 7L, and nothing joins them: that of terminal R and that of terminal G"
    )
    assert "`mark`" in problem.hint


@pytest.mark.parametrize(
    "rows",
    [
        "{function: lamp, mark: r, contact: 1, terminal: R}, {function: lamp, mark: g, contact: 2, terminal: G}",
        "{function: lamp, contact: 1, terminal: R}, {function: lamp, contact: 1, terminal: G}",  # one contact
    ],
)
def test_marks_and_one_contact_tell_them_apart_or_join_them(rows: str) -> None:
    assert told(LAMPS % rows) == []


def test_a_fed_way_and_another() -> None:
    """The feed's own way, and a lamp with its code: one is joined to the supply, the other to the lever."""
    (problem,) = told(LAMPS % "{function: feed, contact: 1}")
    assert "that of contact F and that of contact 1" in problem.message
    assert told(LAMPS % "{function: feed, terminal: R, chain: feed}") == [], "two ways of one chain"


def test_a_code_that_the_builder_gave() -> None:
    text = "supplies: {PU: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: , P6: }\nfunctions: {normal: {code: R}}"
    (problem,) = told(text)
    assert problem.place.source == "functions.normal.code"
    assert "called 5R" in problem.message


@pytest.mark.parametrize("kind", sorted(built_in_kinds()))
def test_no_built_in_kind_has_any(kind: str) -> None:
    supplies = "{P: {kind: pulse}, D: {kind: dc}, A: {kind: ac}, T: {kind: track}, N: {kind: digital}}"
    roles = ", ".join(f"{role}: {SUPPLIES[needed]}" for role, needed in built_in_kinds()[kind].supply.items())
    given = (
        f"supplies: {{{roles}}}" if len(built_in_kinds()[kind].supply) > 1 else f"supply: {roles.rpartition(' ')[2]}"
    )
    assert (
        told(f"supplies: {supplies}\nstrips: {{A1: {{ways: 40}}}}\ndevices: {{X: {{kind: {kind}, lever: 9, {given}}}}}")
        == []
    )
