"""Devices that switch something of their own: on one lever, and never joined there (section 5.1 of the format)."""

from collections.abc import Iterator
from itertools import pairwise

import networkx as nx
import pytest
from devices.copper_proof import CLOSED
from hypothesis import given
from hypothesis import strategies as st
from wiring.recorded_builder import Made, remade
from wiring.wiring_builder import built_in_kinds, lines, netlist_of, way_heads, wired, wires_of

from labelgen.model.kinds import Kind
from labelgen.model.netlist import Netlist
from labelgen.problems import has_errors

SUPPLIES = "supplies: {DRIVE: {kind: dc}, CAB: {kind: track}}\n"
CROSSOVER = (
    f"{SUPPLIES}strips: {{A1: {{ways: 24}}}}\npoints: {{P6A: {{kind: stall-motor}}, P6B: {{kind: stall-motor}}}}"
)


def test_a_crossover_of_stall_motors_by_hand() -> None:
    """Each motor its own five ways; the drive goes on from group to group, the rails along the strip."""
    assert wires_of(CROSSOVER) == lines("""
        1 6A L6.A > A1.1/panel
        2 6A A1.1/layout > P6A.1
        3 6B L6.B > A1.2/panel
        4 6B A1.2/layout > P6A.8
        5 6T A1.3/layout > P6A.2
        6 6XA A1.4/panel > P6A.vee
        7 6XA A1.4/layout > P6A.4
        8 6U A1.5/layout > P6A.3
        9 6A A1.1/panel > A1.6/panel link
        10 6A A1.6/layout > P6B.1
        11 6B A1.2/panel > A1.7/panel link
        12 6B A1.7/layout > P6B.8
        13 6T A1.8/layout > P6B.2
        14 6XB A1.9/panel > P6B.vee
        15 6XB A1.9/layout > P6B.4
        16 6U A1.10/layout > P6B.3
        17 T CAB.A > A1.3/layout
        18 T A1.3/layout > A1.8/layout link
        19 U CAB.B > A1.5/layout
        20 U A1.5/layout > A1.10/layout link
        21 F DRIVE.feed > L6.P
        22 C DRIVE.return > L6.M
    """)


def test_each_motor_has_a_pair_of_its_own_to_exchange() -> None:
    strip = netlist_of(CROSSOVER).strip_by_id["A1"]
    assert {way.number: way.swap_with for way in strip.ways if way.swap_with} == {3: 5, 5: 3, 8: 10, 10: 8}
    assert way_heads(netlist_of(CROSSOVER), "A1")[:10] == ["6A", "6B", "T", "6XA", "U", "6A", "6B", "T", "6XB", "U"]


def test_two_servos_share_the_five_volts_and_not_their_channels() -> None:
    """Only the pair that may be exchanged is each one's own; any other chained row stays with the first group."""
    assert wires_of("""
        supplies: {FIVE: {kind: dc}}
        strips: {A1: {}}
        points: {P6A: {kind: servo}, P6B: {kind: servo}}
    """) == lines("""
        1 6A L6.1 > A1.1/panel
        2 6A A1.1/layout > P6A.in
        3 6DA A1.2/panel > P6A.out
        4 6DA A1.2/layout > P6A.S
        5 6F A1.3/layout > P6A.5V
        6 6F A1.3/layout > P6B.5V
        7 6C A1.4/layout > P6A.0V
        8 6C A1.4/layout > P6B.0V
        9 6A A1.1/panel > A1.5/panel link
        10 6A A1.5/layout > P6B.in
        11 6DB A1.6/panel > P6B.out
        12 6DB A1.6/layout > P6B.S
        13 F FIVE.feed > A1.3/layout
        14 C FIVE.return > L6.2
        15 C L6.2 > A1.4/layout
    """)


def test_lamps_beside_the_lever_hang_on_both_motors() -> None:
    """Lit together they say that the two do not lie alike."""
    wires = wires_of("""
        supplies: {DRIVE: {kind: dc}, LIGHT: {kind: dc}, CAB: {kind: track}}
        strips: {A1: {ways: 24}}
        points:
          P6A: {kind: stall-motor-lamps, supplies: {drive: DRIVE, lamps: LIGHT}}
          P6B: {kind: stall-motor-lamps, supplies: {drive: DRIVE, lamps: LIGHT}}
    """)
    lamps = [wire.partition(" ")[2] for wire in wires if " 6Ln " in wire]
    assert lamps == [
        "6Ln L6.lamp-N > A1.7/panel",
        "6Ln A1.7/layout > P6A.6",
        "6Ln A1.7/panel > A1.15/panel link",
        "6Ln A1.15/layout > P6B.6",
    ]
    assert sum("lamp-C" in wire for wire in wires) == 1


# --- the proof, with networkx as the judge

OWN = [name for name, kind in built_in_kinds().items() if kind.lever_type and not kind.shares_ways]
ROWS = {"dc": "DRIVE: {kind: dc}", "pulse": "PULSE: {kind: pulse}", "track": "CAB: {kind: track}"}


def railway(name: str, kind: Kind, swapped: str, where: str) -> str:
    """Two of a kind on lever 6; the strips as asked."""
    roles = {
        role: "LIGHT" if role == "lamps" else ROWS[supply].partition(":")[0] for role, supply in kind.supply.items()
    }
    named = (
        f", supplies: {{{', '.join(f'{role}: {supply}' for role, supply in roles.items())}}}" if len(roles) > 1 else ""
    )
    supplies = [ROWS[supply] for role, supply in kind.supply.items() if role != "lamps"]
    supplies += ["LIGHT: {kind: dc}"] * ("lamps" in kind.supply)
    one, other = where.split()
    strips = ", ".join(f"{strip}: {{ways: 24}}" for strip in sorted({one, other}))
    return f"""
    supplies: {{{", ".join(dict.fromkeys(supplies))}}}
    strips: {{{strips}}}
    points:
      P6A: {{kind: {name}, strip: {one}{named}}}
      P6B: {{kind: {name}, strip: {other}{named}{swapped}}}
    """


def test_which_kinds_these_are() -> None:
    assert sorted(OWN) == ["limit-switch-motor", "relay", "servo", "stall-motor", "stall-motor-lamps", "twin-coil-frog"]


def metal(netlist: Netlist, lie: str, turned: set[str]) -> "nx.Graph[str]":
    """All wires, the lever's closed contacts, and each motor's own; `turned`: motors that lie the other way."""
    graph: nx.Graph[str] = nx.Graph([(wire.start.name, wire.finish.name) for wire in netlist.wires])
    (circuit,) = netlist.circuits
    lever = netlist.lever_by_id["6"].type
    closed = CLOSED[lever].get(lie, CLOSED[lever]["on"] if lie == "reverse" and lever == "on-off" else ())
    graph.add_edges_from((f"L6.{a}", f"L6.{b}") for a, b in closed)
    for device in circuit.devices:
        lies = {"normal": "reverse", "reverse": "normal"}[lie] if device in turned else lie
        graph.add_edges_from((f"{device}.{a}", f"{device}.{b}") for a, b in circuit.kind.inside.get(lies, ()))
    return graph


def poles_that_meet(graph: "nx.Graph[str]") -> Iterator[tuple[str, ...]]:
    supplies = {"DRIVE.feed", "DRIVE.return", "PULSE.feed", "PULSE.return", "LIGHT.feed", "LIGHT.return"}
    for piece in nx.connected_components(graph):
        if len(met := piece & (supplies | {"CAB.A", "CAB.B"})) > 1:
            yield tuple(sorted(met))


each = pytest.mark.parametrize("name", OWN)
everywhere = pytest.mark.parametrize("where", ["A1 A1", "A1 B1"])


@each
@everywhere
@pytest.mark.parametrize("swapped", ["", ", swapped: yes"])
@pytest.mark.parametrize("lie", ["normal", "reverse"])
def test_no_poles_meet_however_the_two_lie(name: str, where: str, swapped: str, lie: str) -> None:
    kind = built_in_kinds()[name]
    netlist, problems = wired(railway(name, kind, swapped if name not in ("servo", "relay") else "", where))
    assert not has_errors(problems)
    for turned in (set(), {"P6A"}, {"P6B"}, {"P6A", "P6B"}):
        assert list(poles_that_meet(metal(netlist, lie, turned))) == []
    wires: nx.MultiGraph[str] = nx.MultiGraph([(wire.start.name, wire.finish.name) for wire in netlist.wires])
    assert nx.is_forest(wires)
    assert not nx.has_path(wires, *(f"{device}.{_output(kind)}" for device in ("P6A", "P6B")))


def _output(kind: Kind) -> str:
    return next(row.across for row in kind.group if row.across in kind.terminals and row.across is not None)


@pytest.mark.parametrize("name", [name for name in OWN if name != "servo"])
@everywhere
@pytest.mark.parametrize("lie", ["normal", "reverse"])
def test_each_crossing_has_the_rail_of_its_own_motor(name: str, where: str, lie: str) -> None:
    netlist = netlist_of(railway(name, built_in_kinds()[name], "", where))
    for turned in (set(), {"P6A"}, {"P6B"}):
        graph = metal(netlist, lie, turned)
        for device in ("P6A", "P6B"):
            rail = "CAB.A" if (lie == "normal") != (device in turned) else "CAB.B"
            assert nx.has_path(graph, rail, f"{device}.vee")


@pytest.mark.parametrize("name", [name for name in OWN if name != "servo"])
@pytest.mark.parametrize("lie", ["normal", "reverse"])
def test_the_pair_is_exchanged_for_one_motor_alone(name: str, lie: str) -> None:
    """P6B sits the other way round, so its two marked ways are changed over: now both crossings are right."""
    netlist = netlist_of(railway(name, built_in_kinds()[name], "", "A1 A1"))
    graph = metal(netlist, lie, {"P6B"})
    _, (a, b) = ((way.number, way.swap_with) for way in netlist.strip_by_id["A1"].ways if way.swap_with > way.number)
    (at_a,) = [end for end in graph[f"A1.{a}"] if end.startswith("P6")]
    (at_b,) = [end for end in graph[f"A1.{b}"] if end.startswith("P6")]
    graph.remove_edges_from([(f"A1.{a}", at_a), (f"A1.{b}", at_b)])
    graph.add_edges_from([(f"A1.{a}", at_b), (f"A1.{b}", at_a)])
    rail = "CAB.A" if lie == "normal" else "CAB.B"
    assert all(nx.has_path(graph, rail, f"{device}.vee") for device in ("P6A", "P6B"))
    assert list(poles_that_meet(graph)) == []


# --- where the groups come to stand

BOARDS = f"""{SUPPLIES}
boards: {{West: {{size: [1200, 600], at: [0, 0]}}, East: {{size: [1200, 600], at: [1200, 0]}}}}
strips:
  A1: {{board: West, at: [300, 500]}}
  A2: {{board: West, at: [900, 500]}}
  B1: {{board: East, at: [300, 500]}}
"""


def ways(text: str) -> list[tuple[str, list[int]]]:
    (circuit,) = wired(text)[0].circuits
    return [(group.strip, sorted(group.ways.values())) for group in circuit.groups]


def test_each_group_goes_to_the_strip_nearest_to_its_own_device() -> None:
    text = BOARDS + "points: {P6A: {kind: stall-motor, board: West, at: [300, 400]}, P6B: {kind: stall-motor, %s}}"
    assert ways(text % "board: West, at: [900, 400]") == [("A1", [1, 2, 3, 4, 5]), ("A2", [1, 2, 3, 4, 5])]
    assert ways(text % "board: East, at: [900, 400]") == [("A1", [1, 2, 3, 4, 5]), ("B1", [1, 2, 3, 4, 5])]
    assert ways(text % "board: West, at: [310, 400]") == [("A1", [1, 2, 3, 4, 5]), ("A1", [6, 7, 8, 9, 10])]


def test_a_named_strip_and_way_are_those_of_one_device_alone() -> None:
    text = BOARDS + "points: {P6A: {kind: stall-motor, board: West, strip: A2, way: 4}, P6B: {kind: stall-motor, %s}}"
    nearest = ways(text % "board: West, at: [300, 400]")
    assert nearest == [("A2", [4, 5, 6, 7, 8]), ("A1", [1, 2, 3, 4, 5])]
    assert ways(text % "board: West, strip: A2, ways: [1, 2, 3, 10, 11]")[1] == ("A2", [1, 2, 3, 10, 11])


def test_a_strip_that_is_too_short_for_both() -> None:
    text = f"{SUPPLIES}strips: {{A1: {{ways: 9}}}}\npoints: {{P6A: {{kind: stall-motor}}, P6B: {{kind: stall-motor}}}}"
    assert [(one.code, one.place.source) for one in wired(text)[1]] == [("strip-full", "points.P6B")]


def test_an_output_without_its_crossing_is_not_shared_either() -> None:
    """The arm ends on the strip, and the builder takes it on from there: its own contact is known by `inside`."""
    (found,) = [
        group.ways.keys()
        for group in netlist_of("""
            kinds:
              bare:
                terminals: {1: motor, 8: motor, 2: throw, 4: arm, 3: throw}
                supply: {drive: dc, rails: track}
                lever_type: changeover
                group:
                  - {function: drive-a, contact: A, terminal: 1}
                  - {function: drive-b, contact: B, terminal: 8}
                  - {function: frog, terminal: 4}
                chain:
                  - {function: track, terminal: 2, supply: rails.A}
                  - {function: track-return, terminal: 3, supply: rails.B}
                  - {function: feed, contact: P, supply: drive.feed}
                  - {function: return, contact: M, supply: drive.return}
                inside: {normal: [[2, 4]], reverse: [[3, 4]]}
            supplies: {DRIVE: {kind: dc}, CAB: {kind: track}}
            strips: {A1: {}}
            points: {P6A: {kind: bare}, P6B: {kind: bare}}
        """)
        .circuits[0]
        .groups[1:]
    ]
    assert found == {0, 1, 2}


# --- the record


def after(points: str) -> str:
    return f"{SUPPLIES}strips: {{A1: {{ways: 120}}}}\npoints: {{{points}}}"


STALL = "{kind: stall-motor, lever: 6}"


def test_a_second_motor_moves_nothing_of_the_first_whichever_comes_first_by_id() -> None:
    made = Made(after(f"P6B: {STALL}"))
    more = made.then(after(f"P6A: {STALL}, P6B: {STALL}"))
    assert more.ways("P6B") == [f"A1.{way}" for way in range(1, 6)]
    assert more.ways("P6A") == [f"A1.{way}" for way in range(6, 11)]
    assert more.wires.items() >= made.wires.items()


def test_a_third_motor_moves_nothing() -> None:
    made = Made(after(f"P6A: {STALL}, P6B: {STALL}"))
    more = made.then(after(f"P6A: {STALL}, P6B: {STALL}, P6: {STALL}"))
    assert more.wires.items() >= made.wires.items()
    assert more.ways("P6") == [f"A1.{way}" for way in range(11, 16)]
    assert more.then(after(f"P6A: {STALL}, P6B: {STALL}, P6: {STALL}")).wires == more.wires


def test_the_first_one_goes_and_the_second_stays_where_it_is() -> None:
    made = Made(after(f"P6A: {STALL}, P6B: {STALL}"))
    left = made.then(after(f"P6B: {STALL}"))
    assert left.ways("P6B") == made.ways("P6B")
    assert "L6.A A1.6" in left.wires.values()


def test_two_new_motors_take_the_two_places_that_are_left() -> None:
    made = Made(after(f"P6A: {STALL}, P6B: {STALL}"))
    renewed = made.then(after("P61: {kind: stall-motor, lever: 6}, P62: {kind: stall-motor, lever: 6}"))
    assert [renewed.ways(device) for device in ("P61", "P62")] == [made.ways(device) for device in ("P6A", "P6B")]


def test_motors_that_shared_their_ways_part_when_they_get_crossings() -> None:
    """The first keeps the ways that both had; the second gets ways of its own."""
    supplies = "supplies: {PULSE: {kind: pulse}, CAB: {kind: track}}\nstrips: {A1: {ways: 24}}\n"
    made = Made(supplies + "points: {P6A: , P6B: }")
    netlist, built, problems = remade(
        supplies + "points: {P6A: {kind: twin-coil-frog}, P6B: {kind: twin-coil-frog}}", made.record
    )
    assert not has_errors(problems)
    (circuit,) = netlist.circuits
    assert [group.devices for group in circuit.groups] == [("P6A",), ("P6B",)]
    assert [circuit.groups[0].ways[row] for row in (0, 1, 2)] == [1, 2, 3]
    assert [group.devices for group in built.groups] == [("P6A",), ("P6B",)]


@given(st.lists(st.sets(st.sampled_from(["P6", "P6A", "P6B", "P6C"]), min_size=1), min_size=2, max_size=5))
def test_motors_come_and_go_and_none_that_stays_is_moved(years: list[set[str]]) -> None:
    """Its ways stay, and so does every wire that both of two years have; no way is given twice."""
    made = Made(after(", ".join(f"{id_}: {STALL}" for id_ in sorted(years[0]))))
    for before, now in pairwise(years):
        then = made.then(after(", ".join(f"{id_}: {STALL}" for id_ in sorted(now))))
        for device in before & now:
            assert then.ways(device) == made.ways(device)
        assert all(made.wires[number] == ends for number, ends in then.wires.items() if number in made.wires)
        given_ways = [way for device in now for way in then.ways(device)]
        assert len(set(given_ways)) == 5 * len(now)
        made = then


@pytest.mark.parametrize(
    ("points", "heads"),
    [
        ("{P6A: {kind: stall-motor}, P6B: {kind: stall-motor}}", {"6XA", "6XB"}),
        ("{P6: {kind: stall-motor}, YARD: {kind: stall-motor, lever: 6}}", {"6X1", "6X2"}),
        ("{P6A: {kind: stall-motor}, Q6a: {kind: stall-motor, lever: 6}}", {"6X1", "6X2"}),
        ("{P6: {kind: stall-motor}}", {"6X"}),
    ],
)
def test_the_crossings_of_one_lever_are_called_apart(points: str, heads: set[str]) -> None:
    """They are different nets: by the letters that end their ids, else by number; one alone needs no mark."""
    netlist = netlist_of(f"{SUPPLIES}strips: {{A1: {{ways: 24}}}}\npoints: {points}")
    assert {wire.head for wire in netlist.wires if wire.function == "frog"} == heads
    assert {head for head in way_heads(netlist, "A1") if "X" in head} == heads
