"""How labels wind around wires, against a roll that is wound layer by layer."""

from math import cos, pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.wraps import (
    FILM_MM,
    LEAST_TAIL_TURNS,
    MOST_TAIL_TURNS,
    SEEN_SHARE,
    print_circumference_mm,
    rolled_mm,
    seen_mm,
    tail_turns,
    turns,
    wire_seen_at,
    wires_of_tail,
)

WIRES = st.floats(0.7, 9)
LENGTHS = st.floats(3, 80)


def layer_by_layer(wire: float, length: float) -> float:
    """Turns of a film that lies in closed rings, each around the one before: the middle of its thickness is what
    has its own length."""
    count, left, inner = 0.0, length, wire
    while True:
        ring = pi * (inner + FILM_MM)
        if ring >= left:
            return count + left / ring
        count, left, inner = count + 1, left - ring, inner + 2 * FILM_MM


@given(WIRES, LENGTHS)
def test_turns_are_those_of_a_roll_wound_layer_by_layer(wire: float, length: float) -> None:
    assert turns(wire, length) == pytest.approx(layer_by_layer(wire, length), abs=0.06)


@given(WIRES, LENGTHS)
def test_a_roll_keeps_the_films_area(wire: float, length: float) -> None:
    assert pi / 4 * (rolled_mm(wire, length) ** 2 - wire**2) == pytest.approx(FILM_MM * length)


@given(WIRES, LENGTHS, LENGTHS)
def test_white_and_tail_together_wind_like_one_film(wire: float, white: float, tail: float) -> None:
    assert turns(wire, white) + tail_turns(wire, white, tail) == pytest.approx(turns(wire, white + tail))


@given(st.floats(5, 25), st.floats(8, 60))
def test_between_the_limits_the_tail_goes_round_as_often_as_it_should(white: float, tail: float) -> None:
    thin, thick = wires_of_tail(white, tail)
    assert thin <= thick
    for limit, wanted in ((thin, MOST_TAIL_TURNS), (thick, LEAST_TAIL_TURNS)):
        if limit > 0:
            assert tail_turns(limit, white, tail) == pytest.approx(wanted)
    if thin > 0:
        assert LEAST_TAIL_TURNS < tail_turns((thin + thick) / 2, white, tail) < MOST_TAIL_TURNS


def test_a_tail_that_is_too_short_for_any_wire_goes_round_none() -> None:
    assert wires_of_tail(20, 1) == (0, 0)


def test_one_and_a_half_to_two_turns_or_a_little_more_on_layout_wire() -> None:
    """Trade practice, section 5: about 1.5 to 2 turns. Diameters: the reference's table, 16/0.2 to 32/0.2."""
    assert all(1.5 <= tail_turns(wire, 9.5, 15.9) <= 2.4 for wire in (1.6, 2.05, 2.6))


def test_what_is_seen_of_a_bare_wire_is_about_a_millimetre() -> None:
    """Trade practice, section 5: 7/0.2 is 3.8 mm around, of which about 1.3 mm show at once. Ours: 1.6 mm."""
    around = print_circumference_mm(1.2, 0)
    assert around == pytest.approx(3.77, abs=0.005)
    assert 1.3 <= seen_mm(1.2, 0) <= 1.6
    assert cos(radians(SEEN_SHARE * 180)) == pytest.approx(0.26, abs=0.005)


@given(st.floats(1.5, 8), st.floats(4, 20))
def test_the_thinnest_wire_on_which_so_much_is_seen(seen: float, white: float) -> None:
    wire = wire_seen_at(seen, white)
    if wire > 0:
        assert seen_mm(wire, white) == pytest.approx(seen)
    else:
        assert seen_mm(0, white) >= seen - 1e-9
