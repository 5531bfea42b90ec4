"""Points of every form where more than three roads meet, and what passes over them; worked by hand."""

from typing import Any

import pytest
from shapely.geometry import LineString

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.forms import Junction, junctions, panel_roads, ways_over
from labelgen.model.tracks.graph import TrackGraph, edge_at, track_graph
from labelgen.model.tracks.sections import track_pieces, track_sections
from labelgen.model.tracks.segment_cells import near_pairs

Place = tuple[float, float]
W, E, NE, SE, NW, SW = (0, 5), (10, 5), (9, 1), (9, 9), (1, 1), (1, 9)
THREE = {"main": [W, E], "left": [(5, 5), NE], "right": [(5, 5), SE]}
CROSS = {"main": [W, E], "over": [NW, SE]}


def made(points: dict[str, Any], tracks: dict[str, Any], **keys: Any) -> tuple[Panel, TrackGraph]:
    panel = Panel.model_validate({"tracks": tracks, "points": points, **keys})
    return panel, track_graph(panel)


def ends(graph: TrackGraph, node: int, *edges: int | None) -> tuple[Place | None, ...]:
    """Where the edges lead to."""
    far = [None if edge is None else graph.nodes[graph.edges[edge].other(node)] for edge in edges]
    return tuple(None if place is None else (place.x, place.y) for place in far)


def the_junction(points: dict[str, Any], tracks: dict[str, Any]) -> tuple[TrackGraph, Junction]:
    panel, graph = made(points, tracks)
    (junction,) = junctions(panel, graph).values()
    return graph, junction


def roads(graph: TrackGraph, junction: Junction, point: str) -> tuple[Place | None, ...]:
    found = junction.roads[point]
    return ends(graph, found.node, found.toe, found.normal, found.reverse, found.third)


def ways(graph: TrackGraph, junction: Junction) -> set[frozenset[Place | None]]:
    return {frozenset(ends(graph, junction.node, *way)) for way in junction.ways}


@pytest.mark.parametrize("turned", [False, True])
def test_a_three_way_of_one_point(turned: bool) -> None:
    tracks = {name: [(10 - x, 10 - y) for x, y in t] if turned else t for name, t in THREE.items()}
    graph, junction = the_junction({"P1": [5, 5]}, tracks)
    assert junction.form == "three-way"
    straight = (W, E, NE, SE)
    assert roads(graph, junction, "P1") == (tuple((10 - x, 10 - y) for x, y in straight) if turned else straight)


def test_a_three_way_of_two_points() -> None:
    graph, junction = the_junction({"P2": [5, 5], "P1": [5, 5]}, THREE)
    assert roads(graph, junction, "P2") == (W, E, NE, None)
    assert roads(graph, junction, "P1") == (W, E, SE, None)
    assert ways(graph, junction) == {frozenset((W, leg)) for leg in (E, NE, SE)}
    assert len(junction.straight) == 1
    assert len(junction.curved) == 2


def test_a_three_way_with_a_named_normal_road() -> None:
    graph, junction = the_junction({"P1": {"at": [5, 5], "normal": "left"}}, THREE)
    assert roads(graph, junction, "P1") == (W, NE, E, SE)
    graph, junction = the_junction({"P1": {"at": [5, 5], "normal": "elsewhere"}}, THREE)
    assert roads(graph, junction, "P1") == (W, E, NE, SE)


def test_a_double_slip_of_two_points_that_face_each_other() -> None:
    graph, junction = the_junction({"P1": [5, 5], "P2": [5, 5]}, CROSS)
    assert junction.form == "double-slip"
    assert roads(graph, junction, "P1") == (W, E, SE, None)
    assert roads(graph, junction, "P2") == (SE, NW, W, None)
    straight = {frozenset((W, E)), frozenset((NW, SE))}
    assert ways(graph, junction) == straight | {frozenset((W, SE)), frozenset((NW, E))}
    assert {frozenset(ends(graph, junction.node, *way)) for way in junction.straight} == straight


def test_which_way_the_second_track_was_drawn_does_not_matter() -> None:
    graph, junction = the_junction({"P1": [5, 5], "P2": [5, 5]}, {"main": [W, E], "over": [SE, NW]})
    assert roads(graph, junction, "P1") == (W, E, SE, None)
    assert roads(graph, junction, "P2") == (SE, NW, W, None)


def test_a_single_slip_of_one_point() -> None:
    graph, junction = the_junction({"P1": [5, 5]}, CROSS)
    assert junction.form == "single-slip"
    assert roads(graph, junction, "P1") == (W, E, SE, None)
    assert len(junction.curved) == 1


def test_a_track_that_turns_there_shows_where_the_single_slip_is() -> None:
    tracks = {"a": [W, (5, 5), E], "b": [NW, (5, 5), SE], "slip": [NW, (5, 5), E]}
    graph, junction = the_junction({"P1": {"at": [5, 5], "form": "single-slip"}, "P2": [5, 5]}, tracks)
    (curve,) = junction.curved
    assert frozenset(ends(graph, junction.node, *curve)) == {NW, E}
    assert {roads(graph, junction, point)[0] for point in ("P1", "P2")} == {NW, E}


@pytest.mark.parametrize(
    ("points", "tracks"),
    [
        ({"P1": {"at": [5, 5], "form": "three-way"}}, CROSS),
        ({"P1": {"at": [5, 5], "form": "double-slip"}}, THREE),
        ({"P1": {"at": [5, 5], "form": "three-way"}}, {"main": [W, E], "left": [(5, 5), NE]}),
        ({"P1": [5, 5]}, {"main": [W, E], "over": [(5, 0), (5, 9)]}),
        ({"P1": [5, 5], "P2": [5, 5]}, {"main": [W, E], "left": [(5, 5), NE]}),
        ({"P1": [5, 5], "P2": [5, 5], "P3": [5, 5]}, THREE),
        ({"P1": [5, 5]}, {"main": [W, E]}),
    ],
)
def test_points_that_such_roads_cannot_have(points: dict[str, Any], tracks: dict[str, Any]) -> None:
    panel, graph = made(points, tracks)
    assert junctions(panel, graph) == {}
    assert panel_roads(panel, graph) == {}


def test_a_train_goes_straight_over_a_diamond() -> None:
    _, graph = made({}, CROSS, crossings=[[5, 5], [8, 8.5]])
    node = graph.crossings[0]
    assert list(graph.crossings) == [0]
    assert {frozenset(ends(graph, node, *way)) for way in ways_over(graph, node)} == {
        frozenset((W, E)),
        frozenset((NW, SE)),
    }


def test_tracks_at_a_bridge_do_not_meet() -> None:
    _, graph = made({}, CROSS, bridges=[[5, 5], [5, 5], [2, 9]])
    assert list(graph.bridges) == [0]
    lower, upper = graph.bridges[0]
    assert graph.nodes[lower] == graph.nodes[upper] == Point(5, 5)
    assert [{t for e in graph.edges_at[n] for t in graph.edges[e].tracks} for n in (lower, upper)] == [
        {"main"},
        {"over"},
    ]
    assert len(track_pieces(graph)) == 2


def test_a_track_with_its_corner_on_a_bridge_and_one_that_passes_over_itself() -> None:
    _, graph = made({}, {"main": [W, E], "over": [NW, (5, 5), SE]}, bridges=[[5, 5]])
    lower, upper = graph.bridges[0]
    assert [len(graph.edges_at[node]) for node in (lower, upper)] == [2, 2]
    _, graph = made({}, {"a": [W, E, (10, 9), (5, 9), (5, 0)]}, bridges=[[5, 5]])
    lower, upper = graph.bridges[0]
    assert {graph.nodes[e].y for edge in graph.edges_at[lower] for e in graph.edges[edge].ends} == {5}
    assert {graph.nodes[e].x for edge in graph.edges_at[upper] for e in graph.edges[edge].ends} == {5}


def test_a_track_that_only_bends_on_a_bridge_passes_over_nothing() -> None:
    assert made({}, {"a": [W, (5, 5), SE]}, bridges=[[5, 5]])[1].bridges == {}


def test_a_turntable_joins_the_roads_that_end_on_its_rim_or_at_its_middle() -> None:
    tracks = {"a": [(0, 5), (3, 5)], "b": [(6.4, 6.4), (9, 9)], "c": [(5, 5), (5, 0)], "far": [(7.5, 5), (9, 5)]}
    panel, graph = made({}, tracks, turntables={"T": {"at": [5, 5], "radius": 2}})
    assert {(graph.nodes[n].x, graph.nodes[n].y) for n in graph.turntables["T"]} == {(3, 5), (6.4, 6.4), (5, 5)}
    assert [len(piece) for piece in track_pieces(graph)] == [3, 1]
    assert [len(stretch.edges) for stretch in track_sections(panel, graph).stretches] == [3, 1]


def test_exits_and_fans_on_no_track_are_left_out() -> None:
    _, graph = made({}, {"a": [W, E]}, exits={"sea": E, "sky": (5, 1)}, fans={"F": W, "G": (5, 1)})
    assert list(graph.exits) == ["sea"]
    assert list(graph.fans) == ["F"]
    assert edge_at(graph, Point(3, 5)) == 0


def test_pairs_that_are_near_are_all_found() -> None:
    lines = [((i * 7 % 31, i * 11 % 23), (i * 5 % 29, i * 13 % 19)) for i in range(60)]
    lines = [(a, b) for a, b in lines if a != b]
    segments = [(Point(*a), Point(*b)) for a, b in lines]
    found = set(near_pairs(segments, 0.5))
    shapes = [LineString(line) for line in lines]
    near = {(i, j) for i in range(len(lines)) for j in range(i + 1, len(lines)) if shapes[i].distance(shapes[j]) < 0.5}
    assert near
    assert near <= found
