"""`chain: shortest`: section 5.3 in another order. Lengths are worked out here from section 5.8: |dx| + |dy|, slack."""

from collections import Counter
from collections.abc import Iterable
from itertools import combinations, pairwise, permutations
from math import ceil
from typing import Any

import networkx as nx
from generated_railways import railway as generated
from hypothesis import given, settings
from hypothesis import strategies as st
from networkx.algorithms import approximation
from properties.test_wiring_laws import railways
from wiring.recorded_builder import Made
from wiring.wiring_builder import built_in_kinds, described, wired

from labelgen.model.netlist import End, EndKind, Netlist, Wire
from labelgen.problems import Problem
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.marks import Head
from labelgen.wiring.stop_lengths import WHOLE_MM, StopLengths

HEAD = """
    boards: {West: {at: [0, 0]}}
    supplies: {PULSE: {kind: pulse, at: [0, 500], chain: %s}}
    strips: {A1: {at: [600, 400], ways: 60, pitch: 10}}
    points:
"""
PLACES = {"1": 100, "2": 900, "3": 300, "4": 700, "5": 500}
"""In the order of their ways the return would run to and fro."""


def points(ids: str, order: str = "shortest") -> str:
    return HEAD % order + "".join(f"      P{id_}: {{at: [{PLACES[id_]}, 200]}}\n" for id_ in ids)


def chain(netlist: Netlist, supply: str, function: str) -> list[Wire]:
    """The wires of a supply's feed or return, outward."""
    return [wire for wire in netlist.wires if wire.circuit == supply and wire.function == function]


def stops(netlist: Netlist, supply: str = "PULSE", terminal: str = "return") -> list[str]:
    """Where a chain lands, one after the other; each wire goes on where the last one ended."""
    wires = [
        wire for wire in chain(netlist, supply, terminal) if EndKind.PIN not in (wire.start.kind, wire.finish.kind)
    ]
    assert [wire.start.name for wire in wires[1:]] == [wire.finish.name for wire in wires[:-1]]
    return [wire.finish.name.removesuffix(".C") for wire in wires]


def total(netlist: Netlist, supply: str = "PULSE", terminal: str = "return") -> int:
    return sum(wire.length or 0 for wire in chain(netlist, supply, terminal))


def told(problems: Iterable[Problem]) -> list[str]:
    return [f"{problem.place.source}: {problem.message}" for problem in problems]


def test_the_return_takes_the_shortest_way_and_says_how_much_it_saves() -> None:
    """By hand. Straight on: 400 + 300 = 700 mm, then four times 200 + 300 = 500: 2.7 m.

    To and fro: 100 + 300, 800, 600, 400, 200 and each time 300 of slack: 700, 1100, 900, 700, 500: 3.9 m.
    """
    netlist, problems = wired(points("12345", "{return: shortest}"))
    assert stops(netlist) == ["P1", "P3", "P5", "P4", "P2"]
    assert told(problems) == [
        "supplies.PULSE.chain.return: the return of PULSE takes 2.7 m of wire in this order, 3.9 m strip by strip: "
        "1.2 m less"
    ]
    as_ever, nothing = wired(points("12345", "by_strip"))
    assert stops(as_ever) == ["P1", "P2", "P3", "P4", "P5"]
    assert (total(netlist), total(as_ever), nothing) == (2700, 3900, [])


def test_only_the_chain_that_was_asked_for() -> None:
    feeds = stops(wired(points("12345", "{return: shortest}"))[0], terminal="feed")
    assert feeds == ["A1.2", "A1.5", "A1.8", "A1.11", "A1.14"]
    assert stops(wired(points("12345", "{feed: shortest}"))[0]) == ["P1", "P2", "P3", "P4", "P5"]


def test_an_order_that_saves_nothing_is_not_taken_and_that_is_said() -> None:
    netlist, problems = wired(points("13"))
    assert stops(netlist) == ["P1", "P3"]
    # The feed: [0, 500] to way 2 at [315, 400] is 415, and 250 of slack: 700; a link of three ways: 70.
    assert told(problems) == [
        "supplies.PULSE.chain: the feed of PULSE takes 0.77 m of wire strip by strip, "
        "and no order that takes less was found: it saves nothing",
        "supplies.PULSE.chain: the return of PULSE takes 1.2 m of wire strip by strip, "
        "and no order that takes less was found: it saves nothing",
    ]


def test_a_chain_without_stops_is_not_spoken_of() -> None:
    assert wired("supplies: {PULSE: {kind: pulse, chain: shortest}}")[1] == []


def test_the_terminals_of_a_track_supply() -> None:
    netlist, problems = wired("""
        supplies: {CAB: {kind: track, at: [0, 0], chain: {B: shortest}}}
        strips: {A1: {at: [50, 0]}}
        devices: {S1: {kind: section, at: [900, 0]}, S2: {kind: section, at: [100, 0]}}
    """)
    assert [wire.finish.thing for wire in chain(netlist, "CAB", "track-return")] == ["S2", "S1"]
    # 100 + 300 = 400 and 800 + 300 = 1100, against 900 + 300 = 1200 and 1100
    assert told(problems) == [
        "supplies.CAB.chain.B: the chain from CAB.B takes 1.5 m of wire in this order, 2.3 m strip by strip: 0.8 m less"
    ]


def test_ways_of_one_strip_are_linked_and_links_cost_little() -> None:
    """Two long strips side by side: from strip to strip where the ways are side by side."""
    netlist, _ = wired("""
        supplies: {PULSE: {kind: pulse, at: [0, 0], chain: shortest}}
        strips: {A1: {at: [300, 100], ways: 40, pitch: 10}, A2: {at: [300, 130], ways: 40, pitch: 10}}
        points: {P1: {strip: A1, way: 1}, P2: {strip: A1, way: 30}, P3: {strip: A2, way: 1}, P4: {strip: A2, way: 30}}
    """)
    # Way 2 at x = 115, way 31 at 405. In order: 215 + 250 -> 500; link 330; 290 + 30 + 200 -> 550; link 330.
    # To the way beside it, 30 + 200 -> 250, along by a link, and back to the way beside that: 380 less.
    assert stops(netlist, terminal="feed") == ["A1.2", "A2.2", "A2.31", "A1.31"]
    assert [wire.length for wire in chain(netlist, "PULSE", "feed")] == [500, 250, 330, 250]


def test_levers_behind_the_panel() -> None:
    netlist, problems = wired("""
        boards: {West: {at: [0, 0], holes: {H1: {at: [500, 400]}}}}
        supplies: {PULSE: {kind: pulse, at: [0, 500], feed_at: panel, chain: {feed: shortest}}}
        panels: {QUAY: {at: [500, 600], size: [400, 100], exit: [0, 100], levers: {1: [5, 5], 2: [35, 5], 3: [15, 5]}}}
        strips: {A1: {at: [600, 400]}}
        points: {P1: , P2: , P3: }
    """)
    assert stops(netlist, terminal="feed") == ["L1.F", "L3.F", "L2.F"]
    # 1 to 2 is 300 mm, 2 to 3 200: 600 + 500; 1 to 3 is 100, 3 to 2 200: 400 + 500
    assert told(problems)[0].endswith(": 0.2 m less")


def test_a_panel_that_is_nowhere_has_its_own_distances() -> None:
    """It is not known how the feed comes to it, but behind it everything can be measured."""
    netlist, problems = wired("""
        boards: {West: {at: [0, 0]}}
        supplies: {PULSE: {kind: pulse, at: [0, 500], feed_at: panel, chain: {feed: shortest}}}
        panels: {QUAY: {size: [400, 100], levers: {1: [5, 5], 2: [35, 5], 3: [15, 5]}}}
        strips: {A1: {at: [600, 400]}}
        points: {P1: , P2: , P3: }
    """)
    # From either end: 100 + 300 and 200 + 300. As they stand: 300 + 300 and 200 + 300.
    assert stops(netlist, terminal="feed") in (["L1.F", "L3.F", "L2.F"], ["L2.F", "L3.F", "L1.F"])
    assert told(problems) == [
        "supplies.PULSE.chain.feed: the feed of PULSE takes 0.9 m of wire in this order, 1.1 m strip by strip: 0.2 m "
        "less; 1 of its 3 wires have no length and are not counted"
    ]


def test_what_is_nowhere_comes_last_in_its_old_order() -> None:
    netlist, problems = wired(points("12345") + "      P0: {}\n      P3B: {}\n")
    # P0 and P3B are on the strip before P4
    assert stops(netlist) == ["P1", "P3", "P5", "P4", "P2", "P0", "P3B"]
    assert told(problems)[1].endswith(
        "takes 2.7 m of wire in this order, 3.9 m strip by strip: 1.2 m less; 2 of its 7 wires have no length and are "
        "not counted"
    )


def test_where_nothing_can_be_measured_that_is_said() -> None:
    railway = points("12345").replace("at: [0, 500], ", "").replace("at: [600, 400], ", "")
    for x in PLACES.values():
        railway = railway.replace(f"at: [{x}, 200]", "")
    netlist, problems = wired(railway)
    assert stops(netlist) == ["P1", "P2", "P3", "P4", "P5"]
    assert [problem.code for problem in problems] == ["chain-not-measured", "chain-not-measured"]
    assert told(problems)[0] == (
        "supplies.PULSE.chain: the feed of PULSE runs strip by strip: it is not known how far its stops are apart"
    )


def test_without_the_place_of_the_supply_the_chain_may_begin_at_either_end() -> None:
    netlist, problems = wired(points("12345").replace("at: [0, 500], ", ""))
    assert stops(netlist) in (["P1", "P3", "P5", "P4", "P2"], ["P2", "P4", "P5", "P3", "P1"])
    assert told(problems)[1].endswith(
        "2 m of wire in this order, 3.2 m strip by strip: 1.2 m less; "
        "1 of its 5 wires have no length and are not counted"
    )


PLUGGED = """
    boards: {West: {at: [0, 0], size: [1000, 600]}, East: {right_of: West, size: [1000, 600]}, Far: {right_of: East}}
    plugs:
      J1: {boards: [West, East], pins: 9, at: {West: [1000, 300], East: [0, 300]}}
      J2: {boards: [East, Far], pins: 9, at: {East: [1000, 300], Far: [0, 300]}}
    supplies: {D: {kind: dc, board: West, at: [0, 300], chain: shortest}}
    strips: {W1: {board: West}, E1: {board: East}, F1: {board: Far}}
    kinds: {clock: {terminals: {m: }, supply: dc, chain: [{function: return, terminal: m, supply: return}]}}
    devices:
"""


def clocks(**at: tuple[str, int]) -> str:
    lines = [f"      {id_}: {{kind: clock, board: {board}, at: [{x}, 300]}}\n" for id_, (board, x) in at.items()]
    return PLUGGED + "".join(lines)


def clock_order(netlist: Netlist) -> list[str]:
    ends = [wire.finish for wire in chain(netlist, "D", "return")]
    return [end.thing for end in ends if end.kind is EndKind.DEVICE]


def test_board_by_board_towards_the_plugs() -> None:
    """On each board from the plug by which the chain comes to that by which it goes on, whatever the order of ids."""
    netlist, problems = wired(
        clocks(X1=("West", 900), X2=("West", 100), X3=("Far", 500), X4=("Far", 100), X5=("East", 900), X6=("East", 200))
    )
    assert clock_order(netlist) == ["X2", "X1", "X6", "X5", "X4", "X3"]
    assert len(netlist.passages) == 2, "each joint is crossed once"
    # West: 100, 800, 100; East: 200, 700, 100; Far: 100, 400. With 300 for the slack of each: 2500 + 8 * 300.
    # By id: 900, 800, 900; 900, 700, 800; 500, 400: 5900 + 8 * 300.
    assert told(problems) == [
        "supplies.D.chain: the return of D takes 4.9 m of wire in this order, 8.3 m strip by strip: 3.4 m less"
    ]


def test_where_the_chain_goes_on_through_a_plug_it_ends_near_that() -> None:
    """The supply stands at 600. To end anywhere, 900, 500, 100 would be best: 1100 mm, but then 900 to the plug."""
    railway = clocks(X1=("West", 900), X2=("West", 500), X3=("West", 100), X4=("East", 0))
    railway = railway.replace("D: {kind: dc, board: West, at: [0, 300]", "D: {kind: dc, board: West, at: [600, 300]")
    assert clock_order(wired(railway)[0])[2:] == ["X1", "X4"]


def test_where_the_chain_ends_on_a_board_it_may_end_anywhere() -> None:
    netlist, _ = wired(clocks(X1=("Far", 900), X2=("Far", 100), X3=("Far", 500)))
    assert clock_order(netlist) == ["X2", "X3", "X1"]


def test_what_is_nowhere_comes_last_on_its_board() -> None:
    railway = clocks(X0=("West", 0), X1=("West", 900), X2=("West", 100), X3=("East", 500), X4=("East", 100))
    netlist, problems = wired(
        railway.replace("X0: {kind: clock, board: West, at: [0, 300]}", "X0: {kind: clock, board: West}")
    )
    assert clock_order(netlist) == ["X2", "X1", "X0", "X4", "X3"]
    assert len(netlist.passages) == 1
    assert "2 of its 6 wires have no length" in told(problems)[0]


def test_a_board_that_no_plug_reaches_is_a_matter_for_another_problem() -> None:
    railway = clocks(X1=("West", 900), X2=("West", 100), X3=("Far", 500), X4=("Far", 100))
    netlist, problems = wired(
        railway.replace("J2: {boards: [East, Far]", "J2: {boards: [West, East]").replace(
            "Far: [0, 300]", "West: [9, 9]"
        )
    )
    assert "no-way-by-plugs" in {problem.code for problem in problems}
    assert clock_order(netlist) == ["X2", "X1", "X3", "X4"]


def test_an_order_that_a_full_plug_makes_longer_is_not_taken() -> None:
    """J1 is full, so the chain leaves by J3, at the other edge: there the order that J1 suggests is the longer one."""
    railway = clocks(X1=("West", 900), X2=("West", 100), X3=("East", 0))
    railway = railway.replace("D: {kind: dc, board: West, at: [0, 300]", "D: {kind: dc, board: West, at: [300, 300]")
    full = "pins: 1, at: {West: [1000, 300], East: [0, 300]}}"
    railway = railway.replace("pins: 9, at: {West: [1000, 300], East: [0, 300]}}", full)
    railway = railway.replace(
        "      J2:", "      J3: {boards: [West, East], pins: 9, at: {West: [0, 300], East: [0, 300]}}\n      J2:"
    )
    netlist, _ = wired(railway)
    assert clock_order(netlist) == ["X2", "X1", "X3"], "200, 800 and 100 mm"
    railway = railway.replace("    devices:\n", "    wires: [{from: W1.1, to: J1.1, function: lamp}]\n    devices:\n")
    netlist, problems = wired(railway)
    assert [plug.pins[0].state for plug in netlist.plugs] == ["used", "spare", "used"]
    # 600, 800 and 100 mm, against 200, 800 and 900
    assert clock_order(netlist) == ["X1", "X2", "X3"]
    assert told(problems)[0].endswith(
        "takes 2.7 m of wire strip by strip, and no order that takes less was found: it saves nothing"
    )


def test_bridged_ways_are_one_stop_that_is_reached_and_left_where_it_is_best() -> None:
    """A comb from way 2, at x = 115, to way 38, at 475: the feed comes to one of them and leaves from the other.

    A3.2 is at 130, A2.2 at 955. Were all of the comb at way 2, it would be shorter to pass A3.2 on the way to A2.2.
    """
    netlist, _ = wired("""
        boards: {West: {at: [0, 0]}}
        supplies: {PULSE: {kind: pulse, at: [0, 100], chain: {feed: shortest}}}
        strips:
          A1: {at: [300, 100], ways: 40, pitch: 10, bridges: [[2, 38]]}
          A2: {at: [1000, 100], pitch: 10}
          A3: {at: [175, 100], pitch: 10}
        points: {P1: {strip: A1, way: 1}, P2: {strip: A1, way: 37}, P3: {strip: A2}, P4: {strip: A3}, P5: {strip: A2}}
    """)
    feed = [f"{wire.start.name} {wire.finish.name}" for wire in chain(netlist, "PULSE", "feed")]
    assert feed == ["PULSE.feed A3.2", "A3.2 A1.2", "A1.38 A2.2", "A2.2 A2.5"]


def test_bridged_ways_on_either_side_of_a_plug() -> None:
    """A long jumper: it leaves West at the far edge, so that what would be near as the crow flies is not."""
    netlist, _ = wired("""
        boards: {West: {at: [0, 0], size: [1000, 600]}, East: {right_of: West}}
        plugs: {J1: {boards: [West, East], pins: 20, at: {West: [0, 300], East: [0, 300]}}}
        panels: {QUAY: {board: West, at: [500, 600], size: [300, 100], levers: {row: 5}}}
        supplies: {PULSE: {kind: pulse, board: West, at: [1000, 300], chain: {feed: shortest}}}
        strips:
          A1: {board: West, at: [500, 300], ways: 40, pitch: 10, bridges: [[2, 38]]}
          A2: {board: East, at: [900, 300], pitch: 10}
          A3: {board: East, at: [500, 300], ways: 40, pitch: 10, bridges: [[2, 38]]}
        points:
          P1: {strip: A1, way: 1}
          P2: {strip: A1, way: 37}
          P3: {strip: A3, way: 37}
          P4: {strip: A3, way: 1}
          P5: {strip: A2}
    """)
    feed = [f"{wire.start.name} {wire.finish.name}" for wire in chain(netlist, "PULSE", "feed")]
    through = [end for wire in feed for end in wire.split() if end.startswith("J1")]
    assert len(set(through)) == 1
    assert feed == ["PULSE.feed A1.38", f"A1.2 {through[0]}", f"{through[0]} A3.2", "A3.38 A2.2"]


# --- the record


def test_a_recorded_chain_is_not_rethreaded() -> None:
    """P5 stands between P3 and P4, and they have no room: it is joined at the end, as section 5.3 says."""
    before = Made(points("1234"))
    assert stops(before.netlist) == ["P1", "P3", "P4", "P2"]
    after = before.then(points("12345"))
    assert before.wires.items() <= after.wires.items()
    assert after.chain("PULSE", "return") == {*before.chain("PULSE", "return"), "P2.C P5.C"}


def test_what_is_made_again_reads_the_same() -> None:
    before = Made(points("12345"))
    again, problems = Expansion(described(points("12345")), built_in_kinds(), before.record).netlist()
    assert again.wires == before.netlist.wires
    assert told(problems) == told(wired(points("12345"))[1])


def test_a_chain_that_is_recorded_in_another_order_stays_and_that_is_said() -> None:
    before = Made(points("12345", "by_strip"))
    netlist, problems = Expansion(
        described(points("12345", "{return: shortest}")), built_in_kinds(), before.record
    ).netlist()
    assert stops(netlist) == ["P1", "P2", "P3", "P4", "P5"]
    assert told(problems) == [
        "supplies.PULSE.chain.return: the return of PULSE stays as it is recorded, with 3.9 m of wire: in its shortest "
        "order it would take 2.7 m, strip by strip 3.9 m"
    ]
    assert "--afresh" in problems[0].hint


def test_afresh_lays_it_out_anew() -> None:
    before = Made(points("12345", "by_strip"))
    after = Made(points("12345"), before.record.only_printed())
    assert stops(after.netlist) == ["P1", "P3", "P5", "P4", "P2"]


# --- laws


def cut(one: tuple[float, float], other: tuple[float, float]) -> int:
    """Section 5.8: 300 mm of slack from device to device, up to the next 50 mm."""
    return ceil((abs(one[0] - other[0]) + abs(one[1] - other[1]) + 300) / 50) * 50


COORDINATES = st.tuples(st.integers(0, 1000), st.integers(0, 500))


@given(st.lists(COORDINATES, min_size=1, max_size=6), COORDINATES)
def test_so_few_devices_are_as_short_as_the_best_of_all_orders(
    places: list[tuple[int, int]], supply: tuple[int, int]
) -> None:
    """All orders tried."""
    best = min(sum(cut(a, b) for a, b in pairwise([supply, *order])) for order in permutations(places))
    railway = {
        "supplies": {"PULSE": {"kind": "pulse", "at": [*map(str, supply)], "chain": {"return": "shortest"}}},
        "strips": {"A1": {"ways": "60"}},
        "points": {f"P{number}": {"at": [*map(str, at)]} for number, at in enumerate(places)},
    }
    assert total(wired(railway)[0]) == best


def in_both_orders(railway: dict[str, Any]) -> tuple[Netlist, list[Problem], Netlist]:
    asked = {
        **railway,
        "supplies": {id_: {**supply, "chain": "shortest"} for id_, supply in railway["supplies"].items()},
    }
    netlist, problems = wired(asked)
    return netlist, problems, wired(railway)[0]


def nets(netlist: Netlist) -> list[list[Any]]:
    """What hangs together, found by networkx, which also says that there is no ring."""
    graph: nx.Graph[Any] = nx.Graph((wire.start.point, wire.finish.point) for wire in netlist.wires)
    assert not graph or nx.is_forest(graph)
    assert graph.number_of_edges() == len(netlist.wires)
    return sorted(sorted(net) for net in nx.connected_components(graph))


@given(railways())
def test_every_chain_is_a_line_through_the_same_stops(railway: dict[str, Any]) -> None:
    shortest, problems, by_strip = in_both_orders(railway)
    assert {problem.code for problem in problems} <= {"chain-saves", "chain-not-measured"}
    assert nets(shortest) == nets(by_strip)
    assert len(shortest.wires) == len(by_strip.wires)
    landings = Counter(
        (wire.function, end.point)
        for wire in shortest.wires
        if wire.circuit in railway["supplies"]
        for end in wire.ends
    )
    assert all(wires <= 2 for (_, (kind, _, _)), wires in landings.items() if kind is not EndKind.SUPPLY)


@st.composite
def placed_railways(draw: st.DrawFn) -> dict[str, Any]:
    """Everything has its place, on up to three boards in a row, with holes, with plugs or without."""
    boards = ("West", "East", "North")[: draw(st.integers(1, 3))]
    spot = st.tuples(st.integers(0, 1000), st.integers(0, 600)).map(lambda at: [str(at[0]), str(at[1])])
    where = st.sampled_from(boards)
    described_boards: dict[str, Any] = {
        board: {"size": ["1000", "600"], "at": [str(1000 * number), "0"]} for number, board in enumerate(boards)
    }
    for board in boards:
        if draw(st.booleans()):
            through = {"a": draw(st.sampled_from(["top", "frame"])), "b": "top"}
            described_boards[board]["holes"] = {
                f"{board}-{one}": {"at": draw(spot), "through": way} for one, way in through.items()
            }
    railway: dict[str, Any] = {
        "boards": described_boards,
        "panels": {"QUAY": {"board": boards[0], "at": draw(spot), "size": ["300", "100"], "levers": {"row": "5"}}},
        "supplies": {
            "PULSE": {"kind": "pulse", "board": draw(where), "at": draw(spot), "feed_at": draw(FEED_AT)},
            "LIGHTS": {"kind": "dc", "board": draw(where), "at": draw(spot)},
        },
        "strips": {f"{board[0]}1": {"board": board, "at": draw(spot), "ways": "80"} for board in boards},
        "points": {},
        "devices": {},
    }
    for board in boards:
        if draw(st.booleans()):
            railway["strips"][f"{board[0]}1"]["bridges"] = [["2", "8", "14"]]
    for number in range(draw(st.integers(1, 12))):
        above = draw(st.sampled_from(["yes", "no"]))
        railway["points"][f"P{number}"] = {"board": draw(where), "at": draw(spot), "above": above}
    for number in range(draw(st.integers(0, 4))):
        railway["devices"][f"H{number}"] = {"kind": "lamps", "board": draw(where), "at": draw(spot)}
    if draw(st.booleans()):
        railway["plugs"] = {
            f"J{number}-{one}": {
                "boards": [left, right],
                "pins": pins,
                "at": {left: draw(spot), right: draw(spot)},
            }
            for number, (left, right) in enumerate(pairwise(boards))
            for one, pins in ((1, draw(st.sampled_from(["1", "5", "40"]))), (2, "150"))
        }
    return railway


FEED_AT = st.sampled_from(["strip", "panel"])


@given(placed_railways())
@settings(max_examples=60)
def test_it_is_never_longer_than_strip_by_strip_and_takes_no_more_pins(railway: dict[str, Any]) -> None:
    shortest, problems, by_strip = in_both_orders(railway)
    assert all(wire.length is not None for wire in shortest.wires)
    for supply in railway["supplies"]:
        for terminal in ("feed", "return"):
            assert total(shortest, supply, terminal) <= total(by_strip, supply, terminal)
            if total(shortest, supply, terminal) < total(by_strip, supply, terminal):
                said = [problem.message for problem in problems if f"the {terminal} of {supply} " in problem.message]
                saved = (total(by_strip, supply, terminal) - total(shortest, supply, terminal)) / 1000
                assert [message.rpartition(": ")[2] for message in said] == [f"{saved:g} m less"]
    assert pins_used(shortest) <= pins_used(by_strip)


def pins_used(netlist: Netlist) -> int:
    return sum(pin.state == "used" for plug in netlist.plugs for pin in plug.pins)


@given(placed_railways())
@settings(max_examples=40)
def test_stops_are_measured_as_the_wire_list_measures_wires(railway: dict[str, Any]) -> None:
    expansion = Expansion(described(railway), built_in_kinds())
    netlist = expansion.netlist()[0]
    ends = list(dict.fromkeys(end for wire in netlist.wires for end in wire.ends))[:40]
    lengths = expansion._lengths
    quick = StopLengths([None, *ends], lengths)
    for number, one in enumerate(ends, 1):
        assert quick(0, number) == quick(number, 0) == 0
        for other_number, other in enumerate(ends, 1):
            if one.point != other.point:
                measured = lengths.measure(between(one, other))[0] or 0
                assert quick(number, other_number) // WHOLE_MM == measured, (one.name, other.name)


def between(one: End, other: End) -> DraftWire:
    link = one.kind is other.kind is EndKind.WAY and one.thing == other.thing
    head = Head(stem="", painted="", code="")
    return DraftWire(circuit="", function="", head=head, start=one, finish=other, link=link)


def hundred_points(*, plugs: bool) -> str:
    """On two boards side by side, 1200 mm wide."""
    return generated(100, plugs=plugs).partition("\n")[2].replace("kind: pulse,", "kind: pulse, chain: shortest,")


def test_a_hundred_points_are_no_longer_than_what_networkx_finds() -> None:
    """The round by the nearest neighbour, then annealed. A place that is far from all but the supply closes it."""
    text = hundred_points(plugs=False)
    description = described(text)
    places = {
        id_: (point.at[0] + 1200 * (int((point.board or "")[1:]) - 1), point.at[1])
        for id_, point in description.points.items()
        if point.at is not None
    }
    places["PULSE"] = (60, 60)
    far = 10**6
    graph = nx.Graph([("far", "PULSE", {"weight": 0})])
    graph.add_weighted_edges_from(("far", id_, far) for id_ in description.points)
    graph.add_weighted_edges_from((a, b, cut(places[a], places[b])) for a, b in combinations(places, 2))
    greedy = approximation.greedy_tsp(graph, source="far")
    annealed = approximation.simulated_annealing_tsp(graph, greedy, source="far", seed=1, N_inner=100)
    theirs = min(nx.path_weight(graph, one, "weight") for one in (greedy, annealed)) - far
    netlist, problems = wired(text)
    assert [problem.code for problem in problems] == ["chain-saves", "chain-saves"]
    assert sorted(stops(netlist)) == sorted(description.points)
    assert total(netlist) <= theirs


def test_a_hundred_points_through_plugs_are_one_board_after_the_other() -> None:
    netlist, _ = wired(hundred_points(plugs=True))
    boards = [wire.board for wire in chain(netlist, "PULSE", "return")]
    assert boards == sorted(boards, key=str)
    assert len(boards) == 101, "one wire more than points: that through the plug"
