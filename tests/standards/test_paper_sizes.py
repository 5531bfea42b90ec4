"""Paper sizes against their published figures: ISO 216 (A4, A3, A5, tolerances) and ANSI/ASME Y14.1 (size A)."""

from math import sqrt

import pytest

from labelgen.lengths import POINTS_PER_MM
from labelgen.standards.paper_sizes import PAPERS, side_tolerance


@pytest.mark.parametrize(("name", "size"), [("a3", (297, 420)), ("a4", (210, 297)), ("a5", (148, 210))])
def test_a_sizes_are_those_of_iso_216(name: str, size: tuple[int, int]) -> None:
    paper = PAPERS[name]
    assert (paper.width, paper.height) == size
    assert paper.height / paper.width == pytest.approx(sqrt(2), abs=0.01)


def test_letter_is_a_whole_number_of_points() -> None:
    """8.5 in by 11 in at 72 to the inch: 612 by 792, the figures of every PDF program."""
    letter = PAPERS["letter"]
    assert (letter.width * POINTS_PER_MM, letter.height * POINTS_PER_MM) == pytest.approx((612, 792), abs=1e-9)


@pytest.mark.parametrize(("side", "tolerance"), [(148, 1.5), (150, 1.5), (150.1, 2), (600, 2), (601, 3)])
def test_tolerances_of_iso_216(side: float, tolerance: float) -> None:
    assert side_tolerance(side) == tolerance
