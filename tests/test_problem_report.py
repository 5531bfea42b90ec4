"""The report of `check`: what comes first, what comes together, and how much of it a screen shows."""

from pathlib import Path

import pytest

from labelgen import command_line
from labelgen.accepting import Acceptance
from labelgen.places import Place, Places
from labelgen.problem_report import Screen, in_order, report
from labelgen.problem_text import as_json
from labelgen.problems import Problem
from labelgen.reading.description_reader import read_description_text

TEXT = """\
railway: Marram Quay
supplies:
  PULSE: {kind: pulse}
strips:
  A1: {ways: 12,
    pitch: 8}
points:
  P5: {name: harbour siding}
wires:
  - {from: A1.10, to: A1.11}
"""
LINES = TEXT.splitlines()
WIDE = 100


def problem(code: str, line: int, column: int = 3) -> Problem:
    place = Place(file="quay.yaml", line=line, column=column, length=2, source=LINES[line - 1])
    return Problem(code=code, message=f"{code} here", hint="Mend it.", place=place)


PROBLEMS = [
    problem("no-lengths", 1, 1),
    problem("fuse-not-said", 3),
    problem("pitch-not-measured", 5),
    problem("unlike-sizes", 6, 5),
    problem("coil-steady", 8),
    problem("no-lengths", 8, 8),
    problem("heads-alike", 10, 5),
]


def places() -> Places:
    description, _ = read_description_text(TEXT, "quay.yaml")
    assert description is not None
    return description.places


def test_problems_of_one_thing_come_together_the_worst_first() -> None:
    told = [(one.problem.code, one.thing) for one in in_order(PROBLEMS, places())]
    assert told == [
        ("coil-steady", "point P5"),
        ("no-lengths", "point P5"),
        ("unlike-sizes", "strip A1"),
        ("pitch-not-measured", "strip A1"),
        ("heads-alike", "entry 1 of wires"),
        ("fuse-not-said", "supply PULSE"),
        ("no-lengths", ""),
    ]


def test_what_is_about_the_whole_railway_comes_after_what_is_as_grave() -> None:
    told = [
        one.problem.place.line for one in in_order([problem("no-lengths", 1, 1), problem("no-lengths", 8)], places())
    ]
    assert told == [8, 1]


def test_where_the_description_could_not_be_read_each_line_stands_by_itself() -> None:
    told = [(one.problem.code, one.problem.place.line, one.thing) for one in in_order(PROBLEMS)]
    assert [line for _, line, _ in told] == [8, 8, 6, 10, 1, 3, 5]
    assert {thing for _, _, thing in told} == {""}


def test_problems_of_other_files_stay_apart() -> None:
    record = Problem(code="record-edited", message="x", hint="", place=Place(file="quay.built.yaml", line=8, column=3))
    told = in_order([problem("no-lengths", 8), record], places())
    assert [(one.problem.place.file, one.thing) for one in told] == [("quay.built.yaml", ""), ("quay.yaml", "point P5")]


def test_all_of_it_where_nobody_looks_at_a_screen() -> None:
    text = report("quay.yaml", PROBLEMS, (), places())
    assert text.startswith("Coil-steady here.\n  error · quay.yaml, line 8, column 3 · point P5\n  8 |   P5:")
    assert text.count("Mend it.") == len(PROBLEMS)
    assert text.splitlines()[-1] == "quay.yaml: 1 error, 2 cautions and 4 notes"
    assert "--all" not in text


@pytest.mark.parametrize("rows", [12, 16, 20, 24, 30])
def test_no_more_than_a_screenful(rows: int) -> None:
    lines = report("quay.yaml", PROBLEMS, (), places(), Screen(rows=rows, columns=WIDE)).splitlines()
    assert len(lines) < rows, "the line on which the next command is typed is seen as well"
    shown = sum(line.startswith("  Mend it.") for line in lines)
    assert shown >= 1
    assert f"… and {len(PROBLEMS) - shown} more:  labelgen check quay.yaml --all" in lines
    assert lines[-1] == "quay.yaml: 1 error, 2 cautions and 4 notes"


def test_one_problem_is_always_shown_and_long_lines_count_as_they_are_turned_over() -> None:
    assert "Coil-steady here." in report("quay.yaml", PROBLEMS, (), places(), Screen(rows=3, columns=WIDE))
    wide = report("quay.yaml", PROBLEMS, (), places(), Screen(rows=24, columns=WIDE))
    narrow = report("quay.yaml", PROBLEMS, (), places(), Screen(rows=24, columns=20))
    assert narrow.count("Mend it.") < wide.count("Mend it.")


def test_a_screen_that_is_large_enough_shows_all() -> None:
    whole = report("quay.yaml", PROBLEMS, (), places())
    assert report("quay.yaml", PROBLEMS, (), places(), Screen(rows=100, columns=WIDE)) == whole


def test_nothing_wrong() -> None:
    assert report("quay.yaml", [], (), places()) == "quay.yaml: no problems"


ACCEPTED = (
    Acceptance(
        code="no-fuse",
        reason="a battery",
        thing="supply PULSE",
        place=Place(file="quay.yaml", line=3),
        problems=(problem("no-fuse", 3), problem("no-fuse", 3, 11)),
    ),
)


def test_what_is_accepted_is_listed_below_with_its_reason() -> None:
    text = report("quay.yaml", PROBLEMS[:1], ACCEPTED, places())
    assert text.splitlines()[-4:] == [
        "Accepted:",
        "  no-fuse, supply PULSE, 2 times: a battery",
        "",
        "quay.yaml: 1 note; 2 accepted",
    ]
    assert "Accepted:\n" in report("quay.yaml", PROBLEMS[:1], ACCEPTED, places(), Screen(rows=24, columns=WIDE))


def test_what_is_accepted_is_what_a_small_screen_leaves_out_first() -> None:
    lines = report("quay.yaml", PROBLEMS[:1], ACCEPTED, places(), Screen(rows=10, columns=WIDE)).splitlines()
    assert lines[-3:] == [
        "… and 2 accepted:  labelgen check quay.yaml --all",
        "",
        "quay.yaml: 1 note; 2 accepted",
    ]
    both = report("quay.yaml", PROBLEMS, ACCEPTED, places(), Screen(rows=14, columns=WIDE))
    assert "… and 6 more and 2 accepted:" in both


def test_the_list_for_programs_is_never_cut() -> None:
    found = as_json(PROBLEMS * 50, ACCEPTED)
    assert len(found["problems"]) == 350
    assert [(one["code"], one["reason"], one["line"], one["column"]) for one in found["accepted"]] == [
        ("no-fuse", "a battery", 3, 3),
        ("no-fuse", "a battery", 3, 11),
    ]


BUSY = "railway: x\n" + "".join(f"k{number}: 1\n" for number in range(30))


@pytest.mark.parametrize("options", [(), ("--all",)])
def test_the_command_asks_the_terminal_for_its_size(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, options: tuple[str, ...]
) -> None:
    file = tmp_path / "busy.yaml"
    file.write_text(BUSY, encoding="utf-8")
    monkeypatch.setenv("LINES", "24")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    monkeypatch.setattr("sys.argv", ["labelgen", "check", str(file), *options])
    with pytest.raises(SystemExit) as ended:
        command_line.main()
    assert ended.value.code == 1
    said = capsys.readouterr().out.splitlines()
    assert (len(said) < 24) == (not options)
    assert said[-1] == f"{file}: 30 errors"
