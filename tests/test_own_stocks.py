"""Label stock that the builder describes: checked, chosen in the description or on the command line, and printed on."""

from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest

from labelgen.making import Request, untold
from labelgen.model.correction import Correction
from labelgen.pipeline import check_file, make
from labelgen.problems import Problem, has_errors

RAILWAY = "railway: Marram Quay\nsupplies: {PULSE: {kind: pulse}}\nstrips: {A1: {measured: 110}}\npoints: {P5: {}}\n"
MINE = "{paper: a4, columns: 3, rows: 8, size: [64, 34], pitch: [66.5, 34], left: 6.5, top: 12.5}"
MM = 72 / 25.4


def described(folder: Path, more: str) -> tuple[Path, list[Problem]]:
    path = folder / "quay.yaml"
    path.write_text(f"{RAILWAY}{more}\n", encoding="utf-8")
    return path, check_file(path)[1]


def pages(path: Path, name: str, request: Request) -> list[pdfplumber.page.Page]:
    checked, problems = check_file(path)
    assert checked is not None
    assert not has_errors(problems)
    result = make(checked, request)
    assert not has_errors(result.problems), result.problems
    return pdfplumber.open(BytesIO(result.files[name])).pages


@pytest.mark.parametrize(
    ("stock", "code", "words", "column"),
    [
        (MINE.replace("left: 6.5", "left: 9"), "sheet-does-not-add-up", "across", 10),
        (MINE.replace("rows: 8", "rows: 9"), "sheet-does-not-add-up", "down", 10),
        (MINE.replace("66.5, 34", "60, 34"), "sheet-does-not-add-up", "overlap", 10),
        (MINE.replace("paper: a4", "paper: a5"), "unknown-choice", "'a5'", 24),
        (MINE.replace(", size: [64, 34]", ""), "missing-key", "label stock `mine` has no `size`", 10),
        (MINE.replace("rows: 8", "rows: 0"), "out-of-range", "0 is too small", 46),
        (MINE.replace("left", "lift"), "unknown-key", "a label stock has no key `lift`", 84),
        ("{paper: roll, size: [40, 20], rows: 2}", "sheet-does-not-add-up", "roll", 10),
    ],
)
def test_a_mistake_in_it_is_shown_at_its_place(tmp_path: Path, stock: str, code: str, words: str, column: int) -> None:
    _, problems = described(tmp_path, f"stocks: {{mine: {stock}}}")
    found = [problem for problem in problems if problem.code == code]
    assert words in found[0].message
    assert (found[0].place.line, found[0].place.column) == (5, column)


def test_it_is_chosen_by_its_name_in_the_file_or_on_the_command_line(tmp_path: Path) -> None:
    path, problems = described(tmp_path, f"stocks: {{mine: {MINE}}}\nsheets: {{flags: mine}}")
    assert not has_errors(problems)
    only = frozenset({"flags", "plates"})
    result_pages = pages(path, "flags.pdf", Request(only=only, sheets={"plates": "mine"}))
    assert len(result_pages) == 1
    result_pages = pages(path, "plates.pdf", Request(only=only, sheets={"plates": "mi"}))
    assert "mine" in result_pages[0].extract_text()


def test_it_stands_in_for_one_of_ours_of_that_name(tmp_path: Path) -> None:
    narrow = MINE.replace("64, 34", "50, 34").replace("left: 6.5", "left: 13.5")
    path, problems = described(tmp_path, f"stocks: {{a4-24-64x34: {narrow}}}\nsheets: {{flags: a4-24-64x34}}")
    assert not has_errors(problems)
    (page,) = pages(path, "flags.pdf", Request(only=frozenset({"flags"})))
    assert (
        min(word["x0"] for word in page.extract_words() if word["top"] < 40 * MM and word["top"] > 13 * MM) > 13.5 * MM
    )


def test_a_roll_is_a_page_a_label(tmp_path: Path) -> None:
    path, _ = described(tmp_path, "stocks: {drum: {paper: roll, size: [62, 40]}}\nsheets: {flags: drum}")
    found = pages(path, "flags.pdf", Request(only=frozenset({"flags"})))
    assert len(found) > 1
    assert {(round(float(page.width) / MM, 2), round(float(page.height) / MM, 2)) for page in found} == {(62, 40)}


def test_print_stays_inside_of_round_labels(tmp_path: Path) -> None:
    """Every letter of a plate within the circle, by the PDF alone."""
    circle = "{paper: a4, columns: 3, rows: 5, size: [50, 50], pitch: [60, 55], left: 20, top: 13.5, shape: round}"
    path, problems = described(tmp_path, f"stocks: {{dots: {circle}}}\nsheets: {{plates: dots}}")
    assert not has_errors(problems)
    (page,) = pages(path, "plates.pdf", Request(only=frozenset({"plates"})))
    inside = [one for one in page.chars if 13.5 < one["top"] / MM < 283.5]
    assert inside
    for one in inside:
        for x, y in ((one["x0"], one["top"]), (one["x1"], one["bottom"])):
            assert (x / MM - 45) ** 2 + (y / MM - 38.5) ** 2 <= 25**2


def test_a_check_knows_what_would_come_near_the_papers_edge(tmp_path: Path) -> None:
    path, problems = described(tmp_path, "sheets: {flags: a4-24-70x36, plates: a4-65-38x21, markers: a4-1-full}")
    (caution,) = [problem for problem in problems if problem.code == "near-paper-edge"]
    assert "labels 1, 3, 4, 6, 7, 9, 10, 12 and 8 more" in caution.message
    assert (caution.place.line, caution.place.column) == (5, 17)
    checked, _ = check_file(path)
    assert checked is not None
    again = make(checked, Request(only=frozenset({"flags"}))).problems
    assert "near-paper-edge" in {problem.code for problem in again}
    assert "near-paper-edge" not in {problem.code for problem in untold(again, problems)}
    assert untold(again, []) == again


def test_flags_may_be_cut_from_full_sheets(tmp_path: Path) -> None:
    path, problems = described(tmp_path, "sheets: {flags: a4-1-full}")
    assert not has_errors(problems)
    (page,) = pages(path, "flags.pdf", Request(only=frozenset({"flags"})))
    assert "cut along the lines" in " ".join(page.extract_text().split())
    assert min(word["x0"] for word in page.extract_words()) > 4.9 * MM, "of the letters, not of their ink"


def test_a_correction_is_one_transform_of_the_whole_page(tmp_path: Path) -> None:
    """Every place and every size of the PDF, read back: `scale` × what it was, and `shift`."""
    path, _ = described(tmp_path, "")
    for name, kind in (("flags.pdf", "flags"), ("markers.pdf", "markers")):
        only = frozenset({kind})
        (plain,) = pages(path, name, Request(only=only))
        (moved,) = pages(path, name, Request(only=only, correction=Correction(scale=(1.01, 0.98), shift=(2, -1))))
        kinds = [(one, other) for kind in ("chars", "lines", "rects") for one, other in
                 zip(getattr(plain, kind), getattr(moved, kind), strict=True)]  # fmt: skip
        assert len(kinds) > 50
        for one, other in kinds:
            for side in ("x0", "x1"):
                assert other[side] == pytest.approx(1.01 * one[side] + 2 * MM, abs=0.02)
            for side in ("top", "bottom"):
                assert other[side] == pytest.approx(0.98 * one[side] - MM, abs=0.3 if "text" in one else 0.02)


def test_a_scale_is_one_number_or_two(tmp_path: Path) -> None:
    for text, scale in (("1.01", (1.01, 1.01)), ("[1.01, 0.99]", (1.01, 0.99))):
        path, problems = described(tmp_path, f"printing: {{scale: {text}}}")
        checked, _ = check_file(path)
        assert checked is not None
        assert checked.description.printing.scale == scale
    for text in ("100", "[1, 1.2]", "[1]", "yes"):
        _, problems = described(tmp_path, f"printing: {{scale: {text}}}")
        assert has_errors(problems), text
