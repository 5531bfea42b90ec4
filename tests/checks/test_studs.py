"""Studs need a probe that brings them the feed."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks.studs import studs_without_probe
from labelgen.problems import Problem, Severity

ONE = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {ways: 24}}\n"
STUDS = ONE + "levers: {5: {type: stud}, 10: {type: stud}, 6: {type: sprung}}\npoints: {P5: , P10: , P6: }\n"


def problems(text: str) -> list[Problem]:
    return studs_without_probe(described(text), wired(text)[0])


def test_studs_without_a_probe_are_told_once_for_each_supply() -> None:
    (problem,) = problems(STUDS)
    assert (problem.code, problem.severity) == ("stud-without-probe", Severity.CAUTION)
    assert problem.message == "no probe brings PULSE's feed to the studs of lever 5 and lever 10"
    assert "`PROBE: {kind: probe, supply: PULSE}`" in problem.hint
    assert problem.place.source == "levers.5.type"


@pytest.mark.parametrize(
    "devices",
    [
        "PROBE: {kind: probe}",
        "WAND: {kind: wand}",  # the builder's own kind, with nothing but a tip
    ],
)
def test_a_probe_on_the_feed_will_do(devices: str) -> None:
    kinds = "kinds: {wand: {terminals: {t: }, supply: pulse, chain: [{function: feed, terminal: t, supply: feed}]}}\n"
    assert problems(f"{STUDS}{kinds}devices: {{{devices}}}") == []


def test_a_probe_on_another_supply_does_not() -> None:
    two = "supplies: {PULSE: {kind: pulse}, SECOND: {kind: pulse}}\nstrips: {A1: }\nlevers: {5: {type: stud}}\n"
    text = two + "points: {P5: {supply: PULSE}}\ndevices: {PROBE: {kind: probe, supply: %s}}"
    assert [one.message for one in problems(text % "SECOND")] == [
        "no probe brings PULSE's feed to the studs of lever 5"
    ]
    assert problems(text % "PULSE") == []


def test_something_else_on_the_feed_is_no_probe() -> None:
    board = "supplies: {FIVE: {kind: dc}}\nstrips: {A1: }\nlevers: {5: {type: stud}}\n"
    text = board + "devices: {D5: {kind: memory-wire, lever: 5}, BOARD: {kind: driver-board}}"
    assert len(problems(text)) == 1


def test_a_kind_made_for_studs_has_no_feed_of_its_own_to_drop() -> None:
    kinds = """
kinds:
  studded:
    terminals: {N: , C: }
    supply: pulse
    lever_type: stud
    group: [{function: normal, contact: N, terminal: N}]
    chain: [{function: return, terminal: C, supply: return}]
"""
    text = f"{ONE}{kinds}points: {{P5: {{kind: studded}}}}"
    assert [one.place.source for one in problems(text)] == ["points.P5"]
    assert problems(f"{text}\ndevices: {{PROBE: {{kind: probe}}}}") == []


def test_routes_that_are_studs() -> None:
    text = ONE + "points: {P5: , P6: }\nroutes: {Arrival: {levers: {5: reverse, 6: normal}, stud: A}}\n"
    (problem,) = problems(text)
    assert problem.message == "no probe brings PULSE's feed to the studs of route 'Arrival'"
    assert problems(f"{text}devices: {{PROBE: {{kind: probe}}}}") == []
