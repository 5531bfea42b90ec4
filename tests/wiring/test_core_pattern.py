"""The core pattern of trade practice, by hand: three ways a switch, feed daisy-chained, return from motor to motor.

Source of the pattern: common practice, no source (reference/trade.md, section 0) and section 5.3 of the format.
"""

import pytest
from wiring.wiring_builder import lines, netlist_of, way_heads, wire_texts, wires_of

ONE_STRIP = """
    boards: {West: {}}
    supplies: {PULSE: {kind: pulse}}
    strips: {A1: {ways: 12}}
"""


def test_two_points_on_one_strip_wire_by_wire() -> None:
    wires = wires_of(ONE_STRIP + "    points: {P5: , P6: }\n")
    assert wires == lines("""
        1 5N L5.N > A1.1/panel           ; way 1: the lever's wire first, then the device's
        2 5N A1.1/layout > P5.N
        3 5F L5.F > A1.2/panel           ; the feed's way has no device wire
        4 5R L5.R > A1.3/panel
        5 5R A1.3/layout > P5.R
        6 6N L6.N > A1.4/panel
        7 6N A1.4/layout > P6.N
        8 6F L6.F > A1.5/panel
        9 6R L6.R > A1.6/panel
        10 6R A1.6/layout > P6.R
        11 F PULSE.feed > A1.2/layout    ; the supply's feed chain
        12 F A1.2/layout > A1.5/layout link
        13 C PULSE.return > P5.C         ; then its device chain
        14 C P5.C > P6.C
    """)


@pytest.mark.parametrize("n", [1, 2, 4, 7])
def test_n_points_make_seven_n_wires(n: int) -> None:
    """Common practice, no source: 3n panel side, 2n layout side, 1 feed, n−1 links, n returns."""
    points = "".join(f"{{P{i}: }}"[1:-1] + ", " for i in range(1, n + 1))
    netlist = netlist_of(f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {{ways: 24}}}}\npoints: {{{points}}}")
    wires = netlist.wires
    assert len(wires) == 7 * n
    assert sum(wire.start.kind == "lever" for wire in wires) == 3 * n
    assert sum(wire.function in ("normal", "reverse") and wire.finish.kind == "device" for wire in wires) == 2 * n
    assert sum(wire.start.name == "PULSE.feed" for wire in wires) == 1
    assert sum(wire.link for wire in wires) == n - 1
    assert sum(wire.function == "return" for wire in wires) == n
    assert [wire.number for wire in wires] == list(range(1, 7 * n + 1))


def test_what_a_wire_says_of_itself() -> None:
    netlist = netlist_of(ONE_STRIP + "    points: {P5: }\n")
    normal, feed, back = netlist.wires[0], netlist.wires[5], netlist.wires[6]
    assert (normal.circuit, normal.function, normal.code, normal.stem, normal.mark) == ("5", "normal", "N", "5", "")
    assert (normal.colour, normal.size) == ("YE", "16/0.2")  # section 6: 16/0.2
    assert (feed.circuit, feed.function, feed.code, feed.head, feed.stem) == ("PULSE", "feed", "F", "F", "")
    assert (back.circuit, back.function, back.size) == ("PULSE", "return", "32/0.2")  # section 6: 32/0.2


def test_the_strip_way_by_way() -> None:
    netlist = netlist_of(ONE_STRIP + "    points: {P5: , P6: }\n")
    # section 6: on a marker a chain's cell shows the code alone and the strip's end names the supply
    assert way_heads(netlist, "A1") == ["5N", "F", "5R", "6N", "F", "6R", "", "", "", "", "", ""]
    strip = netlist.strip_by_id["A1"]
    assert strip.supplies == ("PULSE",)
    assert [way.state for way in strip.ways] == ["used"] * 6 + ["spare"] * 6
    feed = strip.ways[1]
    assert [wire.number for wire in feed.panel] == [3]
    assert [wire.number for wire in feed.layout] == [11, 12]


def test_a_crossover_on_one_board_shares_its_ways() -> None:
    assert wires_of(ONE_STRIP + "    points: {P6B: , P6A: }\n") == lines("""
        1 6N L6.N > A1.1/panel
        2 6N A1.1/layout > P6A.N         ; the device wires by device id
        3 6N A1.1/layout > P6B.N
        4 6F L6.F > A1.2/panel
        5 6R L6.R > A1.3/panel
        6 6R A1.3/layout > P6A.R
        7 6R A1.3/layout > P6B.R
        8 F PULSE.feed > A1.2/layout
        9 C PULSE.return > P6A.C
        10 C P6A.C > P6B.C
    """)


def test_a_crossover_over_two_boards_has_a_group_on_each() -> None:
    netlist = netlist_of("""
        boards: {West: {}, East: {}}
        supplies: {PULSE: {kind: pulse, board: West}}
        strips: {A1: {board: West}, B1: {board: East}}
        points: {P6A: {board: West}, P6B: {board: East}}
    """)
    # 5.1: only the first group carries the chain's row; the further group's rows come from the group before,
    # panel side to panel side; they stand where the row's lever wire would stand.
    assert wire_texts(netlist) == lines("""
        1 6N L6.N > A1.1/panel
        2 6N A1.1/layout > P6A.N
        3 6F L6.F > A1.2/panel
        4 6R L6.R > A1.3/panel
        5 6R A1.3/layout > P6A.R
        6 6N A1.1/panel > B1.1/panel
        7 6N B1.1/layout > P6B.N
        8 6R A1.3/panel > B1.2/panel
        9 6R B1.2/layout > P6B.R
        10 F PULSE.feed > A1.2/layout
        11 C PULSE.return > P6A.C
        12 C P6A.C > P6B.C
    """)
    assert way_heads(netlist, "B1")[:3] == ["6N", "6R", ""]
    assert netlist.strip_by_id["B1"].supplies == ("PULSE",)


def test_three_groups_are_strung_one_after_the_other() -> None:
    wires = wires_of("""
        boards: {West: {}}
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: , A2: , A3: }
        points: {P6A: {strip: A2}, P6B: {strip: A3}, X7: {lever: 6, strip: A1}}
    """)
    # The groups stand in order of their first devices (P6A, P6B, X7); the strips in natural order of id.
    assert wires[:9] == lines("""
        1 6N A3.1/panel > A1.1/panel
        2 6N A1.1/layout > X7.N
        3 6R A3.2/panel > A1.2/panel
        4 6R A1.2/layout > X7.R
        5 6N L6.N > A2.1/panel
        6 6N A2.1/layout > P6A.N
        7 6F L6.F > A2.2/panel
        8 6R L6.R > A2.3/panel
        9 6R A2.3/layout > P6A.R
    """)
    assert wires[9] == "10 6N A2.1/panel > A3.1/panel"


def test_section_and_lamps() -> None:
    netlist = netlist_of("""
        boards: {West: {}}
        supplies: {CAB: {kind: track}, LIGHTS: {kind: dc}}
        strips: {A1: }
        devices:
          H1: {kind: lamps}
          S2: {kind: section, lever: 11}
          S1: {kind: section, lever: 9}
          H2: {kind: lamps}
    """)
    # Circuits with a lever come first (9, 11), then the others by device id (H1, H2).
    assert wire_texts(netlist) == lines("""
        1 9T L9.1 > A1.1/panel
        2 9Ts L9.2 > A1.2/panel
        3 9Ts A1.2/layout > S1.A
        4 11T L11.1 > A1.3/panel
        5 11Ts L11.2 > A1.4/panel
        6 11Ts A1.4/layout > S2.A
        7 H1L A1.5/layout > H1.L
        8 H2L A1.6/layout > H2.L
        9 T CAB.A > A1.1/layout          ; supplies by id: CAB's feed chain, then its device chain
        10 T A1.1/layout > A1.3/layout link
        11 U CAB.B > S1.B
        12 U S1.B > S2.B
        13 L LIGHTS.feed > A1.5/layout   ; the row's function is lamp, so the chain's code is L
        14 L A1.5/layout > A1.6/layout link
        15 C LIGHTS.return > H1.C
        16 C H1.C > H2.C
    """)
    assert way_heads(netlist, "A1")[:7] == ["T", "9Ts", "T", "11Ts", "L", "L", ""]
    assert netlist.strip_by_id["A1"].supplies == ("CAB", "LIGHTS")


def test_swapped_changes_normal_and_reverse_at_the_motor_alone() -> None:
    plain = wires_of(ONE_STRIP + "    points: {P5: }\n")
    swapped = wires_of(ONE_STRIP + "    points: {P5: {swapped: yes}}\n")
    assert swapped[1] == "2 5N A1.1/layout > P5.R"
    assert swapped[4] == "5 5R A1.3/layout > P5.N"
    assert [w for i, w in enumerate(swapped) if i not in (1, 4)] == [w for i, w in enumerate(plain) if i not in (1, 4)]


def test_in_a_crossover_one_motor_can_be_swapped() -> None:
    wires = wires_of(ONE_STRIP + "    points: {P6A: , P6B: {swapped: yes}}\n")
    assert wires[1:3] == ["2 6N A1.1/layout > P6A.N", "3 6N A1.1/layout > P6B.R"]


def test_a_feed_at_the_panel_takes_no_ways() -> None:
    netlist = netlist_of("""
        supplies: {PULSE: {kind: pulse, feed_at: panel}}
        strips: {A1: }
        points: {P5: , P6: }
    """)
    assert wire_texts(netlist) == lines("""
        1 5N L5.N > A1.1/panel
        2 5N A1.1/layout > P5.N
        3 5R L5.R > A1.2/panel
        4 5R A1.2/layout > P5.R
        5 6N L6.N > A1.3/panel
        6 6N A1.3/layout > P6.N
        7 6R L6.R > A1.4/panel
        8 6R A1.4/layout > P6.R
        9 F PULSE.feed > L5.F            ; daisy-chained from lever to lever
        10 F L5.F > L6.F
        11 C PULSE.return > P5.C
        12 C P5.C > P6.C
    """)
    assert way_heads(netlist, "A1")[:5] == ["5N", "5R", "6N", "6R", ""]
    assert netlist.strip_by_id["A1"].supplies == ("PULSE",)


def test_a_feed_at_the_panel_leaves_rows_without_a_lever_on_the_strip() -> None:
    """Lamps have no lever to which the feed could go: their way stays."""
    assert wires_of("""
        supplies: {LIGHTS: {kind: dc, feed_at: panel}}
        strips: {A1: }
        devices: {H1: {kind: lamps}}
    """) == lines("""
        1 H1L A1.1/layout > H1.L
        2 L LIGHTS.feed > A1.1/layout
        3 C LIGHTS.return > H1.C
    """)
