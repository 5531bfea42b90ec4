"""Marks: inside their rectangle, painted the same by both rules of filling, and apart on a photocopy."""

from itertools import combinations

import numpy as np
import pytest
from drawn_extents import assert_within, cap_height, texts
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw
from shapely import Polygon, unary_union

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.function_marks import LETTER_SHARE, code_block, colours_of, mark
from labelgen.drawings.mark_patterns import PATTERN_RUNS, cut
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Drawing, Outline, Shape, Text
from labelgen.model.look import Look
from labelgen.model.netlist import Function
from labelgen.places import Place
from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.functions import PATTERNS

COLOUR, MONO = Look(), Look(mono=True)
SIZES = st.builds(Rectangle, st.floats(-20, 20), st.floats(-20, 20), st.floats(2, 20), st.floats(2, 8))
INKS = st.sampled_from(["", "YE", "RD", "BK", "WHGN", "BKRD"])


def function(pattern: str, colour: str = "YE", code: str = "N") -> Function:
    return Function(name="normal", code=code, colour=colour, pattern=pattern, size="16/0.2")


def room(rectangle: Rectangle) -> tuple[float, float, float, float]:
    return rectangle.x, rectangle.y, rectangle.right, rectangle.bottom


def test_every_pattern_of_the_standard_table_can_be_drawn() -> None:
    assert set(PATTERN_RUNS) == set(PATTERNS)


@given(pattern=st.sampled_from(PATTERNS), rectangle=SIZES, colour=INKS, look=st.sampled_from([COLOUR, MONO]))
def test_marks_and_blocks_stay_in_their_rectangle(pattern: str, rectangle: Rectangle, colour: str, look: Look) -> None:
    for shape in mark(function(pattern, colour), rectangle, look):
        assert_within(shape, room(rectangle))
    for shape in code_block(function(pattern, colour), rectangle, look):
        assert_within(shape, room(rectangle), slack=0.1 if isinstance(shape, Text) else 1e-6)


@given(pattern=st.sampled_from(PATTERNS), rectangle=SIZES)
def test_both_rules_of_filling_paint_the_same(pattern: str, rectangle: Rectangle) -> None:
    """Nothing is covered twice, and holes run the other way round (even-odd and non-zero: ISO 32000-1, 8.5.3.3)."""
    runs = [run for run in (cut(run, rectangle) for run in PATTERN_RUNS[pattern](rectangle)) if run]
    signed = [_signed_area(run) for run in runs]
    solid = [Polygon(run) for run, area in zip(runs, signed, strict=True) if area > 0]
    holes = [Polygon(run) for run, area in zip(runs, signed, strict=True) if area < 0]
    covered = unary_union(solid).difference(unary_union(holes)).area
    assert covered == pytest.approx(sum(signed), abs=1e-6)
    assert pattern in ("plain", "solid") or 0.1 < covered / (rectangle.width * rectangle.height) < 0.75


def _signed_area(run: tuple[tuple[float, float], ...]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(run, (*run[1:], run[0]), strict=True)) / 2


@pytest.mark.parametrize(
    ("size", "colour"), [((8.0, 3.0), "YE"), ((5.0, 3.0), "BU"), ((8.0, 2.5), ""), ((3.0, 3.0), "RD")]
)
def test_patterns_are_apart_on_a_photocopy(size: tuple[float, float], colour: str) -> None:
    """Copied with a threshold between ink and paint, however the copy is shifted, an eighth of it differs."""
    pictures = {pattern: _photocopy(function(pattern, colour), size) for pattern in PATTERNS}
    for one, other in combinations(PATTERNS, 2):
        assert _unlike(pictures[one], pictures[other]) > 0.12, (one, other)


@pytest.mark.parametrize("colour", COLOURS)
def test_every_paint_keeps_the_patterns_on_a_copier_that_knows_black_and_white_alone(colour: str) -> None:
    """Thresholded at half grey, not between its ink and paint: they lie on either side of it."""
    pictures = {pattern: _photocopy(function(pattern, colour), (8.0, 3.0), threshold=128) for pattern in PATTERNS}
    for one, other in combinations(PATTERNS, 2):
        assert _unlike(pictures[one], pictures[other]) > 0.12, (one, other)


def _photocopy(wanted: Function, size: tuple[float, float], threshold: int | None = None) -> np.ndarray:
    """300 dpi, True where it is dark; drawn by PIL, four times finer first."""
    scale = 4 * 300 / 25.4
    shapes = mark(wanted, Rectangle(0, 0, *size), COLOUR)
    image = Image.new("L", (round(size[0] * scale), round(size[1] * scale)), 255)
    draw = ImageDraw.Draw(image)
    paint, ink = (_lightness(colour) for colour in (colours_of(wanted, COLOUR)[0].paint, "#000000"))
    for shape in shapes:
        for run, fill in _fills(shape):
            draw.polygon([(x * scale, y * scale) for x, y in run], fill=fill)
    if threshold is not None:
        return np.asarray(image.resize((image.width // 4, image.height // 4), Image.Resampling.BOX)) < threshold
    small = np.asarray(image.resize((image.width // 4, image.height // 4), Image.Resampling.BOX))
    return small < 128 if abs(paint - ink) > 60 else small < 60


def _fills(shape: Shape) -> list[tuple[list[tuple[float, float]], int]]:
    if isinstance(shape, Box) and shape.fill:
        x, y, right, bottom = shape.x, shape.y, shape.x + shape.width, shape.y + shape.height
        return [([(x, y), (right, y), (right, bottom), (x, bottom)], _lightness(shape.fill))]
    if isinstance(shape, Outline) and shape.fill:
        ink = _lightness(shape.fill)
        return [(list(run), ink if _signed_area(run) > 0 else 255 - ink) for run in shape.runs]
    return []


def _lightness(colour: str) -> int:
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return round(0.3 * red + 0.59 * green + 0.11 * blue)


def _unlike(one: np.ndarray, other: np.ndarray) -> float:
    """The share of pixels that differ, at the shift (up to 1 mm either way) at which they differ least."""
    shifts = range(-9, 10, 3)
    return float(min((one != np.roll(other, (x, y), axis=(1, 0))).mean() for x in shifts for y in shifts))


@given(pattern=st.sampled_from(PATTERNS), colour=INKS)
def test_a_black_and_white_printer_gets_black_and_white(pattern: str, colour: str) -> None:
    shapes = [*mark(function(pattern, colour), Rectangle(0, 0, 8, 3), MONO)]
    shapes += code_block(function(pattern, colour), Rectangle(0, 0, 5, 5), MONO)
    fills = {s.fill.lower() for s in shapes if isinstance(s, (Box, Outline)) and s.fill}
    assert fills <= {"#ffffff", "#000000"}


def test_colours_are_those_of_the_standard_letters() -> None:
    assert [colour.word for colour in colours_of(function("plain", "RDBU"), COLOUR)] == ["red", "blue"]
    assert colours_of(function("plain", ""), COLOUR) == (COLOURS["WH"],)
    assert colours_of(function("plain", "RD"), MONO) == (COLOURS["WH"],)


@pytest.mark.parametrize(("size", "expected"), [((8, 3), [(8, 1.5)] * 2), ((3, 8), [(1.5, 8)] * 2)])
def test_a_two_coloured_wire_shows_both_as_halves(
    size: tuple[float, float], expected: list[tuple[float, float]]
) -> None:
    shapes = mark(function("diagonal", "WHRD"), Rectangle(0, 0, *size), COLOUR)
    halves = [shape for shape in shapes if isinstance(shape, Box) and shape.fill]
    assert [(half.width, half.height) for half in halves] == expected
    assert {half.fill for half in halves} == {COLOURS["WH"].paint, COLOURS["RD"].paint}


@pytest.mark.parametrize(("pattern", "dark"), [("solid", True), ("plain", False)])
@pytest.mark.parametrize("colour", ["YE", "BK", "RD", ""])
def test_solid_is_dark_and_plain_is_light_inside_whatever_the_colour(pattern: str, dark: bool, colour: str) -> None:
    picture = _photocopy(function(pattern, colour), (8, 3))
    height, width = picture.shape
    assert picture[height // 2, width // 2] == dark


@pytest.mark.parametrize("code", ["N", "Lg", "–"])
@pytest.mark.parametrize("colour", ["YE", "BU", "WHGN"])
def test_the_letter_stands_once_in_its_block_on_a_plain_patch(code: str, colour: str) -> None:
    shapes = code_block(function("rings", colour, code), Rectangle(2, 3, 6, 5.2), COLOUR)
    drawing = Drawing(width=20, height=20, shapes=tuple(shapes), name="", place=Place(file=""))
    (letter,) = texts(drawing)
    assert letter.text == code
    (patch, _band, _rim) = [shape for shape in shapes if isinstance(shape, Box)]
    assert_within(letter, (patch.x, patch.y, patch.x + patch.width, patch.y + patch.height), slack=0.05)
    assert letter.colour == colours_of(function("rings", colour), COLOUR)[0].ink
    pattern = next(shape for shape in shapes if isinstance(shape, Outline))
    assert min(y for run in pattern.runs for _, y in run) >= patch.y + patch.height - 1e-9


def test_an_unknown_pattern_is_plain() -> None:
    assert mark(function("tartan"), Rectangle(0, 0, 8, 3), COLOUR) == mark(
        function("plain"), Rectangle(0, 0, 8, 3), COLOUR
    )


TURNING = ("6", "9", "16", "91", "18", "81", "19", "61", "66", "99", "68", "89", "86", "98", "06", "08", "161")


@pytest.mark.parametrize("text", TURNING)
def test_numbers_that_turn_into_others_are_underlined(text: str) -> None:
    """6/9, 16/91, 18/81, 19/61, 66/99, 68/89, 86/98: trade practice."""
    assert needs_underline(text)


@pytest.mark.parametrize("text", ["1", "8", "11", "88", "69", "96", "0", "5", "62", "10", "90", "6N", "", "B16"])
def test_others_are_not(text: str) -> None:
    assert not needs_underline(text)


TURNED = dict(zip("01689", "01986", strict=True))


@given(st.text("01689", min_size=1, max_size=4))
def test_of_two_numbers_that_turn_into_each_other_at_least_one_is_underlined(text: str) -> None:
    other = "".join(TURNED[digit] for digit in reversed(text))
    assert (other == text) == (not needs_underline(text) and not needs_underline(other))
    if "0" not in (text[0], other[0]):
        assert needs_underline(text) == needs_underline(other)


@given(st.floats(2, 12))
def test_a_blocks_letter_has_its_share_of_the_height(height: float) -> None:
    shapes = code_block(function("dots"), Rectangle(0, 0, 2 * height, height), COLOUR)
    (letter,) = [shape for shape in shapes if isinstance(shape, Text)]
    assert cap_height(letter) >= LETTER_SHARE * height * 0.99


def test_whoever_adds_to_a_mark_changes_no_other_label() -> None:
    """Labels share the shapes of equal marks."""
    for draw in (mark, code_block):
        first = draw(function("solid"), Rectangle(1, 2, 9, 6), COLOUR)
        as_drawn = list(first)
        first.clear()
        assert draw(function("solid"), Rectangle(1, 2, 9, 6), COLOUR) == as_drawn != []
