"""Toe, normal and reverse, against geometries worked by hand, in all eight directions and mirrored."""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from labelgen.model.panel.form import Panel
from labelgen.model.tracks.forms import panel_roads
from labelgen.model.tracks.graph import track_graph
from labelgen.model.tracks.roads import roads_at

Place = tuple[float, float]
Turn = tuple[float, float, float, float]

# The symmetries of the square, and the four eighth-turns that keep a grid (stretched by the root of two).
QUARTERS: list[Turn] = [(1, 0, 0, 1), (0, -1, 1, 0), (-1, 0, 0, -1), (0, 1, -1, 0)]
EIGHTHS: list[Turn] = [(1, -1, 1, 1), (-1, -1, 1, -1), (-1, 1, -1, -1), (1, 1, -1, 1)]
MIRRORED: list[Turn] = [(-a, b, -c, d) for a, b, c, d in [*QUARTERS, *EIGHTHS]]
TURNS = [*QUARTERS, *EIGHTHS, *MIRRORED]


def turned(place: Place, turn: Turn) -> list[float]:
    a, b, c, d = turn
    return [50 + a * place[0] + b * place[1], 50 + c * place[0] + d * place[1]]


def ends(
    tracks: dict[str, Sequence[Place]], turn: Turn = TURNS[0], normal: str | None = None
) -> tuple[Any, ...] | None:
    """Where toe, normal and reverse road of the point at the origin lead to, turned back."""
    drawn = {name: [turned(place, turn) for place in track] for name, track in tracks.items()}
    point: dict[str, Any] = {"at": [50, 50]} | ({"normal": normal} if normal else {})
    panel = Panel.model_validate({"tracks": drawn, "points": {"P1": point}})
    graph = track_graph(panel)
    roads = panel_roads(panel, graph).get("P1")
    if roads is None:
        return None
    places = {tuple(turned(place, turn)): place for track in tracks.values() for place in track}
    leads = (graph.nodes[graph.edges[edge].other(roads.node)] for edge in (roads.toe, roads.normal, roads.reverse))
    return tuple(places[place.x, place.y] for place in leads)


W, E = (-8, 0), (8, 0)
HAND_WORKED = [
    # a siding off a straight line leaves the same way as the normal road
    ({"main": [W, E], "siding": [(0, 0), (4, -4)]}, (W, E, (4, -4))),
    ({"main": [W, E], "siding": [(0, 0), (4, 4)]}, (W, E, (4, 4))),
    ({"main": [W, E], "siding": [(0, 0), (-4, 4)]}, (E, W, (-4, 4))),
    ({"main": [W, E], "siding": [(0, 0), (8, 1)]}, (W, E, (8, 1))),
    # steeper than square to the line, still the nearer end
    ({"main": [W, E], "siding": [(0, 0), (1, 8)]}, (W, E, (1, 8))),
    # drawn as two tracks that meet there
    ({"a": [W, (0, 0)], "b": [(0, 0), E], "c": [(0, 0), (4, 4)]}, (W, E, (4, 4))),
    # the line bends at the point, and the siding goes straighter: geometry decides, not the track
    ({"main": [W, (0, 0), (4, 4)], "siding": [(0, 0), E]}, (W, E, (4, 4))),
    # a curved point: both roads to the same side, the less bent one is normal
    ({"main": [W, (0, 0), (8, 2)], "siding": [(0, 0), (4, 4)]}, (W, (8, 2), (4, 4))),
    ({"siding": [(4, 4), (0, 0)], "main": [W, (0, 0), (8, 2)]}, (W, (8, 2), (4, 4))),
    # an equal Y: normal is the road whose track goes on over the point
    ({"main": [W, (0, 0), (8, 4)], "siding": [(0, 0), (8, -4)]}, (W, (8, 4), (8, -4))),
    ({"siding": [(0, 0), (8, -4)], "main": [W, (0, 0), (8, 4)]}, (W, (8, 4), (8, -4))),
    # an equal Y of three tracks: the first by name, 2 before 10
    ({"stem": [W, (0, 0)], "road10": [(0, 0), (8, 4)], "road2": [(0, 0), (8, -4)]}, (W, (8, -4), (8, 4))),
    # an unequal Y
    ({"stem": [W, (0, 0)], "a": [(0, 0), (8, 5)], "b": [(0, 0), (8, -4)]}, (W, (8, -4), (8, 5))),
    # square: nothing tells the ends apart but the way in which the track was drawn
    ({"main": [W, E], "siding": [(0, 0), (0, 6)]}, (W, E, (0, 6))),
    ({"main": [E, W], "siding": [(0, 0), (0, 6)]}, (E, W, (0, 6))),
]


@pytest.mark.parametrize("turn", TURNS)
@pytest.mark.parametrize(("tracks", "expected"), HAND_WORKED)
def test_roads_worked_by_hand(tracks: dict[str, Sequence[Place]], expected: tuple[Place, ...], turn: Turn) -> None:
    assert ends(tracks, turn) == expected


@pytest.mark.parametrize("turn", TURNS)
def test_the_builder_may_name_the_normal_road(turn: Turn) -> None:
    tracks: dict[str, Sequence[Place]] = {"main": [W, E], "siding": [(0, 0), (4, 4)]}
    assert ends(tracks, turn, "siding") == (W, (4, 4), E)
    assert ends(tracks, turn, "main") == (W, E, (4, 4))
    assert ends(tracks, turn, "nowhere") == (W, E, (4, 4))


def test_a_named_track_that_runs_from_the_toe_into_the_siding() -> None:
    tracks: dict[str, Sequence[Place]] = {"branch": [W, (0, 0), (4, 4)], "old": [(0, 0), E]}
    assert ends(tracks, normal="branch") == (W, (4, 4), E)


def test_a_named_track_that_is_drawn_over_both_roads_changes_nothing() -> None:
    tracks: dict[str, Sequence[Place]] = {"all": [E, (0, 0), (4, 4)], "main": [W, E]}
    assert ends(tracks, normal="all") == (W, E, (4, 4))


def test_a_nameless_tie_is_settled_by_the_turn_from_the_toe() -> None:
    tracks: dict[str, Sequence[Place]] = {"stem": [W, (0, 0)], "v": [(8, 4), (0, 0), (8, -4)]}
    for turn in [*QUARTERS, *EIGHTHS]:
        assert ends(tracks, turn) == (W, (8, -4), (8, 4))


@pytest.mark.parametrize(
    "tracks",
    [
        {"main": [W, E]},
        {"main": [W, (0, 0)]},
        {"main": [W, E], "a": [(0, 0), (4, 4)], "b": [(0, 0), (4, -4)], "c": [(0, 0), (-4, -4)]},
        {"main": [W, E], "over": [(0, -8), (0, 8)]},
        {"main": [(-8, 3), (8, 3)]},
    ],
)
def test_without_three_roads_there_are_none(tracks: dict[str, Sequence[Place]]) -> None:
    assert ends(tracks) is None


def test_only_where_three_roads_meet_there_are_roads() -> None:
    panel = Panel.model_validate({"tracks": {"a": [[0, 0], [9, 0]]}, "points": {"P1": [4, 0]}})
    graph = track_graph(panel)
    assert roads_at(graph, graph.points["P1"]) is None


def test_two_points_in_one_place_have_no_roads_of_their_own() -> None:
    panel = Panel.model_validate(
        {"tracks": {"a": [[0, 0], [9, 0]], "b": [[4, 0], [8, 4]]}, "points": {"P1": [4, 0], "P2": [4, 0]}}
    )
    graph = track_graph(panel)
    assert panel_roads(panel, graph) == {}
    assert roads_at(graph, graph.points["P1"]) is not None


far = st.integers(-9, 9).filter(bool)
ways = st.lists(st.tuples(far, st.integers(-9, 9)), min_size=3, max_size=3)


@given(ways, st.sampled_from([*QUARTERS, *EIGHTHS]), st.permutations([0, 1, 2]))
def test_turning_the_panel_turns_the_roads(three: list[Place], turn: Turn, order: list[int]) -> None:
    tracks = {f"t{n}": [(0.0, 0.0), (float(x), float(y))] for n, (x, y) in enumerate(three)}
    shuffled = {f"t{n}": tracks[f"t{n}"] for n in order}
    assert ends(tracks, turn) == ends(tracks)
    cosines = sorted(_cosine(three[a], three[b]) for a, b in ((0, 1), (0, 2), (1, 2)))
    if min(b - a for a, b in pairwise(cosines)) > 1e-6:
        assert ends(shuffled, turn) == ends(tracks)


def _cosine(a: Place, b: Place) -> float:
    return float((a[0] * b[0] + a[1] * b[1]) / ((a[0] ** 2 + a[1] ** 2) * (b[0] ** 2 + b[1] ** 2)) ** 0.5)
