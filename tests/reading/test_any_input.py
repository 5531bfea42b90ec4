"""Whatever is in a file, reading it ends with problems, never with a traceback."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from labelgen.data_files import layouts
from labelgen.problem_text import as_text
from labelgen.problems import Problem, has_errors
from labelgen.reading.description_reader import read_description_bytes, read_description_text

EXAMPLE = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
PIECES = st.sampled_from(
    [
        "a",
        "lever",
        "P5",
        "railway",
        "points",
        ":",
        ": ",
        " ",
        "  ",
        "\n",
        "\n  ",
        "- ",
        "#",
        " #2",
        "[",
        "]",
        "{",
        "}",
        ",",
        '"',
        "'",
        "\\",
        "|",
        ">",
        "&a ",
        "*a",
        "!t ",
        "? ",
        "%",
        "@",
        "\t",
        "---",
        "...",
        "<<: ",
        "\r\n",
        "é",
        "𝄞",
        "\x00",
        "\ufeff",
    ]
)


def sound(problems: list[Problem], text: str) -> None:
    """Every place lies in the text, and every problem can be shown."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for problem in problems:
        assert 1 <= problem.place.line <= len(lines)
        assert 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1
        assert problem.message
        assert problem.hint
        assert as_text(problem)
    keys = [(problem.place.line, problem.place.column) for problem in problems]
    assert keys == sorted(keys)


@given(st.binary(max_size=300))
@example(b"\xff\xfe")
@example(b"\xef\xbb\xbf")
@example(b"a: \xed\xa0\x80")
def test_any_bytes(data: bytes) -> None:
    description, problems = read_description_bytes(data, "quay.yaml")
    assert description is not None or has_errors(problems)
    for problem in problems:
        assert as_text(problem)


@settings(max_examples=600)
@given(st.lists(PIECES, max_size=40).map("".join))
def test_any_signs_of_yaml(text: str) -> None:
    description, problems = read_description_text(text)
    assert description is not None or has_errors(problems)
    sound(problems, text)


@settings(max_examples=300)
@given(st.data())
def test_a_good_description_with_something_changed(data: st.DataObject) -> None:
    text = EXAMPLE
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        gone = data.draw(st.integers(0, 12))
        text = (
            text[:at]
            + data.draw(st.one_of(PIECES, st.text(max_size=3).filter(lambda x: "\r" not in x)))
            + text[at + gone :]
        )
    try:
        text.encode()
    except UnicodeEncodeError:
        return
    description, problems = read_description_text(text)
    assert description is not None or has_errors(problems)
    sound(problems, text)


WORDS = st.sampled_from(["", "x", "5", "none", "West", "A1", "P5A", "yes", "1e9", "-1"])
VALUES = st.recursive(
    WORDS, lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(WORDS, inner, max_size=3)), max_leaves=6
)
KEYS = st.sampled_from(
    [
        "railway",
        "boards",
        "panels",
        "supplies",
        "strips",
        "levers",
        "points",
        "devices",
        "kinds",
        "functions",
        "wires",
        "slack",
        "sheets",
        "printing",
        "plugs",
        "pins",
        "keep_empty",
        "accepted",
        "taken",
        "group",
        "chain",
        "tracks",
        "holes",
        "lever",
        "kind",
    ]
)


def written(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f'"{key}": {written(one)}' for key, one in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(written(one) for one in value) + "]"
    return f'"{value}"'


@settings(max_examples=300)
@given(
    st.dictionaries(
        KEYS, st.one_of(VALUES, st.dictionaries(WORDS, st.dictionaries(KEYS, VALUES, max_size=4))), max_size=5
    )
)
def test_any_values_behind_the_known_keys(value: dict[str, object]) -> None:
    text = written(value)
    description, problems = read_description_text(text)
    assert description is not None or has_errors(problems)
    sound(problems, text)
