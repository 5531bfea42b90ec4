"""Flags of all forms, from the description to the PDF: files, sheets, cells, and where the ink is."""

from collections.abc import Mapping
from dataclasses import replace
from io import BytesIO
from math import pi
from pathlib import Path

import pdfplumber
import pytest

from labelgen.imposition.sheet_grid import stock_problems
from labelgen.imposition.stock_page import stock_page
from labelgen.lengths import POINTS_PER_MM
from labelgen.making import Checked, Request, Result, misuse
from labelgen.model.drawing import Line
from labelgen.pipeline import check_file, make
from labelgen.places import Place
from labelgen.problems import has_errors
from labelgen.reading.data_readers import stocks

RAILWAY = """railway: Marram Quay
boards: {West: {size: [1200, 600]}}
panels: {BOX: {at: [100, 600]}}
supplies: {PULSE: {kind: pulse, at: [50, 550]}}
strips: {A1: {at: [300, 400], measured: 88}}
points: {P5: {at: [500, 300]}, P6: {at: [600, 300]}, P7: {at: [700, 300]}}
"""


def checked(folder: Path, more: str) -> Checked:
    path = folder / "quay.yaml"
    path.write_text(RAILWAY + more, encoding="utf-8")
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems)
    return found


def made(folder: Path, more: str, *, kind: str = "flags", **asked: Mapping[str, object]) -> Result:
    return make(checked(folder, more), Request(only=frozenset({kind}), **asked))  # type: ignore[arg-type]


def sheets_of(result: Result) -> dict[str, str]:
    return {one.name: one.what.split(", ")[0].rpartition(" ")[2] for one in result.made}


@pytest.mark.parametrize(
    ("form", "paper", "sheet"),
    [
        ("fold", "a4", "a4-65-38x21"), ("wrap", "a4", "a4-70-25x25"), ("sleeve", "a4", "a4-1-full"),
        ("fold", "letter", "us-80-44x13"), ("wrap", "letter", "us-70-25x25"), ("sleeve", "letter", "us-1-full"),
    ],
)  # fmt: skip
def test_every_form_has_its_sheet_on_both_papers(tmp_path: Path, form: str, paper: str, sheet: str) -> None:
    result = made(tmp_path, f"printing: {{flags: {form}, paper: {paper}}}\n")
    assert not has_errors(result.problems)
    assert sheets_of(result) == {"flags.pdf": sheet}
    # 7 wires a point, less the links of the feed: two flags each (trade practice)
    assert result.made[0].what.startswith(f"{2 * (3 * 7 - 2)} ")


def test_each_further_form_has_a_file_of_its_own(tmp_path: Path) -> None:
    mixed = "printing: {flags: wrap}\nfunctions: {return: {flags: sleeve}, feed: {flags: fold}}\n"
    result = made(tmp_path, mixed)
    assert sheets_of(result) == {
        "flags-fold.pdf": "a4-65-38x21",
        "flags.pdf": "a4-70-25x25",
        "flags-sleeve.pdf": "a4-1-full",
    }
    counts = {one.name: int(one.what.split(" ")[0]) for one in result.made}
    assert counts == {"flags-fold.pdf": 2 * 4, "flags.pdf": 2 * 12, "flags-sleeve.pdf": 2 * 3}
    assert made(tmp_path, mixed).files == result.files


def words_by_cell(content: bytes, name: str) -> dict[int, set[str]]:
    stock = stocks()[name]
    found: dict[int, set[str]] = {}
    with pdfplumber.open(BytesIO(content)) as document:
        for word in document.pages[0].extract_words():
            x, y = word["x0"] / POINTS_PER_MM, word["top"] / POINTS_PER_MM
            for index in range(stock.count):
                cell = stock.cell(index)
                if cell.x <= x <= cell.right and cell.y <= y <= cell.bottom:
                    found.setdefault(index, set()).add(word["text"])
    return found


@pytest.mark.parametrize("name", ["a4-70-25x25", "us-70-25x25"])
def test_the_ink_of_every_wrap_is_on_the_white_of_its_cell(tmp_path: Path, name: str) -> None:
    """Read back by pdfplumber, within 0.05 mm; nothing on a clear tail, nor between the labels."""
    paper = "letter" if name.startswith("us") else "a4"
    result = made(tmp_path, f"printing: {{flags: wrap, paper: {paper}}}\n")
    stock = stocks()[name]
    assert stock.print_zone is not None
    last = stock.cell(stock.count - 1)
    count = 0
    with pdfplumber.open(BytesIO(result.files["flags.pdf"])) as document:
        for page in document.pages:
            for thing in (*page.chars, *page.rects, *page.lines, *page.curves):
                box = [thing[key] / POINTS_PER_MM for key in ("x0", "top", "x1", "bottom")]
                if box[1] < stock.top - 0.05 or box[1] > last.bottom + 0.05:
                    continue  # the check rule and the sheet's name, in the margins
                column, row = int((box[0] - stock.left) // stock.pitch_x), int((box[1] - stock.top) // stock.pitch_y)
                cell = stock.cell(row * stock.columns + column)
                # a character's box is its em, which reaches above and below its ink
                loose = 0.45 if "text" in thing else 0.05
                assert cell.x - 0.05 <= box[0], thing
                assert box[2] <= cell.right + 0.05, thing
                assert cell.y - loose <= box[1], thing
                assert box[3] <= cell.y + stock.print_zone + loose, thing
                count += 1
    assert count > 38 * 10


def test_a_ring_of_a_wrap_stands_where_it_should_on_paper(tmp_path: Path) -> None:
    result = made(tmp_path, "printing: {flags: wrap}\n")
    stock = stocks()["a4-70-25x25"]
    with pdfplumber.open(BytesIO(result.files["flags.pdf"])) as document:
        filled = [rect for rect in document.pages[0].rects if rect["fill"]]
    lefts = {round(rect["x0"] / POINTS_PER_MM, 2) for rect in filled}
    expected = {round(stock.cell(column).x + 1.0, 2) for column in range(7)}
    assert all(min(abs(left - one) for left in lefts) <= 0.05 for one in expected)


def test_a_part_used_sheet_and_another_sheet_by_flags_or_by_the_form(tmp_path: Path) -> None:
    mixed = "printing: {flags: wrap}\nfunctions: {return: {flags: fold}}\n"
    result = made(tmp_path, mixed, start={"flags": 17, "fold": 5}, sheets={"fold": "a4-24-64x34"})
    assert min(words_by_cell(result.files["flags.pdf"], "a4-70-25x25")) == 16
    assert min(words_by_cell(result.files["flags-fold.pdf"], "a4-24-64x34")) == 4
    by_form = made(tmp_path, mixed, start={"wrap": 17})
    assert by_form.files["flags.pdf"] == result.files["flags.pdf"]


def test_the_description_chooses_a_sheet_by_flags_or_by_the_form(tmp_path: Path) -> None:
    thick = "printing: {flags: wrap}\nfunctions: {normal: {size: 4 mm2}, reverse: {size: 4 mm2}, feed: {size: 4 mm2}, "
    thick += "return: {size: 4 mm2}}\n"
    for choice in ("flags: a4-35", "wrap: a4-35", "flags: a4-35, wrap: a4-70"):
        result = made(tmp_path, f"{thick}sheets: {{{choice}}}\n")
        assert sheets_of(result) == {"flags.pdf": "a4-35-25x57"}
    asked = made(tmp_path, f"{thick}sheets: {{flags: a4-65}}\n", sheets={"wrap": "a4-35"})
    assert sheets_of(asked) == {"flags.pdf": "a4-35-25x57"}


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ("printing: {flags: wrap}\nsheets: {flags: a4-65}\n", "no clear tail"),
        ("sheets: {flags: a4-70}\n", "printed all over"),
        ("printing: {flags: wrap}\nsheets: {flags: a4-49}\n", "go round wires of"),
    ],
)
def test_a_sheet_that_is_not_made_for_the_form_is_an_error(tmp_path: Path, more: str, words: str) -> None:
    result = made(tmp_path, more)
    assert result.files == {}
    assert {problem.code for problem in result.problems} == {"flag-unsuited"}
    assert all(words in problem.message for problem in result.problems)


def test_what_is_wrong_with_a_form_is_shown_where_it_was_chosen(tmp_path: Path) -> None:
    for more, line in (
        ("printing: {flags: wrap}\nfunctions: {return: {size: 6 mm2}}\n", 7),
        ("functions:\n  return: {size: 6 mm2, flags: wrap}\n", 8),
        ("wires:\n  - {from: L5.N, to: A1.1, size: 6 mm2,\n     flags: wrap}\n", 9),
    ):
        (problem,) = [one for one in made(tmp_path, more).problems if one.code == "flag-unsuited"]
        assert problem.place.line == line


def test_a_self_laminating_sheet_needs_a_tail_and_shows_it_on_its_test_page() -> None:
    stock = stocks()["a4-70-25x25"]
    (problem,) = stock_problems(replace(stock, print_zone=25.4), Place(file="stock"))
    assert (problem.code, "no clear tail" in problem.message) == ("sheet-does-not-add-up", True)
    dashed = [mark for mark in stock_page(stock).sheet.marks if isinstance(mark, Line) and mark.dash]
    assert [(line.x1, line.y1) for line in dashed[:2]] == [(8.6, 21.5 + 9.5), (8.6 + 27.9, 21.5 + 9.5)]
    assert len(dashed) == 70
    plain = stock_page(stocks()["a4-65-38x21"])
    assert not any(isinstance(mark, Line) and mark.dash for mark in plain.sheet.marks)


def test_no_hint_for_tags_or_plates_names_labels_with_a_clear_tail(tmp_path: Path) -> None:
    result = made(tmp_path, "sheets: {plates: a4-270}\n", kind="plates")
    hints = " ".join(problem.hint for problem in result.problems)
    tails = [one.id for one in stocks().values() if one.print_zone is not None]
    assert len(tails) >= 6
    assert not any(tail in hints for tail in tails)


def test_a_start_behind_the_last_cell_is_misuse(tmp_path: Path) -> None:
    description = checked(tmp_path, "printing: {flags: wrap}\n")
    assert misuse(description, Request(start={"flags": 70})) is None
    assert "a4-70-25x25 has 70 cells" in (misuse(description, Request(start={"wrap": 71})) or "")


def test_an_unknown_sheet_of_a_form_is_said(tmp_path: Path) -> None:
    path = tmp_path / "quay.yaml"
    path.write_text(f"{RAILWAY}sheets: {{sleeve: a4-2}}\n", encoding="utf-8")
    assert "unknown-sheet" in {problem.code for problem in check_file(path)[1]}


def test_slips_are_cut_from_full_sheets_under_their_key(tmp_path: Path) -> None:
    result = made(tmp_path, "printing: {flags: sleeve}\n")
    with pdfplumber.open(BytesIO(result.files["flags.pdf"])) as document:
        (page,) = document.pages
        upright = [char for char in page.chars if char["upright"]]
        said = page.extract_text() if upright else "".join(char["text"] for char in page.chars)
        heights = {round(rect["height"] / POINTS_PER_MM, 2) for rect in page.rects if rect["fill"]}
        widths = {round(rect["width"] / POINTS_PER_MM, 2) for rect in page.rects if rect["fill"]}
    assert "before the ferrule" in said
    assert "bore 2.4 mm" in said
    # π × the diameters of 16/0.2 and 32/0.2, trade practice: the rings go all around
    around = {round(pi * 1.6, 2), round(pi * 2.6, 2)}
    assert around & (heights | widths)
    assert result.made[0].what.endswith("before the ferrules")


def test_slips_in_the_cells_of_a_sheet(tmp_path: Path) -> None:
    result = made(tmp_path, "printing: {flags: sleeve}\nsheets: {flags: a4-189}\n", start={"flags": 3})
    assert not has_errors(result.problems)
    assert min(words_by_cell(result.files["flags.pdf"], "a4-189-25x10")) == 2


def test_no_sleeves_on_a_board_make_no_sheet_of_keys(tmp_path: Path) -> None:
    two = RAILWAY.replace("{West: {size: [1200, 600]}}", "{West: {size: [1200, 600]}, East: {right_of: West}}")
    two = two.replace("strips: {A1: {", "strips: {A1: {board: West, ").replace("PULSE: {", "PULSE: {board: West, ")
    two = two.replace("BOX: {", "BOX: {board: West, ").replace("{at: [500, 300]}", "{board: West, at: [500, 300]}")
    two = two.replace("{at: [600, 300]}", "{board: West, at: [600, 300]}")
    two = two.replace("{at: [700, 300]}", "{board: West, at: [700, 300]}")
    path = tmp_path / "two.yaml"
    path.write_text(f"{two}printing: {{flags: sleeve}}\n", encoding="utf-8")
    found, problems = check_file(path)
    assert found is not None
    assert not has_errors(problems)
    assert make(found, Request(only=frozenset({"flags"}), board="East")).files == {}
    assert make(found, Request(only=frozenset({"flags"}), board="West")).files.keys() == {"flags.pdf"}


def test_a_long_name_of_a_railway_leaves_the_heading_its_words(tmp_path: Path) -> None:
    path = tmp_path / "long.yaml"
    long = RAILWAY.replace("Marram Quay", "Marram Quay with its harbour branch and the tramway to the fish market")
    path.write_text(f"{long}printing: {{flags: sleeve}}\n", encoding="utf-8")
    found, _ = check_file(path)
    assert found is not None
    content = make(found, Request(only=frozenset({"flags"}))).files["flags.pdf"]
    with pdfplumber.open(BytesIO(content)) as document:
        assert "Sleeves, on before the ferrule" in "".join(char["text"] for char in document.pages[0].chars)


def test_the_cut_list_says_what_goes_on_when(tmp_path: Path) -> None:
    mixed = "printing: {flags: wrap}\nfunctions: {return: {flags: sleeve}, feed: {flags: fold}}\n"
    files = made(tmp_path, mixed, kind="lists").files
    table = files["cut-list.csv"].decode("utf-8-sig")
    assert table.count("1 sleeve each end, before the ferrule") == 3
    assert table.count("1 wrap each end") == 12
    assert table.count("1 flag each end") == 4
    with pdfplumber.open(BytesIO(files["cut-list.pdf"])) as document:
        said = "\n".join(page.extract_text() for page in document.pages)
    assert "1 sleeve each end, before the ferrule" in said
    assert "32/0.2: bore 3.2 mm" in said
    assert " tag " in said
    plain = made(tmp_path, "", kind="lists").files["cut-list.pdf"]
    with pdfplumber.open(BytesIO(plain)) as document:
        said = "\n".join(page.extract_text() for page in document.pages)
    assert "sleeve" not in said
    assert " tag " not in said
    alone = made(tmp_path, "printing: {flags: sleeve}\n", kind="lists").files["cut-list.pdf"]
    with pdfplumber.open(BytesIO(alone)) as document:
        assert "Every wire takes 1 sleeve each end" in document.pages[0].extract_text()
