"""`chain` at a supply as it is written: one word for both terminals, or a word for each."""

import pytest
from jsonschema import Draft202012Validator

from labelgen.model.description import Description
from labelgen.reading.description_reader import read_description_text


def supply(chain: str, kind: str = "pulse") -> str:
    return f"railway: x\nsupplies:\n  D: {{kind: {kind}, chain: {chain}}}\n"


@pytest.mark.parametrize(
    ("chain", "kind", "orders"),
    [
        ("shortest", "pulse", {"feed": "shortest", "return": "shortest"}),
        ("by_strip", "pulse", {"feed": "by_strip", "return": "by_strip"}),
        ("{return: shortest}", "ac", {"feed": "by_strip", "return": "shortest"}),
        ("{A: shortest, B: by_strip}", "track", {"A": "shortest", "B": "by_strip"}),
        ("", "dc", {"feed": "by_strip", "return": "by_strip"}),
    ],
)
def test_the_order_of_each_chain(chain: str, kind: str, orders: dict[str, str]) -> None:
    description, problems = read_description_text(supply(chain, kind))
    assert problems == []
    assert description is not None
    assert {terminal: description.supplies["D"].chain_order(terminal) for terminal in orders} == orders


@pytest.mark.parametrize(
    ("chain", "code", "column", "hint"),
    [
        ("shortst", "unknown-choice", 27, "by_strip or shortest, or that for one terminal: {return: shortest}"),
        ("{feed: shortst}", "unknown-choice", 34, "Did you mean shortest"),
        ("{A: shortest}", "unknown-name", 28, "feed, return"),
        ("[shortest]", "wrong-type", 27, ""),
    ],
)
def test_what_is_wrong_with_it(chain: str, code: str, column: int, hint: str) -> None:
    _, problems = read_description_text(supply(chain))
    (problem,) = problems
    assert (problem.code, problem.place.line, problem.place.column) == (code, 3, column)
    assert hint in problem.hint


@pytest.mark.parametrize(
    ("chain", "good"),
    [("shortest", True), ({"return": "shortest"}, True), ({"return": "quickest"}, False), (["shortest"], False)],
)
def test_an_editor_is_told_both_forms(chain: object, good: bool) -> None:
    validator = Draft202012Validator(Description.model_json_schema(by_alias=True))
    assert validator.is_valid({"railway": "x", "supplies": {"D": {"kind": "dc", "chain": chain}}}) == good
