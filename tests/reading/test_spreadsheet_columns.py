"""Which column of a list holds what."""

from typing import Any

import pytest

from labelgen.model.paper_lists import WireColumns
from labelgen.places import Path, Place
from labelgen.problems import Problem
from labelgen.reading.spreadsheet_columns import DEVICE_WORDS, WIRE_WORDS, Columns, Wanted, find_columns, heading
from labelgen.reading.spreadsheet_grid import Grid
from labelgen.spreadsheet_cells import COLUMNS


class PathsAsPlaces:
    def of_key(self, path: Path) -> Place:
        return Place(file="key", source="/".join(map(str, path)))

    def of_value(self, path: Path) -> Place:
        return Place(file="value", source="/".join(map(str, path)))


def grid(*rows: str) -> Grid:
    return Grid(file="wires.csv", rows=[tuple(row.split("|")) if row else () for row in rows])


def find(sheet: Grid, columns: dict[str, Any] | None = None, first_row: int | None = None) -> Columns | list[Problem]:
    given = WireColumns.model_validate(columns) if columns is not None else None
    wanted = Wanted(
        path=("wire_list",), places=PathsAsPlaces(), given=given, first_row=first_row, words=WIRE_WORDS,
        needed=("from", "to"),
    )  # fmt: skip
    found, problems = find_columns(sheet, wanted)
    assert (found is None) == bool(problems)
    return found or problems


def of(sheet: Grid, columns: dict[str, Any] | None = None, first_row: int | None = None) -> tuple[dict[str, Any], int]:
    found = find(sheet, columns, first_row)
    assert isinstance(found, Columns)
    return dict(found.of), found.first


def trouble(sheet: Grid, columns: dict[str, Any] | None = None) -> list[tuple[str, str, str]]:
    found = find(sheet, columns)
    assert isinstance(found, list)
    return [(one.code, one.message, one.place.source) for one in found]


@pytest.mark.parametrize(
    ("typed", "compared"),
    [("Colour", "colour"), (" Wire No. ", "wire no"), ("length (mm)", "length"), ("FROM_SIDE:", "from side"), ("", "")],
)
def test_headings_as_they_are_compared(typed: str, compared: str) -> None:
    assert heading(typed) == compared


def test_by_its_own_headings() -> None:
    columns, first = of(grid("No|From|To|Color|AWG Size|Remarks", "1|A1.1|P5.N|RD||"))
    assert columns == {"number": (1,), "from": (2,), "to": (3,), "colour": (4,), "note": (6,)}
    assert first == 2


def test_headings_below_a_title() -> None:
    assert of(grid("Wiring of the quay, from here to there", "", "to|from", "A1.1|P5.N")) == (
        {"from": (2,), "to": (1,)},
        4,
    )


def test_our_own_headings_are_all_known() -> None:
    columns, _ = of(grid("|".join(COLUMNS), "|" * 15))
    read = {"number", "head", "from", "from_side", "to", "to_side", "function", "colour", "size", "length", "note"}
    assert columns == {key: (COLUMNS.index(key.replace("_", " ")) + 1,) for key in read}


def test_no_word_stands_for_two_things() -> None:
    for words in (WIRE_WORDS, DEVICE_WORDS):
        every = [word for known in words.values() for word in known]
        assert len(every) == len(set(every))
        assert every == [heading(word) or word for word in every]


def test_no_headings() -> None:
    ((code, message, place),) = trouble(grid("1|A1.1|P5.N", "number|from"))
    assert (code, message, place) == (
        "bad-spreadsheet", "no heading in the list says which column is `to`", "wire_list/file",
    )  # fmt: skip
    assert trouble(grid())[0][0] == "bad-spreadsheet"


def test_by_letters() -> None:
    sheet = grid("1|x|A1|3|P5|N", "2|x|A1|4|P5|C")
    assert of(sheet, {"number": "A", "from": ["C", "D"], "to": ["E", "F"], "size": "H"}) == (
        {"number": (1,), "from": (3, 4), "to": (5, 6), "size": (8,)},
        1,
    )


@pytest.mark.parametrize(
    ("row", "first"),
    [
        ("von|nach|Nr", 2),  # no digit: a heading
        ("from|to 2|", 2),  # a known heading
        ("A1.1|P5.N|", 1),
        ("PULSE.feed|CAB.A|W7", 1),  # a number among them
        ("||", 2),
    ],
)
def test_whether_the_first_row_is_a_heading(row: str, first: int) -> None:
    assert of(grid(row, "A1.1|P5.N|2"), {"from": "A", "to": "B", "number": "C"})[1] == first
    assert of(grid(row, "A1.1|P5.N|2"), {"from": "A", "to": "B", "number": "C"}, first_row=7)[1] == 7


def test_by_headings_and_letters() -> None:
    sheet = grid("Title", "Nr.|Von|Nach|B", "1|A1.1|P5.N|")
    assert of(sheet, {"from": "von", "to": "NACH", "number": "A"}) == ({"from": (2,), "to": (3,), "number": (1,)}, 3)
    assert of(sheet, {"from": "von", "to": "B"})[0]["to"] == (2,)  # a capital is a letter
    assert of(sheet, {"from": "von", "to": "b"})[0]["to"] == (4,)  # a small one is a heading, if there is one
    assert of(sheet, {"from": "von", "to": "c"})[0]["to"] == (3,)


def test_columns_that_are_not_there() -> None:
    sheet = grid("Nr|Von|Nach", "1|A1.1|P5.N")
    found = trouble(sheet, {"from": ["Von", "Klemme"], "to": "F", "size": "AB"})
    assert found == [
        ("unknown-name", "there is no column `Klemme` in the list", "wire_list/columns/from/1"),
        ("unknown-name", "there is no column `F` in the list", "wire_list/columns/to/0"),
        ("unknown-name", "there is no column `AB` in the list", "wire_list/columns/size/0"),
    ]
    problems = find(sheet, {"from": "Vom", "to": "Nach"})
    assert isinstance(problems, list)
    assert problems[0].hint == "Did you mean Von? The list has the columns A to C, headed Nr, Von, Nach."
    assert trouble(grid(), {"from": "A", "to": "Ziel"})[1][1] == "there is no column `Ziel` in the list"


def test_columns_that_are_not_said() -> None:
    ((code, message, place),) = trouble(grid("A1.1|P5.N"), {"from": "A"})
    assert (code, message, place) == ("missing-key", "`columns` does not say which column is `to`", "wire_list/columns")


def test_a_heading_of_brackets_that_never_close() -> None:
    assert heading("(" * 500_000) == "(" * 500_000
    assert heading("Length [mm] (cut)") == "length"
