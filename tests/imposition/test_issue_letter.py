"""The letter of an issue stands where there is room for it, and disturbs nothing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.imposition.ink import ink_boxes
from labelgen.imposition.issue_letter import CLEAR, with_issue_letter
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Drawing, Line, Shape, Symbol, Text
from labelgen.places import Place
from labelgen.typefaces import BOLD, REGULAR, size_for_cap


def text(words: str, x: float, y: float, cap: float = 2.0, face: str = REGULAR) -> Text:
    return Text(x=x, y=y, text=words, face=face, size=size_for_cap(cap, face))


def label(*shapes: Shape, folds: tuple[float, ...] = ()) -> Drawing:
    return Drawing(width=40, height=20, shapes=shapes, name="label", place=Place(file=""), folds=folds)


FRAME = (text("5N", 2, 6, 4, BOLD), text("A1.1", 2, 18), text("#17", 33, 18))


def letter_of(drawing: Drawing, before: Drawing) -> tuple[Circle, Text] | None:
    more = drawing.shapes[len(before.shapes) :]
    assert drawing.shapes[: len(before.shapes)] == before.shapes, "what was there stays"
    if not more:
        return None
    circle, letter = more
    assert isinstance(circle, Circle)
    assert isinstance(letter, Text)
    return circle, letter


def test_it_stands_beside_the_largest_text() -> None:
    before = label(*FRAME)
    found = letter_of(with_issue_letter(before, "B", 1.0), before)
    assert found is not None
    circle, letter = found
    assert letter.text == "B"
    title = next(ink_boxes(FRAME[0]))
    assert 0 < circle.x - title.right < 3
    assert title.y < circle.y < title.bottom


def test_where_there_is_no_room_it_is_left_out() -> None:
    before = label(Box(x=1, y=1, width=38, height=18, fill="#ff0000"))
    assert with_issue_letter(before, "B", 1.0) == before
    empty = label()
    assert with_issue_letter(empty, "B", 1.0) == empty


def test_it_is_never_lower_than_the_smallest_text() -> None:
    before = label(*FRAME)
    found = letter_of(with_issue_letter(before, "AB", 2.2), before)
    assert found is not None
    assert found[1].size == size_for_cap(2.2, BOLD)
    assert found[0].radius > 2.2


def test_it_keeps_off_the_fold_where_the_wire_lies() -> None:
    faces = (text("5N", 2, 8, 3, BOLD), text("#17", 10, 18), text("5N", 24, 8, 3, BOLD), text("#17", 33, 18))
    before = label(*faces, Line(x1=20, y1=0, x2=20, y2=20), folds=(20.0,))
    found = letter_of(with_issue_letter(before, "C", 1.0), before)
    assert found is not None
    assert found[0].x - found[0].radius >= 24, "within what the right face reaches"


def test_the_quiet_zone_of_a_symbol_stays_blank() -> None:
    """ISO/IEC 18004: four modules."""
    symbol = Symbol(x=6, y=4, module=0.5, rows=((True,) * 21,) * 21)
    before = label(symbol, text("x", 1, 19.5, 1), text("y", 38, 2, 1))
    found = letter_of(with_issue_letter(before, "B", 1.0), before)
    assert found is not None
    circle = found[0]
    reach = circle.radius
    quiet = Rectangle(4, 2, 10.5 + 4, 10.5 + 4)
    assert not quiet.overlaps(Rectangle(circle.x - reach, circle.y - reach, 2 * reach, 2 * reach))


SHAPES = st.lists(
    st.builds(
        text,
        st.sampled_from(["5N", "A1.1", "#17", "harbour siding"]),
        st.floats(1, 20),
        st.floats(4, 18),
        st.floats(1, 4),
    )
    | st.builds(
        Box,
        x=st.floats(1, 30),
        y=st.floats(1, 15),
        width=st.floats(1, 8),
        height=st.floats(1, 4),
        fill=st.just("#ff0000"),
    ),
    max_size=8,
)


@given(SHAPES, st.sampled_from(["B", "Z", "AA"]))
def test_it_touches_no_other_ink_and_leaves_no_margin(shapes: list[Shape], letter: str) -> None:
    before = label(*shapes)
    found = letter_of(with_issue_letter(before, letter, 1.0), before)
    if found is None:
        return
    circle = found[0]
    reach = circle.radius + CLEAR * 0.9
    around = Rectangle(circle.x - reach, circle.y - reach, 2 * reach, 2 * reach)
    assert not any(box.overlaps(around) for shape in shapes for box in ink_boxes(shape))
    ring = Rectangle(circle.x - circle.radius, circle.y - circle.radius, 2 * circle.radius, 2 * circle.radius)
    boxes = [box for shape in shapes for box in ink_boxes(shape)]
    left, top = min(box.x for box in boxes), min(box.y for box in boxes)
    right, bottom = max(box.right for box in boxes), max(box.bottom for box in boxes)
    assert Rectangle(left, top, right - left, bottom - top).contains(ring)
    inside = next(ink_boxes(found[1]))
    assert inside.x + inside.width / 2 == pytest.approx(circle.x)
