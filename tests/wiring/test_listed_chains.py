"""A railway that is already wired comes in as it is: listed wires between the members of a chain are its steps.

Whether what comes out is one piece of copper and no ring is judged by networkx, from the ends of the wires alone.
"""

from collections import Counter
from collections.abc import Iterable
from random import Random
from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from wiring.recorded_builder import Made
from wiring_builder import built_in_kinds, described, netlist_of, read

from labelgen.checks.capacity import crowded_entries
from labelgen.checks.continuity import copper
from labelgen.data_files import layouts
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.problems import has_errors
from labelgen.wiring.expansion import expand

HEAD = """
    boards: {West: {at: [0, 0]}}
    supplies: {PULSE: {kind: pulse, at: [0, 500]}}
    strips: {A1: {at: [600, 400], ways: 30, pitch: 10}}
    points:
"""
PLACES = {"1": 100, "2": 300, "3": 500, "4": 700, "5": 900}


def points(ids: str) -> dict[str, Any]:
    """The points P1 to P5, in a row from left to right."""
    described = read(HEAD + "".join(f"      P{id_}: {{at: [{PLACES[id_]}, 200]}}\n" for id_ in ids))
    assert isinstance(described, dict)
    return described


def listing(railway: dict[str, Any], *wires: str) -> dict[str, Any]:
    """The same with a wire list, each wire as `W1 P1.C P3.C`: number and ends."""
    rows = [dict(zip(("number", "from", "to"), wire.split(), strict=True)) for wire in wires]
    return {**railway, "wires": [*railway.get("wires", ()), *rows]}


def ends_of(wire: Wire) -> str:
    return " ".join(sorted((wire.start.name, wire.finish.name)))


def faults(railway: dict[str, Any], netlist: Netlist) -> list[str]:
    return [problem.code for problem in copper(described(railway), netlist)]


def judged(netlist: Netlist) -> nx.MultiGraph:
    """The copper of all wires and bridges: no ring in it, not even of two wires side by side."""
    graph = nx.MultiGraph()
    graph.add_edges_from((wire.start.name, wire.finish.name) for wire in netlist.wires)
    for strip in netlist.strips:
        for ways in strip.bridges:
            nx.add_path(graph, [f"{strip.id}.{way}" for way in ways])
    assert nx.number_of_edges(graph) == graph.number_of_nodes() - nx.number_connected_components(graph), "a ring"
    return graph


def nets(netlist: Netlist) -> set[frozenset[str]]:
    """The ends of each net; pins left out, for another order may cross a plug elsewhere."""
    pins = {end.name for wire in netlist.wires for end in wire.ends if end.kind is EndKind.PIN}
    return {frozenset(piece - pins) for piece in map(set, nx.connected_components(judged(netlist)))}


def wired_like(railway: dict[str, Any]) -> Netlist:
    netlist, problems = expand(described(railway), built_in_kinds())
    assert not has_errors(problems), problems
    assert faults(railway, netlist) == []
    return netlist


def chain(netlist: Netlist, terminal: str) -> list[str]:
    """The wires of one of PULSE's chains, sorted ends, in order of ends."""
    piece = nx.node_connected_component(judged(netlist), f"PULSE.{terminal}")
    return sorted(ends_of(wire) for wire in netlist.wires if wire.circuit == "PULSE" and wire.start.name in piece)


# A few by hand.


def test_a_chain_in_another_order() -> None:
    railway = listing(points("123"), "W1 PULSE.return P2.C", "W2 P2.C P1.C", "W3 P3.C P1.C")
    netlist = wired_like(railway)
    assert chain(netlist, "return") == ["P1.C P2.C", "P1.C P3.C", "P2.C PULSE.return"]
    numbers = {ends_of(wire): wire.number for wire in netlist.wires}
    assert [numbers[ends] for ends in chain(netlist, "return")] == ["W2", "W3", "W1"]
    assert {wire.head for wire in netlist.wires if wire.circuit == "PULSE"} == {"F", "C"}


def test_a_listed_step_takes_colour_size_and_number() -> None:
    wire = {"from": "P3.C", "to": "P1.C", "number": "37N bis", "colour": "violet", "size": "0.5 mm2"}
    netlist = wired_like({**points("123"), "wires": [wire]})
    (found,) = [wire for wire in netlist.wires if ends_of(wire) == "P1.C P3.C"]
    assert (found.number, found.colour, found.size, found.circuit) == ("37N bis", "VT", "0.5 mm²", "PULSE")
    assert (found.function, found.head, found.listed) == ("return", "C", 0)


def test_the_rules_join_what_the_list_leaves_open() -> None:
    """P4 to P2 is listed. P1 is first and fed; the piece is joined at its end P2, 200 mm from P1 and with room; then P3
    from the nearest with room: P4, for P2 has two wires."""
    netlist = wired_like(listing(points("1234"), "W1 P4.C P2.C"))
    assert chain(netlist, "return") == ["P1.C P2.C", "P1.C PULSE.return", "P2.C P4.C", "P3.C P4.C"]


def test_a_piece_is_joined_where_it_has_room() -> None:
    """P1 stands in the middle of the listed piece P2, P1, P3: it has two wires, so the supply's wire goes to P2."""
    netlist = wired_like(listing(points("123"), "W1 P2.C P1.C", "W2 P1.C P3.C"))
    assert chain(netlist, "return") == ["P1.C P2.C", "P1.C P3.C", "P2.C PULSE.return"]


def test_a_star() -> None:
    railway = listing(points("1234"), *(f"W{n} PULSE.return P{n}.C" for n in "1234"))
    assert chain(wired_like(railway), "return") == [f"P{n}.C PULSE.return" for n in "1234"]


def test_a_star_on_the_strip_and_its_crowded_entry() -> None:
    """The feed from way 2 to 5, 8, 11: with the supply's wire four in one entry, which is a caution."""
    railway = listing(points("1234"), *(f"W{n} A1.2 A1.{n}" for n in (5, 8, 11)))
    netlist = wired_like(railway)
    assert chain(netlist, "feed") == ["A1.11 A1.2", "A1.2 A1.5", "A1.2 A1.8", "A1.5 PULSE.feed"]
    (problem,) = crowded_entries(described(railway), netlist)
    assert problem.message.startswith("3 wires meet in one screw entry: A1.2, layout side")
    links = [wire for wire in netlist.wires if wire.link]
    assert sorted(map(ends_of, links)) == ["A1.11 A1.2", "A1.2 A1.5", "A1.2 A1.8"]


def test_a_list_that_agrees_changes_nothing() -> None:
    plain = netlist_of(points("12345"))
    railway = listing(points("12345"), "W1 P3.C P2.C", "W2 A1.5 A1.8")
    assert list(map(ends_of, wired_like(railway).wires)) == list(map(ends_of, plain.wires))


def test_only_what_closes_a_ring_among_the_listed_is_one() -> None:
    railway = listing(points("123"), "W1 P1.C P2.C", "W2 P2.C P3.C", "W3 P3.C P1.C")
    netlist, _ = expand(described(railway), built_in_kinds())
    (problem,) = copper(described(railway), netlist)
    assert (problem.code, problem.place.source) == ("ring", "wires.2")


def test_a_feed_from_lever_to_lever_behind_the_panel() -> None:
    """Each lever's own wire to its way stays, and the feed goes on from contact to contact, as it is wired."""
    netlist = wired_like(listing(points("123"), "W1 L1.F L2.F", "W2 L3.F L2.F"))
    assert chain(netlist, "feed") == ["A1.2 PULSE.feed", "L1.F L2.F", "L2.F L3.F"]


def test_a_supply_that_feeds_the_comb_and_not_the_way() -> None:
    """Ways 2, 5 and 12 are one piece of metal; the supply lands on the last, which no group has."""
    railway = points("12")
    railway["strips"]["A1"] |= {"bridges": [["2", "5", "12"]], "keep": ["12"]}
    netlist = wired_like(listing(railway, "W1 PULSE.feed A1.12"))
    assert chain(netlist, "feed") == ["A1.12 PULSE.feed"]


def test_a_way_and_a_device_of_one_terminal() -> None:
    """Ways and devices of a kind are both on the feed, in two chains: a wire from one to the other makes them one."""
    railway = read("""
        supplies: {D: {kind: dc}}
        strips: {A1: {entry_limit: 3}}
        kinds:
          box: {terminals: {p: , q: , m: }, supply: dc, group: [{function: feed, chain: feed, terminal: p}],
                chain: [{function: feed, terminal: q, supply: feed}, {function: return, terminal: m, supply: return}]}
        devices: {X1: {kind: box}, X2: {kind: box}}
    """)
    netlist = wired_like(listing(railway, "W1 A1.2 X2.q"))
    ends = sorted(ends_of(wire) for wire in netlist.wires if wire.circuit == "D" and wire.function == "feed")
    assert ends == ["A1.1 A1.2", "A1.1 D.feed", "A1.2 X2.q", "X1.q X2.q"]


# Over plugs.

TWO_BOARDS = """
    boards: {West: {}, East: {right_of: West}}
    supplies: {PULSE: {kind: pulse, board: West}}
    strips: {A1: {board: West}, B1: {board: East}}
    points: {P1: {board: West}, P2: {board: West}, P3: {board: East}, P4: {board: East}}
    plugs: {J1: {boards: [West, East], pins: 25}}
"""


def test_a_chain_that_crosses_twice_as_listed() -> None:
    """The return goes from West to East and back again; a number is that of the first stretch."""
    wires = ("W1 PULSE.return P3.C", "W2 P3.C P2.C", "W3 P2.C P1.C", "W4 P4.C P3.C")
    netlist = wired_like(listing(read(TWO_BOARDS), *wires))
    assert chain(netlist, "return") == [
        "J1.2 P3.C",
        "J1.2 PULSE.return",
        "J1.3 P2.C",
        "J1.3 P3.C",
        "P1.C P2.C",
        "P3.C P4.C",
    ]
    numbers = {wire.number: ends_of(wire) for wire in netlist.wires if isinstance(wire.number, str)}
    assert numbers == {"W1": "J1.2 PULSE.return", "W2": "J1.3 P3.C", "W3": "P1.C P2.C", "W4": "P3.C P4.C"}


def test_a_chain_listed_pin_by_pin() -> None:
    wires = ("W1 PULSE.return P1.C", "W2 P1.C P2.C", "W3 P1.C J1.9", "W4 P4.C J1.9", "W5 P4.C P3.C")
    netlist = wired_like(listing(read(TWO_BOARDS), *wires))
    numbers = {wire.number: ends_of(wire) for wire in netlist.wires if isinstance(wire.number, str)}
    assert list(numbers.values()) == ["P1.C PULSE.return", "P1.C P2.C", "J1.9 P1.C", "J1.9 P4.C", "P3.C P4.C"]
    assert sorted(numbers.values()) == chain(netlist, "return")


def test_a_pin_from_which_two_wires_go_on() -> None:
    """From pin 9 of J1 to both points of East, and from its other side to both of West: it is soldered, not screwed."""
    wires = ("W1 PULSE.return J1.9", "W2 J1.9 P1.C", "W3 J1.9 P3.C", "W4 P4.C J1.9", "W5 P2.C P1.C")
    railway = listing(read(TWO_BOARDS), *wires)
    netlist = wired_like(railway)
    expected = sorted(" ".join(sorted(wire.split()[1:])) for wire in wires)
    assert chain(netlist, "return") == expected
    assert len(netlist.passages) == len(netlist_of(read(TWO_BOARDS)).passages)
    before = Made(railway)
    assert before.then(read(TWO_BOARDS)).wires == before.wires


THREE_BOARDS = """
    boards: {West: {}, Mid: {right_of: West}, East: {right_of: Mid}}
    supplies: {PULSE: {kind: pulse, board: West}}
    strips: {A1: {board: West}, B1: {board: East}}
    points: {P1: {board: West}, P2: {board: East}, P3: {board: East}}
    plugs: {J1: {boards: [West, Mid], pins: 25}, J2: {boards: [Mid, East], pins: 25}}
"""


def test_a_chain_listed_from_plug_to_plug() -> None:
    """Over the board in between, where it stops nowhere; a wire to a pin from which nothing goes on leads nowhere."""
    wires = ("W1 P3.C J2.8", "W2 J1.7 J2.8", "W3 P1.C J1.7", "W4 P2.C P3.C", "W5 P2.C J2.20")
    netlist = wired_like(listing(read(THREE_BOARDS), *wires))
    assert chain(netlist, "return") == sorted(["P1.C PULSE.return", "J1.7 P1.C", "J1.7 J2.8", "J2.8 P3.C", "P2.C P3.C"])
    assert {ends_of(wire) for wire in netlist.wires if wire.number == "W5"} == {"J2.20 P2.C"}


# With a record.


def test_a_recorded_wire_stays_and_a_new_one_is_laid_as_listed() -> None:
    before = Made(points("123"))
    after = before.then(listing(points("1234"), "W1 P4.C P1.C"))
    assert after.chain("PULSE", "return") == before.chain("PULSE", "return") | {"P4.C P1.C"}


def test_a_list_that_contradicts_the_record_is_a_ring() -> None:
    before = Made(points("123"))
    railway = listing(points("123"), "W1 P1.C P3.C", "W2 P1.C P2.C")
    after = before.then(railway)
    assert after.chain("PULSE", "return") == {*before.chain("PULSE", "return")}
    assert faults(railway, after.netlist) == ["ring"]
    assert {wire.number for wire in after.netlist.wires if ends_of(wire) == "P1.C P2.C"} == {"W2"}


@pytest.mark.parametrize(
    "wires", [("W1 PULSE.return P2.C", "W2 P2.C P1.C", "W3 P3.C P1.C"), ("W1 L1.F L2.F", "W2 L3.F L2.F")]
)
def test_what_was_listed_once_stays_without_the_list(wires: tuple[str, ...]) -> None:
    before = Made(listing(points("123"), *wires))
    after = before.then(points("123"))
    assert after.wires == before.wires
    grown = after.then(points("12345"))
    assert before.wires.items() <= grown.wires.items()
    judged(grown.netlist)


@settings(max_examples=30)  # each wires a railway several times
@given(seed=st.integers(0, 2**32), leave_out=st.integers(0, 20))
def test_what_runs_through_plugs_reads_back_stretch_by_stretch(seed: int, leave_out: int) -> None:
    railway = read(TWO_BOARDS)
    listed = rethreaded(netlist_of(read(TWO_BOARDS.replace("plugs", "#"))), ("PULSE",), Random(seed))[leave_out:]
    netlist = wired_like(listing(railway, *listed))
    assert nets(netlist) == nets(netlist_of(railway))
    stretches = [f"S{wire.number} {wire.start.name} {wire.finish.name}" for wire in netlist.wires]
    again = wired_like(listing(railway, *stretches))
    assert {wire.number: ends_of(wire) for wire in again.wires} == {f"S{w.number}": ends_of(w) for w in netlist.wires}
    before = Made(listing(railway, *stretches))
    assert before.then(railway).wires == before.wires


# The example as a whole, and any chain in any order.


def example() -> dict[str, Any]:
    found = read((layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8"))
    assert isinstance(found, dict)
    return found


def chains_of(netlist: Netlist, supplies: Iterable[str]) -> list[list[Wire]]:
    """The wires of each chain: those that hang together, of one supply; the buttons of routes apart."""
    graphs: dict[tuple[str, bool], nx.Graph] = {}
    for wire in netlist.wires:
        if wire.circuit in supplies:
            key = (wire.circuit, wire.finish.kind is EndKind.ROUTE)
            graphs.setdefault(key, nx.Graph()).add_edge(wire.start.name, wire.finish.name, wire=wire)
    pieces = [graph.subgraph(piece) for graph in graphs.values() for piece in nx.connected_components(graph)]
    return [[data["wire"] for _, _, data in piece.edges(data=True)] for piece in pieces]


def rethreaded(netlist: Netlist, supplies: Iterable[str], order: Random) -> list[str]:
    """All wires, each with a number of the builder's; each chain a line in another order, a star, or a tree."""
    ends = {wire.number: ends_of(wire) for wire in netlist.wires}
    for wires in chains_of(netlist, supplies):
        stops = sorted({end.name for wire in wires for end in wire.ends})
        order.shuffle(stops)
        reach = order.choice((1, 3, len(stops)))
        steps = [(stops[order.randrange(max(0, n - reach), n)], stops[n]) for n in range(1, len(stops))]
        ends |= {wire.number: " ".join(step) for wire, step in zip(wires, steps, strict=True)}
    listed = [f"W{number} {both}" for number, both in ends.items()]
    order.shuffle(listed)
    return listed


def comes_in_as_it_is(railway: dict[str, Any], listed: list[str], leave_out: int = 0) -> None:
    """Every listed wire is there once with its number, the nets are those of the rules, each is one tree."""
    plain = netlist_of(railway)
    given = listed[leave_out:]
    netlist = wired_like(listing(railway, *given))
    assert nets(netlist) == nets(plain)
    wires = Counter((wire.number, ends_of(wire)) for wire in netlist.wires)
    expected = [(number, " ".join(sorted(ends))) for number, *ends in map(str.split, given)]
    assert all(wires[wire] == 1 for wire in expected)
    assert len(netlist.wires) == len(plain.wires)
    assert Counter(wire.circuit for wire in netlist.wires) == Counter(wire.circuit for wire in plain.wires)


@pytest.mark.parametrize("seed", range(4))
def test_the_whole_example_with_its_chains_in_another_order(seed: int) -> None:
    railway = example()
    order = Random(seed)
    listed = rethreaded(netlist_of(railway), railway["supplies"], order)
    assert len(listed) > 90
    comes_in_as_it_is(railway, listed)
    comes_in_as_it_is(railway, listed, leave_out=len(listed) // 3)


MIXED = """
    boards: {West: {at: [0, 0], size: [1200, 600]}, East: {right_of: West, size: [1200, 600]}}
    supplies: {PULSE: {kind: pulse, board: West}, D: {kind: dc, board: West}, T: {kind: track, board: East}}
    strips: {A1: {board: West, ways: 30, bridges: [[2, 5]]}, B1: {board: East, ways: 30}}
    points: {P1: {board: West}, P2: {board: West}, P3: {board: East}, P4: {board: East}}
    devices:
      M6: {kind: stall-motor, lever: 6, board: West}
      M7: {kind: stall-motor, lever: 7, board: East}
      M8: {kind: stall-motor, lever: 8, board: East}
      X1: {kind: lamps, board: West}
      X2: {kind: lamps, board: East}
"""


@settings(max_examples=30)  # each wires a railway several times
@given(seed=st.integers(0, 2**32), leave_out=st.integers(0, 40))
def test_any_chain_in_any_order_listed_in_part(seed: int, leave_out: int) -> None:
    railway = read(MIXED)
    order = Random(seed)
    comes_in_as_it_is(railway, rethreaded(netlist_of(railway), railway["supplies"], order), leave_out)


@settings(max_examples=30)  # each wires a railway several times
@given(seed=st.integers(0, 2**32), leave_out=st.integers(0, 40))
def test_and_made_again_with_its_record_without_the_list(seed: int, leave_out: int) -> None:
    railway = read(MIXED)
    listed = rethreaded(netlist_of(railway), railway["supplies"], Random(seed))[leave_out:]
    before = Made(listing(railway, *listed))
    assert before.then(railway).wires == before.wires
    assert before.then(listing(railway, *listed)).wires == before.wires
