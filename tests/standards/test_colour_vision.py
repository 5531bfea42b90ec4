"""Simulated colour blindness, by coloraide as an independent judge and by vectors that several libraries share."""

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from labelgen.standards.colour_difference import linear
from labelgen.standards.colour_letters import COLOURS
from labelgen.standards.colour_vision import LEAST_APART, SEEN_BY, VISIONS, difference, least_difference, seen

PAINTS = st.tuples(*[st.integers(0, 255)] * 3).map(lambda rgb: "#{:02X}{:02X}{:02X}".format(*rgb))
JUDGED = {"protan": "machado", "deutan": "machado", "tritan": "brettel"}


def test_every_vision_is_said_in_words() -> None:
    assert tuple(SEEN_BY) == VISIONS


@pytest.mark.parametrize(("vision", "shown"), [("protan", "#504500"), ("deutan", "#7A6B00")])
def test_a_red_as_others_have_simulated_it(vision: str, shown: str) -> None:
    """Machado, Oliveira and Fernandes 2009, as colour-science and colorspacious compute it."""
    light = seen(linear("#C00000"), vision)  # type: ignore[arg-type]
    assert light == pytest.approx(linear(shown), abs=0.003)


@given(PAINTS, st.sampled_from(list(JUDGED)))
def test_as_another_library_simulates_it(paint: str, vision: str) -> None:
    judged = Color(paint).filter(vision, method=JUDGED[vision]).convert("srgb-linear").clip()
    light = seen(linear(paint), vision)  # type: ignore[arg-type]
    assert light == pytest.approx(tuple(judged.coords()), abs=0.002)


@given(st.integers(0, 255))
def test_greys_stay_as_they_are(value: int) -> None:
    """All models leave the axis of greys alone: every row of their matrices sums to 1."""
    grey = linear(f"#{value:02X}{value:02X}{value:02X}")
    for vision in VISIONS:
        assert seen(grey, vision) == pytest.approx(grey, abs=1e-4)


def test_the_eyes_that_take_two_paints_for_one() -> None:
    """A red and what those without red take it for: to all others they differ much."""
    apart, vision = least_difference(["#C00000"], ["#504500"])
    assert vision == "protan"
    assert apart < 2
    assert difference("#C00000", "#504500", "normal") > 30
    assert least_difference(["#FFFFFF"], ["#FFFF80"])[1] == "tritan"


@given(PAINTS, PAINTS, PAINTS)
def test_of_two_coloured_wires_one_colour_that_differs_is_enough(one: str, other: str, third: str) -> None:
    turned = least_difference([one, other], [other, one])
    assert turned[0] == pytest.approx(0)
    both, single = least_difference([one, other], [one, third])[0], least_difference([other], [third])[0]
    assert both <= single + 1e-9
    assert least_difference([one], [other])[0] == pytest.approx(least_difference([other], [one])[0])


def test_any_two_of_our_paints_are_apart_by_our_own_measure() -> None:
    letters = list(COLOURS)
    pairs = [(a, b) for index, a in enumerate(letters) for b in letters[:index]]
    closest = min(least_difference([COLOURS[a].paint], [COLOURS[b].paint]) for a, b in pairs)
    assert closest[0] >= LEAST_APART
