"""How a problem looks."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from labelgen.places import Place
from labelgen.problem_text import as_json, as_text, harmless, summary
from labelgen.problems import CODES, Problem


def problem(source: str = "", column: int = 1, length: int = 1, **changes: str) -> Problem:
    place = Place(file="quay.yaml", line=31, column=column, length=length, source=source)
    given_ = {"code": "bad-number", "message": "'4,5' is not a plain number", "hint": "Write 4.5."} | changes
    return Problem(code=given_["code"], message=given_["message"], hint=given_["hint"], place=place)


def test_what_is_wrong_comes_first_then_where_then_what_to_do() -> None:
    assert as_text(problem("    ohms: 4,5", 11, 3)) == (
        "'4,5' is not a plain number.\n"
        "  error · quay.yaml, line 31, column 11\n"
        "  31 |     ohms: 4,5\n"
        "     |           ^^^\n"
        "  Write 4.5. [bad-number]"
    )


def test_without_a_line_or_a_hint() -> None:
    assert as_text(problem(code="idle-break", message="this is so!", hint="")) == (
        "This is so!\n  caution · quay.yaml, line 31, column 1\n  [idle-break]"
    )


@pytest.mark.parametrize(
    ("message", "said"),
    [
        ("this line has no colon", "This line has no colon."),
        ("b1a needs 3 ways", "b1a needs 3 ways."),
        ("P5 needs 3 ways", "P5 needs 3 ways."),
        ("3 wires meet here", "3 wires meet here."),
        ("quay.built.yaml is of another railway", "quay.built.yaml is of another railway."),
        ("quay.yaml", "quay.yaml."),
        ("north/quay is a folder", "north/quay is a folder."),
        ("stop. go on", "Stop. go on."),
        ("", "."),
    ],
)
def test_a_message_begins_as_a_sentence_does_unless_with_a_name(message: str, said: str) -> None:
    assert as_text(problem(message=message)).split("\n")[0] == said


def test_a_file_name_with_a_blank_in_it_stays_as_it_is() -> None:
    place = Place(file="railways/old quay.built.yaml")
    told = Problem(code="idle-break", message="old quay.built.yaml is of another railway", hint="", place=place)
    assert as_text(told).startswith("old quay.built.yaml is")


@pytest.mark.parametrize(
    ("source", "column", "length", "before", "marked"),
    [
        ("a\tb: x", 6, 1, "  31 | a    b: ", "x"),
        ("門鈴: x y", 5, 1, "  31 | 門鈴: ", "x"),
        ("name: 門鈴 2", 7, 2, "  31 | name: ", "門鈴"),
        ("na\x00me: x", 3, 1, "  31 | na", "␀"),
        ("na\x7fme: x", 3, 1, "  31 | na", "␡"),
        ("a: \u202eb", 4, 1, "  31 | a: ", "<U+202E>"),
        ("a: x", 5, 1, "  31 | a: x", ""),
        ("a:\u00a0x", 3, 1, "  31 | a:", " "),
        ("e\u0301a: x", 5, 1, "  31 | e\u0301a:", " "),
    ],
)
def test_the_mark_stands_under_its_place(source: str, column: int, length: int, before: str, marked: str) -> None:
    """Cell for cell, as a terminal shows them: wide characters take two."""
    lines = as_text(problem(source, column, length)).split("\n")
    assert lines[2].startswith((before + marked).rstrip())
    mark = lines[3]
    assert cell_len(mark[: mark.index("^")]) == cell_len(before)
    assert mark.count("^") == max(1, cell_len(marked))


def test_a_long_line_is_cut_around_the_mark() -> None:
    source = "x" * 500 + " here " + "y" * 500
    lines = as_text(problem(source, 502, 4)).split("\n")
    start = lines[3].index("^")
    assert lines[2][start : start + 4] == "here"
    assert lines[2].count("…") == 2
    assert cell_len(lines[2]) < 120
    lines = as_text(problem("a: " + "x" * 500, 4, 500)).split("\n")
    assert lines[2].endswith("…")
    assert cell_len(lines[3]) < 120
    lines = as_text(problem("a" * 500 + "b", 501, 1)).split("\n")
    assert lines[2].endswith("b")
    assert cell_len(lines[2]) > 90


def test_a_huge_line_costs_no_more_than_what_is_shown() -> None:
    assert len(as_text(problem("門" * 5_000_000, 2_500_000, 2_000_000))) < 500


def test_the_file_and_the_words_are_harmless_too() -> None:
    shown = as_text(problem(message="there is no `\x1b[2J`", hint="not \u202e"))
    assert "\x1b" not in shown
    assert "\u202e" not in shown


@given(st.text(max_size=300), st.integers(1, 310), st.integers(1, 310))
def test_any_line_can_be_shown(source: str, column: int, length: int) -> None:
    shown = as_text(problem(source, column, length))
    lines = shown.split("\n")
    assert all(line.isprintable() for line in lines)
    if source.strip():
        assert len(lines) == 5
        assert cell_len(lines[2]) <= 120
        assert cell_len(lines[3]) <= 120
    else:
        assert len(lines) == 3


@given(st.text())
def test_harmless_text_can_be_printed(text: str) -> None:
    assert harmless(text).isprintable()


def test_json_is_as_the_format_says() -> None:
    """Section 9 of the format."""
    found = json.loads(json.dumps(as_json([problem("    ohms: 4,5", 11, 3)])))
    assert found == {
        "problems": [
            {
                "code": "bad-number",
                "severity": "error",
                "message": "'4,5' is not a plain number",
                "hint": "Write 4.5.",
                "file": "quay.yaml",
                "line": 31,
                "column": 11,
            }
        ],
        "accepted": [],
    }
    assert as_json([]) == {"problems": [], "accepted": []}


@pytest.mark.parametrize(
    ("codes", "words"),
    [
        ([], "no problems"),
        (["tab"], "1 error"),
        (["tab", "idle-break", "tab"], "2 errors and 1 caution"),
        (["no-lengths", "no-lengths"], "2 notes"),
        (["no-lengths", "tab", "idle-break", "idle-break"], "1 error, 2 cautions and 1 note"),
    ],
)
def test_how_many(codes: list[str], words: str) -> None:
    assert set(codes) <= CODES.keys()
    assert summary(problem(code=code) for code in codes) == words
