"""Places for numbers: clear of everything, next to their own spot. Judge for what overlaps: shapely."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, box
from shapely.geometry import Point as Dot

from labelgen.drawings.clearances import Area, Obstacle, Stroke, disc
from labelgen.drawings.number_placing import CLEAR_MM, Blocked, Found, Wanted, place_all
from labelgen.lengths import Point, Rectangle

PANEL = Rectangle(0, 0, 200, 100)
SPOT = Point(100, 50)
RAIL = Stroke(start=Point(0, 50), end=Point(200, 50), reach=2, what="track main")


def number(key: str = "5", spot: Point = SPOT, **keys: object) -> Wanted:
    return Wanted(**{"key": key, "spot": spot, "reach": 5.0, "sizes": ((4.0, 5.0),), **keys})  # type: ignore[arg-type]


def place_of(one: Wanted, *obstacles: Obstacle, spots: tuple[Point, ...] = ()) -> Rectangle | None:
    found, _ = place_all([one], obstacles, spots, PANEL)
    return found[one.key].place if one.key in found else None


def test_straight_above_when_nothing_is_in_the_way() -> None:
    assert place_of(number(), RAIL) == Rectangle(98, 40, 4, 5)


def test_below_when_a_line_leaves_upwards() -> None:
    fan = [Stroke(start=SPOT, end=Point(100 + x, 0), reach=2, what="track loop") for x in (-50, 0, 50)]
    assert place_of(number(), RAIL, *fan) == Rectangle(98, 55, 4, 5)


def test_further_out_when_it_is_crowded() -> None:
    wall = Area(rectangle=Rectangle(80, 39, 40, 6), what="platform 1")
    floor = Area(rectangle=Rectangle(80, 55, 40, 40), what="platform 2")
    place = place_of(number(), RAIL, wall, floor)
    assert place is not None
    assert place.bottom <= 39 - CLEAR_MM


def test_beside_its_fellow_on_the_same_baseline() -> None:
    fellow = Rectangle(98, 40, 4, 4)
    name = number(sizes=((20.0, 4.0),), beside=fellow, drop=1.0)
    place = place_of(name, RAIL, Area(rectangle=fellow, what="the number"))
    assert place is not None
    assert place.bottom - 1 == fellow.bottom
    assert place.x > fellow.right


def test_beyond_its_fellow_when_both_sides_are_taken() -> None:
    fellow, below = Rectangle(98, 40, 4, 4), Rectangle(98, 56, 4, 4)
    sides = [disc(Point(x, 42), 3, "lever 6") for x in (112, 88)]
    above = place_of(number(sizes=((12.0, 3.0),), beside=fellow), RAIL, *sides)
    assert above is not None
    assert above.bottom < fellow.y
    sides = [disc(Point(x, 58), 3, "lever 6") for x in (112, 88)]
    under = place_of(number(sizes=((12.0, 3.0),), beside=below), RAIL, *sides)
    assert under is not None
    assert under.y > below.bottom


def test_the_form_that_fits_is_taken() -> None:
    posts = [Area(rectangle=Rectangle(x, 0, 5, 100), what="platform") for x in (85, 110)]
    found, _ = place_all([number(sizes=((40.0, 4.0), (12.0, 9.0)))], posts, (), PANEL)
    assert found["5"].form == 1


def test_nearer_to_its_own_spot_than_to_another() -> None:
    neighbour = Point(100, 38)
    place = place_of(number(), RAIL, spots=(SPOT, neighbour))
    assert place is not None
    assert place.y > 50


def test_no_place_says_what_is_too_close_the_worst_first() -> None:
    block = Area(rectangle=Rectangle(60, 10, 80, 38), what="platform Quay")
    low = Area(rectangle=Rectangle(60, 52, 80, 40), what="platform Bay")
    left = disc(Point(92, 50), 5, "the hole of lever 4")
    found, blocked = place_all([number()], [RAIL, block, low, left], (), PANEL)
    assert found == {}
    assert blocked == [Blocked(key="5", by=("platform Bay", "platform Quay", "the hole of lever 4"))]


def test_the_edge_of_the_panel_is_too_close() -> None:
    tiny = Rectangle(96, 46, 8, 8)
    _, (blocked,) = place_all([number()], [], (), tiny)
    assert blocked.by == ("the edge of the panel",)


def test_two_in_one_place_get_two_places() -> None:
    found, blocked = place_all([number("1"), number("2")], [RAIL], (), PANEL)
    assert not blocked
    assert not found["1"].place.overlaps(found["2"].place)


coordinates = st.builds(Point, st.integers(5, 195).map(float), st.integers(5, 95).map(float))
strokes = st.builds(Stroke, start=coordinates, end=coordinates, reach=st.just(2.0), what=st.just("track"))


@given(st.lists(strokes, max_size=8), st.lists(coordinates, min_size=1, max_size=8, unique=True))
def test_what_is_placed_touches_nothing_and_belongs_to_its_spot(rails: list[Stroke], spots: list[Point]) -> None:
    wanted = [number(str(index), spot) for index, spot in enumerate(spots)]
    holes = [disc(spot, 5 - CLEAR_MM, "hole") for spot in spots]
    found, blocked = place_all(wanted, [*rails, *holes], spots, PANEL)
    assert {*found, *(one.key for one in blocked)} == {one.key for one in wanted}
    boxes = {key: _box(one) for key, one in found.items()}
    for key, text in boxes.items():
        own = spots[int(key)]
        for rail in rails:
            line = LineString([(rail.start.x, rail.start.y), (rail.end.x, rail.end.y)])
            assert line.distance(text) >= rail.reach + CLEAR_MM - 1e-6
        for spot in spots:
            assert Dot(spot.x, spot.y).distance(text) >= 5 - 1e-6
            assert spot == own or Dot(spot.x, spot.y).distance(text) > Dot(own.x, own.y).distance(text)
        assert box(0, 0, 200, 100).covers(text)
    for one, other in combinations(boxes.values(), 2):
        assert one.distance(other) >= CLEAR_MM - 1e-6


def _box(found: Found) -> object:
    place = found.place
    return box(place.x, place.y, place.right, place.bottom)
