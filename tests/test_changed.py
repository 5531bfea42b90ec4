"""Only what changed is printed, from the cell where the last sheet ends; and what a jam has spoilt, once more."""

import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from typer.testing import CliRunner, Result

from labelgen.command_line import app
from labelgen.model.built.built_record import BuiltRecord
from labelgen.reading.built_record_reader import read_built_record
from labelgen.rendering import output_folder
from labelgen.rendering.made_list import MADE_LIST

TEXT = """\
railway: Gull Sands
boards: {West: {at: [0, 0]}, East: {at: [900, 0]}}
supplies: {PULSE: {kind: pulse, board: West, at: [10, 10]}}
strips:
  T1: {board: West, at: [300, 250], measured: 232, ways: 30}
  T2: {board: East, at: [300, 250], measured: 232, ways: 30}
panels: {BOX: {board: West, at: [450, 500], size: [300, 60], levers: {1: [5, 3], 2: [25, 3]}}}
sheets: {flags: a4-65-38x21}
points:
  P1: {board: West, at: [200, 200]}
  P2: {board: East, at: [200, 200]}
"""
THREE = TEXT.replace("2: [25, 3]", "2: [25, 3], 3: [15, 4]") + "  P3: {board: West, at: [100, 200], name: fish quay}\n"
CHANGED = ("flags.pdf", "markers.pdf", "tags.pdf", "plates.pdf", "places.pdf", "remove-and-fit.pdf")


def run(*arguments: object) -> Result:
    return CliRunner().invoke(app, [str(argument) for argument in arguments])


def done(*arguments: object) -> str:
    result = run(*arguments)
    assert result.exit_code == 0, result.output
    return result.stdout


@pytest.fixture
def railway(tmp_path: Path) -> Path:
    path = tmp_path / "gull-sands.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return path


@pytest.fixture
def built(railway: Path) -> Path:
    """Made, printed and stuck on; and then there is a third point."""
    done("make", railway)
    done("printed", railway)
    railway.write_text(THREE, encoding="utf-8")
    return railway


def record(railway: Path) -> BuiltRecord:
    found = read_built_record(railway, "Gull Sands")
    assert found.record is not None
    return found.record


def words(path: Path) -> list[str]:
    with pdfplumber.open(path) as pages:
        return [word["text"] for page in pages.pages for word in page.extract_words()]


def numbers(path: Path) -> list[int]:
    """The wires whose flags are on a sheet, in order."""
    return [int(word[1:]) for word in words(path) if word.startswith("#") and word[1:].isdecimal()]


def cells(path: Path) -> dict[int, set[int]]:
    """Cell of a sheet of 65 (ISO A4 in 5 columns of 13): the wires whose flags are in it, read off the page."""
    found: dict[int, set[int]] = {}
    with pdfplumber.open(path) as pages:
        for number, page in enumerate(pages.pages):
            for word in page.extract_words():
                if word["text"].startswith("#") and word["text"][1:].isdecimal():
                    row = int((float(word["top"]) / 72 * 25.4 - 10.7) / 21.2)
                    column = int((float(word["x0"]) / 72 * 25.4 - 4.65) / 40.6)
                    found.setdefault(65 * number + 5 * row + column + 1, set()).add(int(word["text"][1:]))
    return found


def made(railway: Path, folder: str) -> set[str]:
    inside = railway.with_suffix("") / folder
    return {path.name for path in inside.iterdir()} if inside.exists() else set()


def test_one_line_says_first_what_is_to_come(built: Path) -> None:
    first, *files = done("make", built, "--changed").splitlines()
    assert first == (
        "7 wires new, 0 of 14 move, 6 labels changed, 2 other labels new, 7 sheets,"
        " flags from cell 15, tags from cell 3, plates from cell 3, places from cell 3"
    )
    assert {Path(line.partition(":")[0]).name for line in files if line} >= {*CHANGED}
    assert (
        done("make", built, "--changed", "--only", "flags").splitlines()[0]
        == "7 wires new, 0 of 14 move, 1 sheet, from cell 15"
    )


def test_the_line_comes_before_anything_is_written(built: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    before = record(built)
    monkeypatch.setattr(output_folder, "_write", refuse)
    result = run("make", built, "--changed")
    assert result.stdout.startswith("7 wires new, 0 of 14 move")
    assert made(built, "changed") == set()
    assert record(built) == before


def test_only_the_new_flags_are_printed_from_the_cell_where_the_sheet_ends(built: Path) -> None:
    done("make", built, "--changed")
    flags = cells(built.with_suffix("") / "changed" / "flags.pdf")
    assert flags == {15: {15}, 16: {16}, 17: {17}, 18: {20}, 19: {18}, 20: {19}, 21: {21}}
    done("make", built, "--changed", "--start", "flags=40")
    assert min(cells(built.with_suffix("") / "changed" / "flags.pdf")) == 40


def test_the_list_says_what_comes_off_and_where_to_drill(built: Path) -> None:
    done("make", built, "--changed")
    said = " ".join(words(built.with_suffix("") / "changed" / "remove-and-fit.pdf"))
    assert said.index("West: strip T1") < said.index("West: beside the strips") < said.index("East: strip T2")
    for part in ("marker T1 issue B", "#15 3N L3.N and T1.4", "plate 3 panel BOX", "fascia BOX issue B"):
        assert part in said
    # L3 is drilled at 150, 40 mm, L1 is at 50, 30 and L2 at 250, 30: √(100² + 10²) from both, below their line
    assert "L3 6.5 L1 100.5 L2 100.5 below" in said


def test_labels_carry_the_letter_of_their_issue_from_the_second_on(built: Path) -> None:
    done("make", built, "--changed")
    folder = built.with_suffix("") / "changed"
    assert words(folder / "markers.pdf").count("B") == 2
    assert words(folder / "tags.pdf").count("B") == 2
    assert "B" not in words(folder / "flags.pdf"), "these are new"
    done("printed", built)
    issues = {label.key: label.issue for label in record(built).printed}
    assert (issues["markers", "T1"], issues["markers", "T2"], issues["flags", "15"]) == ("B", "A", "A")
    built.write_text(THREE.replace("P1: {", "P1: {terminals: {N: red}, "), encoding="utf-8")
    done("make", built)
    assert words(built.with_suffix("") / "markers.pdf").count("B") == 2, "nothing on the marker says what is painted"
    assert words(built.with_suffix("") / "tags.pdf").count("C") == 1
    page = (built.with_suffix("") / "schedule" / "T1" / "index.html").read_text(encoding="utf-8")
    assert "marker B, tag C" in page
    assert ">, issue B" in page


def test_a_letter_is_no_part_of_what_a_label_says(built: Path) -> None:
    done("make", built, "--changed")
    done("printed", built)
    assert done("make", built, "--changed") == "nothing is new or changed since it was printed\n"
    assert made(built, "changed") == set(), "what was made there is taken away"
    assert (built.with_suffix("") / "flags.pdf").exists()


def test_making_is_not_printing(built: Path) -> None:
    before = record(built).printed
    done("make", built, "--changed")
    first = (built.with_suffix("") / "changed" / "flags.pdf").read_bytes()
    done("make", built, "--changed")
    assert record(built).printed == before
    assert (built.with_suffix("") / "changed" / "flags.pdf").read_bytes() == first


def test_printed_in_part_after_changed_and_taken_back(built: Path) -> None:
    before = record(built)
    done("make", built, "--changed")
    done("printed", built, "--only", "flags", "--board", "West")
    labels = {label.key for label in record(built).printed}
    assert ("flags", "15") in labels
    assert ("flags", "20 on West") in labels
    assert {("flags", "21"), ("flags", "20 on East"), ("plates", "3")}.isdisjoint(labels)
    assert "2 wires new" not in done("make", built, "--changed").splitlines()[0]
    assert {*numbers(built.with_suffix("") / "changed" / "flags.pdf")} == {20, 21}
    done("printed", built)
    done("printed", built, "--undo")
    labels = {label.key for label in record(built).printed}
    assert ("flags", "15") in labels, "that was recorded before"
    assert ("plates", "3") not in labels
    result = run("printed", built, "--undo")
    assert result.exit_code == 1
    assert "nothing to take back" in result.stderr
    assert {label.key for label in before.printed} <= labels


def test_undo_gives_the_cells_back(built: Path) -> None:
    done("make", built, "--changed", "--only", "flags")
    before = record(built).sheets
    done("printed", built)
    assert {(one.use, one.following) for one in record(built).sheets} >= {("flags", 22)}
    done("printed", built, "--undo")
    assert {*record(built).sheets} == {*before}


def test_a_wire_that_is_gone_comes_off(built: Path) -> None:
    built.write_text(
        TEXT.replace("  P2: {board: East, at: [200, 200]}\n", "").replace(", 2: [25, 3]", ""), encoding="utf-8"
    )
    first = done("make", built, "--changed").splitlines()[0]
    assert first.startswith("7 wires gone, 0 of 14 move")
    said = " ".join(words(built.with_suffix("") / "changed" / "remove-and-fit.pdf"))
    assert "#7 2N T2.1 and P2.N" in said
    done("printed", built)
    assert {label.label for label in record(built).printed if label.kind == "flags"} & {"7", "8"} == set()


def test_what_is_wired_to_another_place_is_said_to_move(built: Path) -> None:
    moved = TEXT.replace("P2: {", "P2: {strip: T2, way: 10, accepted: {moved: a burnt way}, ")
    built.write_text(moved, encoding="utf-8")
    assert "6 of 14 move" in done("make", built, "--changed", "--only", "flags").splitlines()[0]


def test_the_next_make_goes_on_where_the_sheet_ends_and_makes_all(built: Path) -> None:
    done("make", built, "--only", "flags")
    assert min(cells(built.with_suffix("") / "flags.pdf")) == 15
    assert {*numbers(built.with_suffix("") / "flags.pdf")} == {*range(1, 22)}
    done("make", built, "--only", "flags", "--start", "flags=1")
    assert min(cells(built.with_suffix("") / "flags.pdf")) == 1
    done("make", built, "--only", "flags", "--sheet", "flags=a4-21-64x38")
    assert record(built).made_sheets[0].first == 1, "of other sheets none is begun"


def test_a_full_sheet_is_followed_by_a_whole_one(railway: Path) -> None:
    done("make", railway, "--only", "plates", "--start", "plates=64")
    done("printed", railway)
    assert record(railway).sheets == ()
    done("make", railway, "--only", "plates")
    assert record(railway).made_sheets[0].first == 1


def test_a_full_make_takes_away_what_was_made_of_changes(built: Path) -> None:
    done("make", built, "--changed")
    done("make", built, "--only", "lists")
    assert made(built, "changed") >= {*CHANGED}, "a part leaves it"
    done("make", built)
    assert made(built, "changed") == set()


def test_a_builders_file_among_them_stays(built: Path) -> None:
    done("make", built, "--changed")
    (built.with_suffix("") / "changed" / "notes.txt").write_text("mine", encoding="utf-8")
    done("printed", built)
    done("make", built, "--changed")
    assert made(built, "changed") == {"notes.txt"}


# After a jam.


def test_cells_are_printed_again_on_the_next_ones(railway: Path) -> None:
    done("make", railway, "--only", "flags")
    before = cells(railway.with_suffix("") / "flags.pdf")
    assert len(before) == 14
    out = done("make", railway, "--again", "flags=9-12")
    assert "again/flags.pdf: 8 wire-end flags" in out
    again = cells(railway.with_suffix("") / "again" / "flags.pdf")
    assert again == {15 + n: before[9 + n] for n in range(4)}
    done("make", railway, "--again", "flags=9")
    assert cells(railway.with_suffix("") / "again" / "flags.pdf") == {19: before[9]}
    done("printed", railway)
    assert record(railway).sheets[0].following == 20, "all of them are gone"
    assert (railway.with_suffix("") / "flags.pdf").exists()


def test_what_was_printed_again_of_another_kind_stays(railway: Path) -> None:
    done("make", railway, "--only", "flags,tags")
    again = railway.with_suffix("") / "again"
    done("make", railway, "--again", "flags=9-12")
    flags = (again / "flags.pdf").read_bytes()
    done("make", railway, "--again", "tags=1")
    assert sorted(path.name for path in again.iterdir()) == ["flags.pdf", "tags.pdf"]
    assert (again / "flags.pdf").read_bytes() == flags
    done("make", railway)
    assert not again.exists(), "a whole make begins afresh"


def test_again_after_it_was_recorded_and_where_asked(built: Path) -> None:
    done("make", built, "--changed")
    before = cells(built.with_suffix("") / "changed" / "flags.pdf")
    done("printed", built)
    printed = record(built).printed
    done("make", built, "--again", "flags=16-17", "--start", "flags=3")
    assert cells(built.with_suffix("") / "again" / "flags.pdf") == {3: before[16], 4: before[17]}
    assert record(built).printed == printed
    assert record(built).made_sheets[0].first == 15, "so that other cells may follow"


def test_the_second_sheet_of_several(railway: Path) -> None:
    done("make", railway, "--only", "flags", "--start", "flags=60")
    before = cells(railway.with_suffix("") / "flags.pdf")
    done("make", railway, "--again", "flags=2:3-4")
    assert list(cells(railway.with_suffix("") / "again" / "flags.pdf").values()) == [before[65 + 3], before[65 + 4]]


def test_again_is_refused_where_the_cells_would_hold_something_else(railway: Path) -> None:
    done("make", railway, "--only", "flags")
    railway.write_text(THREE, encoding="utf-8")
    result = run("make", railway, "--again", "flags=9-12")
    assert result.exit_code == 1
    assert "[nothing-made]" in result.stderr
    assert "would fill them otherwise" in " ".join(result.stderr.split())


@pytest.mark.parametrize(
    ("option", "said"),
    [
        ("flags=12-9", "such as flags=9-12"),
        ("flags=x", "such as flags=9-12"),
        ("flags=66", "has 65 cells"),
        ("tags=1", "no tags were made last"),
    ],
)
def test_again_misused(railway: Path, option: str, said: str) -> None:
    done("make", railway, "--only", "flags")
    result = run("make", railway, "--again", option)
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())
    assert run("make", railway, "--again", "flags=1", "--changed").exit_code == 2


# Blank flags.


def blank(railway: Path, text: str = TEXT) -> None:
    railway.write_text(f"{text}printing: {{blank_flags: yes}}\n", encoding="utf-8")


def test_what_is_left_of_the_last_sheet_is_filled_with_the_next_numbers(railway: Path) -> None:
    blank(railway)
    assert "28 wire-end flags and 102 blank on 1 sheet" in done("make", railway, "--only", "flags")
    found = cells(railway.with_suffix("") / "flags.pdf")
    assert found.keys() == {*range(1, 66)}
    assert [found[n] for n in range(15, 66)] == [{n} for n in range(15, 66)], "both flags of a number in one cell"
    assert numbers(railway.with_suffix("") / "flags.pdf").count(15) == 4, "on each face of two flags"
    done("printed", railway)
    assert record(railway).sheets == ()


def test_numbers_of_blank_flags_are_kept_once_they_are_printed(railway: Path) -> None:
    blank(railway)
    done("make", railway, "--only", "flags")
    blank(railway, THREE)
    done("make", railway, "--only", "flags")
    assert max(wire.number for wire in record(railway).wires if isinstance(wire.number, int)) == 21, "made is not used"
    done("printed", railway)
    blanks = {int(label.label) for label in record(railway).printed if label.kind == "blanks"}
    assert blanks == {*range(22, 66)}
    blank(railway, f"{THREE}  P4: {{board: West}}\n")
    done("make", railway, "--changed", "--only", "flags")
    assert {wire.number for wire in record(railway).wires} == {*range(1, 22), *range(66, 73)}


def test_a_wire_that_the_pen_has_named_takes_its_number(railway: Path) -> None:
    blank(railway)
    done("make", railway, "--only", "flags")
    done("printed", railway)
    blank(
        railway, f"{TEXT}wires: [{{from: T1.20, to: T1.22, number: 20, function: spare}}]\n".replace("T1.22", "T2.22")
    )
    done("make", railway, "--changed", "--only", "flags")
    assert "20" in {str(wire.number) for wire in record(railway).wires}
    assert ("blanks", "20") not in {label.key for label in record(railway).printed}
    assert ("blanks", "21") in {label.key for label in record(railway).printed}
    assert 20 in numbers(railway.with_suffix("") / "changed" / "flags.pdf"), "printed flags for the pen's"


def test_blank_flags_in_a_jam_are_the_same(railway: Path) -> None:
    blank(railway)
    done("make", railway, "--only", "flags")
    before = cells(railway.with_suffix("") / "flags.pdf")
    done("printed", railway)
    done("make", railway, "--again", "flags=14-16")
    found = cells(railway.with_suffix("") / "again" / "flags.pdf")
    assert found == {1: before[14], 2: {15}, 3: {16}}


def test_blank_flags_of_another_size_of_sheet(railway: Path) -> None:
    blank(railway, TEXT.replace("a4-65-38x21", "a4-21-64x38"))
    out = done("make", railway, "--only", "flags")
    assert "on 1 sheet" in out
    assert " blank on" in out


# A kill at any moment.


def snapshot(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


KILLED = """
import os, signal, sys
from labelgen.command_line import app
from labelgen.rendering import folder_exchange, folder_journal
steps, at = 0, int(sys.argv[1])
def counted(real):
    def call(*arguments, **options):
        global steps
        steps += 1
        if steps == at:
            os.kill(os.getpid(), signal.SIGKILL)
        return real(*arguments, **options)
    return call
for name in ("rename", "replace", "link", "unlink", "mkdir"):
    setattr(os, name, counted(getattr(os, name)))
folder_exchange.exchange = counted(folder_exchange.exchange)
sys.argv = ["labelgen", *sys.argv[2:]]
app()
"""


KILLED_AT = (2, 4, 6, 9, 12, 15, 18, 60, 540)
"""Steps at which a run is killed, until one has not so many; far more than any has."""


def test_a_kill_at_any_step_loses_nothing(built: Path) -> None:
    """The next run makes what this one would have made, and the record of what is printed is as it was."""
    printed = record(built).printed
    before = snapshot(built.with_suffix(""))
    command: list[Any] = ["make", str(built), "--changed", "--only", "plates"]
    for at in KILLED_AT:
        program = [sys.executable, "-c", KILLED, str(at), *command]
        ended = subprocess.run(program, capture_output=True, check=False)
        assert record(built).printed == printed
        now = snapshot(built.with_suffix(""))
        assert {name: now[name] for name in before if name != MADE_LIST} == {
            name: content for name, content in before.items() if name != MADE_LIST
        }
        if ended.returncode == 0:
            break
        assert ended.returncode == -signal.SIGKILL
    assert at > 2, "no run was killed"
    assert ended.returncode == 0, "no run came to its end"
    done(*command)
    assert made(built, "changed") == {"plates.pdf", "remove-and-fit.pdf"}
    assert not [path for path in built.parent.iterdir() if path.name.startswith(".gull")]
