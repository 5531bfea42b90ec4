"""`check` says what `make` could not print, and loads the typefaces only for what is not plain ASCII."""

import subprocess
import sys
from pathlib import Path

import pytest

from labelgen.pipeline import check_file, label_problems
from labelgen.problems import Problem

RAILWAY = """railway: Marram Quay
boards: {West: {size: [1200, 600], at: [0, 0], name: BOARD}}
supplies: {PULSE: {kind: pulse, at: [100, 550], terminals: {feed: FEED}}}
strips: {A1: {at: [600, 500], measured: 110, taken: {12: TAKEN}}}
levers: {5: {name: LEVER}}
points: {P5: {at: [400, 200], shown: POINT}}
"""


def missing(tmp_path: Path, text: str) -> list[Problem]:
    path = tmp_path / "railway.yaml"
    path.write_text(text, encoding="utf-8")
    checked, problems = check_file(path)
    assert checked is not None
    assert "character-missing" not in {problem.code for problem in problems}, "the wiring can be read all the same"
    return [problem for problem in label_problems(checked, drawn=False) if problem.code == "character-missing"]


@pytest.mark.parametrize(("place", "line"), [("Quay", 1), ("BOARD", 2), ("TAKEN", 4), ("LEVER", 5), ("POINT", 6)])
def test_what_no_typeface_has_is_named_where_it_was_written(tmp_path: Path, place: str, line: int) -> None:
    (problem,) = missing(tmp_path, RAILWAY.replace(place, "🏗"))
    assert "'🏗' (U+1F3D7)" in problem.message
    assert problem.place.line == line


def test_what_is_painted_on_a_supply_is_told_once_for_all_its_wires(tmp_path: Path) -> None:
    (problem,) = missing(tmp_path, RAILWAY.replace("FEED", "⏚"))
    assert "U+23DA" in problem.message


def test_letters_of_other_languages_are_printed(tmp_path: Path) -> None:
    assert missing(tmp_path, RAILWAY.replace("LEVER", "Łódź, Plzeň, Ωμέγα, Мост").replace("FEED", "+ → Ω")) == []


def test_the_typefaces_are_not_opened_for_plain_text(tmp_path: Path) -> None:
    path = tmp_path / "railway.yaml"
    path.write_text(RAILWAY, encoding="utf-8")
    script = (
        "import sys\nfrom pathlib import Path\nfrom labelgen.pipeline import check_file, label_problems\n"
        f"label_problems(check_file(Path({str(path)!r}))[0], drawn=False)\nprint('reportlab' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_a_strip_may_stand_on_no_board(tmp_path: Path) -> None:
    (problem,) = missing(tmp_path, "railway: Quay\nstrips: {A1: {taken: {12: 🏗}}}\n")
    assert problem.place.line == 2
