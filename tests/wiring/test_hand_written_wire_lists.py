"""Whole railways, wire by wire, with every length: written by hand from section 5 of the format, before they were run.

The arithmetic stands behind each wire: |dx| + |dy|, then the slack of both ends (strip 100, device, panel or pin 150),
rounded up to 50.
"""

from textwrap import dedent

from wiring_builder import lines, netlist_of, wire_text

from labelgen.model.netlist import Netlist


def measured(netlist: Netlist) -> list[str]:
    """`1 5N L5.N > A1.1/panel, HW2, 950`: number, head, ends, holes if any, length."""
    return [
        ", ".join([wire_text(wire), *([" ".join(wire.holes)] if wire.holes else []), str(wire.length)])
        for wire in netlist.wires
    ]


def test_four_boards_and_plugs_of_which_one_fills_up() -> None:
    """Lever 2 works a crossover over two boards. J1 has five pins to give, so the last wires go by J2."""
    railway = dedent("""\
        boards:
          West: {size: [1200, 600], at: [0, 0]}
          Mid: {size: [1200, 600], right_of: West}
          East: {size: [1200, 600], right_of: Mid}
          Yard: {size: [600, 600], at: [2400, 600]}
        plugs:
          J1: {boards: [West, Mid], pins: 6, at: {West: [1190, 300], Mid: [10, 300]}, keep_empty: [2]}
          J2: {boards: [Mid, West], pins: 15, at: {West: [1190, 500], Mid: [10, 500]}}
          J3: {boards: [Mid, East], pins: 25, at: {Mid: [1190, 300], East: [10, 300]}}
          J4: {boards: [East, Yard], pins: 9, at: {East: [300, 590], Yard: [300, 10]}}
        supplies:
          PULSE: {kind: pulse, board: Mid, at: [50, 500], pins: 2}
        strips:
          A1: {board: West, at: [300, 500], measured: 110}
          M1: {board: Mid, at: [600, 500], measured: 110}
          E1: {board: East, at: [600, 300], measured: 110}
          Y1: {board: Yard, at: [300, 300], measured: 110}
        panels:
          QUAY: {board: West, at: [600, 590], size: [400, 180], levers: {1: [10, 15], 2: [20, 15], 3: [30, 15]}}
        points:
          P1: {board: West, at: [350, 200]}
          P2A: {board: Mid, at: [900, 250]}
          P2B: {board: East, at: [200, 250]}
          P3: {board: Yard, at: [200, 300]}
    """)
    # From the levers' holes to the panel's exit at 200, 180: lever 1 130, lever 2 30, lever 3 130 mm.
    expected = """
        1 1N L1.N > A1.1/panel, 850 ; 130 + 355 + 90 = 575, + 250
        2 1N A1.1/layout > P1.N, 700 ; 105 + 300, + 250
        3 1F L1.F > A1.2/panel, 850 ; 130 + 345 + 90, + 250
        4 1R L1.R > A1.3/panel, 850 ; 130 + 335 + 90, + 250
        5 1R A1.3/layout > P1.R, 650 ; 85 + 300, + 250
        6 2N M1.1/panel > J3.1, 1100 ; 645 + 200, + 250
        7 2N J3.1 > E1.1/panel, 800 ; 535, + 250
        8 2N E1.1/layout > P2B.N, 650 ; 345 + 50, + 250
        9 2R M1.3/panel > J3.2, 1100 ; 625 + 200, + 250
        10 2R J3.2 > E1.2/panel, 800 ; 545, + 250
        11 2R E1.2/layout > P2B.R, 700 ; 355 + 50, + 250
        12 2N L2.N > J1.1, 1250 ; 30 + 590 + 290, + 300
        13 2N J1.1 > M1.1/panel, 1000 ; 535 + 200, + 250
        14 2N M1.1/layout > P2A.N, 900 ; 355 + 250, + 250
        15 2F L2.F > J1.3, 1250 ; pin 2 is kept empty
        16 2F J1.3 > M1.2/panel, 1000 ; 545 + 200, + 250
        17 2R L2.R > J1.4, 1250
        18 2R J1.4 > M1.3/panel, 1050 ; 555 + 200, + 250
        19 2R M1.3/layout > P2A.R, 850 ; 335 + 250, + 250
        20 3N L3.N > J1.5, 1350 ; 130 + 590 + 290, + 300
        21 3N J1.5 > J3.3, 1500 ; 1180, + 300
        22 3N J3.3 > J4.1, 900 ; 290 + 290, + 300
        23 3N J4.1 > Y1.1/panel, 600 ; 55 + 290, + 250
        24 3N Y1.1/layout > P3.N, 300 ; 45, + 250
        25 3F L3.F > J1.6, 1350 ; the last pin of J1
        26 3F J1.6 > J3.4, 1500
        27 3F J3.4 > J4.2, 900
        28 3F J4.2 > Y1.2/panel, 600 ; 45 + 290, + 250
        29 3R L3.R > J2.1, 1150 ; 130 + 590 + 90, + 300
        30 3R J2.1 > J3.5, 1700 ; 1180 + 200, + 300
        31 3R J3.5 > J4.3, 900
        32 3R J4.3 > Y1.3/panel, 600 ; 35 + 290, + 250
        33 3R Y1.3/layout > P3.R, 350 ; 65, + 250
        34 F PULSE.feed > M1.2/layout, 800 ; 505, + 250
        35 F M1.2/layout > J2.2, 800 ; 545, + 250; two pins, 2 and 3
        36 F J2.2 > A1.2/layout, 1200 ; 935, + 250
        37 F A1.2/layout > J2.4, 1200 ; back again, to the board that is two plugs from the supply
        38 F J2.4 > J3.6, 1700
        39 F J3.6 > J4.4, 900
        40 F J4.4 > Y1.2/layout, 600
        41 C PULSE.return > P2A.C, 1400 ; 850 + 250, + 300
        42 C P2A.C > J3.8, 650 ; 290 + 50, + 300; of the boards one plug away, East comes before West
        43 C J3.8 > P2B.C, 550 ; 190 + 50, + 300
        44 C P2B.C > J3.10, 550
        45 C J3.10 > J2.6, 1700
        46 C J2.6 > P1.C, 1450 ; 840 + 300, + 300
        47 C P1.C > J2.8, 1450
        48 C J2.8 > J3.12, 1700
        49 C J3.12 > J4.6, 900
        50 C J4.6 > P3.C, 700 ; 100 + 290, + 300
    """
    assert measured(netlist_of(railway)) == lines(expected)


def test_a_panel_over_holes_a_signal_above_and_a_slow_motor_on_the_next_board() -> None:
    railway = dedent("""\
        boards:
          West: {size: [1200, 600], at: [0, 0], holes: {HW1: {at: [100, 550]}, HW2: {at: [600, 500]}}}
          East: {size: [1200, 600], right_of: West}
        supplies:
          PULSE: {kind: pulse, board: West, at: [50, 500]}
          DRIVE: {kind: dc, board: West, at: [60, 450]}
          CAB: {kind: track, board: West, at: [60, 400]}
        strips:
          A1: {board: West, at: [300, 500], measured: 110}
          E1: {board: East, at: [600, 300], measured: 110, way_1: front, panel_side: left}
        panels:
          QUAY: {board: West, at: [600, 590], size: [400, 180], levers: {5: [5, 12], 7: [10, 15], S1: [30, 15]}}
        points:
          P5: {board: West, at: [350, 200]}
          P7: {board: East, at: [600, 100], kind: stall-motor}
        devices:
          S1: {kind: signal-2-aspect, lever: S1, board: West, at: [500, 100], supply: DRIVE}
    """)
    # To the exit: lever 5 210, lever 7 and S1 130 mm; then from 600, 590 by HW2 90 mm straight up the board.
    expected = """
        1 5N L5.N > A1.1/panel, HW2, 950 ; 210 + 90 + 355, + 250
        2 5N A1.1/layout > P5.N, 700 ; 105 + 300, + 250
        3 5F L5.F > A1.2/panel, HW2, 900 ; 210 + 90 + 345, + 250
        4 5R L5.R > A1.3/panel, HW2, 900 ; 210 + 90 + 335, + 250
        5 5R A1.3/layout > P5.R, 650 ; 85 + 300, + 250
        6 S1Lr LS1.N > A1.4/panel, HW2, 800 ; 130 + 90 + 325, + 250
        7 S1Lr A1.4/layout > S1.R, HW2, 1100 ; 325 + 100 + 400, + 250
        8 S1F LS1.F > A1.5/panel, HW2, 800 ; 130 + 90 + 315, + 250
        9 S1Lg LS1.R > A1.6/panel, HW2, 800 ; 130 + 90 + 305, + 250
        10 S1Lg A1.6/layout > S1.G, HW2, 1100 ; 305 + 100 + 400, + 250
        11 7A L7.A > E1.1/panel, HW2, 1850 ; 130 + 90 + 1200 + 145, + 250
        12 7A E1.1/layout > P7.1, 550 ; 255, + 250
        13 7B L7.B > E1.2/panel, HW2, 1850 ; 130 + 90 + 1200 + 155, + 250
        14 7B E1.2/layout > P7.8, 500 ; 245, + 250
        15 7T E1.3/layout > P7.2, 500 ; 235, + 250
        16 7X E1.4/panel > P7.vee, 500 ; 225, + 250
        17 7X E1.4/layout > P7.4, 500
        18 7U E1.5/layout > P7.3, 500 ; 215, + 250
        19 T CAB.A > E1.3/layout, 2100 ; 1740 + 65, + 250
        20 U CAB.B > E1.5/layout, 2100 ; 1740 + 85, + 250
        21 DRIVEF DRIVE.feed > L7.P, HW1, 1150 ; by either hole 680, + 130, + 300: the tie goes to HW1
        22 DRIVEF L7.P > A1.5/layout, HW2, 800 ; 130 + 90 + 315, + 250
        23 DRIVEC DRIVE.return > L7.M, HW1, 1150
        24 DRIVEC DRIVE.return > S1.C, HW1, 1300 ; 140 + 400 + 450, + 300: by HW2 it would be 100 more
        25 PULSEF PULSE.feed > A1.2/layout, 500 ; 205, + 250
        26 PULSEC PULSE.return > P5.C, 900 ; 300 + 300, + 300
    """
    assert measured(netlist_of(railway)) == lines(expected)


def test_ways_in_any_order_a_lever_08_and_a_crossover_on_two_strips_of_one_board() -> None:
    """What names ways comes first, then what names a strip, then the rest in natural order of lever: 08 before 8."""
    railway = """
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: {ways: 9}, A10: {taken: {2: bell}}, A2: {ways: 3}}
        points:
          P8: {strip: A1, ways: [4, 9, 2]}
          P12A: {strip: A2}
          P12B: {strip: A10, swapped: yes}
          P08:
    """
    expected = """
        1 8R L8.R > A1.2/panel ; ways in row order: normal 4, feed 9, reverse 2
        2 8R A1.2/layout > P8.R
        3 8N L8.N > A1.4/panel
        4 8N A1.4/layout > P8.N
        5 08N L08.N > A1.5/panel ; 1 to 3 is no free run
        6 08N A1.5/layout > P08.N
        7 08F L08.F > A1.6/panel
        8 08R L08.R > A1.7/panel
        9 08R A1.7/layout > P08.R
        10 8F L8.F > A1.9/panel
        11 12N L12.N > A2.1/panel ; A2 before A10
        12 12N A2.1/layout > P12A.N
        13 12F L12.F > A2.2/panel
        14 12R L12.R > A2.3/panel
        15 12R A2.3/layout > P12A.R
        16 12N A2.1/panel > A10.3/panel ; two rows: way 1 alone is no room, way 2 is taken
        17 12N A10.3/layout > P12B.R ; swapped
        18 12R A2.3/panel > A10.4/panel
        19 12R A10.4/layout > P12B.N
        20 F PULSE.feed > A1.6/layout
        21 F A1.6/layout > A1.9/layout link
        22 F A1.9/layout > A2.2/layout
        23 C PULSE.return > P8.C ; by each device's first way: P8 2, P08 5, then A2, A10
        24 C P8.C > P08.C
        25 C P08.C > P12A.C
        26 C P12A.C > P12B.C
    """
    assert [wire_text(wire) for wire in netlist_of(railway).wires] == lines(expected)
