"""Widths and heights, against the font files as fontTools reads them."""

import numpy as np
import pytest
from drawn_extents import advance, glyph
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw, ImageFont

from labelgen.data_files import font_file
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for, missing_characters, size_for_cap, text_width

PRINTABLE = [chr(code) for code in range(32, 127)]


@pytest.mark.parametrize("face", sorted(FACES))
@given(text=st.text(PRINTABLE, max_size=30))
def test_widths_are_those_of_the_font_file(face: str, text: str) -> None:
    assert text_width(text, face, 2.5) == pytest.approx(2.5 * advance(text, face), abs=1e-3)


@pytest.mark.parametrize("face", FACES.values(), ids=lambda face: face.name)
def test_heights_are_those_of_the_glyphs(face: object) -> None:
    name, cap, descent, ascent = (getattr(face, key) for key in ("name", "cap", "descent", "ascent"))
    capital, low, high = (glyph(name, character)[0] for character in ("H", "|", "É"))
    deepest = min(bounds[1] for c in PRINTABLE if (bounds := glyph(name, c)[0]) is not None)
    assert capital is not None
    assert low is not None
    assert high is not None
    assert cap == pytest.approx(capital[3], abs=0.002)
    assert -deepest <= descent + 0.001
    assert high[3] <= ascent + 0.001


def test_a_capital_is_as_high_as_asked() -> None:
    bounds, _ = glyph(BOLD, "H")
    assert bounds
    assert size_for_cap(3.0, BOLD) * bounds[3] == pytest.approx(3.0, abs=0.01)


def test_the_second_face_steps_in_for_a_whole_text() -> None:
    assert face_for("Harbour", REGULAR) == REGULAR
    assert face_for("Łódź", REGULAR) == "DejaVuSansCondensed"
    assert face_for("Łódź", BOLD) == "DejaVuSansCondensed-Bold"
    assert missing_characters("Łódź", REGULAR) == ""


def test_a_character_that_no_face_has_is_named_once() -> None:
    assert missing_characters("港港", REGULAR) == "港"


@pytest.mark.parametrize("pair", ["I1", "l1", "Il", "O0", "5S", "8B"])
def test_lookalikes_are_drawn_apart(pair: str) -> None:
    """Marks of trade practice: these may not be mistaken for each other on a label."""
    first, second = (_picture(character) for character in pair)
    assert (first != second).sum() > 0.2 * (first | second).sum()


def _picture(character: str) -> np.ndarray:
    """Black where there is ink, 100 pixels per em, from the left edge of the ink."""
    image = Image.new("1", (120, 140), 0)
    left = ImageFont.truetype(str(font_file(f"{REGULAR}.ttf")), 100).getbbox(character)[0]
    ImageDraw.Draw(image).text(
        (-left, 0), character, fill=1, font=ImageFont.truetype(str(font_file(f"{REGULAR}.ttf")), 100)
    )
    return np.asarray(image)
