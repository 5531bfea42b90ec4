"""Parts and lamps that a panel names."""

import pytest

from labelgen.problems import Problem
from labelgen.reading.description_reader import read_description_text

TEXT = """
railway: Marram Quay
supplies: {{PULSE: {{kind: pulse}}}}
strips: {{A1: }}
points: {{P1: }}
devices: {{YARD: {{kind: section, lever: 11}}, SIG: {{kind: signal-2-aspect, lever: 3}}}}
hardware: {{my-toggle: {{about: mine, use: lever, hole: 6, covers: 10, fingers: 18, body: [12, 10]}}}}
panels: {{QUAY: {{size: [200, 100], {keys}}}}}
"""


def told(keys: str) -> list[Problem]:
    return read_description_text(TEXT.format(keys=keys))[1]


@pytest.mark.parametrize(
    "keys",
    [
        "hardware: {levers: my-toggle, routes: push-button-12, lamps: lamp-5, 11: standard-toggle, '1': rotary-switch}",
        "hardware: {levers: stud-4, routes: stud-4}",
        "lamps: yes",
        "lamps: {roads: yes, P1.normal: [1, 1], P1.reverse: [[2, 2], [3, 2]], YARD: [5, 5], SIG.G: [6, 6]}",
        "lamps: {P1.N: [1, 1], SIG: [2, 2], PULSE: [4, 4]}",
    ],
)
def test_what_is_right(keys: str) -> None:
    assert told(keys) == []


@pytest.mark.parametrize(
    ("keys", "code", "says", "hint"),
    [
        ("hardware: {levers: my-togle}", "unknown-name", "there is no part `my-togle`", "my-toggle"),
        ("hardware: {99: my-toggle}", "unknown-name", "there is no lever `99`", "11"),
        (
            "hardware: {levers: lamp-3}",
            "wrong-type",
            "lamp-3 is a lamp, and cannot be the part of the levers",
            "my-toggle",
        ),
        ("hardware: {11: lamp-3}", "wrong-type", "cannot be the part of lever 11", "miniature-toggle"),
        ("hardware: {routes: my-toggle}", "wrong-type", "the buttons of routes", "push-button-7"),
        ("hardware: {lamps: stud-4}", "wrong-type", "the lamps", "lamp-3, lamp-3-bezel, lamp-5"),
        ("lamps: {P1: [1, 1]}", "unknown-name", "the lamp `P1` shows no road", "`P1.normal`"),
        ("lamps: {P1.left: [1, 1]}", "unknown-name", "no road or terminal `left`", "normal"),
        ("lamps: {P9.normal: [1, 1]}", "unknown-name", "`P9.normal`", "P1.normal"),
        ("lamps: {YRD: [1, 1]}", "unknown-name", "`YRD`", "YARD"),
        ("lamps: {SIG.B: [1, 1]}", "unknown-name", "`B`", "G"),
    ],
)
def test_what_is_wrong(keys: str, code: str, says: str, hint: str) -> None:
    (problem,) = told(keys)
    assert problem.code == code
    assert says in problem.message
    assert hint in problem.hint
    assert problem.place.line == 8
