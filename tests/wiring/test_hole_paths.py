"""Holes in frames: from board to board by the pair that costs least wire (section 5.8 of the format)."""

from itertools import pairwise, product

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from wiring.wiring_builder import described, netlist_of, wire_between, wired

from labelgen.checks.check_list import check
from labelgen.lengths import Point, rectilinear
from labelgen.model.threaded_holes import threaded_holes
from labelgen.wiring.hole_paths import HoleAt, shortest_way

TWO = """
    boards:
      W: {{size: [1200, 600], at: [0, 0], holes: {{{west}}}}}
      E: {{size: [1200, 600], right_of: W, holes: {{{east}}}}}
    supplies: {{PULSE: {{kind: pulse, board: W, at: [50, 500]}}}}
    strips: {{E1: {{board: E, at: [600, 300]}}}}
    points: {{P5: {{board: E, at: [350, 200]{point}}}}}
    {more}
"""
HW, HE = "HW: {at: [1190, 300], through: frame}", "HE: {at: [10, 300], through: frame}"


def railway(west: str = HW, east: str = HE, point: str = "", more: str = "") -> str:
    return TWO.format(west=west, east=east, point=point, more=more)


def test_from_board_to_board_by_a_hole_of_each_frame() -> None:
    wire = wire_between(netlist_of(railway()), "PULSE.feed", "E1.2")
    # [50, 500] to [1190, 300] 1340, to [1210, 300] 20, to way 2 at [1755, 300] 545: 1905 + 100 + 150, to 50 -> 2200
    assert (wire.holes, wire.length) == (("HW", "HE"), 2200)


def test_only_one_board_has_a_hole_in_its_frame() -> None:
    assert wire_between(netlist_of(railway(east="")), "PULSE.feed", "E1.2").holes == ("HW",)


def test_holes_in_the_top_are_not_for_wires_that_stay_below() -> None:
    top = HW.replace("frame", "top"), HE.replace(", through: frame", "")
    assert wire_between(netlist_of(railway(*top)), "PULSE.feed", "E1.2").holes == ()


def test_on_one_board_no_hole_in_a_frame_is_needed() -> None:
    assert wire_between(netlist_of(railway()), "E1.1", "P5.N").holes == ()


def test_the_cheapest_pair_and_among_equals_the_first_by_natural_order() -> None:
    places = {"W10": 400, "W9": 350, "W1": 20}
    west = ", ".join(f"{id_}: {{at: [1190, {y}], through: frame}}" for id_, y in places.items())
    east = "E2: {at: [10, 400], through: frame}, E1X: {at: [10, 310], through: frame}"
    # any straight way down from 500 to 300 is equally long: W9 comes before W10, E1X before E2
    assert wire_between(netlist_of(railway(west, east)), "PULSE.feed", "E1.2").holes == ("W9", "E1X")


def test_from_the_upper_side_down_and_then_through_the_frames() -> None:
    west, east = f"{HW}, TW: {{at: [100, 100]}}", f"{HE}, TE: {{at: [350, 210]}}"
    netlist = netlist_of(railway(west, east, ", above: yes"))
    assert wire_between(netlist, "PULSE.return", "P5.C").holes == ("HW", "HE", "TE")
    assert wire_between(netlist, "E1.1", "P5.N").holes == ("TE",)


def test_from_a_panel_on_another_board() -> None:
    more = "panels: {QUAY: {board: W, at: [600, 580], size: [200, 100], levers: {5: [4, 4]}}}"
    netlist = netlist_of(railway(f"{HW}, TW: {{at: [600, 500]}}", HE, more=more))
    assert wire_between(netlist, "L5.N", "E1.1").holes == ("TW", "HW", "HE")


def test_where_boards_are_taken_apart_wires_go_by_plugs() -> None:
    plugs = "plugs: {J1: {boards: [W, E], pins: 15, at: {W: [1190, 200], E: [10, 200]}}}"
    assert {wire.holes for wire in netlist_of(railway(more=plugs)).wires} == {()}


def test_a_hole_in_a_frame_is_threaded_labelled_and_measured_like_any_other() -> None:
    text = railway(HW.replace("]", "], diameter: 2", 1))
    netlist = netlist_of(text)
    west, east = threaded_holes(described(text), netlist)
    assert (west.id, len(west.wires), east.id, east.drill is not None) == ("HW", 2, "HE", True)
    assert "hole-too-small" in {problem.code for problem in check(described(text), netlist)}


@pytest.mark.parametrize("chain", ["by_strip", "shortest"])
def test_a_chain_over_two_boards_goes_through_the_frames(chain: str) -> None:
    text = railway(more="").replace("kind: pulse", f"kind: pulse, chain: {chain}")
    netlist, problems = wired(text.replace("points: {", "points: {P6: {board: W, at: [900, 200], strip: E1}, "))
    assert {problem.code for problem in problems} <= {"chain-saves"}
    crossing = [wire for wire in netlist.wires if wire.holes]
    assert {wire.holes for wire in crossing} <= {("HW", "HE"), ("HE", "HW")}
    assert any(wire.circuit == "PULSE" for wire in crossing)


places = st.builds(Point, st.integers(0, 30), st.integers(0, 30))


@st.composite
def choices(draw: st.DrawFn) -> list[list[HoleAt]]:
    sizes = draw(st.lists(st.integers(1, 4), max_size=4))
    return [[(f"H{layer}{n}", draw(places)) for n in range(size)] for layer, size in enumerate(sizes)]


def length(stops: list[Point]) -> float:
    return sum(rectilinear(a, b) for a, b in pairwise(stops))


@given(places, choices(), places)
def test_the_shortest_of_all_ways_and_the_first_of_them(
    start: Point, layers: list[list[HoleAt]], finish: Point
) -> None:
    """Against all ways tried one by one, in natural order; and against networkx (Dijkstra)."""
    distance, ids = shortest_way(start, layers, finish)
    ways = list(product(*layers))
    best = min(ways, key=lambda way: length([start, *(at for _, at in way), finish]))
    assert ids == tuple(id_ for id_, _ in best)
    graph: nx.DiGraph[object] = nx.DiGraph()
    stages = [[("start", start)], *layers, [("finish", finish)]]
    for before, after in pairwise(stages):
        graph.add_weighted_edges_from((a, b, rectilinear(a[1], b[1])) for a in before for b in after)
    assert distance == nx.dijkstra_path_length(graph, ("start", start), ("finish", finish))
