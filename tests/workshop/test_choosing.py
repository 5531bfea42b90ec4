"""One option for each, without clashes, as cheap as can be. Oracle: every combination tried."""

from itertools import combinations, product

from hypothesis import given
from hypothesis import strategies as st

from labelgen.workshop.choosing import LEFT_OUT, Option, choose

Value = tuple[int, int]


def clash(a: Value, b: Value) -> bool:
    return abs(a[0] - b[0]) < 2


def ordered(values: list[tuple[int, int]], thing: int) -> list[Option[Value]]:
    return sorted((Option(float(cost), (at, thing)) for cost, at in values), key=lambda option: option.cost)


def cost_of(chosen: dict[str, Option[Value]], things: dict[str, list[Option[Value]]]) -> float:
    return sum(chosen[key].cost if key in chosen else LEFT_OUT for key in things)


def cheapest(things: dict[str, list[Option[Value]]]) -> float:
    ways = product(*([*options, None] for options in things.values()))
    return min(
        sum(one.cost if one else LEFT_OUT for one in way)
        for way in ways
        if not any(a and b and clash(a.value, b.value) for a, b in combinations(way, 2))
    )


options = st.lists(st.tuples(st.integers(0, 9), st.integers(0, 6)), max_size=5)


@given(st.lists(options, min_size=1, max_size=4))
def test_nothing_clashes_and_no_more_is_left_out_than_must_be(given_options: list[list[tuple[int, int]]]) -> None:
    things = {str(n): ordered(values, n) for n, values in enumerate(given_options)}
    chosen = choose(things, clash)
    assert all(chosen[key] in things[key] for key in chosen)
    assert not any(clash(a.value, b.value) for a, b in combinations(chosen.values(), 2))
    least = cheapest(things)
    assert cost_of(chosen, things) >= least
    assert len(things) - len(chosen) == int(least // LEFT_OUT)


@given(
    st.lists(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 6)), min_size=1, max_size=5), min_size=2, max_size=4)
)
def test_in_one_cluster_it_is_the_cheapest_way(given_options: list[list[tuple[int, int]]]) -> None:
    """All begin at the same place, so that all belong to one cluster."""
    things = {str(n): ordered([(0, 3), *((cost + 1, at) for cost, at in v)], n) for n, v in enumerate(given_options)}
    assert cost_of(choose(things, clash), things) == cheapest(things)


def test_what_clashes_with_nothing_stays_whatever_is_added_elsewhere() -> None:
    far = {"a": ordered([(0, 50), (1, 52)], 0), "b": ordered([(0, 51), (2, 54)], 1)}
    alone = choose(far, clash)
    with_more = choose({**far, "c": ordered([(0, 3)], 2), "d": ordered([(0, 3), (4, 9)], 3)}, clash)
    assert {key: with_more[key] for key in far} == alone


def test_a_neighbour_makes_way_only_when_one_would_be_left_out() -> None:
    things = {"a": ordered([(0, 0)], 0), "b": ordered([(0, 1), (1, 2)], 1), "c": ordered([(0, 3), (1, 9)], 2)}
    chosen = choose(things, clash)
    assert [chosen[key].value[0] for key in "abc"] == [0, 2, 9]


def test_many_in_one_place_come_to_an_end() -> None:
    things = {str(n): ordered([(at, at) for at in range(80)], n) for n in range(12)}
    chosen = choose(things, clash)
    assert len(chosen) == 12
    assert not any(clash(a.value, b.value) for a, b in combinations(chosen.values(), 2))


@given(st.lists(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 30)), max_size=5), min_size=1, max_size=9))
def test_knowing_who_is_near_whom_changes_nothing(given_options: list[list[tuple[int, int]]]) -> None:
    things = {str(n): ordered(values, n) for n, values in enumerate(given_options)}

    def could_meet(one: str, other: str) -> bool:
        return any(clash(a.value, b.value) for a in things[one] for b in things[other])

    near = {one: {other for other in things if other != one and could_meet(one, other)} for one in things}
    assert choose(things, clash, near) == choose(things, clash)


def test_very_many_in_one_cluster_are_settled_too() -> None:
    """A row of levers side by side, each in the way of the next: deeper than Python calls go."""
    things = {str(n): ordered([(0, n), (1, n + 2000 * (n % 2))], n) for n in range(1500)}
    near = {str(n): {str(m) for m in (n - 1, n + 1) if 0 <= m < 1500} for n in range(1500)}
    chosen = choose(things, clash, near)
    assert len(chosen) == 1500
    assert all(not clash(chosen[str(n)].value, chosen[str(n + 1)].value) for n in range(1499))
