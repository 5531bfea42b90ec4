"""The largest size that fits, measured with the outlines of the glyphs."""

import pytest
from drawn_extents import advance, assert_within, cap_height, ink, text_extent
from hypothesis import assume, given
from hypothesis import strategies as st

from labelgen.drawings.text_fitting import (
    NARROWEST,
    break_lines,
    centred,
    fit,
    fit_head,
    fit_in,
    fit_lines,
    reach,
    stacked,
    underline,
)
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Text
from labelgen.typefaces import BOLD, FACES, REGULAR, face_for, missing_characters, size_for_cap

WORDS = st.text(st.sampled_from("ABgjQ69Éçq|(5N.-_ Łþ"), min_size=1, max_size=14).filter(lambda text: text.strip())
ROOM = st.floats(1, 60)


@given(text=WORDS, width=ROOM, largest=st.floats(1.5, 6), smallest=st.floats(1, 1.5))
def test_a_fitted_text_is_neither_too_wide_nor_too_low_nor_too_high(
    text: str, width: float, largest: float, smallest: float
) -> None:
    fitted = fit(text, width=width, largest=largest, smallest=smallest)
    narrowest = advance(text, face_for(text, REGULAR)) * size_for_cap(smallest, face_for(text, REGULAR)) * NARROWEST
    if fitted is None:
        assert narrowest > width * (1 - 1e-3)
        return
    assert advance(text, fitted.face) * fitted.size * fitted.stretch <= width * (1 + 1e-3)
    assert smallest * (1 - 1e-6) <= fitted.cap <= largest * (1 + 1e-6)
    assert NARROWEST <= fitted.stretch <= 1


@given(text=WORDS, width=ROOM, wider=st.floats(1, 3))
def test_more_room_never_makes_a_text_smaller(text: str, width: float, wider: float) -> None:
    small = fit(text, width=width, largest=4, smallest=1.3)
    assume(small is not None)
    large = fit(text, width=width * wider, largest=4, smallest=1.3)
    assert small is not None
    assert large is not None
    assert large.cap >= small.cap * (1 - 1e-9)


def test_where_there_is_room_the_text_is_as_large_as_may_be_and_not_condensed() -> None:
    fitted = fit("5N", width=40, largest=3.3, smallest=1.3)
    assert fitted is not None
    assert fitted.cap == pytest.approx(3.3)
    assert fitted.stretch == 1


def test_reach_covers_the_ink_of_every_character() -> None:
    for face in (REGULAR, BOLD):
        for code in [*range(33, 0x250), *range(0x391, 0x3C9), *range(0x410, 0x450), 0x2013, 0x2026, 0x20AC]:
            text = chr(code)
            if missing_characters(text, face):
                continue
            chosen = face_for(text, face)
            _, bottom, _, top = ink(text, chosen)
            above, below = reach(text, chosen)
            assert top <= above + 0.003, text
            assert -bottom <= below + 0.003, text


@given(text=WORDS, box=st.builds(Rectangle, ROOM, ROOM, ROOM, st.floats(1.6, 12)), turn=st.sampled_from([0, -90]))
@pytest.mark.parametrize("underlined", [False, True])
def test_what_fits_a_box_is_inside_it(underlined: bool, text: str, box: Rectangle, turn: float) -> None:
    fitted = fit_in(text, box, largest=5, smallest=0.5, face=BOLD, underline=underlined, turn=turn)
    assume(fitted is not None)
    assert fitted is not None
    shapes = centred(fitted, box, underlined=len(text) if underlined else 0, turn=turn)
    assert len(shapes) == 1 + underlined
    side = 0.12 * fitted.size  # a glyph may lean out of its advance
    room = Rectangle(box.x - side, box.y - side, box.width + 2 * side, box.height + 2 * side)
    across = (box.x, room.y, box.right, room.bottom) if turn else (room.x, box.y, room.right, box.bottom)
    for shape in shapes:
        assert_within(shape, across, slack=0.01)


def test_capitals_stand_in_the_middle_of_a_box() -> None:
    box = Rectangle(10, 20, 30, 8)
    fitted = fit_in("HHH", box, largest=3, smallest=1)
    assert fitted is not None
    (text,) = centred(fitted, box)
    assert isinstance(text, Text)
    left, top, right, bottom = text_extent(text)
    assert (left + right) / 2 == pytest.approx(25, abs=0.3)
    assert (top + bottom) / 2 == pytest.approx(24, abs=0.05)


@pytest.mark.parametrize("turn", [0, -90])
def test_the_line_is_below_the_digits_and_only_there(turn: float) -> None:
    fitted = fit("16N", width=30, largest=4, smallest=1, face=BOLD)
    assert fitted is not None
    text = fitted.at(20, 20, anchor="middle", turn=turn)
    line = underline(fitted, 20, 20, characters=2, turn=turn)
    left, top, right, bottom = text_extent(text)
    digits = advance("16", BOLD) / advance("16N", BOLD)
    if turn == 0:
        assert line.y1 == line.y2 > bottom
        assert left - 0.1 <= line.x1 < line.x2 <= left + digits * (right - left) + 0.3
    else:
        assert line.x1 == line.x2 > right
        assert bottom + 0.1 >= line.y1 > line.y2 >= bottom - digits * (bottom - top) - 0.3


def test_room_for_the_line_keeps_one_baseline() -> None:
    box = Rectangle(0, 0, 12, 6)
    one, other = (fit_in(text, box, largest=3, smallest=1, underline=True) for text in ("9N", "5N"))
    assert one is not None
    assert other is not None
    with_line, without = centred(one, box, underlined=1)[0], centred(other, box, room_for_line=True)[0]
    assert isinstance(with_line, Text)
    assert isinstance(without, Text)
    assert with_line.y == pytest.approx(without.y)


def test_lines_break_at_spaces_only_and_evenly() -> None:
    lines = fit_lines("Harbour siding buffer stop, up road", width=24, height=8, largest=2, smallest=1.3)
    assert lines is not None
    assert " ".join(line.text for line in lines) == "Harbour siding buffer stop, up road"
    widths = [line.width for line in lines]
    assert len(lines) > 1
    assert min(widths) > 0.5 * max(widths)


@given(text=WORDS, box=st.builds(Rectangle, ROOM, ROOM, ROOM, ROOM), turn=st.sampled_from([0, -90]))
def test_stacked_lines_are_inside_their_box(text: str, box: Rectangle, turn: float) -> None:
    width, height = (box.width, box.height) if turn == 0 else (box.height, box.width)
    lines = fit_lines(f"{text} {text}", width=width, height=height, largest=4, smallest=1)
    if not lines:
        return
    side = 0.12 * lines[0].size
    room = (box.x - side, box.y, box.right + side, box.bottom)
    if turn:
        room = (box.x, box.y - side, box.right, box.bottom + side)
    for shape in stacked(lines, box, turn=turn):
        assert_within(shape, room, slack=0.01)


def test_what_is_too_much_for_its_place_is_refused() -> None:
    assert fit("Harbour siding buffer stop", width=10, largest=3, smallest=1.3) is None
    assert fit_lines("Harbour siding buffer stop", width=14, height=3, largest=3, smallest=1.3) is None
    assert fit_in("5N", Rectangle(0, 0, 10, 1), largest=3, smallest=1.3) is None
    assert fit_lines("", width=10, height=10, largest=3, smallest=1.3) is None


def test_a_word_alone_is_never_broken() -> None:
    assert break_lines("loudspeaker relay", width=1, cap=2) == ["loudspeaker", "relay"]


def test_a_shape_says_its_face_and_size() -> None:
    fitted = fit("5N", width=20, largest=3, smallest=1, face=BOLD)
    assert fitted is not None
    text = fitted.at(1, 2, anchor="end", colour="#112233", turn=-90)
    assert (text.anchor, text.colour, text.turn, text.face) == ("end", "#112233", -90, BOLD)
    assert cap_height(text) == pytest.approx(3, abs=0.01)
    assert fitted.descent == pytest.approx(FACES[BOLD].descent * fitted.size)
    assert isinstance(underline(fitted, 0, 0, characters=1), Line)


@given(st.floats(2, 40), st.floats(1.4, 3))
def test_a_head_is_condensed_before_it_is_lower_than_is_wanted(width: float, wanted: float) -> None:
    head = fit_head("107Lg", width=width, largest=3.2, wanted=wanted, smallest=1.31)
    plain = fit("107Lg", width=width, largest=3.2, smallest=1.31, face=BOLD)
    assert (head is None) == (plain is None)
    if head is not None and plain is not None:
        assert head.width <= width + 1e-6
        assert head.cap >= min(wanted, plain.cap) - 1e-9
        if head.cap < wanted - 1e-9:
            assert fit("107Lg", width=width, largest=wanted, smallest=wanted, face=BOLD) is None
