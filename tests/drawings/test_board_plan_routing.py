"""Ways of wires: laws for any ends and bodies, and counts against each wire by itself."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from labelgen.drawings.board_plan.paths import Leg, Node
from labelgen.drawings.board_plan.routing import routed
from labelgen.drawings.board_plan.runs import bundles
from labelgen.lengths import Point, Rectangle
from labelgen.model.strip_geometry import Spot

PLACES = st.builds(Point, st.integers(0, 100).map(lambda n: n * 10.0), st.integers(0, 60).map(lambda n: n * 10.0))


def leg(number: int, start: Point, finish: Point) -> Leg:
    one, other = (
        Node(thing=("point", f"P{number}{end}"), frame="", at=at, join=at) for end, at in (("A", start), ("B", finish))
    )
    return Leg(start=one, finish=other, above=False)


LEGS = st.lists(st.tuples(PLACES, PLACES), max_size=12).map(
    lambda pairs: [leg(number, *pair) for number, pair in enumerate(pairs)]
)


@given(LEGS)
def test_with_nothing_in_the_way_a_wire_is_as_long_as_reckoned(legs: list[Leg]) -> None:
    """|dx| + |dy|: section 5.8 of the format."""
    for one, corners in zip(legs, routed(legs, {}), strict=True):
        assert (corners[0], corners[-1]) == (one.start.at, one.finish.at)
        assert all(a.x == b.x or a.y == b.y for a, b in pairwise(corners))
        run = sum(abs(a.x - b.x) + abs(a.y - b.y) for a, b in pairwise(corners))
        there = one.finish.at - one.start.at
        assert run == abs(there.x) + abs(there.y)


def test_a_wire_goes_round_what_is_in_its_way() -> None:
    body = {("strip", "S1"): (Spot("", Point(500, 300)), 60.0, 10.0)}
    (corners,) = routed([leg(1, Point(500, 100), Point(510, 500))], body)
    for a, b in pairwise(corners):
        through = min(a.x, b.x) < 560 and max(a.x, b.x) > 440 and min(a.y, b.y) < 310 and max(a.y, b.y) > 290
        assert not through


def test_wires_of_a_strip_gather_before_it() -> None:
    way = [
        Node(thing=("strip", "S1/panel"), frame="", at=Point(x, 10), join=Point(x, 30), out=Point(0, 1))
        for x in (0, 10)
    ]
    hole = Node(thing=("hole", "H1"), frame="", at=Point(100, 200), join=Point(100, 200))
    found = routed([Leg(start=one, finish=hole, above=False) for one in way], {})
    assert found == [(Point(x, 10), Point(x, 30), Point(100, 30), Point(100, 200)) for x in (0, 10)]


@given(LEGS)
def test_runs_hold_as_many_wires_as_lie_there(legs: list[Leg]) -> None:
    """Against each wire's own stretches, one by one, in the middle of every run."""
    ways = [corners for corners in routed(legs, {}) if len(corners) > 1]
    paths: dict[tuple[tuple[Point, ...], bool], int] = {}
    for corners in ways:
        paths[corners, False] = paths.get((corners, False), 0) + 1
    found = bundles(paths, Rectangle(0, 0, 1000, 600), 1)
    for run in found.runs:
        middle = Point((run.start.x + run.end.x) / 2, (run.start.y + run.end.y) / 2)
        across = run.start.y == run.end.y
        there = [straight for one in ways for straight in straights(one)]
        assert run.wires == sum(holds(a, b, middle, across=across) for a, b in there)


def straights(corners: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    """The stretches of one wire, without what its round bends take: 2 mm at each end that turns."""
    found = []
    stretches = list(pairwise(corners))
    for number, (a, b) in enumerate(stretches):
        length = abs(a.x - b.x) + abs(a.y - b.y)
        unit = Point((b.x - a.x) / length, (b.y - a.y) / length)
        before = min(2.0, length / 2) if number else 0.0
        behind = min(2.0, length / 2) if number < len(stretches) - 1 else 0.0
        start, end = a + Point(unit.x * before, unit.y * before), b - Point(unit.x * behind, unit.y * behind)
        found.append((start, end))
    return found


def holds(a: Point, b: Point, at: Point, *, across: bool) -> bool:
    if across != (a.y == b.y):
        return False
    return (
        (a.y == at.y and min(a.x, b.x) <= at.x <= max(a.x, b.x))
        if across
        else (a.x == at.x and min(a.y, b.y) <= at.y <= max(a.y, b.y))
    )


def test_what_leaves_the_board_is_cut_at_its_edge() -> None:
    found = bundles({((Point(50, 20), Point(150, 20)), False): 3}, Rectangle(0, 0, 100, 60), 2)
    (run,) = found.runs
    assert (run.start, run.end, run.wires) == (Point(25, 10), Point(50, 10), 3)


def test_above_and_below_are_counted_apart() -> None:
    way = (Point(0, 0), Point(50, 0))
    found = bundles({(way, False): 2, (way, True): 1}, Rectangle(0, 0, 100, 60), 1)
    assert sorted((run.above, run.wires) for run in found.runs) == [(False, 2), (True, 1)]


def test_a_wire_that_turns_straight_back_has_no_bend() -> None:
    found = bundles({((Point(0, 0), Point(20, 0), Point(10, 0)), False): 1}, Rectangle(0, 0, 100, 60), 1)
    assert found.bends == ()
