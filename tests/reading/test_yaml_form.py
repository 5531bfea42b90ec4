"""The form of a file: what YAML refuses, and what it would change without a word."""

import gc
import re

import pytest

from labelgen.problems import Problem
from labelgen.reading.node_tree import Trouble
from labelgen.reading.source_text import Draft, SourceText
from labelgen.reading.yaml_nodes import read_yaml_bytes, read_yaml_text
from labelgen.reading.yaml_troubles import explain

JARGON = re.compile(
    r"mapping|scalar|sequence|token|anchor|indicator|context|parser|node|stream|flow|document start|NoneType|Error",
)


def problems_of(text: str) -> list[Problem]:
    return read_yaml_text(text, "quay.yaml")[1]


def told(text: str) -> list[tuple[str, int, int]]:
    return [(one.code, one.place.line, one.place.column) for one in problems_of(text)]


GOOD = {
    "numbers and truths stay text": ("a: NO\nb: on\nc: 08\nd: 1e3\ne: 12:30\nf: ~\n", list("abcdef")),
    "full-line remarks": ("a: 1\n  #lever: 5\n#b\n# c\n", ["a"]),
    "remarks behind a blank": ("a: 1 # one\nb: 2\t# two\n", ["a", "b"]),
    "remarks behind quotes and brackets": ("a: 'x' #2\nb: [1] #3\nc: {a: 1} #x\nd: \"y\" #4\n", list("abcd")),
    "a hash inside a text": ("a: x#2\nb: '# 3 #4'\nc: |\n  foo #2\nd: >- #rem\n  x\n", list("abcd")),
    "a remark at the first mark": ("--- #one\na: 1\n", ["a"]),
    "an address": ("a: http://x.y/z #-\nb:\n  https://x.y\n", ["a", "b"]),
    "folded plain and quoted texts": ("a: one\n  two\nb: 'x\n\n  y'\n", ["a", "b"]),
    "colons without blanks": ("a: 12:30\nc: TB1:3\nb: [1:2, x::y]\n", ["a", "c", "b"]),
    "one document with its marks": ("---\na: 1\n...\n", ["a"]),
    "tabs behind text and on empty lines": ("a:\t1\n\t\n\t# x\nb: 2\n", ["a", "b"]),
    "CRLF": ("a: 1\r\nb: 2\r\n", ["a", "b"]),
    "old line ends": ("a: 1\rb: 2\r", ["a", "b"]),
    "a mark at the start": ("\ufeffa: 1\n", ["a"]),
    "braces": ('{"a": 1, b: [x, {c: d}]}', ["a", "b"]),
    "empty text": ("a: ''\nb:\n", ["a", "b"]),
    "quoted merge sign": ("a: {'<<': 1}\n", ["a"]),
}


@pytest.mark.parametrize("name", GOOD)
def test_what_is_fine(name: str) -> None:
    text, keys = GOOD[name]
    document, problems = read_yaml_text(text, "quay.yaml")
    assert problems == []
    assert document is not None
    assert list(document.value) == keys


def test_values_are_what_was_typed() -> None:
    document, _ = read_yaml_text("a: NO\nb: 08\nc: ''\nd:\ne: [1e3, ~, 0x10]\nf: one\n  two\n", "quay.yaml")
    assert document is not None
    assert document.value == {"a": "NO", "b": "08", "c": "", "d": None, "e": ["1e3", "~", "0x10"], "f": "one two"}


MENDED = [
    ("name: Siding #2\nx: 1\n", "hash-swallows", 1, 14, 'name: "Siding #2"', {"name": "Siding #2", "x": "1"}),
    ("name: #2\n", "hash-swallows", 1, 7, 'name: "#2"', {"name": "#2"}),
    (
        "p: {name: Siding #2, lever: 5}\n",
        "hash-swallows",
        1,
        18,
        '{name: "Siding #2", lever: 5}',
        {"p": {"name": "Siding #2", "lever": "5"}},
    ),
    ("a: [1, #2]\nb: 2\n", "hash-swallows", 1, 8, 'a: [1, "#2"]', {"a": ["1", "#2"], "b": "2"}),
    ("- Siding #2\n", "hash-swallows", 1, 10, '- "Siding #2"', None),
    ('n: it\'s "so" #2\n', "hash-swallows", 1, 14, "n: 'it''s \"so\" #2'", {"n": 'it\'s "so" #2'}),
    ("a: b: c\n", "needs-quotes", 1, 5, 'a: "b: c"', {"a": "b: c"}),
    ("a: b: c  # why\n", "needs-quotes", 1, 5, 'a: "b: c"', {"a": "b: c"}),
    ("a: b:\n", "needs-quotes", 1, 5, 'a: "b:"', {"a": "b:"}),
    ("a: {n: b: c, d: 1}\n", "needs-quotes", 1, 9, 'a: {n: "b: c", d: 1}', {"a": {"n": "b: c", "d": "1"}}),
    ("a: {x: 1 y: 2}\n", "needs-quotes", 1, 11, "put a comma before it", {"a": {"x": "1 y: 2"}}),
    ("é𝄞: b: c\n", "needs-quotes", 1, 6, 'é𝄞: "b: c"', {"é𝄞": "b: c"}),
    ("n: @x # y\n", "needs-quotes", 1, 4, 'n: "@x"', {"n": "@x"}),
    ("n: `x\n", "needs-quotes", 1, 4, 'n: "`x"', {"n": "`x"}),
    ("n: %x\n", "needs-quotes", 1, 4, 'n: "%x"', {"n": "%x"}),
    ("n: [%x, y]\n", "needs-quotes", 1, 5, 'n: ["%x", y]', {"n": ["%x", "y"]}),
    ("n: * x\n", "needs-quotes", 1, 4, 'n: "* x"', {"n": "* x"}),
    ("n: & x\n", "needs-quotes", 1, 4, 'n: "& x"', {"n": "& x"}),
    ("n: - x\n", "needs-quotes", 1, 4, 'n: "- x"', {"n": "- x"}),
    ("n: ? x\n", "needs-quotes", 1, 4, 'n: "? x"', {"n": "? x"}),
    ("n: [b] c\n", "needs-quotes", 1, 8, 'n: "[b] c"', {"n": "[b] c"}),
    ("n: > x\n", "needs-quotes", 1, 4, 'n: "> x"', {"n": "> x"}),
    ("lever:1\nname: x\n", "missing-space", 1, 1, "Write: lever: 1", {"lever": "1", "name": "x"}),
    ("p:\n  name: x\n  lever:1\n", "missing-space", 3, 3, "Write: lever: 1", {"p": {"name": "x", "lever": "1"}}),
    ("p:\n  lever:1\n", "missing-space", 2, 3, "Write: lever: 1", {"p": {"lever": "1"}}),
    ("w:\n- from:x\n", "missing-space", 2, 3, "Write: - from: x", {"w": [{"from": "x"}]}),
    ("p: {lever:1, n: x}\n", "missing-space", 1, 5, "p: {lever: 1, n: x}", {"p": {"lever": "1", "n": "x"}}),
    ("p:\n  P4 {n: x, b: y}\n", "bad-yaml", 2, 3, "Write: P4: {n: x, b: y}", {"p": {"P4": {"n": "x", "b": "y"}}}),
    ("p:\n  P4 {n: x}\n", "bad-yaml", 2, 3, "Write: P4: {n: x}", {"p": {"P4": {"n": "x"}}}),
    ("P4{n: x}\n", "bad-yaml", 1, 1, "Write: P4: {n: x}", {"P4": {"n": "x"}}),
    ("p: {P4 {n: x}, q: 1}\n", "bad-yaml", 1, 5, "p: {P4: {n: x}, q: 1}", {"p": {"P4": {"n": "x"}, "q": "1"}}),
    ("t: {at [1, 2], q: 1}\n", "bad-yaml", 1, 5, "t: {at: [1, 2], q: 1}", {"t": {"at": ["1", "2"], "q": "1"}}),
    ("P5:{n: x}\nq: 1\n", "missing-space", 1, 1, "P5: {n: x}", {"P5": {"n": "x"}, "q": "1"}),
]


@pytest.mark.parametrize("row", MENDED, ids=[row[0] for row in MENDED])
def test_what_yaml_would_change(row: tuple[str, str, int, int, str, object]) -> None:
    text, code, line, column, hint, meant = row
    document, problems = read_yaml_text(text, "quay.yaml")
    first = problems[1] if text.startswith("- ") else problems[0]
    assert (first.code, first.place.line, first.place.column) == (code, line, column)
    assert hint in first.hint
    assert (document.value if document is not None else None) == meant


BROKEN = [
    ("a: [1, 2\nb: 3\n", "bad-yaml", 1, 4),
    ("a: {x: 1\n", "bad-yaml", 1, 4),
    ("a: [x, {y]}\n", "bad-yaml", 1, 8),
    ("a: [\n---\n", "bad-yaml", 2, 1),
    ('a: ["x" "y"]\n', "bad-yaml", 1, 9),
    ("a: ]\n", "bad-yaml", 1, 4),
    ("a: {x: 1\n  y: 2}\n", "bad-yaml", 1, 4),
    ("a: {b: 'it's'}\n", "needs-quotes", 1, 12),
    ("a: 'it's'\nb: 'x'\n", "needs-quotes", 1, 8),
    (" a: 1\nb: 2\n", "bad-indentation", 2, 1),
    ("a: b\n  - c\n", "bad-indentation", 2, 3),
    ("- \t- y\n", "tab", 1, 3),
    ("a:\n  b: 1\n  - c\n", "bad-yaml", 3, 3),
    ("x" * 1100 + "\n: y\n", "bad-yaml", 2, 1),
    ("a: [, 1]\n", "bad-yaml", 1, 5),
    ("{: x}", "bad-yaml", 1, 2),
    (": x\n", "bad-yaml", 1, 1),
    ("a: {[b]: c}\n", "bad-yaml", 1, 5),
    ("? [b]\n: c\n", "bad-yaml", 1, 3),
    ("p:\n  name: x\n    lever: 1\n", "bad-indentation", 3, 5),
    ("p:\n    name: x\n  lever: 1\n", "bad-indentation", 3, 3),
    ("p:\n  a:\n    - b\n   - c\n", "bad-indentation", 4, 4),
    ("a:\n- b\n - c\n", "bad-indentation", 3, 2),
    ("p:\n  name: x\n    lever:1\n", "missing-space", 3, 5),
    ("p:\n  - a\n  b: 1\n", "bad-yaml", 3, 3),
    ("p:\n  a: 1\n  - b\n", "bad-yaml", 3, 3),
    ("railway Marram\nb: 1\n", "bad-yaml", 1, 1),
    ("b: 1\nrailway Marram\n", "bad-yaml", 2, 1),
    ("b: 1\nrailway Marram", "bad-yaml", 2, 1),
    ('n: "abc\nb: "x"\n', "bad-yaml", 1, 4),
    ('n: "abc\n', "bad-yaml", 1, 4),
    ("n: 'abc", "bad-yaml", 1, 4),
    ('n: "a\\qb"\n', "bad-yaml", 1, 6),
    ("n: 'Driver's road'\n", "needs-quotes", 1, 12),
    ('n: "x" and "y"\n', "needs-quotes", 1, 8),
    ("n: 'a' 'b' \"c\\\"\n", "needs-quotes", 1, 8),
    ("n: 1\n---\nb: 2\n", "bad-yaml", 2, 1),
    ("n: x\n...\nfoo\n", "bad-yaml", 3, 1),
    ("{a: 1}\nb: 2\n", "bad-yaml", 2, 1),
    ("%YAML 9.9\n---\na: 1", "bad-yaml", 1, 1),
    ("%FOO\n---\na: 1\n", "bad-yaml", 1, 5),
    ("a" * 2000 + ": b\n", "bad-yaml", 1, 2001),
    ("n: |9x\n", "needs-quotes", 1, 4),
    ("n: |0\n  x\n", "bad-yaml", 1, 5),
    ("\tname: 1\n", "tab", 1, 1),
    ("a:\n  \tb: 1\n", "tab", 2, 3),
    ("a:\n\tb: 1\n  c: 2\n", "tab", 2, 1),
    ("a: &x b\n", "alias", 1, 4),
    ("a: *x\n", "alias", 1, 4),
    ("a: &x [1]\n", "alias", 1, 4),
    ("a: &x &y z\n", "alias", 1, 4),
    ("a: !x y\n", "yaml-tag", 1, 4),
    ("a: !!int 5\n", "yaml-tag", 1, 4),
    ("a: ! b\n", "yaml-tag", 1, 4),
    ("a: !y!x b\n", "yaml-tag", 1, 4),
    ("n: !<x\n", "yaml-tag", 1, 7),
    ("a: !!map {}\n", "yaml-tag", 1, 4),
    ("w: {<<: {a: 1}}\n", "merge-key", 1, 5),
    ("a: 1\nb: 2\na: 3\n", "repeated-key", 3, 1),
    ("p: {a: 1, a: 2}\n", "repeated-key", 1, 11),
    ('a: "\\u202e"\n', "odd-character", 1, 4),
    ("[1]\n", "wrong-type", 1, 1),
    ("hello\n", "wrong-type", 1, 1),
    ("", "file-empty", 1, 1),
    ("# x\n\n", "file-empty", 1, 1),
    ("---\n", "file-empty", 1, 1),
    ("--- ~x\n", "wrong-type", 1, 5),
]


@pytest.mark.parametrize(("text", "code", "line", "column"), BROKEN)
def test_what_cannot_be(text: str, code: str, line: int, column: int) -> None:
    assert told(text)[0] == (code, line, column)


@pytest.mark.parametrize("text", [row[0] for row in (*MENDED, *BROKEN)])
def test_words_are_those_of_a_builder(text: str) -> None:
    for problem in problems_of(text):
        assert not JARGON.search(problem.message), problem.message
        assert not JARGON.search(problem.hint.split("around it:")[0]), problem.hint
        assert problem.hint


@pytest.mark.parametrize("row", MENDED, ids=[row[0] for row in MENDED])
def test_what_the_hint_shows_is_right(row: tuple[str, str, int, int, str, object]) -> None:
    """Putting the shown line in place of the builder's leaves no problem."""
    text, _, line, _, _, meant = row
    if meant is None or "put a comma" in row[4]:
        return
    found = re.search(r"(?:around it|Write): (.*)", problems_of(text)[0].hint)
    assert found is not None
    lines = text.split("\n")
    indent = lines[line - 1][: len(lines[line - 1]) - len(lines[line - 1].lstrip())]
    lines[line - 1] = indent + found[1]
    document, problems = read_yaml_text("\n".join(lines), "quay.yaml")
    assert problems == []
    assert document is not None
    assert document.value == meant


def test_one_mistake_does_not_hide_the_next() -> None:
    text = "a: b: c\nd: Siding #2\np:\n  lever:1\n  x: y: z\nd: 1\n\nq: @x\nr: !t 1\n"
    assert [code for code, _, _ in told(text)] == [
        "needs-quotes",
        "hash-swallows",
        "missing-space",
        "needs-quotes",
        "repeated-key",
        "needs-quotes",
        "yaml-tag",
    ]
    assert [line for _, line, _ in told(text)] == [1, 2, 4, 5, 6, 8, 9]


def test_places_behind_a_mended_mistake_are_the_builders_own() -> None:
    assert told("p: {n: b: c, x: 1, x: 2}\n") == [("needs-quotes", 1, 9), ("repeated-key", 1, 20)]


def test_a_repeated_key_says_where_the_first_is_and_leaves_it() -> None:
    document, problems = read_yaml_text("a: 1\nb: 2\na: 3\n", "quay.yaml")
    assert document is not None
    assert document.value == {"a": "1", "b": "2"}
    assert "line 1" in problems[0].hint


def test_every_kind_of_repeating_is_refused_and_the_rest_is_still_read() -> None:
    codes = [code for code, _, _ in told("t: !x y\nu: &a b\nv: *a\nw: {<<: *a}\nt: 2\n")]
    assert codes == ["yaml-tag", "alias", "alias", "merge-key", "alias", "repeated-key"]


def test_a_name_that_begins_with_a_star_is_one_mistake() -> None:
    assert told("a: 1\nb: *quay side\n") == [("alias", 2, 4)]


def test_tabs_are_all_shown_and_columns_stay() -> None:
    assert told("a:\n\tb: 1\n\tc: x: y\n") == [("tab", 2, 1), ("tab", 3, 1), ("needs-quotes", 3, 6)]


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "{a: " * 100_000,
        "- " * 100_000,
        "? " * 100_000,
        "[" * 101 + "]" * 101,
        "a:\n" + "".join(" " * depth + "a:\n" for depth in range(1, 200)),
    ],
    ids=["brackets", "braces", "dashes", "question marks", "just too deep", "lines"],
)
def test_nothing_is_too_deep_to_be_refused(text: str) -> None:
    assert [code for code, _, _ in told(text)] == ["nested-too-deep"]


def test_a_hundred_levels_are_allowed() -> None:
    assert told("a: " + "[" * 99 + "]" * 99 + "\n") == []


def test_a_bomb_is_refused_before_it_multiplies() -> None:
    bomb = "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a]\n" for n in range(1000))
    document, problems = read_yaml_text(bomb, "quay.yaml")
    assert document is None
    assert {one.code for one in problems} == {"alias"}
    assert len(problems) == 100


@pytest.mark.parametrize(
    ("text", "code", "most"),
    [
        ("".join(f"k{n}:\n  a:x\n" for n in range(500)), "missing-space", 299),
        ("".join(f"k{n}: x #a\n" for n in range(500)), "hash-swallows", 299),
        ("\ta: 1\n" * 500, "tab", 50),
        ("".join(f"k{n}: a: b\n" for n in range(500)), "needs-quotes", 41),
        ("a: 1\n" * 500, "repeated-key", 100),
        ("\x01a" * 500, "odd-character", 20),
        ("a:\n" + "\xa0b: 1\n" * 500, "odd-character", 20),
        ("a: [" + "x, " * 700_000 + "]", "file-too-large", 1),
    ],
    ids=["blanks", "hashes", "tabs", "colons", "keys", "odd", "hard blanks", "values"],
)
def test_a_thousand_mistakes_are_not_all_told(text: str, code: str, most: int) -> None:
    problems = problems_of(text)
    assert {one.code for one in problems} == {code}
    assert 1 <= len(problems) <= most


def test_a_garbage_collector_that_is_off_stays_off() -> None:
    gc.disable()
    try:
        read_yaml_text("a: 1\n", "quay.yaml")
        assert not gc.isenabled()
    finally:
        gc.enable()
    read_yaml_text("a: 1\n", "quay.yaml")
    assert gc.isenabled()


def test_what_nobody_has_met_yet_is_still_a_problem_at_its_place() -> None:
    draft = Draft(SourceText("a: 1\nb: 2\n", "quay.yaml"))
    mend = explain(draft, Trouble(what="found a gremlin", index=5))
    assert (mend.problem.code, mend.problem.place.line, mend.inserted) == ("bad-yaml", 2, ())
    assert "gremlin" not in mend.problem.message


def test_a_very_long_line_is_shown_in_part_in_the_hint() -> None:
    text = "a: {" + ", ".join(f"k{n}: v" for n in range(200)) + ", x: Siding #2, z: 1}\n"
    problem = problems_of(text)[0]
    assert problem.code == "hash-swallows"
    assert len(problem.hint) < 300
    assert '"Siding #2"' in problem.hint


NOT_TEXT = [
    (b"a: caf\xe9 bar\n", "not-utf8", 1, 7, "é"),
    (b"a: 1\nb: \x80\x81\n", "not-utf8", 2, 4, "€"),
    (b"a: \xc3\n", "not-utf8", 1, 4, "Ã"),
    (b"a: \x81\n", "not-utf8", 1, 4, "not saved as UTF-8"),
    ("a: é".encode("utf-16"), "not-utf8", 1, 1, "UTF-16"),
    ("a: b".encode("utf-16-be"), "not-utf8", 1, 1, "UTF-16"),
    ("a: b".encode("utf-32"), "not-utf8", 1, 1, "UTF-32"),
    (b"a: x\x00y\n", "odd-character", 1, 5, "U+0000"),
    (b"a: x\x1b[31m\n", "odd-character", 1, 5, "U+001B"),
    ("a: x\u202ey\n".encode(), "odd-character", 1, 5, "U+202E"),
    ("a: x\u2028y\n".encode(), "odd-character", 1, 5, "U+2028"),
    ("a: x\x85y\n".encode(), "odd-character", 1, 5, "U+0085"),
    ("a: x\ufeffy\n".encode(), "odd-character", 1, 5, "U+FEFF"),
    ("p:\n\xa0 a: 1\n".encode(), "odd-character", 2, 1, "U+00A0"),
    ("a:\xa01\n".encode(), "odd-character", 1, 3, "U+00A0"),
]


@pytest.mark.parametrize(("data", "code", "line", "column", "word"), NOT_TEXT)
def test_characters_that_no_description_holds(data: bytes, code: str, line: int, column: int, word: str) -> None:
    first = read_yaml_bytes(data, "quay.yaml")[1][0]
    assert (first.code, first.place.line, first.place.column) == (code, line, column)
    assert word in first.message


def test_a_wrong_character_does_not_hide_the_rest() -> None:
    document, problems = read_yaml_bytes(b"a: caf\xe9\nb: x\x00\nc: d: e\n", "quay.yaml")
    assert [one.code for one in problems] == ["not-utf8", "odd-character", "needs-quotes"]
    assert document is not None
    assert document.value == {"a": "caf\ufffd", "b": "x\ufffd", "c": "d: e"}


def test_a_picture_is_no_description() -> None:
    document, problems = read_yaml_bytes(bytes(range(256)) * 100, "quay.yaml")
    assert document is None
    assert {one.code for one in problems} <= {"not-utf8", "odd-character"}


def test_a_no_break_space_in_a_name_is_the_builders_own() -> None:
    document, problems = read_yaml_bytes("a: x\xa0y\n".encode(), "quay.yaml")
    assert (problems, document and document.value) == ([], {"a": "x\xa0y"})


def test_a_missing_colon_is_said_first_and_alone() -> None:
    (problem,) = problems_of("points:\n  P4 {name: dune loop, board: Dune, at: [120, 180]}\n")
    assert problem.message == "a colon is missing after P4"


@pytest.mark.parametrize("text", ["Quay [1]: x\n", "Yard {a}: x\n", "'P4 {n': x\n"])
def test_a_key_with_brackets_of_its_own_lacks_no_colon(text: str) -> None:
    assert problems_of(text) == []


def test_of_a_long_line_no_more_is_shown_than_can_be_read() -> None:
    _, problems = read_yaml_text("n: " + "a #b " * 50_000 + "\n", "quay.yaml")
    hints = [problem.hint for problem in problems]
    assert hints
    assert max(map(len, hints)) < 400
    assert hints[0].startswith('Put quotes around it: n: "a #b')
    assert hints[0].endswith("…")
