"""Points, sections and pieces of 200 generated track plans. Judges: shapely cuts the lines, networkx joins them."""

from itertools import combinations

import networkx as nx
import pytest
from generated_track_plans import track_plans
from track_judge import Place, bend, panel_of, plain_graph, rounded, train_graph

from labelgen.model.panel.form import Panel
from labelgen.model.tracks.forms import panel_roads
from labelgen.model.tracks.graph import TrackGraph, track_graph
from labelgen.model.tracks.sections import track_pieces, track_sections

PLANS = [panel_of(text) for text in track_plans(200)]
Piece = frozenset[Place]


def pieces_of(graph: TrackGraph, edges: tuple[int, ...]) -> frozenset[Piece]:
    return frozenset(
        frozenset(rounded((graph.nodes[end].x, graph.nodes[end].y)) for end in graph.edges[edge].ends) for edge in edges
    )


def test_there_are_plans_of_every_size() -> None:
    assert {len(panel.points) for panel in PLANS} >= {3, 4, 5, 10, 20}
    assert max(len(panel.points) for panel in PLANS) > 40
    widths = sorted(panel.size[0] for panel in PLANS if panel.size)
    assert (widths[0], widths[-1]) == pytest.approx((200, 1200), abs=20)
    assert sum(len(panel.crossings) > 0 for panel in PLANS) > 20
    assert sum(len(panel.breaks) > 1 for panel in PLANS) > 50


@pytest.mark.parametrize("number", range(0, 200, 4))
def test_a_train_passes_a_point_from_its_toe_to_either_road_and_from_neither_to_the_other(number: int) -> None:
    for panel in PLANS[number : number + 4]:
        graph, plain = track_graph(panel), plain_graph(panel)
        roads = panel_roads(panel, graph)
        assert roads.keys() == panel.points.keys()
        for point, found in roads.items():
            node = rounded(panel.points[point].at)
            far = [graph.nodes[graph.edges[e].other(found.node)] for e in (found.toe, found.normal, found.reverse)]
            toe, normal, reverse = (rounded((place.x, place.y)) for place in far)
            passable = {frozenset(pair) for pair in combinations(plain.neighbors(node), 2) if _passes(pair, node)}
            assert passable == {frozenset((toe, normal)), frozenset((toe, reverse))}
            assert nx.shortest_path(plain, toe, normal) == [toe, node, normal]
            assert bend(toe, node, normal) > bend(toe, node, reverse)


def _passes(pair: tuple[Place, Place], node: Place) -> bool:
    return bend(pair[0], node, pair[1]) > 1e-6


@pytest.mark.parametrize("number", range(0, 200, 4))
def test_stretches_are_what_hangs_together_without_the_breaks(number: int) -> None:
    for panel in PLANS[number : number + 4]:
        graph = track_graph(panel)
        found = track_sections(panel, graph)
        made = {pieces_of(graph, stretch.edges) for stretch in found.stretches}
        assert made == {frozenset(group) for group in nx.connected_components(train_graph(panel))}


@pytest.mark.parametrize("number", range(0, 200, 4))
def test_pieces_are_what_hangs_together_at_all(number: int) -> None:
    for panel in PLANS[number : number + 4]:
        graph, plain = track_graph(panel), plain_graph(panel)
        made = {frozenset().union(*pieces_of(graph, piece)) for piece in track_pieces(graph)}
        assert made == {frozenset(group) for group in nx.connected_components(plain)}


@pytest.mark.parametrize("number", range(0, 200, 4))
def test_neighbours_meet_at_a_break_or_cross_and_idle_breaks_have_one_stretch_on_both_sides(number: int) -> None:
    for panel in PLANS[number : number + 4]:
        graph, trains, plain = track_graph(panel), train_graph(panel), plain_graph(panel)
        found = track_sections(panel, graph)
        groups = [frozenset(group) for group in nx.connected_components(trains)]
        index = {piece: n for n, group in enumerate(groups) for piece in group}
        met = set()
        idle = []
        for node in plain.nodes:
            sides = {index[frozenset((node, other))] for other in plain.neighbors(node)}
            met |= {frozenset(pair) for pair in combinations(sides, 2)}
            if node in {rounded(at) for at in panel.breaks} and len(sides) == 1:
                idle.append(node)
        own = [groups.index(pieces_of(graph, stretch.edges)) for stretch in found.stretches]
        assert {frozenset((own[a], own[b])) for a, b in found.neighbours} == met
        assert sorted(rounded(panel.breaks[n]) for n in found.idle_breaks) == sorted(idle)


def test_sections_are_named_by_what_lies_on_them() -> None:
    panel = Panel.model_validate(
        {
            "tracks": {"a": [[0, 0], [9, 0]], "b": [[0, 4], [9, 4]]},
            "breaks": [[5, 0]],
            "sections": {"X": [7, 0], "Y": [1, 0], "Z": [8, 0], "OFF": [8, 8]},
        }
    )
    found = track_sections(panel, track_graph(panel))
    assert [stretch.sections for stretch in found.stretches] == [("Y",), ("X", "Z"), ()]
    assert found.neighbours == {(0, 1)}
    assert found.idle_breaks == ()
