"""Short open paths. Truth comes from trying all orders, from a published optimum, and from networkx."""

import random
from collections.abc import Callable, Sequence
from itertools import pairwise, permutations
from math import dist

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from networkx.algorithms import approximation

from labelgen.lengths import Point, rectilinear
from labelgen.wiring.nearest_places import nearest_places
from labelgen.wiring.open_paths import path_length, shortest_path
from labelgen.wiring.path_improvement import PathImprovement

Lengths = Callable[[int, int], float]


def between(points: Sequence[Point | None]) -> Lengths:
    """Rectilinear; 0 to and from what is None."""

    def length(one: int, other: int) -> float:
        a, b = points[one], points[other]
        return 0 if a is None or b is None else rectilinear(a, b)

    return length


def near_ones(points: Sequence[Point | None], length: Lengths, count: int = 10) -> list[list[int]]:
    """As the chain does it: the nearest, and the start and the end of the path besides."""
    ends = {0, len(points) - 1}
    return [
        sorted({*beside, *ends} - {stop}, key=lambda other: length(stop, other))
        for stop, beside in enumerate(nearest_places(points, count))
    ]


def shortest(points: Sequence[Point | None]) -> list[int]:
    length = between(points)
    return shortest_path(len(points) - 2, length, near_ones(points, length))


PLACES = st.builds(Point, st.integers(0, 12), st.integers(0, 12))


@given(st.lists(PLACES, min_size=1, max_size=6), PLACES, st.none() | PLACES)
def test_so_few_stops_are_as_short_as_the_best_of_all_orders(
    stops: list[Point], start: Point, end: Point | None
) -> None:
    points = [start, *stops, end]
    length = between(points)
    orders = permutations(range(1, len(stops) + 1))
    best = min(sum(length(a, b) for a, b in pairwise([0, *order, len(stops) + 1])) for order in orders)
    assert path_length(shortest(points), length) == best


def test_nine_stops_are_ordered_exactly() -> None:
    """Along a line the shortest way from one end passes each once: 2-opt alone would have to be lucky."""
    places = [5, 1, 8, 3, 9, 2, 7, 4, 6]
    assert shortest([Point(0, 0), *(Point(x, 0) for x in places), None]) == [places.index(x) + 1 for x in range(1, 10)]


@given(st.lists(PLACES, max_size=40), st.none() | PLACES, st.none() | PLACES)
def test_each_stop_once_and_never_longer_than_as_given(
    stops: list[Point], start: Point | None, end: Point | None
) -> None:
    points = [start, *stops, end]
    length = between(points)
    path = shortest(points)
    as_given = list(range(1, len(stops) + 1))
    assert sorted(path) == as_given
    assert path_length(path, length) <= path_length(as_given, length)
    if path_length(path, length) == path_length(as_given, length):
        assert path == as_given, "what is no shorter does not change the order"


def improved(points: Sequence[Point | None]) -> list[int]:
    """From the order in which they are given; every stop is near to every other."""
    length = between(points)
    every = near_ones(points, length, len(points))
    return PathImprovement(list(range(len(points))), length, every).shortened()


@given(st.lists(PLACES, max_size=25), PLACES, st.none() | PLACES)
def test_the_ends_of_a_path_stay_and_no_step_makes_it_longer(
    stops: list[Point], start: Point, end: Point | None
) -> None:
    points = [start, *stops, end]
    length = between(points)
    path = improved(points)
    assert (path[0], path[-1]) == (0, len(points) - 1)
    assert sorted(path) == list(range(len(points)))
    assert sum(map(length, path, path[1:])) <= sum(map(length, range(len(points)), range(1, len(points))))


def test_a_piece_that_runs_back_is_turned_round() -> None:
    """2-opt, Croes 1958."""
    assert improved([Point(x, 0) for x in (0, 50, 40, 30, 20, 10, 60)]) == [0, 5, 4, 3, 2, 1, 6]


def test_the_end_of_a_path_that_may_end_anywhere_is_turned_round() -> None:
    assert improved([*(Point(x, 0) for x in (0, 10, 60, 50, 40, 30, 20)), None]) == [0, 1, 6, 5, 4, 3, 2, 7]


@pytest.mark.parametrize(
    ("stops", "path"),
    [
        ((0, 30, 10, 20, 40, 50, 60), [0, 2, 3, 1, 4, 5, 6]),
        ((0, 10, 20, 50, 30, 40, 60), [0, 1, 2, 4, 5, 3, 6]),
        ((0, 30, 40, 10, 20, 50, 60), [0, 3, 4, 1, 2, 5, 6]),
        ((0, 50, 60, 70, 10, 20, 30, 40, 80), [0, 4, 5, 6, 7, 1, 2, 3, 8]),
    ],
    ids=["one stop on", "one stop back", "two stops", "three stops"],
)
def test_stops_are_carried_elsewhere(stops: tuple[int, ...], path: list[int]) -> None:
    """Or 1976. Turning pieces round would take several steps, each of which has to be shorter."""
    assert improved([Point(x, 0) for x in stops]) == path


BERLIN_52 = """
    565 575 25 185 345 750 945 685 845 655 880 660 25 230 525 1000 580 1175 650 1130 1605 620 1220 580 1465 200
    1530 5 845 680 725 370 145 665 415 635 510 875 560 365 300 465 520 585 480 415 835 625 975 580 1215 245 1320 315
    1250 400 660 180 410 250 420 555 575 665 1150 1160 700 580 685 595 685 610 770 610 795 645 720 635 760 650 475 960
    95 260 875 920 700 500 555 815 830 485 1170 65 830 610 605 625 595 360 1340 725 1740 245
"""
"""52 places of a town, with the length of the shortest round through all of them, proved: 7542 (G. Reinelt, A
traveling salesman problem library, ORSA Journal on Computing 3, 1991). Straight lines, rounded to whole numbers."""


def test_a_published_round_is_at_most_four_percent_longer_than_the_proved_optimum() -> None:
    numbers = [float(number) for number in BERLIN_52.split()]
    places = [Point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
    points = [*places, places[0]]

    def length(one: int, other: int) -> float:
        a, b = points[one], points[other]
        return round(dist((a.x, a.y), (b.x, b.y)))

    path = shortest_path(51, length, near_ones(points, length))
    assert sorted(path) == list(range(1, 52))
    assert 7542 <= path_length(path, length) <= 7542 * 1.04


@pytest.mark.parametrize("count", [12, 40, 120])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_no_longer_than_what_networkx_finds(count: int, seed: int) -> None:
    """A round from the supply and back: by the nearest neighbour, Christofides' method and annealing."""
    chance = random.Random(seed)
    places = [Point(chance.randrange(2400), chance.randrange(600)) for _ in range(count)]
    points = [*places, places[0]]
    graph = nx.Graph()
    for one in range(count):
        graph.add_weighted_edges_from((one, other, rectilinear(places[one], places[other])) for other in range(one))
    greedy = approximation.greedy_tsp(graph, source=0)
    rounds = [greedy, approximation.christofides(graph)]
    rounds.append(approximation.simulated_annealing_tsp(graph, greedy, source=0, seed=seed, N_inner=50))
    theirs = min(sum(graph[a][b]["weight"] for a, b in pairwise(one)) for one in rounds)
    assert path_length(shortest(points), between(points)) <= theirs * 1.01


@given(st.lists(st.none() | PLACES, max_size=60), st.integers(1, 12))
def test_the_nearest_places(places: list[Point | None], count: int) -> None:
    """Against all distances, sorted."""
    for here, found in zip(places, nearest_places(places, count), strict=True):
        if here is None:
            assert found == []
            continue
        me = next(number for number, place in enumerate(places) if place is here)
        others = [place for number, place in enumerate(places) if number != me and place is not None]
        away = sorted(rectilinear(here, place) for place in others)[:count]
        assert [rectilinear(here, place) for number in found if (place := places[number])] == away
        assert me not in found or places.count(here) > 1


def test_a_thousand_things_at_one_place_are_found_quickly() -> None:
    """Each stops looking when it has enough at no distance: else a million pairs would be compared many times."""
    found = nearest_places([Point(3, 4)] * 1000, 5)
    assert all(len(set(near)) == 5 and number not in near for number, near in enumerate(found))
