"""Truth: an exhaustive search for the fewest reels, the theorem's own bound, and the total length."""

from functools import cache
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.workshop.reels import REEL_LENGTHS_MM, CutPlan, fewest_reels, plan_cuts, reels_to_buy

LENGTHS = st.lists(st.integers(1, 26), max_size=40)


def fewest(lengths: list[int], reel: int) -> int:
    """How few reels would do, by trying every way to fill them."""

    @cache
    def needed(todo: tuple[int, ...], room: int) -> int:
        if not todo:
            return 0
        found = []
        for index, length in enumerate(todo):
            if index and length == todo[index - 1]:
                continue
            rest = todo[:index] + todo[index + 1 :]
            if length <= room:
                found.append(needed(rest, room - length))
            elif not index:
                found.append(1 + needed(rest, reel - length))
        return min(found)

    return needed(tuple(sorted(lengths, reverse=True)), 0)


def cut(plan: CutPlan) -> list[int]:
    return sorted([index for reel in plan.reels for index in reel.cuts] + list(plan.too_long))


@given(LENGTHS)
def test_every_wire_is_cut_once_or_told_to_be_too_long(lengths: list[int]) -> None:
    plan = plan_cuts(lengths, 20)
    assert cut(plan) == list(range(len(lengths)))
    assert [lengths[index] for index in plan.too_long] == [length for length in lengths if length > 20]


@given(LENGTHS)
def test_no_reel_gives_more_than_is_on_it(lengths: list[int]) -> None:
    for reel in plan_cuts(lengths, 20).reels:
        assert reel.cuts
        assert sum(lengths[index] for index in reel.cuts) + reel.left == reel.length == 20
        assert reel.left >= 0


@given(LENGTHS)
def test_the_longest_comes_off_first(lengths: list[int]) -> None:
    for reel in plan_cuts(lengths, 20).reels:
        cuts = [lengths[index] for index in reel.cuts]
        assert cuts == sorted(cuts, reverse=True)


@given(LENGTHS)
def test_never_fewer_than_the_total_length_asks_for(lengths: list[int]) -> None:
    fitting = [length for length in lengths if length <= 20]
    assert len(plan_cuts(lengths, 20).reels) >= fewest_reels(fitting, 20) >= sum(fitting) / 20


@given(st.lists(st.integers(1, 12), max_size=9))
def test_within_the_proven_bound_of_the_fewest(lengths: list[int]) -> None:
    """11/9 × the fewest + 6/9 (Dósa 2007), against an exhaustive search."""
    least = fewest(lengths, 12)
    assert least <= len(plan_cuts(lengths, 12).reels) <= floor((11 * least + 6) / 9)
    assert least >= fewest_reels(lengths, 12)


def test_where_first_fit_decreasing_is_one_reel_worse() -> None:
    """Twice 4 + 3 + 3 fills two reels of 10; longest first puts the two of 4 together, and takes three."""
    lengths = [4, 4, 3, 3, 3, 3]
    assert fewest(lengths, 10) == 2
    assert len(plan_cuts(lengths, 10).reels) == 3


@given(LENGTHS)
def test_it_is_first_fit(lengths: list[int]) -> None:
    """Told once more in the plainest way, without the short cut for equal lengths."""
    left: list[int] = []
    for length in sorted((length for length in lengths if length <= 20), reverse=True):
        first = next((reel for reel, room in enumerate(left) if room >= length), None)
        if first is None:
            left.append(20 - length)
        else:
            left[first] -= length
    assert [reel.left for reel in plan_cuts(lengths, 20).reels] == left


def test_a_wire_that_is_longer_than_every_reel_is_told() -> None:
    plan = reels_to_buy([120_000, 500])
    assert plan.too_long == (0,)
    assert [reel.cuts for reel in plan.reels] == [(1,)]


def test_nothing_to_cut() -> None:
    assert reels_to_buy([]) == CutPlan(reels=())


@pytest.mark.parametrize(
    ("lengths", "bought"),
    [
        ([500] * 10, [10_000]),
        ([1000] * 10, [10_000]),
        ([1000] * 31, [25_000, 10_000]),  # 35 m in two reels; four of 10 m would be 40
        ([1000] * 100, [100_000]),  # one of 100 m rather than four of 25
        ([15_000], [25_000]),
        ([9_000, 9_000], [10_000, 10_000]),  # 20 m rather than 25
        ([30_000, 1_000], [100_000]),
    ],
)
def test_what_to_buy(lengths: list[int], bought: list[int]) -> None:
    plan = reels_to_buy(lengths)
    assert [reel.length for reel in plan.reels] == bought
    assert plan.bought - plan.left == sum(lengths)


@given(st.lists(st.integers(50, 110_000), max_size=30))
def test_what_is_bought_is_usual_and_holds_everything(lengths: list[int]) -> None:
    plan = reels_to_buy(lengths)
    assert cut(plan) == list(range(len(lengths)))
    assert {reel.length for reel in plan.reels} <= set(REEL_LENGTHS_MM)
    assert all(lengths[index] > max(REEL_LENGTHS_MM) for index in plan.too_long)
    for reel in plan.reels:
        used = sum(lengths[index] for index in reel.cuts)
        assert used + reel.left == reel.length
        assert not any(used <= shorter < reel.length for shorter in REEL_LENGTHS_MM), "a shorter reel would do"


@given(st.lists(st.integers(50, 20_000), min_size=1, max_size=30))
def test_no_single_length_buys_less(lengths: list[int]) -> None:
    bought = reels_to_buy(lengths).bought
    for reel in REEL_LENGTHS_MM:
        plan = plan_cuts(lengths, reel)
        assert plan.too_long or bought <= plan.bought
