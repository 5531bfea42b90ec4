"""What is wrong between labels and their sheet is shown where the sheet was chosen."""

from pathlib import Path

import pytest

from labelgen.making import Request
from labelgen.pipeline import check_file, make

RAILWAY = "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: {measured: 110}}\npoints: {P5: {}}\n"


def found(folder: Path, more: str, request: Request) -> list[tuple[str, int, int]]:
    path = folder / "quay.yaml"
    path.write_text(f"{RAILWAY}{more}\n", encoding="utf-8")
    checked, _ = check_file(path)
    assert checked is not None
    return [(one.code, one.place.line, one.place.column) for one in make(checked, request).problems]


@pytest.mark.parametrize(
    ("use", "sheet", "code"),
    [
        ("flags", "a4-24-70x36", "near-paper-edge"),
        ("flags", "a4-270-18x10", "label-too-large"),
        ("tags", "a4-24-70x36", "near-paper-edge"),
        ("tags", "a4-189-25x10", "label-too-large"),
    ],
)
def test_the_choice_of_a_sheet_is_shown(tmp_path: Path, use: str, sheet: str, code: str) -> None:
    request = Request(only=frozenset({use}))
    assert set(found(tmp_path, f"sheets: {{{use}: {sheet}}}", request)) == {(code, 5, 12 + len(use))}


def test_a_sheet_that_the_command_chose_is_shown_at_what_does_not_fit_it(tmp_path: Path) -> None:
    request = Request(only=frozenset({"tags"}), sheets={"tags": "a4-189-25x10"})
    assert found(tmp_path, "sheets: {tags: a4-8-99x68}", request) == [("label-too-large", 3, 10)]


def test_what_is_not_the_sheets_fault_is_shown_where_it_stands(tmp_path: Path) -> None:
    railway = "levers: {5: {name: crane 🏗}}\nsheets: {plates: a4-65-38x21}"
    assert found(tmp_path, railway, Request(only=frozenset({"plates"}))) == [("character-missing", 5, 10)]
