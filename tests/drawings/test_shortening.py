"""Shortened texts: never wider than their room, as much as fits, and the tail always there."""

from hypothesis import given
from hypothesis import strategies as st

from labelgen.drawings.shortening import ELLIPSIS, shortened
from labelgen.drawings.text_fitting import fit


@given(text=st.text("ABCDEFGabcdefg-./0123", min_size=1, max_size=40), width=st.floats(8, 80), tail=st.integers(0, 3))
def test_it_fits_and_says_as_much_as_it_can(text: str, width: float, tail: int) -> None:
    found = shortened(text, width=width, largest=3, smallest=2, tail=tail)
    if found is None:
        return
    assert found.width <= width + 1e-6
    assert found.cap >= 2 - 1e-6
    if found.text == text:
        return
    assert fit(text, width=width, largest=3, smallest=2) is None
    start, _, end = found.text.partition(ELLIPSIS)
    assert text.startswith(start)
    assert end == text[len(text) - tail :]
    longer = f"{text[: len(start) + 1]}{ELLIPSIS}{end}"
    assert fit(longer, width=width, largest=2, smallest=2) is None


def test_where_there_is_no_room_at_all_there_is_nothing() -> None:
    assert shortened("STATION", width=0.5, largest=3, smallest=2) is None
