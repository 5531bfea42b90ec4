"""What is near is found by cells; what is truly too close is asked of every two, in the plain way."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from labelgen.lengths import Point
from labelgen.model.panel.hole_room import Room, comfortable
from labelgen.model.panel.near_rooms import near_rooms

mm = st.floats(-300, 300)
sizes = st.floats(0, 60)
rooms = st.builds(
    lambda x, y, covers, fingers, body, slot: Room(Point(x, y), covers + max(slot), fingers + max(slot), body, slot),
    mm,
    mm,
    sizes,
    sizes,
    st.tuples(sizes, sizes),
    st.tuples(sizes, sizes),
)


@given(st.lists(rooms, max_size=12))
def test_none_that_is_too_close_is_passed_over(given_rooms: list[Room]) -> None:
    found = list(near_rooms(given_rooms))
    assert found == sorted(set(found))
    assert all(a < b for a, b in found)
    crowded = {(a, b) for a, b in combinations(range(len(given_rooms)), 2)
               if not comfortable(given_rooms[a], given_rooms[b])}  # fmt: skip
    assert crowded <= set(found)


def test_a_row_is_asked_only_about_its_neighbours() -> None:
    """Parts that reach 10 mm, every 15 mm: each meets the next one, and not the next but one."""
    row = [Room(Point(15.0 * n, 50), 12, 12) for n in range(500)]
    assert row[0].far == 10
    assert list(near_rooms(row)) == [(n, n + 1) for n in range(499)]


def test_of_nothing_nothing_is_near() -> None:
    assert list(near_rooms([])) == []
