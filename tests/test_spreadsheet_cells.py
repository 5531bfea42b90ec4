"""What spreadsheets call their columns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.utils import get_column_letter

from labelgen.places import Place
from labelgen.spreadsheet_cells import column_letters, column_number


@given(st.integers(1, 16_384))
def test_letters_as_another_program_counts_them(column: int) -> None:
    assert column_letters(column) == get_column_letter(column)
    assert column_number(column_letters(column)) == column


@pytest.mark.parametrize("text", ["", "a", "A1", "Ä", "A B"])
def test_what_is_no_column(text: str) -> None:
    assert column_number(text) == 0


def test_a_place_is_called_by_its_cell_in_a_spreadsheet_alone() -> None:
    assert Place(file="wires.csv", line=14, column=28, mark=5).cell == "AB14"
    assert Place(file="quay.yaml", line=14, column=28).cell == ""
