"""One transform that undoes what a printer does: `scale` × place + `shift`."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.correction import UNCORRECTED, Correction, from_test_page

stretch = st.floats(0.95, 1.05)
off = st.floats(-5, 5)
place = st.floats(0, 300)


@given(st.tuples(stretch, stretch), st.tuples(off, off), st.tuples(place, place))
def test_printed_with_it_everything_lands_where_it_belongs(
    s: tuple[float, float], t: tuple[float, float], at: tuple[float, float]
) -> None:
    """A printer that puts p at s × p + t, and a test page with rules of 200 and 280 mm and a cross at (23.8, 21.3)."""

    def printed(at: tuple[float, float]) -> tuple[float, float]:
        return s[0] * at[0] + t[0], s[1] * at[1] + t[1]

    cross = (23.8, 21.3)
    seen = printed(cross)
    off = (seen[0] - cross[0], seen[1] - cross[1])
    found = from_test_page((200 * s[0], 280 * s[1]), (200, 280), off, cross)
    assert printed(found.at(*at)) == pytest.approx(at, abs=1e-9)


def test_a_true_printer_needs_nothing() -> None:
    found = from_test_page((200, 280), (200, 280), (0, 0), (23.8, 21.3))
    assert found.changes_nothing
    assert found.at(12, 34) == (12, 34)


def test_it_is_for_the_paper_that_it_was_measured_on() -> None:
    found = Correction(scale=(1.01, 1.02), shift=(3, 4))
    assert found.for_page(210, 297) is found
    assert found.for_page(215.9, 279.4) is found
    on_its_side = found.for_page(297, 210)
    assert (on_its_side.scale, on_its_side.shift) == ((1.02, 1.01), (0, 0))
    assert found.for_page(420, 594) is UNCORRECTED, "a plotter is another printer"
    assert found.for_page(57, 32) is UNCORRECTED, "so is a label roller"
    roller = Correction(shift=(1, 1), papers=((57, 32),))
    assert roller.for_page(57, 32) is roller
    assert roller.for_page(210, 297) is UNCORRECTED
