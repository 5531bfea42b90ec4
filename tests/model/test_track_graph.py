"""The graph of a panel's tracks. Judge for lengths and crossings: shapely's union of lines."""

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.ops import unary_union

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.cutting import SAME_PLACE
from labelgen.model.tracks.graph import TrackGraph, on_a_track, track_corners, track_graph


def graph_of(**keys: Any) -> TrackGraph:
    return track_graph(Panel.model_validate(keys))


def roads_of(graph: TrackGraph) -> dict[tuple[float, float], int]:
    return {(n.x, n.y): len(edges) for n, edges in zip(graph.nodes, graph.edges_at, strict=True) if edges}


def test_a_point_splits_the_line_it_stands_on() -> None:
    graph = graph_of(tracks={"main": [[0, 6], [30, 6]], "loop": [[10, 4], "P1"]}, points={"P1": [12, 6]})
    assert roads_of(graph) == {(0, 6): 1, (12, 6): 3, (30, 6): 1, (10, 4): 1}
    assert graph.nodes[graph.points["P1"]] == Point(12, 6)
    assert [edge.tracks for edge in graph.edges] == [("main",), ("main",), ("loop",)]


def test_tracks_that_cross_get_a_node_with_four_roads() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [10, 10]], "b": [[0, 10], [10, 0]]})
    assert roads_of(graph)[5, 5] == 4


def test_lines_that_would_only_cross_beyond_their_ends_do_not() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [4, 4]], "b": [[0, 10], [10, 0]], "c": [[0, 12], [20, 20]]})
    assert all(roads <= 2 for roads in roads_of(graph).values())


def test_a_track_that_ends_on_another_joins_it() -> None:
    assert roads_of(graph_of(tracks={"a": [[0, 0], [10, 0]], "b": [[4, 0], [4, 5]]}))[4, 0] == 3


def test_breaks_split_the_line_and_those_on_no_track_are_left_out() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [10, 0]]}, breaks=[[20, 20], [3, 0]])
    assert list(graph.breaks) == [1]
    assert graph.nodes[graph.breaks[1]] == Point(3, 0)
    assert len(graph.edges) == 2


def test_points_off_every_track_are_left_out() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [10, 0]]}, points={"P1": [3, 0.5], "P2": [4, 0]})
    assert list(graph.points) == ["P2"]
    assert list(graph.points_at.values()) == [("P2",)]


def test_decimals_that_were_rounded_still_lie_on_the_line() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [10, 3]]}, points={"P1": [3.33, 1.0]})
    assert roads_of(graph)[3.33, 1.0] == 2


@pytest.mark.parametrize("off", [1e-6, 1e-4, SAME_PLACE * 0.7])
def test_a_hair_apart_is_the_same_place(off: float) -> None:
    graph = graph_of(tracks={"a": [[0, 0], [5, 0]], "b": [[5 + off, off], [9, 9]]})
    assert roads_of(graph) == {(0, 0): 1, (5, 0): 2, (9, 9): 1}


@pytest.mark.parametrize("off", [1.2, 3])
def test_further_apart_than_that_is_another_place(off: float) -> None:
    graph = graph_of(tracks={"a": [[0, 0], [5, 0]], "b": [[5 + off * SAME_PLACE, 0], [9, 9]]})
    assert sorted(roads_of(graph).values()) == [1, 1, 1, 1]


def test_what_is_drawn_twice_is_one_edge_of_both_tracks() -> None:
    graph = graph_of(tracks={"main": [[0, 0], [10, 0]], "siding": [[4, 0], [6, 0], [8, 2]]})
    tracks = {tuple(sorted((graph.nodes[a].x, graph.nodes[b].x))): e.tracks for e in graph.edges for a, b in [e.ends]}
    assert tracks[4, 6] == ("main", "siding")
    assert roads_of(graph)[6, 0] == 3


def test_a_track_that_goes_back_over_itself_is_drawn_once() -> None:
    assert len(graph_of(tracks={"a": [[0, 0], [10, 0], [0, 0]]}).edges) == 1


def test_edges_remember_the_direction_in_which_they_were_drawn() -> None:
    (edge,) = graph_of(tracks={"a": [[10, 0], [0, 0]]}).edges
    assert edge.ends == (0, 1)
    assert (edge.other(0), edge.other(1)) == (1, 0)


def test_corners_that_repeat_or_name_no_point_make_no_edge() -> None:
    panel = Panel.model_validate({"tracks": {"a": [[0, 0], [0, 0], "P9", [5, 0]], "b": ["P9"]}})
    assert track_corners(panel, "a") == [Point(0, 0), Point(0, 0), None, Point(5, 0)]
    assert len(track_graph(panel).edges) == 1


def test_whether_a_place_is_on_a_track() -> None:
    graph = graph_of(tracks={"a": [[0, 0], [10, 0]]})
    assert on_a_track(graph, Point(7.3, 0))
    assert on_a_track(graph, Point(10, 0))
    assert not on_a_track(graph, Point(10.1, 0))
    assert not on_a_track(graph, Point(7.3, 0.1))
    assert not on_a_track(graph_of(), Point(0, 0))


places = st.tuples(st.integers(0, 12), st.integers(0, 8))
corners = st.lists(places, min_size=2, max_size=5).filter(lambda c: all(a != b for a, b in pairwise(c)))


@given(st.lists(corners, min_size=1, max_size=5))
def test_the_edges_are_the_tracks_cut_where_they_meet(tracks: list[list[tuple[int, int]]]) -> None:
    graph = graph_of(tracks={f"t{n}": [list(c) for c in track] for n, track in enumerate(tracks)})
    drawn = unary_union([LineString(track) for track in tracks])
    made = [LineString([(graph.nodes[n].x, graph.nodes[n].y) for n in edge.ends]) for edge in graph.edges]
    assert sum(edge.length for edge in made) == pytest.approx(
        drawn.length, abs=20 * SAME_PLACE
    )  # places that are nearly one become one
    assert unary_union(made).hausdorff_distance(drawn) < SAME_PLACE
    for index, edge in enumerate(made):
        for other in made[index + 1 :]:
            assert not edge.crosses(other) or edge.intersection(other).distance(edge.boundary) < 5 * SAME_PLACE
