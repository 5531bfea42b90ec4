"""`plan-BOARD.pdf` as it is made, and what is said of boards that have no plan."""

from pathlib import Path

from labelgen.making import Request
from labelgen.pipeline import check_file, make
from labelgen.problems import Problem

BARE = "railway: Marram Quay\nboards: {B1: {size: [900, 500]}, B2: {size: [900, 500], holes: {H1: {at: [60, 60]}}}}\n"


def made(text: str, folder: Path, board: str | None = None) -> tuple[list[str], list[Problem]]:
    file = folder / "quay.yaml"
    file.write_text(text, encoding="utf-8")
    checked, _ = check_file(file)
    assert checked is not None
    result = make(checked, Request(only=frozenset({"plan"}), board=board))
    return sorted(result.files), result.problems


def test_a_board_on_which_nothing_has_a_place_has_no_plan(tmp_path: Path) -> None:
    files, (problem,) = made(BARE, tmp_path)
    assert files == ["plan-B2.pdf"]
    assert (problem.code, problem.severity) == ("no-plan", "note")
    assert problem.message == "nothing on board B1 has a place, so there is no plan"


def test_nothing_is_said_of_boards_that_are_not_asked_for(tmp_path: Path) -> None:
    assert made(BARE, tmp_path, board="B2") == (["plan-B2.pdf"], [])


def test_without_boards_there_is_none(tmp_path: Path) -> None:
    files, (problem,) = made("railway: Marram Quay\n", tmp_path)
    assert files == []
    assert problem.message == "no boards are described, so there is no plan"


def test_where_everything_is_made_nothing_is_said(tmp_path: Path) -> None:
    file = tmp_path / "quay.yaml"
    file.write_text(BARE, encoding="utf-8")
    checked, _ = check_file(file)
    assert checked is not None
    assert [p for p in make(checked, Request()).problems if p.code == "no-plan"] == []
