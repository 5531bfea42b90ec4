"""Kinds that need more: several supplies, rows across, contacts fed behind the panel. Section 4 of the format.

The two kinds are those of the format itself; their wires were worked out by hand.
"""

from wiring.wiring_builder import lines, netlist_of, problems_of, wires_of

STALL_MOTOR = """
supplies: {D: {kind: dc}, CAB: {kind: track}}
strips: {A1: }
kinds:
  stall-motor:
    terminals: {1: motor, 8: motor, 2: throw in normal, 4: its arm, 3: throw in reverse, vee: crossing}
    supply: {drive: dc, rails: track}
    lever_type: changeover
    group:
      - {function: drive-a, contact: A, terminal: 1}
      - {function: drive-b, contact: B, terminal: 8}
      - {function: track, terminal: 2, chain: rails.A, swap: rails}
      - {function: frog, terminal: 4, across: vee}
      - {function: track-return, terminal: 3, chain: rails.B, swap: rails}
    chain: [{function: feed, contact: P, supply: drive.feed}, {function: return, contact: M, supply: drive.return}]
    inside: {normal: [[2, 4]], reverse: [[3, 4]]}
"""


def test_a_stall_motor_that_switches_its_crossing() -> None:
    assert wires_of(STALL_MOTOR + "points: {P5: {kind: stall-motor}}") == lines("""
        1 5A L5.A > A1.1/panel
        2 5A A1.1/layout > P5.1
        3 5B L5.B > A1.2/panel
        4 5B A1.2/layout > P5.8
        5 5T A1.3/layout > P5.2          ; no contact: the rail comes by the chain
        6 5X A1.4/panel > P5.vee         ; across: what lands opposite the terminal, on the panel side
        7 5X A1.4/layout > P5.4
        8 5U A1.5/layout > P5.3
        9 T CAB.A > A1.3/layout          ; supplies by id: CAB, then D
        10 U CAB.B > A1.5/layout
        11 F D.feed > L5.P               ; a chain row with a contact: feeds inside the panel
        12 C D.return > L5.M
    """)


def test_two_stall_motors_share_their_chains() -> None:
    wires = wires_of(STALL_MOTOR + "points: {P5: {kind: stall-motor}, P6: {kind: stall-motor}}")
    assert wires[16:] == lines("""
        17 T CAB.A > A1.3/layout
        18 T A1.3/layout > A1.8/layout link
        19 U CAB.B > A1.5/layout
        20 U A1.5/layout > A1.10/layout link
        21 F D.feed > L5.P
        22 F L5.P > L6.P
        23 C D.return > L5.M
        24 C L5.M > L6.M
    """)


def test_each_supply_of_a_kind_is_found_by_itself() -> None:
    two = STALL_MOTOR.replace("CAB: {kind: track}", "CAB: {kind: track}, CAB2: {kind: track}")
    assert problems_of(two + "points: {P5: {kind: stall-motor}}") == [("several-supplies-fit", "points.P5")]
    named = netlist_of(two + "points: {P5: {kind: stall-motor, supply: CAB2}}")
    assert {wire.circuit for wire in named.wires} == {"5", "CAB2", "D"}
    other = STALL_MOTOR.replace("CAB: {kind: track}", "CAB: {kind: ac}") + "points: {P5: {kind: stall-motor}}"
    assert problems_of(other) == [("no-supply-fits", "points.P5")]


def test_a_supply_for_one_purpose_alone() -> None:
    two = STALL_MOTOR.replace("CAB: {kind: track}", "CAB: {kind: track}, CAB2: {kind: track}")
    named = netlist_of(two + "points: {P5: {kind: stall-motor, supplies: {rails: CAB2}}}")
    assert {wire.circuit for wire in named.wires} == {"5", "CAB2", "D"}
    wrong = two + "points: {P5: {kind: stall-motor, supplies: {rails: D}}}"
    assert problems_of(wrong) == [("wrong-supply", "points.P5.supplies.rails")]
    unknown = two + "points: {P5: {kind: stall-motor, supplies: {rails: CAB9}}}"
    assert problems_of(unknown) == []  # the reading stage has said so


def test_across_to_a_thing_beside_the_lever() -> None:
    railway = """
        supplies: {D: {kind: dc}}
        strips: {A1: }
        kinds:
          relay: {terminals: {T: }, supply: dc, lever_type: on-off,
                  group: [{function: lamp, terminal: T, across: lamp}],
                  chain: [{function: feed, contact: 1, supply: feed}]}
        devices: {X: {kind: relay, lever: 1}, Y: {kind: relay}}
    """
    assert wires_of(railway) == lines("""
        1 1L L1.lamp > A1.1/panel
        2 1L A1.1/layout > X.T
        3 YL A1.2/layout > Y.T           ; no lever: nothing beside it, and no contact to feed
        4 F D.feed > L1.1
    """)


def test_a_device_that_serves_as_a_supply() -> None:
    railway = """
        supplies: {CAB: {kind: track}}
        strips: {A1: }
        kinds:
          reverser:
            terminals: {inA: , inB: , outA: , B: }
            supply: track
            chain: [{function: track, terminal: inA, supply: A}, {function: track-return, terminal: inB, supply: B}]
            gives: {A: outA, B: }
        devices:
          REV: {kind: reverser, supply: CAB, strip: A1}
          S1: {kind: section, lever: 1, supply: REV}
    """
    assert [wire.partition(" ")[2] for wire in wires_of(railway)] == lines("""
        1T L1.1 > A1.1/panel
        1Ts L1.2 > A1.2/panel
        1Ts A1.2/layout > S1.A
        CABT CAB.A > REV.inA
        CABU CAB.B > REV.inB
        REVT REV.outA > A1.1/layout
        REVU REV.B > S1.B
    """)


def test_a_three_way_point_by_buttons_and_diodes() -> None:
    wires = wires_of("""
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: }
        kinds:
          three-way:
            terminals: {A: , B: , C: , D: , common: shared end}
            supply: pulse
            lever_type: buttons
            group:
              - {function: feed, contact: F, chain: feed}
              - {function: reverse, mark: l, contact: left, diodes: [B, D]}
              - {function: normal, contact: centre, diodes: [B, C]}
              - {function: reverse, mark: r, contact: right, diodes: [A, C]}
              - {function: reverse, mark: A, terminal: A}
              - {function: normal, mark: B, terminal: B}
              - {function: normal, mark: C, terminal: C}
              - {function: reverse, mark: D, terminal: D}
            chain: [{function: return, terminal: common, supply: return}]
        points: {P7: {kind: three-way}}
    """)
    assert wires == lines("""
        1 7F L7.F > A1.1/panel
        2 7Rl L7.left > A1.2/panel
        3 7N L7.centre > A1.3/panel
        4 7Rr L7.right > A1.4/panel
        5 7RA A1.5/layout > P7.A
        6 7NB A1.6/layout > P7.B
        7 7NC A1.7/layout > P7.C
        8 7RD A1.8/layout > P7.D
        9 F PULSE.feed > A1.1/layout
        10 C PULSE.return > P7.common
    """)


def test_rows_that_depend_on_the_lever() -> None:
    railway = """
        supplies: {D: {kind: dc}}
        strips: {A1: }
        levers: {1: {type: latching}, 2: {type: sprung}}
        kinds:
          own:
            terminals: {T: , U: , V: }
            supply: dc
            lever_type: sprung
            group:
              - {function: normal, contact: N, terminal: T}
              - {function: reverse, contact: R, terminal: U, unless: [latching]}
              - {function: lamp, terminal: V, only: [latching]}
        devices: {X1: {kind: own, lever: 1}, X2: {kind: own, lever: 2}}
    """
    assert wires_of(railway) == lines("""
        1 1N L1.N > A1.1/panel
        2 1N A1.1/layout > X1.T
        3 1L A1.2/layout > X1.V
        4 2N L2.N > A1.3/panel
        5 2N A1.3/layout > X2.T
        6 2R L2.R > A1.4/panel
        7 2R A1.4/layout > X2.U
    """)
