"""Outlines of letters, judged by fontTools' own pens and by the advance widths in the font files."""

from itertools import pairwise

import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from labelgen.data_files import font_file
from labelgen.model.drawing import Text
from labelgen.rendering.glyph_outlines import FLAT_MM, contours_of, flattened
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for, text_width

FONTS = {name: TTFont(font_file(f"{name}.ttf")) for name in FACES}
WORDS = st.text(st.sampled_from("ABCefgjQ089 &éŁ-"), min_size=1, max_size=8)


def corners(text: Text) -> list[tuple[float, float]]:
    return [corner for contour in contours_of(text) for corner in flattened(contour)]


def text(words: str, **keys: object) -> Text:
    return Text(**{"x": 0, "y": 0, "text": words, "face": REGULAR, "size": 4, **keys})  # type: ignore[arg-type]


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("letter", "HgO8é")
def test_a_letter_lies_within_its_bounds(face: str, letter: str) -> None:
    font = FONTS[face]
    glyphs = font.getGlyphSet()
    pen = BoundsPen(glyphs)
    glyphs[font.getBestCmap()[ord(letter)]].draw(pen)
    scale = 4 / font["head"].unitsPerEm
    found = corners(text(letter, face=face))
    xs, ys = [x for x, _ in found], [y for _, y in found]
    left, low, right, high = (bound * scale for bound in pen.bounds)
    assert (min(xs), -max(ys), max(xs), -min(ys)) == pytest.approx((left, low, right, high), abs=FLAT_MM)


@pytest.mark.parametrize("face", FACES)
def test_every_glyph_of_a_face_has_the_area_that_its_curves_enclose(face: str) -> None:
    """Green's theorem, exact on the curves (fontTools), against the flattened corners."""
    font = FONTS[face]
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    for code in (*range(0x21, 0x7F), *range(0xA1, 0x180)):
        if code not in names:
            continue
        pen = AreaPen(glyphs)
        glyphs[names[code]].draw(pen)
        exact = pen.value * (10 / font["head"].unitsPerEm) ** 2
        found = [flattened(contour) for contour in contours_of(text(chr(code), face=face, size=10))]
        turned_over = sum(_area(run) for run in found)
        border = sum(Polygon(run).length for run in found)
        assert turned_over == pytest.approx(-exact, abs=FLAT_MM * border), chr(code)


def _area(run: tuple[tuple[float, float], ...]) -> float:
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(run, (*run[1:], run[0]), strict=True)) / 2


@given(WORDS, st.sampled_from([REGULAR, BOLD]), st.floats(0.8, 1))
def test_letters_stand_as_far_apart_as_their_advances(words: str, face: str, stretch: float) -> None:
    """The last letter begins where all before it end: as in the PDF, whose widths come from the same table."""
    face = face_for(f"{words}H", face)
    first = corners(text("H", face=face, stretch=stretch))
    with_words = contours_of(text(f"{words}H", face=face, stretch=stretch))
    last = flattened(with_words[-1])
    shift = text_width(words, face, 4) * stretch
    assert min(x for x, _ in last) == pytest.approx(min(x for x, _ in first) + shift, abs=0.01)


@pytest.mark.parametrize(("anchor", "share"), [("start", 0), ("middle", 0.5), ("end", 1)])
def test_anchors_move_a_text_along_its_line(anchor: str, share: float) -> None:
    plain, moved = corners(text("Quay")), corners(text("Quay", anchor=anchor))
    back = share * text_width("Quay", REGULAR, 4)
    assert [x - back for x, _ in plain] == pytest.approx([x for x, _ in moved])
    assert [y for _, y in plain] == [y for _, y in moved]


def test_a_quarter_turn_is_clockwise() -> None:
    plain, turned = corners(text("Q", x=3, y=5)), corners(text("Q", x=3, y=5, turn=90))
    assert turned == [pytest.approx((3 - (y - 5), 5 + (x - 3))) for x, y in plain]


def test_curves_are_kept_until_they_are_flattened() -> None:
    (outer, *_) = contours_of(text("O"))
    assert {len(segment) for segment in outer} == {1, 2}
    assert len(outer[0]) == 1


def test_a_flattened_curve_strays_no_further_than_it_says() -> None:
    arc = (((0.0, 0.0),), ((5.0, 9.0), (10.0, 0.0)))
    run = flattened(arc)
    assert len(run) > 5
    for (x1, y1), (x2, y2) in pairwise(run):  # at parameter t the parabola is at x = 10 t, y = 18 t (1 - t)
        t = (x1 + x2) / 20
        assert abs(18 * t * (1 - t) - (y1 + y2) / 2) <= FLAT_MM * 1.001


def test_a_ring_without_corners_of_its_own() -> None:
    """TrueType lets a contour consist of bends alone; this sukun is a ring of them."""
    rings = contours_of(text("\N{ARABIC SUKUN}", face="DejaVuSansCondensed", size=10))
    assert [len(ring[0]) for ring in rings] == [1, 1]
    outer, inner = sorted((Polygon(flattened(ring)) for ring in rings), key=lambda ring: -ring.area)
    assert outer.contains(inner)
    assert outer.area / outer.length**2 == pytest.approx(1 / (4 * 3.14159), rel=0.05)


def test_a_character_without_a_shape_is_an_empty_box() -> None:
    """Drawings never hold one (character-missing); if they did, it would be seen."""
    assert contours_of(text("\N{HANGUL SYLLABLE GA}"))
    assert contours_of(text(" ")) == ()
