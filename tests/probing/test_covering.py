"""The fewest sets that hold everything, against trying all choices."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from labelgen.probing import covering
from labelgen.probing.covering import fewest


def held(sets: list[int], places: tuple[int, ...] | list[int]) -> int:
    found = 0
    for place in places:
        found |= sets[place]
    return found


def least_by_trying(sets: list[int]) -> int:
    places, everything = range(len(sets)), held(sets, list(range(len(sets))))
    return next(n for n in range(len(sets) + 1) if any(held(sets, c) == everything for c in combinations(places, n)))


@given(st.lists(st.integers(0, 2**9 - 1), max_size=9))
def test_as_few_as_can_be_and_all_is_held(sets: list[int]) -> None:
    chosen, least = fewest(sets)
    assert held(sets, chosen) == held(sets, list(range(len(sets))))
    assert chosen == sorted(set(chosen))
    assert len(chosen) == least == least_by_trying(sets)


@given(
    st.lists(st.sampled_from([2**a | 2**b | 2**c for a in range(8) for b in range(a) for c in range(b)]), max_size=9)
)
def test_a_search_that_is_cut_short_says_no_more_than_is_true(sets: list[int]) -> None:
    most, covering.MOST_STEPS = covering.MOST_STEPS, 0
    try:
        chosen, least = fewest(sets)
    finally:
        covering.MOST_STEPS = most
    assert held(sets, chosen) == held(sets, list(range(len(sets))))
    assert least <= least_by_trying(sets) <= len(chosen)


def test_a_search_cut_short_may_leave_a_gap() -> None:
    """The seven lines of the Fano plane, three points each: any two points share one, so that the bound is one."""
    lines = [0b0000111, 0b0011001, 0b1100001, 0b0101010, 0b1010010, 0b1001100, 0b0110100]
    assert least_by_trying(lines) == 3
    chosen, least = fewest(lines)
    assert len(chosen) == least == 3


def test_the_fullest_first_is_not_always_best() -> None:
    """Of five things: the first set of three leaves two that no one set holds; two others hold all five."""
    sets = [0b00110, 0b01010, 0b01101, 0b10101, 0b10011]
    chosen, least = fewest(sets)
    assert len(chosen) == least == least_by_trying(sets) == 2
    assert held(sets, chosen) == 0b11111
