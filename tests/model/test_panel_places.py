"""Where levers have their holes: as told, or as few mm as needed from where they belong. Judge of rooms: shapely."""

from dataclasses import dataclass
from itertools import combinations, pairwise, product
from math import hypot
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import Point as Dot

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.panel.places import lever_holes, screw_places
from labelgen.reading.data_readers import built_in_hardware


@dataclass(frozen=True)
class Lever:
    id: str
    devices: tuple[str, ...]
    type: str = "sprung"
    normal: str = "up"
    buttons: tuple[str, ...] = ()


def holes(works: dict[str, list[str]], *, on_it: tuple[str, ...] = (), **keys: Any) -> dict[str, Point]:
    description = Description.model_validate({"railway": "x", "panels": {"A": keys}}).with_parts(built_in_hardware())
    return lever_holes(description, "A", [Lever(id_, tuple(devices)) for id_, devices in works.items()], on_it)


def test_a_lever_stands_on_the_first_of_its_points_that_the_panel_draws() -> None:
    points = {"P10": [4, 2], "P2": [1, 2]}
    assert holes({"5": ["P10", "P2", "P1"]}, points=points, grid=12) == {"5": Point(12, 24)}


def test_a_lever_stands_on_its_section() -> None:
    assert holes({"11": ["YARD"]}, sections={"YARD": [3.5, 2]}) == {"11": Point(35, 20)}


def test_its_own_place_comes_first() -> None:
    keys = {"points": {"P1": [1, 1]}, "levers": {"1": [9, 9], "row": "4"}, "size": [100, 100]}
    assert holes({"1": ["P1"]}, **keys) == {"1": Point(90, 90)}


def test_a_row_spreads_the_others_evenly_in_natural_order() -> None:
    keys = {"levers": {"7": [9, 9], "row": "4"}, "size": [100, 100]}
    found = holes({"10": [], "2": [], "7": []}, **keys)
    assert found == {"2": Point(25, 40), "10": Point(75, 40), "7": Point(90, 90)}


def test_a_frame_of_sixty_levers_has_one_pitch() -> None:
    found = holes({str(n): [] for n in range(1, 61)}, levers={"row": "4"}, size=[1200, 100])
    xs = [found[str(n)].x for n in range(1, 61)]
    assert {round(b - a, 9) for a, b in pairwise(xs)} == {20}


def test_a_row_needs_a_size() -> None:
    assert holes({"1": []}, levers={"row": "4"}) == {}


def test_a_lever_that_nothing_draws_has_none() -> None:
    assert holes({"1": ["LAMP"]}, points={"P1": [1, 1]}) == {}


def in_line(*xs: float, grid: float = 10, **more: Any) -> dict[str, Any]:
    """Points on a main line, each with a branch that leaves it at 45 degrees, up and down in turn."""
    tracks: dict[str, Any] = {"main": [[0, 10], [60, 10]]}
    for n, x in enumerate(xs, 1):
        y = 10 + (9 if n % 2 else -9)
        tracks[f"r{n}"] = [f"P{n}", [x + 9, y], [60, y]]
    points = {f"P{n}": [x, 10] for n, x in enumerate(xs, 1)}
    return {"tracks": tracks, "points": points, "grid": grid, "size": [600, 200], **more}


def works(many: int) -> dict[str, list[str]]:
    return {str(n): [f"P{n}"] for n in range(1, many + 1)}


def own_roads(keys: dict[str, Any], n: int) -> list[LineString]:
    grid, points = keys["grid"], keys["points"]
    found = []
    for corners in (keys["tracks"]["main"], keys["tracks"][f"r{n}"]):
        squares = [points[c] if isinstance(c, str) else c for c in corners]
        found.append(LineString([(x * grid, y * grid) for x, y in squares]))
    return found


def test_holes_with_room_stay_on_their_points() -> None:
    assert holes(works(2), **in_line(10, 11.9)) == {"1": Point(100, 100), "2": Point(119, 100)}


def test_two_that_are_too_close_share_the_way_between_them() -> None:
    """19 mm for fingers, by the part's data: of 15 mm, 4 are missing, 2 for each; toe and normal lie in one line."""
    assert holes(works(2), **in_line(10, 11.5)) == {"1": Point(98, 100), "2": Point(117, 100)}


def test_what_has_a_place_of_its_own_never_moves_and_the_other_goes_the_whole_way() -> None:
    found = holes(works(2), **in_line(10, 11.5, levers={"2": [11.5, 10]}))
    assert found == {"1": Point(96, 100), "2": Point(115, 100)}


def test_a_button_keeps_a_lever_away_and_a_lamp_only_its_nut() -> None:
    # toggle 19 and button 13 for fingers: 16 mm
    assert holes(works(1), on_it=("Yard",), **in_line(10, routes={"Yard": [11, 10]})) == {"1": Point(94, 100)}
    assert holes(works(1), **in_line(10, lamps={"P1.normal": [11.1, 10]})) == {"1": Point(100, 100)}
    # bodies of 13 and 4 mm, 2 mm apart: 10.5 mm
    assert holes(works(1), **in_line(10, lamps={"P1.normal": [11, 10]})) == {"1": Point(99.5, 100)}


def test_a_section_switch_slides_along_its_track() -> None:
    keys = {"tracks": {"a": [[1, 5], [30, 5]]}, "sections": {"A": [10, 5], "B": [11, 5]}, "breaks": [[10.5, 5]]}
    found = holes({"1": ["A"], "2": ["B"]}, size=[320, 100], **keys)
    assert {hole.y for hole in found.values()} == {50}
    assert found["2"].x - found["1"].x == pytest.approx(19)
    assert abs(found["1"].x - 100) + abs(found["2"].x - 110) == pytest.approx(9)


def test_a_section_or_point_on_no_track_stays() -> None:
    keys = {"sections": {"A": [10, 5], "B": [11, 5]}, "points": {"P3": [10.5, 5]}}
    found = holes({"1": ["A"], "2": ["B"], "3": ["P3"]}, **keys)
    assert found == {"1": Point(100, 50), "2": Point(110, 50), "3": Point(105, 50)}


def test_no_hole_leaves_the_panel() -> None:
    """6 mm of nut and 2.5 mm of edge are kept, and the way to the left is taken by that."""
    found = holes(works(2), **in_line(1, 2.5))
    assert all(hole.x >= 11.5 / 2 + 2.5 - 1e-9 for hole in found.values())
    assert hypot(found["1"].x - found["2"].x, found["1"].y - found["2"].y) >= 19 - 1e-6


def test_what_finds_no_room_for_fingers_has_it_for_its_nut() -> None:
    keys = in_line(10, 10.4, 10.8, 11.2, 11.6)
    keys["tracks"] = {"main": keys["tracks"]["main"]}
    found = holes(works(5), **keys)
    assert len(set(found.values())) > 1
    assert found == holes(works(5), **keys)


def test_a_point_added_elsewhere_moves_nothing() -> None:
    before = holes(works(2), **in_line(10, 11.5))
    after = holes(works(4), **in_line(10, 11.5, 40, 41.2))
    assert {key: after[key] for key in before} == before


def test_without_a_size_there_is_no_edge() -> None:
    keys = {**in_line(1, 2.5), "size": None}
    found = holes(works(2), **keys)
    assert found["1"] == Point(8, 100)


def test_smaller_parts_need_less() -> None:
    """Sub-miniature toggles: 17 mm for fingers."""
    found = holes(works(2), **in_line(10, 11.5, hardware={"levers": "sub-miniature-toggle"}))
    assert found == {"1": Point(99, 100), "2": Point(116, 100)}
    found = holes(works(2), **in_line(10, 11.5, hardware={"1": "sub-miniature-toggle"}))
    assert found["2"].x - found["1"].x == 18


def test_a_part_that_is_described_nowhere_takes_the_room_of_a_toggle() -> None:
    found = holes(works(2), **in_line(10, 11.5, hardware={"levers": "odd-one"}))
    assert found == {"1": Point(98, 100), "2": Point(117, 100)}


def test_corner_screws() -> None:
    panel = Description.model_validate({"railway": "x", "panels": {"A": {"size": [100, 50], "screws": "yes"}}}).panels[
        "A"
    ]
    assert screw_places(panel) == [Point(8, 8), Point(92, 8), Point(8, 42), Point(92, 42)]
    assert screw_places(panel.model_copy(update={"size": None})) == []


close = st.lists(st.integers(8, 22), min_size=1, max_size=4)


@settings(max_examples=30)
@given(close)
def test_holes_stay_on_their_roads_and_clear_of_each_other(gaps: list[int]) -> None:
    xs = [20 + sum(gaps[:n]) / 10 for n in range(len(gaps) + 1)]
    keys = in_line(*xs)
    found = holes(works(len(xs)), **keys)
    for n in range(1, len(xs) + 1):
        place = Dot(found[str(n)].x, found[str(n)].y)
        assert min(road.distance(place) for road in own_roads(keys, n)) < 1e-6
    nuts = [Dot(hole.x, hole.y).buffer(11.5 / 2, quad_segs=64) for hole in found.values()]
    assert all(a.distance(b) >= 1 - 0.01 for a, b in combinations(nuts, 2))


@settings(max_examples=8)
@given(st.integers(100, 185), st.integers(100, 185))
def test_never_further_than_needed(first: int, second: int) -> None:
    """Every way to move three holes along their roads in steps of 1 mm is tried: none is shorter by over a step."""
    xs = [20, 20 + first / 100, 20 + (first + second) / 100]
    keys = in_line(*xs)
    found = holes(works(3), **keys)
    moved = sum(hypot(found[str(n)].x - xs[n - 1] * 10, found[str(n)].y - 100) for n in (1, 2, 3))
    assert moved <= _least(xs) + 1.5 + 1e-6


def _least(xs: list[float]) -> float:
    reach = range(13)
    ways = []
    for n, x in enumerate(xs):
        turn = 0.5**0.5 * (1 if n % 2 == 0 else -1)
        branch = [(d, x * 10 + d * 0.5**0.5, 100 + d * turn) for d in reach]
        ways.append([*((d, x * 10 + d * s, 100.0) for d in reach for s in (1, -1)), *branch])
    return min(
        (sum(one[0] for one in way) for way in product(*ways) if _clear(way)),
        default=float("inf"),
    )


def _clear(way: tuple[tuple[float, float, float], ...]) -> bool:
    return all(
        hypot(a[1] - b[1], a[2] - b[2]) >= 19 and max(abs(a[1] - b[1]), abs(a[2] - b[2])) >= 15
        for a, b in combinations(way, 2)
    )


def test_a_toggle_that_moves_sideways_is_turned() -> None:
    """A standard toggle is 18 mm wide and 30 mm high behind the panel: lying, 32 mm apart; upright, they have room."""
    keys = {"size": [300, 100], "tracks": {"main": [[2, 5], [28, 5]], "a": [[10, 5], [12, 7]], "b": [[13, 5], [15, 7]]},
             "points": {"P1": [10, 5], "P2": [13, 5]}, "hardware": {"levers": "standard-toggle"}}  # fmt: skip
    description = Description.model_validate({"railway": "x", "panels": {"A": keys}}).with_parts(built_in_hardware())
    for normal, apart in (("up", 30), ("down", 30), ("left", 32), ("right", 32)):
        both = [Lever(id_, (f"P{id_}",), normal=normal) for id_ in ("1", "2")]
        places = lever_holes(description, "A", both)
        assert places["2"].x - places["1"].x == pytest.approx(apart, abs=0.5), normal


def test_the_buttons_of_a_lever_take_the_room_of_a_row() -> None:
    """Three buttons 13 mm apart reach 19.5 mm to either side, a toggle's finger room 9.5: 29 mm between the middles."""
    keys = {"size": [300, 100], "tracks": {"main": [[2, 5], [28, 5]], "a": [[10, 5], [12, 7]], "b": [[12, 5], [14, 7]]},
             "points": {"P1": [10, 5], "P2": [12, 5]}}  # fmt: skip
    description = Description.model_validate({"railway": "x", "panels": {"A": keys}}).with_parts(built_in_hardware())
    row = Lever("1", ("P1",), type="buttons", buttons=("left", "centre", "right"))
    places = lever_holes(description, "A", [row, Lever("2", ("P2",))])
    assert places["2"].x - places["1"].x == pytest.approx(29, abs=0.5)


def test_off_its_point_a_lever_leaves_its_other_roads_uncovered() -> None:
    """A slip: its tracks cross at 27 degrees, so that a nut just off the middle would lie over the other track."""
    keys = {"size": [300, 140], "tracks": {"a": [[2, 6], [28, 6]], "b": [[8, 10], [24, 2]]},
             "points": {"P1": [16, 6]}, "levers": {"9": [16, 6.6]}}  # fmt: skip
    description = Description.model_validate({"railway": "x", "panels": {"A": keys}}).with_parts(built_in_hardware())
    at = lever_holes(description, "A", [Lever("1", ("P1",)), Lever("9", ())])["1"]
    tracks = [LineString([(20, 60), (280, 60)]), LineString([(80, 100), (240, 20)])]
    assert at != Point(160, 60)
    assert sorted(track.distance(Dot(at.x, at.y)) for track in tracks)[1] >= 5.75
