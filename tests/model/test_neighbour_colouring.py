"""Neighbours never agree, and no fewer colours would do: judged by trying every way."""

from itertools import combinations, product

from generated_track_plans import track_plans
from hypothesis import given
from hypothesis import strategies as st
from track_judge import panel_of

from labelgen.model.tracks.graph import track_graph
from labelgen.model.tracks.neighbour_colouring import coloured, spread
from labelgen.model.tracks.sections import track_sections

Pairs = list[tuple[int, int]]


@st.composite
def small(draw: st.DrawFn) -> tuple[int, Pairs]:
    count = draw(st.integers(0, 7))
    pairs = list(combinations(range(count), 2))
    return count, draw(st.lists(st.sampled_from(pairs), unique=True)) if pairs else []


def agree(colours: list[int], pairs: Pairs) -> bool:
    return any(colours[a] == colours[b] for a, b in pairs)


@given(small())
def test_neighbours_differ_in_the_fewest_colours(plan: tuple[int, Pairs]) -> None:
    count, pairs = plan
    found = coloured(count, pairs)
    assert len(found) == count
    assert not agree(found, pairs)
    fewest = next(k for k in range(8) if any(not agree(list(c), pairs) for c in product(range(k), repeat=count)))
    assert len(set(found)) == fewest
    assert set(found) == set(range(fewest))


def test_a_wheel_on_which_the_first_try_may_fail() -> None:
    crown = [(a, 5 + b) for a in range(5) for b in range(5) if a != b]
    assert len(set(coloured(10, crown))) == 2


def test_a_plan_on_which_the_first_try_takes_one_too_many() -> None:
    hard = ["01", "02", "07", "14", "15", "18", "23", "24", "26", "35", "37", "38", "46", "47", "56", "58", "68"]
    pairs = [(int(a), int(b)) for a, b in hard]
    found = coloured(9, pairs)
    assert not agree(found, pairs)
    assert len(set(found)) == 3


def test_so_many_things_that_they_are_not_searched() -> None:
    ring = [(n, (n + 1) % 400) for n in range(400)]
    found = coloured(400, ring)
    assert not agree(found, ring)
    assert len(set(found)) <= 3


@given(small(), st.integers(1, 6))
def test_spread_uses_as_many_colours_as_it_may(plan: tuple[int, Pairs], colours: int) -> None:
    count, pairs = plan
    found = spread(count, pairs, colours)
    assert len(found) == count
    assert not agree(found, pairs)
    if count <= colours:
        assert len(set(found)) == count


def test_sections_of_200_plans_never_share_a_colour_with_a_neighbour() -> None:
    most = 0
    for text in track_plans(200):
        panel = panel_of(text)
        sections = track_sections(panel, track_graph(panel))
        count, pairs = len(sections.stretches), list(sections.neighbours)
        assert not agree(spread(count, pairs, 6), pairs)
        most = max(most, len(set(coloured(count, pairs))))
    assert 2 <= most <= 6
