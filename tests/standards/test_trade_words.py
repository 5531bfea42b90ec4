"""Trade words: common practice on either side, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.trade_words import AMERICAN, said


@pytest.mark.parametrize(
    ("british", "american"),
    [
        ("Never move points under a train", "Never move a turnout under a train"),
        ("its handle points up", "its handle is up"),
        ("points and lock", "switch and lock"),
        ("Sections: on only while", "Blocks: on only while"),
        ("No mains on the layout", "No line voltage on the layout"),
        ("Mains work", "Line voltage work"),
        ("crossing (frog)", "frog"),
        ("Colours and letters", "Colors and letters"),
        ("grey-white", "gray-white"),
        ("the sections' ends", "the blocks' ends"),
        ("intersection, viewpoints, colourful", "intersection, viewpoints, colourful"),
    ],
)
def test_a_text_of_ours_in_american(british: str, american: str) -> None:
    assert said(british, "american") == american


@given(st.text() | st.sampled_from(sorted(AMERICAN)))
def test_in_british_nothing_changes(text: str) -> None:
    assert said(text, "british") == text


@pytest.mark.parametrize("word", AMERICAN)
def test_what_was_said_in_american_stays(word: str) -> None:
    """So that a text which is said twice is not said wrongly."""
    assert said(said(word, "american"), "american") == said(word, "american") == AMERICAN[word]
