"""The picture of a panel's face: every number beside its hole, none over another, however narrow it is."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.lengths import Point, Rectangle
from labelgen.model.panel.holes import PanelHole
from labelgen.rendering.panel_face import CHARACTER_PX, GAP_PX, NUMBER_PX, Number, panel_face

SIZE = (420.0, 190.0)


def hole(thing: str, x: float, y: float, *, use: str = "lever", contact: str = "") -> PanelHole:
    return PanelHole(
        use=use, thing=thing, called=f"lever {thing}", at=Point(x, y), diameter=6.5, part=None, contact=contact
    )  # type: ignore[arg-type]


def covered(number: Number, width_px: float) -> Rectangle:
    """What a number covers in a picture of that width, as a browser sets it: bold figures are up to 0.7 em wide."""
    scale = width_px / SIZE[0]
    wide = CHARACTER_PX * len(number.text)
    x = number.x / 100 * width_px - {"start": 0.0, "middle": wide / 2, "end": wide}[number.anchor]
    y = number.y / 100 * SIZE[1] * scale
    return Rectangle(x, y - GAP_PX - NUMBER_PX if number.above else y + GAP_PX, wide, NUMBER_PX)


def test_buttons_of_one_lever_have_one_number() -> None:
    row = [(hole("3", x, 180, contact=contact), "3") for x, contact in ((62, "left"), (75, "centre"), (88, "right"))]
    face = panel_face(SIZE, [*row, (hole("4", 105, 180), "4")])
    assert [(number.text, round(number.x * 4.2)) for number in face.numbers] == [("3", 75), ("4", 105)]


def test_a_panel_of_many_levers_fits_a_telephone() -> None:
    """A window of 360 CSS px, as common small telephones have, leaves 324 for the page."""
    face = panel_face(SIZE, [(hole(str(n), 15 + 30 * n, 180), str(n)) for n in range(14)])
    assert face.least_px <= 324
    assert face.most_px == round(2.4 * 420)


def test_lamps_and_screws_have_no_number() -> None:
    face = panel_face(SIZE, [(hole("1", 8, 8, use="screw"), ""), (hole("P1.normal", 50, 50, use="lamp"), "P1")])
    assert face.numbers == ()


PLACES = st.lists(st.tuples(st.integers(2, 40), st.integers(2, 17)), min_size=1, max_size=12, unique=True)


@given(PLACES, st.sampled_from([1.0, 1.4, 3.0]))
def test_no_number_lies_on_another_or_on_a_hole(places: list[tuple[int, int]], wider: float) -> None:
    holes = [(hole(str(n), 10.0 * x, 10.0 * y), str(n)) for n, (x, y) in enumerate(places, 1)]
    face = panel_face(SIZE, holes)
    assert sorted(number.text for number in face.numbers) == sorted(text for _, text in holes)
    if face.least_px >= face.most_px:
        return  # too close even in the widest picture
    width = min(face.least_px * wider, face.most_px) + 1
    scale = width / SIZE[0]
    boxes = {number.text: covered(number, width) for number in face.numbers}
    assert not any(a.overlaps(b) for a, b in combinations(boxes.values(), 2))
    for box in boxes.values():
        for one, _ in holes:
            reach = one.diameter / 2 * scale
            around = Rectangle(one.at.x * scale - reach, one.at.y * scale - reach, 2 * reach, 2 * reach)
            assert not box.overlaps(around, slack=0.1)


def test_crowded_numbers_stand_where_they_can() -> None:
    face = panel_face(SIZE, [(hole(f"L{n}", 20 + n, 40), f"LEVER{n}") for n in range(8)])
    assert len(face.numbers) == 8
    assert face.least_px == pytest.approx(face.most_px)
