"""Wires between boards run through plugs: sections 2 and 5.6 of the format. All wires worked out by hand."""

from typing import Any

import pytest
from wiring.wiring_builder import lines, netlist_of, problems_of, wired, wires_of

from labelgen.model.netlist import EndKind, Netlist

TWO_BOARDS = """
boards: {West: , East: }
plugs: {J1: {boards: [West, East], pins: 15}}
supplies: {PULSE: {kind: pulse, board: West}}
strips: {A1: {board: West}, B1: {board: East}}
panels: {QUAY: {board: West}}
"""

ONE_POINT = TWO_BOARDS + "points: {P6: {board: East}}\n"
"""Five wires from West to East: 6N, 6F, 6R of the lever, then F and C."""

IN_A_ROW = """
boards: {West: , Mid: , East: }
plugs: {J1: {boards: [West, Mid], pins: 15}, J2: {boards: [East, Mid], pins: 15}}
supplies: {PULSE: {kind: pulse, board: West}}
strips: {B1: {board: East}}
panels: {QUAY: {board: West}}
points: {P9: {board: East}}
"""


def pins_of(netlist: Netlist, plug: str) -> list[str]:
    """What each pin carries, from 1: its head, or its state."""
    return [pin.head or pin.state for pin in netlist.plug_by_id[plug].pins]


def heads_at(netlist: Netlist, plug: str) -> dict[str, int]:
    """Head: pin, of a plug on which every head occurs once."""
    return {pin.head: pin.number for pin in netlist.plug_by_id[plug].pins if pin.state == "used"}


def passed(netlist: Netlist) -> dict[tuple[str, str], tuple[str, ...]]:
    return {(passage.start, passage.finish): passage.pins for passage in netlist.passages}


def test_two_boards_and_one_plug() -> None:
    netlist = netlist_of(TWO_BOARDS + "points: {P5: {board: West}, P6: {board: East}}")
    assert wires_of(TWO_BOARDS + "points: {P5: {board: West}, P6: {board: East}}") == lines("""
        1 5N L5.N > A1.1/panel           ; all on West
        2 5N A1.1/layout > P5.N
        3 5F L5.F > A1.2/panel
        4 5R L5.R > A1.3/panel
        5 5R A1.3/layout > P5.R
        6 6N L6.N > J1.1                 ; lever 6 stands in QUAY, on West
        7 6N J1.1 > B1.1/panel
        8 6N B1.1/layout > P6.N
        9 6F L6.F > J1.2
        10 6F J1.2 > B1.2/panel
        11 6R L6.R > J1.3
        12 6R J1.3 > B1.3/panel
        13 6R B1.3/layout > P6.R
        14 F PULSE.feed > A1.2/layout
        15 F A1.2/layout > J1.4          ; between strips of two boards: no link
        16 F J1.4 > B1.2/layout
        17 C PULSE.return > P5.C
        18 C P5.C > J1.5
        19 C J1.5 > P6.C
    """)
    assert [wire.board for wire in netlist.wires[5:13]] == ["West", "East", "East", *["West", "East"] * 2, "East"]
    assert [wire.board for wire in netlist.wires[14:16]] == ["West", "East"]
    assert {wire.circuit for wire in netlist.wires[5:13]} == {"6"}
    assert {wire.circuit for wire in netlist.wires[14:16]} == {"PULSE"}
    assert pins_of(netlist, "J1") == ["6N", "6F", "6R", "F", "C", *["spare"] * 10]


def test_a_pin_has_one_name_on_both_boards() -> None:
    netlist = netlist_of(ONE_POINT)
    first, second = netlist.plug_by_id["J1"].pins[0].wires
    assert (first.finish.name, second.start.name) == ("J1.1", "J1.1")
    assert first.finish.point == second.start.point == (EndKind.PIN, "J1", "1")
    assert (first.finish.board, second.start.board) == ("West", "East")
    pin = netlist.plug_by_id["J1"].pins[0]
    assert (pin.on("West"), pin.on("East"), pin.on("North")) == ((first,), (second,), ())


def test_a_wire_within_a_board_passes_no_plug() -> None:
    netlist = netlist_of(TWO_BOARDS + "points: {P5: {board: West}}")
    assert netlist.passages == ()
    assert EndKind.PIN not in {end.kind for wire in netlist.wires for end in wire.ends}
    assert set(pins_of(netlist, "J1")) == {"spare"}


def test_without_any_plug_boards_are_fixed_together() -> None:
    wires = wires_of(ONE_POINT.replace("plugs: {J1: {boards: [West, East], pins: 15}}", ""))
    assert wires[0] == "1 6N L6.N > B1.1/panel"


def test_three_boards_in_a_row() -> None:
    netlist = netlist_of(IN_A_ROW)
    assert wires_of(IN_A_ROW) == lines("""
        1 9N L9.N > J1.1                 ; two plugs, three wires
        2 9N J1.1 > J2.1
        3 9N J2.1 > B1.1/panel
        4 9N B1.1/layout > P9.N
        5 9F L9.F > J1.2
        6 9F J1.2 > J2.2
        7 9F J2.2 > B1.2/panel
        8 9R L9.R > J1.3
        9 9R J1.3 > J2.3
        10 9R J2.3 > B1.3/panel
        11 9R B1.3/layout > P9.R
        12 F PULSE.feed > J1.4
        13 F J1.4 > J2.4
        14 F J2.4 > B1.2/layout
        15 C PULSE.return > J1.5
        16 C J1.5 > J2.5
        17 C J2.5 > P9.C
    """)
    assert [wire.board for wire in netlist.wires[:4]] == ["West", "Mid", "East", "East"]
    assert passed(netlist)["L9.N", "B1.1"] == ("J1.1", "J2.1")


def test_plugs_of_the_same_two_boards_fill_in_order() -> None:
    """J2 before J10; in each the lowest free pin."""
    netlist = netlist_of(
        ONE_POINT.replace(
            "{J1: {boards: [West, East], pins: 15}}",
            "{J10: {boards: [West, East], pins: 9}, J2: {boards: [East, West], pins: 3}}",
        )
    )
    assert pins_of(netlist, "J2") == ["6N", "6F", "6R"]
    assert pins_of(netlist, "J10")[:3] == ["F", "C", "spare"]


def test_a_pin_that_is_kept_empty_is_never_given() -> None:
    netlist = netlist_of(ONE_POINT.replace("pins: 15", "pins: 7, keep_empty: [1, 3]"))
    assert pins_of(netlist, "J1") == ["empty", "6N", "empty", "6F", "6R", "F", "C"]
    assert netlist.plug_by_id["J1"].keep_empty == (1, 3)


def test_several_pins_for_a_heavy_function() -> None:
    netlist = netlist_of(ONE_POINT + "functions: {return: {pins: 3}, normal: {pins: 2}}")
    assert pins_of(netlist, "J1")[:8] == ["6N", "6N", "6F", "6R", "F", "C", "C", "C"]
    assert [pin.bridged_to for pin in netlist.plug_by_id["J1"].pins[:8]] == [None, 1, None, None, None, None, 6, 6]
    # the wire itself lands on the lowest
    assert {end.name for wire in netlist.wires for end in wire.ends if wire.function == "return"} == {
        "PULSE.return",
        "J1.6",
        "P6.C",
    }
    assert passed(netlist)["PULSE.return", "P6.C"] == ("J1.6", "J1.7", "J1.8")
    assert netlist.plug_by_id["J1"].pins[7].wires == netlist.plug_by_id["J1"].pins[5].wires


def test_several_pins_for_the_chains_of_a_supply() -> None:
    netlist = netlist_of(ONE_POINT.replace("kind: pulse", "kind: pulse, pins: 2"))
    assert pins_of(netlist, "J1")[:8] == ["6N", "6F", "6R", "F", "F", "C", "C", "spare"]


def test_a_wire_of_two_pins_is_not_split_over_two_plugs() -> None:
    netlist = netlist_of(
        ONE_POINT.replace(
            "{J1: {boards: [West, East], pins: 15}}",
            "{J1: {boards: [West, East], pins: 4}, J2: {boards: [West, East], pins: 4}}",
        ).replace("kind: pulse", "kind: pulse, pins: 2")
    )
    assert pins_of(netlist, "J1") == ["6N", "6F", "6R", "spare"]
    assert pins_of(netlist, "J2") == ["F", "F", "C", "C"]


def test_a_full_plug_says_how_many_pins_are_missing_and_where_there_is_room() -> None:
    railway = """
        boards: {West: , East: , North: }
        plugs:
          J1: {boards: [West, East], pins: 2}
          J2: {boards: [West, East], pins: 1}
          J3: {boards: [East, North], pins: 9}
          J4: {boards: [North, West], pins: 1, keep_empty: [1]}
        supplies: {PULSE: {kind: pulse, board: West}}
        strips: {B1: {board: East}}
        panels: {QUAY: {board: West}}
        points: {P6: {board: East}}
    """
    _, (problem,) = wired(railway)
    assert problem.code == "plug-full"
    assert problem.place.source == "plugs.J2.pins"
    # five wires, three pins
    assert problem.message == "J1 and J2 are full: 2 more pins are needed between East and West"
    assert problem.hint.endswith("J3 (East to North) has 9 free.")


def test_one_pin_too_few() -> None:
    _, (problem,) = wired(ONE_POINT.replace("pins: 15", "pins: 4"))
    assert problem.message == "J1 is full: 1 more pin is needed between East and West"
    assert problem.hint.endswith("No other plug has a free pin.")
    assert problems_of(ONE_POINT.replace("pins: 15", "pins: 5")) == []


def test_a_heavy_wire_that_finds_too_few_pins_side_by_side() -> None:
    """4 pins: 6N, 6F and 6R leave one, and F alone needs two."""
    heavy = ONE_POINT.replace("kind: pulse", "kind: pulse, pins: 2")
    _, (problem,) = wired(heavy.replace("pins: 15", "pins: 4"))
    assert "3 more pins are needed" in problem.message  # 3 + 2 + 2 are 7
    assert problems_of(heavy.replace("pins: 15", "pins: 7")) == []


def test_no_way_by_plugs() -> None:
    railway = IN_A_ROW.replace(", J2: {boards: [East, Mid], pins: 15}", "")
    _, (problem,) = wired(railway)
    assert (problem.code, problem.place.source) == ("no-way-by-plugs", "points.P9")
    assert problem.message.startswith("5 wires run between West and East (the first is L9.N to B1.1)")


def test_one_wire_that_finds_no_way() -> None:
    railway = """
        boards: {West: , Mid: , East: }
        plugs: {J1: {boards: [West, Mid], pins: 15}}
        supplies: {D: {kind: dc, board: West}}
        strips: {B1: {board: East}, A1: {board: West}}
        wires: [{from: A1.1, to: B1.1}]
    """
    _, (problem,) = wired(railway)
    assert (problem.code, problem.place.source) == ("no-way-by-plugs", "wires.0")
    assert problem.message == "a wire runs from A1.1 on West to B1.1 on East, and no plugs lead there"


def test_boards_of_supplies_and_panels_have_to_be_known() -> None:
    railway = ONE_POINT.replace("kind: pulse, board: West", "kind: pulse").replace("QUAY: {board: West}", "QUAY: ")
    assert problems_of(railway) == [("no-board", "panels.QUAY"), ("no-board", "supplies.PULSE")]


def test_a_plug_that_is_wrong_itself_is_left_out_without_a_word() -> None:
    """The reading stage has said so; that no way leads there would only follow from it."""
    for boards in ("[West]", "[West, West]", "[West, Nowhere]", "[West, Mid, East]"):
        railway = ONE_POINT.replace("[West, East]", boards)
        netlist, problems = wired(railway)
        assert problems == []
        assert netlist.plugs == ()
        beside = railway.replace("plugs: {", "plugs: {J2: {boards: [East, North], pins: 4}, ")
        assert problems_of(beside.replace("East: }", "East: , North: }")) == []


# Which way a wire goes.

DIAMOND = """
boards: {West: {at: [0, 0]}, North: {at: [1000, 0]}, South: {at: [1000, 1000]}, East: {at: [2000, 0]}}
supplies: {PULSE: {kind: pulse, board: West, at: [500, 500]}}
strips: {B1: {board: East, at: [500, 500]}}
devices: {H1: {kind: lamps, board: East, supply: D, at: [600, 500]}}
"""


def diamond(**places: str) -> dict[str, Any]:
    """West to East by North (J3, J4) or by South (J1, J2); a supply on West, lamps on East."""
    at = {name: {board: place.split() for board, place in zip(boards, both.split(","), strict=True)}
          for name, both in places.items() for boards in [PLUGS[name]]}  # fmt: skip
    return {
        "boards": {board: {} for board in ("West", "North", "South", "East")},
        "plugs": {name: {"boards": boards, "pins": "4", "at": at.get(name, {})} for name, boards in PLUGS.items()},
        "supplies": {"D": {"kind": "dc", "board": "West", "at": ["0", "0"]}},
        "strips": {"B1": {"board": "East", "at": ["0", "0"], "ways": "1"}},
        "devices": {"H1": {"kind": "lamps", "board": "East", "at": ["0", "0"]}},
    }


PLUGS = {"J1": ["West", "South"], "J2": ["South", "East"], "J3": ["West", "North"], "J4": ["North", "East"]}


def way_taken(railway: dict[str, Any]) -> list[str]:
    """The plugs through which the feed runs."""
    return [pin.partition(".")[0] for pin in passed(netlist_of(railway))["D.feed", "B1.1"]]


def test_by_least_wire() -> None:
    # by South 100 + 100 + 100 = 300, by North 50 + 190 + 50 = 290
    shorter = diamond(J1="100 0, 0 0", J2="100 0, 100 0", J3="50 0, 0 0", J4="100 90, 0 50")
    assert way_taken(shorter) == ["J3", "J4"]
    # by North 50 + 210 + 50 = 310
    longer = diamond(J1="100 0, 0 0", J2="100 0, 100 0", J3="50 0, 0 0", J4="100 110, 0 50")
    assert way_taken(longer) == ["J1", "J2"]


def test_as_much_wire_by_id() -> None:
    alike = diamond(J1="100 0, 0 0", J2="100 0, 100 0", J3="100 0, 0 0", J4="100 0, 100 0")
    assert way_taken(alike) == ["J1", "J2"]


def test_where_a_place_is_missing_the_other_way_is_taken_else_the_lower_id() -> None:
    assert way_taken(diamond(J3="50 0, 0 0", J4="100 90, 0 50")) == ["J3", "J4"]
    assert way_taken(diamond()) == ["J1", "J2"]


def test_fewer_plugs_before_less_wire() -> None:
    railway = diamond(J1="1 0, 0 0", J2="1 0, 1 0")
    railway["plugs"]["J9"] = {"boards": ["East", "West"], "pins": "4", "at": {"East": ["9", "900"]}}
    assert way_taken(railway) == ["J9"]


def test_a_way_that_is_full_gives_way_to_another_by_as_many_plugs() -> None:
    railway = diamond(J1="100 0, 0 0", J2="100 0, 100 0", J3="900 0, 0 0", J4="100 90, 0 50")
    railway["plugs"]["J2"]["pins"] = "1"
    netlist = netlist_of(railway)
    assert passed(netlist) == {("D.feed", "B1.1"): ("J1.1", "J2.1"), ("D.return", "H1.C"): ("J3.1", "J4.1")}


def test_a_full_plug_is_no_reason_for_a_way_by_more_plugs() -> None:
    railway = diamond()
    railway["plugs"]["J9"] = {"boards": ["East", "West"], "pins": "1"}
    _, (problem,) = wired(railway)
    assert problem.message == "J9 is full: 1 more pin is needed between East and West"
    assert problem.hint.endswith("J1 (West to South) has 4 free, J2 (South to East) has 4 free, "
                                 "J3 (West to North) has 4 free, J4 (North to East) has 4 free.")  # fmt: skip


def test_only_the_full_one_of_two_plugs_is_named() -> None:
    _, (problem,) = wired(IN_A_ROW.replace("[East, Mid], pins: 15", "[East, Mid], pins: 3"))
    assert problem.message == "J2 is full: 2 more pins are needed between East and Mid"
    assert problem.hint.endswith("J1 (West to Mid) has 12 free.")


# Chains, crossovers, lengths.


def test_a_chain_runs_outward_by_fewest_plugs_then_by_natural_order_of_board() -> None:
    """From A: C is one plug away, B10 and B2 two."""
    railway = """
        boards: {A: , B2: , B10: , C: }
        plugs: {J1: {boards: [A, C], pins: 20}, J2: {boards: [C, B2], pins: 20}, J3: {boards: [C, B10], pins: 20}}
        supplies: {D: {kind: dc, board: A}}
        strips: {S1: {board: B10}, S2: {board: B2}, S3: {board: C}, S4: {board: A}}
        devices:
          H1: {kind: lamps, board: B10}
          H2: {kind: lamps, board: B2}
          H3: {kind: lamps, board: C}
          H4: {kind: lamps, board: A}
    """
    returns = [text.split(" ", 1)[1] for text in wires_of(railway) if " C " in text]
    assert returns == lines("""
        C D.return > H4.C
        C H4.C > J1.2                    ; on board A, then C
        C J1.2 > H3.C
        C H3.C > J2.3                    ; B2; the feed has passed J2 out and back
        C J2.3 > H2.C
        C H2.C > J2.4                    ; back through C, and on to B10
        C J2.4 > J3.2
        C J3.2 > H1.C
    """)


def test_a_crossover_over_two_boards() -> None:
    """P7A on West, P7B on East: the second group's rows come from the first's, panel side to panel side."""
    assert wires_of(TWO_BOARDS + "points: {P7A: {board: West}, P7B: {board: East}}") == lines("""
        1 7N L7.N > A1.1/panel
        2 7N A1.1/layout > P7A.N
        3 7F L7.F > A1.2/panel
        4 7R L7.R > A1.3/panel
        5 7R A1.3/layout > P7A.R
        6 7N A1.1/panel > J1.1
        7 7N J1.1 > B1.1/panel
        8 7N B1.1/layout > P7B.N
        9 7R A1.3/panel > J1.2
        10 7R J1.2 > B1.2/panel
        11 7R B1.2/layout > P7B.R
        12 F PULSE.feed > A1.2/layout
        13 C PULSE.return > P7A.C
        14 C P7A.C > J1.3
        15 C J1.3 > P7B.C
    """)


def test_lengths_to_a_pin_by_hand() -> None:
    """A pin is where its plug is on that board; it is not needed where the boards stand."""
    netlist = netlist_of("""
        boards: {West: , East: }
        plugs: {J1: {boards: [West, East], pins: 4, at: {West: [1200, 300], East: [0, 300]}}}
        supplies: {D: {kind: dc, board: West, at: [200, 100]}}
        strips: {B1: {board: East, at: [400, 500], ways: 1}}
        devices: {H1: {kind: lamps, board: East, at: [100, 100]}}
    """)
    lengths = {(wire.start.name, wire.finish.name): wire.length for wire in netlist.wires}
    assert lengths == {
        ("B1.1", "H1.L"): 950,  # 300 + 400, slack 100 at the strip and 150 at the lamps
        ("D.feed", "J1.1"): 1500,  # 1000 + 200, 150 at each end
        ("J1.1", "B1.1"): 850,  # 400 + 200, 150 at the plug and 100 at the strip
        ("D.return", "J1.2"): 1500,
        ("J1.2", "H1.C"): 600,  # 100 + 200 + 300
    }


def test_a_plug_without_a_place_on_one_board_leaves_that_boards_wires_without_length() -> None:
    netlist = netlist_of("""
        boards: {West: , East: }
        plugs: {J1: {boards: [West, East], pins: 4, at: {West: [1200, 300]}}}
        supplies: {D: {kind: dc, board: West, at: [200, 100]}}
        strips: {B1: {board: East, at: [400, 500], ways: 1}}
        devices: {H1: {kind: lamps, board: East, at: [100, 100]}}
    """)
    assert [wire.length for wire in netlist.wires] == [950, 1500, None, 1500, None]


# The builder's own list.


@pytest.mark.parametrize(("start", "finish"), [("L6.N", "B1.1"), ("B1.1/panel", "L6.N")])
def test_a_listed_wire_between_boards_is_that_wire_on_every_board(start: str, finish: str) -> None:
    railway = ONE_POINT + f"wires: [{{from: {start}, to: {finish}, number: 37N bis, colour: BU, size: 24/0.2}}]"
    netlist = netlist_of(railway)
    assert wires_of(railway)[:4] == lines("""
        37N bis 6N L6.N > J1.1           ; its number is the first one's; each has a number of its own
        1 6N J1.1 > B1.1/panel
        2 6N B1.1/layout > P6.N
        3 6F L6.F > J1.2
    """)
    assert [(wire.colour, wire.size, wire.listed) for wire in netlist.wires[:2]] == [
        ("BU", "24/0.2", 0),
        ("BU", "24/0.2", None),
    ]


def test_listed_stretches_lead_a_wire_to_their_pin() -> None:
    railway = (
        ONE_POINT
        + """
wires:
  - {from: L6.R, to: J1.9, number: R1}
  - {from: J1.9, to: B1.3, number: R2}
  - {from: J1.2, to: B1.1, number: N2}
"""
    )
    assert wires_of(railway) == lines("""
        1 6N L6.N > J1.2                 ; one stretch is enough
        N2 6N J1.2 > B1.1/panel
        2 6N B1.1/layout > P6.N
        3 6F L6.F > J1.1                 ; the lowest free pin: 2 and 9 are the list's
        4 6F J1.1 > B1.2/panel
        R1 6R L6.R > J1.9
        R2 6R J1.9 > B1.3/panel
        5 6R B1.3/layout > P6.R
        6 F PULSE.feed > J1.3
        7 F J1.3 > B1.2/layout
        8 C PULSE.return > J1.4
        9 C J1.4 > P6.C
    """)


def test_a_listed_pin_on_the_middle_board() -> None:
    """Only the stretch in the middle is not listed."""
    railway = IN_A_ROW + "wires: [{from: L9.N, to: J1.15}, {from: J2.12, to: B1.1}, {from: J1.7, to: J2.7}]"
    netlist = netlist_of(railway)
    assert passed(netlist)["L9.N", "B1.1"] == ("J1.15", "J2.12")
    assert [text.split(" ", 1)[1] for text in wires_of(railway)[:3]] == lines("""
        9N L9.N > J1.15
        9N J1.15 > J2.12
        9N J2.12 > B1.1/panel
    """)
    # the third listed wire joins nothing of the rules: it is an extra one, on the middle board
    (extra,) = [wire for wire in netlist.wires if not wire.circuit]
    assert (extra.start.name, extra.finish.name, extra.board) == ("J1.7", "J2.7", "Mid")
    assert (extra.start.board, extra.finish.board) == ("Mid", "Mid")


def test_a_whole_way_by_the_list_may_be_longer_than_need_be() -> None:
    railway = diamond()
    railway["plugs"]["J9"] = {"boards": ["East", "West"], "pins": "4"}
    railway["wires"] = [
        {"from": "D.feed", "to": "J3.2"},
        {"from": "J3.2", "to": "J4.3"},
        {"from": "J4.3", "to": "B1.1"},
    ]
    netlist = netlist_of(railway)
    assert passed(netlist)["D.feed", "B1.1"] == ("J3.2", "J4.3")
    assert passed(netlist)["D.return", "H1.C"] == ("J9.1",)
    assert all(wire.circuit for wire in netlist.wires)


def test_a_listed_wire_to_a_pin_that_leads_away_is_an_extra_one() -> None:
    railway = IN_A_ROW.replace("boards: {", "boards: {North: , ").replace(
        "plugs: {", "plugs: {J8: {boards: [West, North], pins: 4}, "
    )
    netlist = netlist_of(railway + "wires: [{from: L9.N, to: J8.1}]")
    assert passed(netlist)["L9.N", "B1.1"] == ("J1.1", "J2.1")
    assert [wire.finish.name for wire in netlist.wires if not wire.circuit] == ["J8.1"]


def test_extra_wires_between_boards_are_split_as_well() -> None:
    railway = (
        TWO_BOARDS
        + """
wires:
  - {from: A1.1, to: B1.4, function: lamp, number: X, colour: PK, note: to the clock}
  - {from: A1.2, to: J1.5, function: lamp}
  - {from: J1.5, to: B1.5, function: lamp}
"""
    )
    assert wires_of(railway) == lines("""
        X L A1.1/layout > J1.1
        1 L J1.1 > B1.4/layout
        2 L A1.2/layout > J1.5
        3 L J1.5 > B1.5/layout
    """)
    netlist = netlist_of(railway)
    assert [wire.board for wire in netlist.wires] == ["West", "East", "West", "East"]
    assert {wire.note for wire in netlist.wires[:2]} == {"to the clock"}
    assert {wire.colour for wire in netlist.wires[:2]} == {"PK"}
    assert pins_of(netlist, "J1")[:5] == ["L", "spare", "spare", "spare", "L"]


def test_a_listed_wire_to_a_pin_of_plugs_further_on() -> None:
    """From West to a pin between Mid and East: through J1 to Mid, where J2 begins."""
    netlist = netlist_of(
        IN_A_ROW.replace("strips: {", "strips: {A1: {board: West}, ") + "wires: [{from: A1.5, to: J2.9}]"
    )
    assert [wire.board for wire in netlist.wires if not wire.circuit] == ["West", "Mid"]
    assert passed(netlist)["A1.5", "J2.9"] == ("J1.6",)


def test_listed_twice_as_a_whole() -> None:
    railway = ONE_POINT + "wires: [{from: L6.N, to: B1.1}, {from: B1.1, to: L6.N}]"
    assert problems_of(railway) == [("same-ends", "wires.1")]


def test_one_pin_listed_for_two_wires_leads_only_the_first() -> None:
    """The other is an extra wire, and the checks on copper look at what it joins."""
    netlist = netlist_of(ONE_POINT + "wires: [{from: L6.N, to: J1.5}, {from: L6.R, to: J1.5}]")
    assert passed(netlist)["L6.N", "B1.1"] == ("J1.5",)
    assert passed(netlist)["L6.R", "B1.3"] == ("J1.2",)
    assert [wire.start.name for wire in netlist.wires if not wire.circuit] == ["L6.R"]


def test_a_named_pin_and_others_for_a_heavy_wire() -> None:
    railway = ONE_POINT + "functions: {return: {pins: 2}}\nwires: [{from: PULSE.return, to: J1.9}]"
    assert passed(netlist_of(railway))["PULSE.return", "P6.C"] == ("J1.9", "J1.5")
    _, (problem,) = wired(railway.replace("J1.9", "J1.5").replace("pins: 15", "pins: 5"))
    assert problem.message == "J1 is full: 1 more pin is needed between East and West"


@pytest.mark.parametrize(
    ("end", "message"),
    [
        ("J1.16", "plug J1 has the pins 1 to 15, not '16'"),
        ("J1.x", "plug J1 has the pins 1 to 15, not 'x'"),
        ("J1.3", "pin 3 of plug J1 is kept empty"),
        ("J1.4/panel", "'J1.4/panel' names a side, and only a strip has sides"),
        ("J2.4", "there is no J2; did you mean J1?"),
    ],
)
def test_pins_that_cannot_be(end: str, message: str) -> None:
    railway = ONE_POINT.replace("pins: 15", "pins: 15, keep_empty: [3]") + f"wires: [{{from: L6.N, to: {end}}}]"
    _, (problem,) = wired(railway)
    assert (problem.code, problem.message) == ("bad-end", message)


def test_a_plug_is_called_as_it_is_painted() -> None:
    railway = ONE_POINT.replace("pins: 15", "pins: 15, shown: X/W, name: west joint")
    netlist = netlist_of(railway + "wires: [{from: L6.N, to: X/W.7, number: W1}]")
    assert (netlist.wires[0].number, netlist.wires[0].finish.name, netlist.wires[0].finish.shown) == (
        "W1",
        "J1.7",
        "X/W.7",
    )
    plug = netlist.plug_by_id["J1"]
    assert (plug.shown, plug.name, plug.facing("West"), plug.facing("East")) == ("X/W", "west joint", "East", "West")
    assert netlist.shown_id("J1") == "X/W"


def test_two_ways_by_parallel_boards_keep_the_better_half() -> None:
    """From West to East by three plugs, J5 last on both ways: what counts is the wire up to there."""

    def through(north: int) -> str:
        at = {"West": ["0", "0"], "Hub": ["0", "0"], "East": ["0", "0"]}
        pairs = {
            "J1": ("West", "South"), "J2": ("South", "Hub"), "J3": ("West", "North"), "J4": ("North", "Hub"),
            "J5": ("Hub", "East"),
        }  # fmt: skip
        far = {"South": ["0", "300"], "North": ["0", str(north)]}
        railway = {
            "boards": {board: {} for board in ("West", "North", "South", "Hub", "East")},
            "plugs": {
                name: {
                    "boards": list(pair),
                    "pins": "9",
                    # both plugs of South are 300 mm apart, those of North as far as asked
                    "at": {b: (far[b] if b in far and pair[1] == "Hub" else at.get(b, ["0", "0"])) for b in pair},
                }
                for name, pair in pairs.items()
            },
            "supplies": {"D": {"kind": "dc", "board": "West", "at": ["0", "0"]}},
            "strips": {"B1": {"board": "East", "at": ["0", "0"], "ways": "1"}},
            "devices": {"H1": {"kind": "lamps", "board": "East", "at": ["0", "0"]}},
        }
        return "".join(way_taken(railway))

    assert through(299) == "J3J4J5"
    assert through(301) == "J1J2J5"
    assert through(300) == "J1J2J5"


def test_a_listed_pin_of_a_plug_that_is_wrong_itself() -> None:
    """The reading stage has reported the plug; the listed wire stays as it is."""
    railway = TWO_BOARDS.replace("plugs: {", "plugs: {J2: {boards: [East, Nowhere], pins: 4}, ")
    netlist = netlist_of(railway + "wires: [{from: A1.1, to: J2.3}]")
    assert [(wire.start.name, wire.finish.name) for wire in netlist.wires] == [("A1.1", "J2.3")]


def test_a_listed_wire_to_a_strip_without_a_board() -> None:
    """That the strip says nothing of its board is told there, and not once more here."""
    railway = TWO_BOARDS.replace("B1: {board: East}", "B1: ") + "wires: [{from: A1.1, to: B1.3}]"
    assert problems_of(railway) == [("no-board", "strips.B1")]
