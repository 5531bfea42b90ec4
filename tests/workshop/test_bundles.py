"""Truth: the published table of circle packings, and the fill table of NEC chapter 9, as the reference page quotes."""

from math import pi, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.drills import DRILLS_MM, LARGEST_DRILL_MM
from labelgen.workshop.bundles import bundle_diameter, drill_for, fill, fill_limit, fits, least_hole

# Encyclopedia, "Circle packing in a circle", N = 1 to 20: R/r to five places.
PUBLISHED = [
    1, 2, 2.15470, 2.41421, 2.70130, 3, 3, 3.30476, 3.61313, 3.81303,
    3.92380, 4.02960, 4.23607, 4.32843, 4.52136, 4.61543, 4.79203, 4.86370, 4.86370, 5.12232,
]  # fmt: skip
CLOSED_FORMS = {
    1: 1,
    2: 2,
    3: 1 + 2 / sqrt(3),
    4: 1 + sqrt(2),
    5: 1 + sqrt(2 * (1 + 1 / sqrt(5))),
    6: 3,
    7: 3,
    8: 1 + 1 / sin(pi / 7),
    9: 1 + sqrt(2 * (2 + sqrt(2))),
    11: 1 + 1 / sin(pi / 9),
    13: 2 + sqrt(5),
    15: 1 + sqrt(6 + 2 / sqrt(5) + 4 * sqrt(1 + 2 / sqrt(5))),
    18: 1 + sqrt(2) + sqrt(6),
    19: 1 + sqrt(2) + sqrt(6),
}

DIAMETERS = st.floats(0.5, 6)
BUNDLES = st.lists(DIAMETERS, min_size=1, max_size=40)


@pytest.mark.parametrize(("count", "ratio"), list(enumerate(PUBLISHED, 1)))
def test_each_row_of_the_published_table(count: int, ratio: float) -> None:
    assert bundle_diameter([1.0] * count) == pytest.approx(ratio, abs=1.01e-5)


@pytest.mark.parametrize(("count", "ratio"), list(CLOSED_FORMS.items()))
def test_a_bundle_is_never_given_too_small(count: int, ratio: float) -> None:
    """The printed table is cut off, not rounded: a hole sized from it would be too small."""
    assert ratio <= bundle_diameter([1.0] * count) <= ratio + 1.01e-5


# Common practice: about 1.2 × outside diameter × root N, with its worked figures to the nearest mm.
@pytest.mark.parametrize(("count", "outside", "bundle"), [(25, 1.2, 7), (25, 1.6, 10), (50, 1.6, 14)])
def test_more_than_twenty_by_their_area(count: int, outside: float, bundle: float) -> None:
    assert bundle_diameter([outside] * count) == pytest.approx(bundle, abs=0.5)
    assert bundle_diameter([outside] * count) == pytest.approx(1.2 * outside * sqrt(count))


def test_mixed_sizes_by_their_area() -> None:
    mixed = [1.2] * 8 + [1.6] * 8
    assert bundle_diameter(mixed) == pytest.approx(1.2 * sqrt(8 * 1.44 + 8 * 2.56))


def test_two_wires_side_by_side() -> None:
    assert bundle_diameter([2.0, 2.5]) == pytest.approx(4.5)


def test_no_wire_is_no_bundle() -> None:
    assert bundle_diameter([]) == 0


@given(BUNDLES)
def test_no_mix_is_thicker_than_as_many_of_its_thickest_nor_thinner_than_its_thickest_two(wires: list[float]) -> None:
    thickest = max(wires)
    assert bundle_diameter(wires) <= bundle_diameter([thickest] * len(wires)) * (1 + 1e-9)
    assert bundle_diameter(wires) >= sum(sorted(wires)[-2:]) * (1 - 1e-9)
    assert bundle_diameter(wires) ** 2 >= sum(wire**2 for wire in wires) * (1 - 1e-9), "the wires' own area"


@given(BUNDLES, DIAMETERS)
def test_one_wire_more_never_makes_a_bundle_thinner(wires: list[float], more: float) -> None:
    assert bundle_diameter([*wires, more]) >= bundle_diameter(wires) - 1e-9


@given(BUNDLES, st.data())
def test_a_thicker_wire_never_makes_a_bundle_thinner(wires: list[float], data: st.DataObject) -> None:
    index = data.draw(st.integers(0, len(wires) - 1))
    thicker = data.draw(st.floats(wires[index], 8))
    assert bundle_diameter([*wires[:index], thicker, *wires[index + 1 :]]) >= bundle_diameter(wires) - 1e-9


@given(BUNDLES, st.floats(0.5, 4))
def test_a_bundle_grows_with_its_wires(wires: list[float], scale: float) -> None:
    grown = bundle_diameter([scale * wire for wire in wires])
    assert grown == pytest.approx(scale * bundle_diameter(wires))


# NEC chapter 9, table 1.
@pytest.mark.parametrize(("count", "limit"), [(1, 0.53), (2, 0.31), (3, 0.40), (4, 0.40), (100, 0.40)])
def test_how_full_a_hole_may_be(count: int, limit: float) -> None:
    assert fill_limit(count) == limit


# Hole over wire at those limits, for 1, 2, 3, 7 and 20 equal wires, as the reference works them out.
@pytest.mark.parametrize(("count", "ratio"), [(1, 1.3736), (2, 2.5400), (3, 2.7386), (7, 4.1833), (20, 7.0711)])
def test_the_least_hole(count: int, ratio: float) -> None:
    assert least_hole([1.0] * count) == pytest.approx(ratio, abs=5e-5)


def test_seven_wires_of_1_2_mm() -> None:
    """The reference's own example: 3.60 mm tight, 5.02 mm by the 40 % rule."""
    wires = [1.2] * 7
    assert bundle_diameter(wires) == pytest.approx(3.60)
    assert least_hole(wires) == pytest.approx(5.02, abs=0.005)
    assert drill_for(wires) == 5.1


def test_about_sixty_two_wires_of_1_6_mm_go_through_20_mm() -> None:
    """Common practice: 40 % of a 20 mm hole is some 125 mm², about 62 such wires."""
    assert fits(20, [1.6] * 62)
    assert not fits(20, [1.6] * 63)
    assert fill(20, [1.6] * 62) * pi / 4 * 20**2 == pytest.approx(125, abs=1)


def test_a_wire_that_fills_its_hole() -> None:
    assert fill(2, [2.0]) == 1
    assert not fits(2, [2.0])


@given(BUNDLES)
def test_the_drill_is_stocked_and_the_next_smaller_one_would_not_do(wires: list[float]) -> None:
    drill = drill_for(wires)
    if drill is None:
        assert not fits(LARGEST_DRILL_MM - 1e-6, wires)
        return
    assert drill in DRILLS_MM
    assert fits(drill, wires)
    smaller = DRILLS_MM.index(drill) - 1
    assert smaller < 0 or not fits(DRILLS_MM[smaller], wires)


@given(BUNDLES)
def test_by_the_fill_rule_there_is_always_room_round_the_bundle(wires: list[float]) -> None:
    assert least_hole(wires) > bundle_diameter(wires)


def test_too_much_for_any_drill() -> None:
    assert drill_for([1.6] * 200) is None


@given(BUNDLES, DIAMETERS, st.floats(1, 40))
def test_what_does_not_fit_fits_no_better_with_one_wire_more(wires: list[float], more: float, hole: float) -> None:
    """From three wires on; one wire alone is allowed more room than two, and two less than three."""
    if len(wires) >= 3 and not fits(hole, wires):
        assert not fits(hole, [*wires, more])
