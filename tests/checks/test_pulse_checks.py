"""Weak throws, hot wires and worn contacts, each once, and in the builder's words."""

from pathlib import Path

from test_ratings import HEAD, said

from labelgen.checks import pulses
from labelgen.pipeline import check_file

CROSSOVER = HEAD + (
    "supplies: {PULSE: {kind: pulse, at: [1400, 100], volts: 24, microfarads: 1000}}\n"
    "points: {P5A: {at: [1600, 300]}, P5B: {at: [2600, 300]}, P6: {at: [1700, 200]}}\n"
)


def test_a_weak_throw_is_said_once_for_its_supply() -> None:
    (problem,) = said(pulses.weak_throws, CROSSOVER)
    assert problem.message.startswith("lever 5 gives P5B 0.1")
    assert problem.message.endswith("less than 0.25 J may not throw it; 1 more throw is weak")
    assert problem.hint.startswith("With a bank of 2200 µF it would get 0.")


def test_several_weak_ones_are_counted() -> None:
    (problem,) = said(pulses.weak_throws, CROSSOVER.replace("microfarads: 1000", "microfarads: 470"))
    assert problem.message.endswith("; 3 more throws are weak")


def test_enough_is_enough() -> None:
    assert said(pulses.weak_throws, CROSSOVER.replace("microfarads: 1000", "microfarads: 4700")) == []


def test_what_the_figures_say_goes_before_the_rule_of_thumb(tmp_path: Path) -> None:
    file = tmp_path / "quay.yaml"
    file.write_text(CROSSOVER, encoding="utf-8")
    _, problems = check_file(file)
    codes = [problem.code for problem in problems]
    assert codes.count("weak-throw") == 1
    assert "bank-small" not in codes


def test_a_weak_throw_may_be_accepted(tmp_path: Path) -> None:
    file = tmp_path / "quay.yaml"
    file.write_text(CROSSOVER.replace("volts: 24", "volts: 24, accepted: {weak-throw: tried}"), encoding="utf-8")
    checked, problems = check_file(file)
    assert checked is not None
    assert [one.code for one in checked.acceptances] == ["weak-throw"]
    codes = {problem.code for problem in problems}
    assert not codes & {"weak-throw", "bank-small"}, "nor is the rule of thumb said in its place"


def test_figures_are_not_asked_of_wiring_with_errors(tmp_path: Path) -> None:
    file = tmp_path / "quay.yaml"
    file.write_text(f"{CROSSOVER}wires: [{{from: A1.1, to: A1.1}}]\n", encoding="utf-8")
    checked, problems = check_file(file)
    assert checked is not None
    assert checked.figures.throws == ()
    assert "weak-throw" not in {problem.code for problem in problems}


def test_hot_wires_are_named_throw_by_throw() -> None:
    text = CROSSOVER.replace("microfarads: 1000", "microfarads: 90000") + "functions: {normal: {size: 36 AWG}}\n"
    problems = said(pulses.hot_wires, text)
    assert [problem.message.split(" heats ")[0] for problem in problems] == [
        "the pulse of lever 5",
        "the pulse of lever 6",
    ]
    assert "(5N, 36 AWG)" in problems[0].message
    # (115 × 0.01267 mm²)² = 2.1 A²s.
    assert problems[0].message.endswith("and it stands 2.1")


WORN = "use: lever, hole: 6.5, covers: 11.5, fingers: 19, body: [13, 13]"


def test_contacts_of_levers_and_routes() -> None:
    text = CROSSOVER.replace("row: 5}", "row: 5}, hardware: {levers: toggle, routes: knob}") + (
        f"hardware: {{toggle: {{about: a toggle, {WORN}, contact_amps2_seconds: 0.1}}, "
        "knob: {about: a button, use: button, hole: 7, covers: 9, fingers: 14, body: [9, 9], "
        "contact_amps2_seconds: 0.05}}\n"
        "routes: {Quay: {6: normal}}\n"
    )
    levers, routes = said(pulses.worn_contacts, text)
    assert levers.message.startswith("PULSE's pulse through lever 5 is up to 0.1")
    assert "(a toggle) stands 0.1" in levers.message
    assert routes.message.startswith("PULSE's pulse through route Quay is up to 0.06")
    assert said(pulses.worn_contacts, text.replace("contact_amps2_seconds: 0", "contact_amps2_seconds: 9")) == []
    assert said(pulses.worn_contacts, CROSSOVER) == []
