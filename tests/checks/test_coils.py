"""Coils that burn, motors that are let go of, and what nothing works."""

import pytest
from wiring.wiring_builder import described, wired

from labelgen.checks import coils
from labelgen.checks.check_list import Check
from labelgen.problems import Problem

PULSE = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: {ways: 24}}\n"


def problems(check: Check, text: str) -> list[Problem]:
    return check(described(text), wired(text)[0])


@pytest.mark.parametrize("type_", ["sprung", "passing", "stud", "buttons"])
def test_levers_that_make_for_a_moment(type_: str) -> None:
    assert problems(coils.steady_coils, f"{PULSE}levers: {{5: {{type: {type_}}}}}\npoints: {{P5: }}") == []


def test_a_lever_that_stays_on_burns_the_coil() -> None:
    text = f"{PULSE}levers: {{5: {{type: latching}}}}\npoints: {{P5A: , P5B: }}"
    (problem,) = problems(coils.steady_coils, text)
    assert (problem.code, problem.place.source) == ("coil-steady", "levers.5.type")
    assert problem.message == "lever 5 is latching and stays on, and P5A and P5B may be fed for a moment only"


OWN = """
kinds:
  own:
    terminals: {{N: , C: , R: }}
    supply: {supply}
    lever_type: {type}
    ohms: {ohms}
    group:
      - {{function: normal, contact: N, terminal: N}}
      - {{function: feed, contact: F, chain: feed}}
      - {{function: reverse, contact: R, terminal: R}}
    chain: [{{function: return, terminal: C, supply: return}}]
points: {{P5: {{kind: own}}}}
"""


def test_a_kind_of_ones_own_whose_lever_stays_on() -> None:
    text = PULSE + OWN.format(supply="pulse", type="latching", ohms=5)
    assert [one.place.source for one in problems(coils.steady_coils, text)] == ["points.P5"]


def test_an_uncoupler_on_a_lever_that_stays_on() -> None:
    text = "supplies: {S: {kind: dc}}\nstrips: {A1: }\nlevers: {1: {type: on-off}}\n"
    text += "devices: {U: {kind: uncoupler, lever: 1}}"
    assert [one.code for one in problems(coils.steady_coils, text)] == ["coil-steady"]


@pytest.mark.parametrize(
    ("rows", "terminal"),
    [
        ("group: [{function: feed, terminal: N, chain: feed}]", "N"),
        ("chain: [{function: feed, terminal: C, supply: feed}]", "C"),
        ("chain: [{function: return, terminal: C, supply: return}]", None),
    ],
)
def test_a_coil_that_nothing_switches(rows: str, terminal: str | None) -> None:
    kinds = f"kinds: {{own: {{terminals: {{N: , C: }}, supply: pulse, {rows}}}}}\n"
    found = problems(coils.steady_coils, f"{PULSE}{kinds}devices: {{D: {{kind: own}}}}")
    assert [one.place.source for one in found] == (["devices.D"] if terminal else [])
    assert all(f"its terminal {terminal} is fed all the time" in one.message for one in found)


def test_a_probe_has_no_coil() -> None:
    assert problems(coils.steady_coils, f"{PULSE}devices: {{PROBE: {{kind: probe}}}}") == []


@pytest.mark.parametrize(
    ("type_", "codes"), [("sprung", ["motor-not-held"]), ("passing", ["motor-not-held"]), ("latching", [])]
)
def test_a_slow_motor_must_not_be_let_go_of(type_: str, codes: list[str]) -> None:
    text = "supplies: {S: {kind: ac}}\nstrips: {A1: }\npoints: {P5: {kind: stall-motor-one-wire}}\n"
    found = problems(coils.motors_not_held, f"{text}levers: {{5: {{type: {type_}}}}}")
    assert [one.code for one in found] == codes


def test_a_lamp_that_is_lit_for_a_moment_is_no_fault() -> None:
    text = "supplies: {S: {kind: dc}}\nstrips: {A1: }\nlevers: {1: {type: sprung}}\n"
    assert problems(coils.motors_not_held, f"{text}devices: {{S1: {{kind: signal-2-aspect, lever: 1}}}}") == []


@pytest.mark.parametrize(
    ("supply", "type_", "ohms", "found"),
    [
        ("dc", "sprung", "4.5", True),
        ("ac", "passing", "40", True),
        ("dc", "sprung", "41", False),
        ("dc", "latching", "4.5", False),
        ("pulse", "sprung", "4.5", False),
    ],
)
def test_coils_without_a_discharge_unit(*, supply: str, type_: str, ohms: str, found: bool) -> None:
    text = f"supplies: {{S: {{kind: {supply}}}}}\nstrips: {{A1: }}\n" + OWN.format(supply=supply, type=type_, ohms=ohms)
    codes = [(one.code, one.place.source) for one in problems(coils.bare_coils, text)]
    assert codes == ([("no-discharge-unit", "points.P5")] if found else [])


@pytest.mark.parametrize(("coils_on", "lamps_on", "by"), [("pulse", "dc", []), ("dc", "ac", ["S"])])
def test_lamps_beside_the_coils_may_be_fed_all_the_time(coils_on: str, lamps_on: str, by: list[str]) -> None:
    """What counts is the supply behind the lever's contacts."""
    text = f"supplies: {{S: {{kind: {coils_on}}}, LIGHT: {{kind: {lamps_on}}}}}\nstrips: {{A1: }}\n"
    supply = f"{{lamps: {lamps_on}, coils: {coils_on}}}"
    own = OWN.format(supply=supply, type="sprung", ohms=5).replace("chain: feed", "chain: coils.feed")
    own = own.replace("    chain:", "      - {function: lamp, terminal: C, chain: lamps.feed}\n    chain:")
    found = problems(coils.bare_coils, text + own.replace("supply: return", "supply: coils.return"))
    assert [one.message.split(" are fed by ")[1].split()[0] for one in found] == by


def test_a_motor_with_lamps_of_the_catalogue() -> None:
    text = "supplies: {S: {kind: pulse}, LIGHT: {kind: dc}}\nstrips: {A1: }\npoints: {P5: {kind: twin-coil-lamps}}"
    assert problems(coils.bare_coils, text) == []


def test_the_devices_own_ohms_count() -> None:
    text = "supplies: {S: {kind: dc}}\nstrips: {A1: }\n" + OWN.format(supply="dc", type="sprung", ohms=100)
    assert problems(coils.bare_coils, text) == []
    assert len(problems(coils.bare_coils, text.replace("kind: own}", "kind: own, ohms: 5}"))) == 1


def test_memory_wire_is_no_coil() -> None:
    text = "supplies: {S: {kind: dc}}\nstrips: {A1: }\npoints: {P5: {kind: memory-wire}}"
    assert problems(coils.bare_coils, text) == []


def test_a_motor_that_goes_one_way_only() -> None:
    text = PULSE + OWN.format(supply="pulse", type="sprung", ohms=5)
    assert problems(coils.one_way_motors, text) == []
    one_way = text.replace("      - {function: normal, contact: N, terminal: N}\n", "")
    (problem,) = problems(coils.one_way_motors, one_way)
    assert (problem.place.source, problem.message) == (
        "kinds.own",
        "the kind own can be thrown reverse, and never back",
    )


def test_a_kind_that_nobody_uses_is_not_looked_at() -> None:
    text = PULSE + OWN.format(supply="pulse", type="sprung", ohms=5).replace("P5: {kind: own}", "P5: ")
    assert (
        problems(
            coils.one_way_motors,
            text.replace("{function: normal, contact: N", "{function: reverse, mark: x, contact: N"),
        )
        == []
    )


@pytest.mark.parametrize(("lever", "codes"), [("", ["no-lever"]), (", lever: 3", []), (", lever: none", [])])
def test_a_device_without_its_lever(lever: str, codes: list[str]) -> None:
    text = "supplies: {CAB: {kind: track}}\nstrips: {A1: }\n"
    text += f"devices: {{Y: {{kind: section{lever}}}, F: {{kind: track-feed}}}}"
    assert [one.code for one in problems(coils.devices_without_lever, text)] == codes
