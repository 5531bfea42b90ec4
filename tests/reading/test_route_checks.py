"""What is wrong with routes as they are written: code, line and column of each problem."""

import pytest
from jsonschema import Draft202012Validator

from labelgen.model.description import Description
from labelgen.reading.description_reader import read_description_text

HEAD = """railway: x
supplies: {PULSE: {kind: pulse}}
levers: {7: {shown: 07A}}
points: {P5: , P6: , P7: }
"""


def told(text: str) -> list[tuple[str, int, int]]:
    _, problems = read_description_text(HEAD + text)
    return [(problem.code, problem.place.line, problem.place.column) for problem in problems]


GOOD = """routes:
  Platform 1: {5: normal, 6: reverse}
  Goods: {levers: {07A: reverse}, number: 12, panel: X}
  Yard: {levers: {5: normal}, stud: 3}
panels:
  X: {routes: {Goods: [1, 2]}, matrix: [3, 4]}
"""


def test_routes_in_both_forms() -> None:
    description, problems = read_description_text(HEAD + GOOD)
    assert problems == []
    assert description is not None
    assert {name: route.levers for name, route in description.routes.items()} == {
        "Platform 1": {"5": "normal", "6": "reverse"},
        "Goods": {"07A": "reverse"},
        "Yard": {"5": "normal"},
    }
    assert description.panels["X"].routes == {"Goods": (1, 2)}
    assert description.panels["X"].matrix == (3, 4)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("routes:\n  a: {5: normal, 77: normal}\n", ("unknown-name", 6, 18)),
        ("routes:\n  a: {levers: {77: normal}}\n", ("unknown-name", 6, 16)),
        ("routes:\n  a: {5: up}\n", ("unknown-choice", 6, 10)),
        ("routes:\n  a: {5: }\n", ("unknown-choice", 6, 7)),
        ("routes:\n  a: {5: {b: normal}}\n", ("unknown-choice", 6, 10)),
        ("routes:\n  a: {levers: {5: Normal}}\n", ("unknown-choice", 6, 19)),
        ("routes:\n  a: {5: normal, 5: reverse}\n", ("repeated-key", 6, 18)),
        ("routes:\n  a: {7: normal, 07A: reverse}\n", ("route-contradicts", 6, 18)),
        ("routes:\n  a: {7: normal, 07A: normal}\n", ("route-contradicts", 6, 18)),
        ("routes:\n  a:\n", ("missing-key", 6, 3)),
        ("routes:\n  a: {number: 5}\n", ("missing-key", 6, 3)),
        ("routes:\n  a: [5]\n", ("wrong-type", 6, 6)),
        ("routes:\n  a: {levers: {5: normal}, numbr: 5}\n", ("unknown-key", 6, 28)),
        ("routes:\n  a: {levers: {5: normal}, number: a b}\n", ("bad-id", 6, 36)),
        ("routes:\n  a: {levers: {5: normal}, panel: Z}\n", ("unknown-name", 6, 35)),
        ("routes:\n  a: {levers: {5: normal}, number: 1, stud: 2}\n", ("wrong-type", 6, 39)),
        (
            "routes:\n  a: {levers: {5: normal}, number: 1a}\n  b: {levers: {5: reverse}, stud: 1A}\n",
            ("route-stud-taken", 7, 35),
        ),
        ("routes: {a: {5: normal}}\npanels: {X: {routes: {b: [1, 2]}}}\n", ("unknown-name", 6, 23)),
        ("routes: {a: {5: normal}}\nstrips: {Route1: {}}\n", ("bad-id", 6, 10)),
        ("routes: {a: {5: normal}}\nstrips: {MATRIX2: {}}\n", ("bad-id", 6, 10)),
    ],
)
def test_one_thing_that_is_wrong(text: str, expected: tuple[str, int, int]) -> None:
    assert told(text) == [expected]


@pytest.mark.parametrize("name", ["ROUTE2", "MATRIX1", "MATRIX02", "MATRIXA", "ROUTE"])
def test_names_that_only_look_like_ours_may_be_used(name: str) -> None:
    assert told(f"routes: {{a: {{5: normal}}}}\nstrips: {{{name}: {{}}}}\n") == []


def test_without_routes_nothing_is_kept_for_them() -> None:
    assert told("strips: {MATRIX: {}, ROUTE1: {}}\n") == []


def test_editors_are_told_of_both_forms() -> None:
    """Judged by an independent JSON Schema validator."""
    validator = Draft202012Validator(Description.model_json_schema(by_alias=True))

    def fits(route: object) -> bool:
        return validator.is_valid({"railway": "x", "routes": {"a": route}})

    assert fits({"5": "normal"})
    assert fits({"levers": {"5": "reverse"}, "number": "3", "panel": "X"})
    assert not fits({"5": "up"})
    assert not fits({"levers": {"5": "up"}})
    assert not fits(["5"])


@pytest.mark.parametrize(
    ("levers", "expected"),
    [
        ("{5: normal, 07A: reverse}", []),
        ("{77: normal}", [("unknown-name", 6, 19)]),
        ("{5: up}", [("unknown-choice", 6, 22)]),
        ("{7: normal, 07A: reverse}", [("route-contradicts", 6, 30)]),
        ("", [("missing-key", 6, 15)]),
        ("[5]", [("wrong-type", 6, 18)]),
    ],
)
def test_roads_over_a_slip_are_looked_at_like_routes(levers: str, expected: list[tuple[str, int, int]]) -> None:
    assert told(f"devices:\n  S: {{roads: {{a: {levers}}}, kind: lamps}}\n") == expected
