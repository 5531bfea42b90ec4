"""CSV as spreadsheets of several countries write it."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_csv import read_csv
from labelgen.reading.spreadsheet_grid import Grid, tidied
from labelgen.spreadsheet_cells import write_cell

HERE = Place(file="quay.yaml", line=9)


def grid_of(data: bytes | str) -> Grid:
    grid, problems = read_csv(data if isinstance(data, bytes) else data.encode(), "lists/wires.csv", HERE)
    assert problems == []
    assert grid is not None
    return grid


def problem_of(data: bytes) -> Problem:
    grid, (problem,) = read_csv(data, "lists/wires.csv", HERE)
    assert grid is None
    assert problem.place == HERE
    return problem


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_every_common_form(delimiter: str, encoding: str, line_end: str) -> None:
    rows = [["number", "from", "to"], ["37N bis", "L5.N", "A1.1"], ["08", "Köln.1", "A1.2"]]
    text = line_end.join(delimiter.join(row) for row in rows)
    grid = grid_of(text.encode(encoding))
    assert [list(row) for row in grid.rows] == rows
    assert grid.delimiter == delimiter


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ("id;x;y\nP5;400,5;200,5\nP6;1,5;2,5\n", ";"),  # decimal commas
        ("P5;400,5;200,5\nP6;1,5;2,5\n", ";"),  # and no headings
        ("Wiring, as built;;\nfrom;to;note\nA1.1;P5.N;a, b, c, d\n", ";"),
        ("from,to,note\nA1.1,P5.N,red; was blue; then red; then gone\n", ","),
        ('from,to,note\nA1.1,P5.N,"a;b;c;d;e;f;g"\n', ","),
        ("from\tto\tnote\nA1.1\tP5.N\tx, y; z\n", "\t"),
        ("sep=;\nfrom;to,x\nA1.1;P5.N\n", ";"),
        ("sep=|\nfrom,to\nA1.1,P5.N\n", ","),
    ],
)
def test_what_stands_between_the_cells(text: str, delimiter: str) -> None:
    assert grid_of(text).delimiter == delimiter


def test_a_line_that_says_the_delimiter_is_an_empty_row() -> None:
    grid = grid_of("sep=;\nfrom;to\nA1.1;P5.N\n")
    assert grid.rows[0] == ()
    assert grid.text(3, 2) == "P5.N"


def test_cells_are_tidied_and_lose_their_guard() -> None:
    grid = grid_of('from,to,note\n  A1.1 ,\'08,"two\r\nlines\xa0here"\n')
    assert grid.rows[1] == ("A1.1", "08", "two lines here")


def test_rows_count_as_a_spreadsheet_counts_them() -> None:
    grid = grid_of('from,to\n"a\nb",c\n\nA1.1,P5.N\n,\n\n')
    assert len(grid.rows) == 4
    assert grid.text(4, 1) == "A1.1"
    assert grid.text(9, 1) == grid.text(1, 9) == grid.text(0, 1) == grid.text(1, 0) == ""


def test_windows_1252_is_a_caution_at_the_first_cell_that_may_be_wrong() -> None:
    grid, (problem,) = read_csv("from;note\nA1.1;plain\nA1.2;Molé\n".encode("cp1252"), "wires.csv", HERE)
    assert grid is not None
    assert grid.text(3, 2) == "Molé"
    assert (problem.code, problem.place.file, problem.place.cell) == ("windows-1252", "wires.csv", "B3")
    assert "Molé" in problem.message


def test_what_no_code_page_explains() -> None:
    assert problem_of(b"from,to\n\x81\xff,x\n").code == "not-utf8"
    assert problem_of(b"from,to\0\n").code == "bad-spreadsheet"


def test_a_quote_that_is_never_closed() -> None:
    problem = problem_of(b'from,to\n"A1.1,P5.N\nA1.2,P5.R\n')
    assert problem.code == "bad-spreadsheet"
    assert "`wires.csv`" in problem.message


@pytest.mark.parametrize("cell", ['5" pipe', '"A1".1'])
def test_a_quote_in_the_midst_is_a_sign_like_any_other(cell: str) -> None:
    assert grid_of(f"from,to\n{cell},P5.N\n").text(2, 2) == "P5.N"


@pytest.mark.parametrize(
    ("rows", "columns", "what"), [(20_001, 1, "20000 rows"), (1, 201, "200 columns"), (20_000, 1, ""), (1, 200, "")]
)
def test_limits(rows: int, columns: int, what: str) -> None:
    data = (",".join(["x"] * columns) + "\n") * rows + ",,,\n" * 50
    grid, problems = read_csv(data.encode(), "wires.csv", HERE)
    assert (grid is None) == bool(what)
    assert [problem.code for problem in problems] == ["bad-spreadsheet"] * bool(what)
    assert all(what in problem.message for problem in problems)


def test_a_character_that_cannot_be_seen_is_told_when_its_cell_is_wanted() -> None:
    grid = grid_of("from,to\nA1\u202e.1,P5.N\n")
    assert grid.flaw(2, 2) is None
    flaw = grid.flaw(2, 1)
    assert flaw is not None
    assert (flaw.code, flaw.place.cell) == ("odd-character", "A2")


def test_the_place_of_a_cell_marks_it_in_its_row() -> None:
    place = grid_of("from,to,note\nA1.1,P5.N,,\n").place(2, 2)
    assert (place.line, place.column, place.cell) == (2, 2, "B2")
    assert place.mark is not None
    assert place.source[place.mark - 1 :][: place.length] == "P5.N"
    beyond = grid_of("from,to,note\nA1.1\n").place(2, 3)
    assert (beyond.cell, beyond.length) == ("C2", 1)
    assert beyond.mark == len(beyond.source) + 1


CELLS = st.text(
    st.characters(exclude_categories=["Cs", "Cc", "Zl", "Zp", "Zs", "Cf", "Cn"]), min_size=1, max_size=8
).filter(lambda text: not text.lower().startswith("sep="))


@given(
    st.lists(st.tuples(CELLS, CELLS, CELLS), min_size=1, max_size=5),
    st.sampled_from([",", ";", "\t"]),
    st.booleans(),
)
def test_what_was_written_is_read(rows: list[tuple[str, ...]], delimiter: str, quoted: bool) -> None:
    into = StringIO(newline="")
    quoting = csv.QUOTE_ALL if quoted else csv.QUOTE_MINIMAL
    writer = csv.writer(into, delimiter=delimiter, quoting=quoting)
    writer.writerow(["from", "to", "note"])
    writer.writerows([write_cell(cell) for cell in row] for row in rows)
    if delimiter != "\t" and not quoted:
        return  # rows of marks alone can be read in two ways; a spreadsheet quotes them
    grid = grid_of(into.getvalue())
    assert [tuple(row) for row in grid.rows[1:]] == [tuple(cell.strip() for cell in row) for row in rows]


@pytest.mark.parametrize(
    ("cell", "tidy"),
    [
        ("a \t b", "a b"),
        ("\r\n a\n\n\xa0b\u2028", "a b"),
        ("\n", ""),
        ("a  b", "a  b"),
        (f"a{' ' * 1_000_000}b\n", f"a{' ' * 1_000_000}b"),
    ],
    ids=["tab", "breaks", "nothing", "blanks", "many blanks"],
)
def test_a_cell_s_text_on_one_line(cell: str, tidy: str) -> None:
    assert tidied(cell) == tidy
