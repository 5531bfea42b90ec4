"""Circuits and kinds: one lever, one kind, one supply; contacts; swapping; the builder's own kinds."""

import pytest
from wiring.wiring_builder import lines, netlist_of, problems_of, way_heads, wired, wires_of

PULSE = "supplies: {PULSE: {kind: pulse}, LIGHTS: {kind: dc}}\nstrips: {A1: }\n"


@pytest.mark.parametrize(
    ("point", "lever"),
    [
        ("P5", "5"),
        ("P6A", "6"),
        ("P6B", "6"),
        ("P6C", "6C"),  # only a last A or B is dropped
        ("P08", "08"),
        ("Y3", "Y3"),  # a leading P only
        ("p5", "p5"),
        ("A", "A"),  # nothing would be left
        ("PB", "B"),
        ("P", "P"),
        ("PP1", "P1"),
    ],
)
def test_a_points_lever_when_it_is_left_out(point: str, lever: str) -> None:
    assert netlist_of(PULSE + f"points: {{{point}: }}").circuits[0].lever == lever


def test_lever_08_is_not_lever_8() -> None:
    netlist = netlist_of(PULSE + "points: {P8: , P08: , X: {lever: 8}}")
    assert [(circuit.id, circuit.devices) for circuit in netlist.circuits] == [("08", ("P08",)), ("8", ("P8", "X"))]
    assert way_heads(netlist, "A1")[:6] == ["08N", "F", "08R", "8N", "F", "8R"]


def test_a_lever_and_a_device_may_have_the_same_id() -> None:
    """Lever ids are a space of their own: lever 11 and the lamps 11 are two circuits."""
    railway = PULSE + "points: {P11: }\ndevices: {11: {kind: lamps}}"
    assert wires_of(railway) == lines("""
        1 11N L11.N > A1.1/panel
        2 11N A1.1/layout > P11.N
        3 11F L11.F > A1.2/panel
        4 11R L11.R > A1.3/panel
        5 11R A1.3/layout > P11.R
        6 11L A1.4/layout > 11.L
        7 LIGHTSL LIGHTS.feed > A1.4/layout
        8 LIGHTSC LIGHTS.return > 11.C
        9 PULSEF PULSE.feed > A1.2/layout
        10 PULSEC PULSE.return > P11.C
    """)


def test_another_device_has_no_lever_unless_it_names_one() -> None:
    netlist = netlist_of(PULSE + "devices: {P5: {kind: twin-coil}, P7: {kind: twin-coil, lever: 7}}")
    assert [(circuit.id, circuit.lever) for circuit in netlist.circuits] == [("7", "7"), ("P5", None)]


def test_one_lever_works_one_kind_on_one_supply() -> None:
    railway = PULSE.replace("LIGHTS: {kind: dc}", "P2: {kind: pulse}, CAB: {kind: track}")
    devices = "devices: {S1: {kind: section, lever: 5}, X: {kind: twin-coil, lever: 5, supply: P2}}\n"
    netlist, problems = wired(railway + "points: {P5: {supply: PULSE}}\n" + devices)
    assert [(p.code, p.place.source) for p in problems] == [
        ("lever-works-two-kinds", "devices.S1"),
        ("lever-works-two-kinds", "devices.X"),
    ]
    assert problems[0].message == "lever 5 works P5 (twin-coil on PULSE) and S1 (section on CAB)"
    assert netlist.circuits[0].devices == ("P5",)


@pytest.mark.parametrize("lever_type", ["passing", "latching", "sprung"])
def test_levers_with_the_same_contacts_will_do(lever_type: str) -> None:
    assert netlist_of(PULSE + f"levers: {{5: {{type: {lever_type}}}}}\npoints: {{P5: }}").levers[0].type == lever_type


def test_a_lever_that_lacks_a_contact() -> None:
    _, problems = wired(PULSE + "levers: {5: {type: on-off}}\npoints: {P5: }")
    assert [(p.code, p.place.source) for p in problems] == [("lever-lacks-contact", "levers.5.type")]
    assert problems[0].message == "lever 5 is on-off, which has no contact N; P5 (twin-coil) needs N, F, R"
    assert problems[0].hint.startswith("The contacts of on-off are 1, 2.")


@pytest.mark.parametrize("kind", ["lamps", "section"])
def test_what_has_no_pair_cannot_be_swapped(kind: str) -> None:
    railway = "supplies: {D: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: }\n"
    device = f"devices: {{X: {{kind: {kind}, lever: 1, swapped: yes}}}}"
    assert problems_of(railway + device) == [("cannot-swap", "devices.X.swapped")]


OWN_KINDS = """
supplies: {D: {kind: dc}}
strips: {A1: }
kinds:
  motor:
    terminals: {a: , b: }
    supply: dc
    lever_type: changeover
    group:
      - {function: drive-a, contact: A, terminal: a}
      - {function: drive-b, contact: B, terminal: b}
  signal:
    terminals: {g: , r: , c: }
    supply: dc
    lever_type: rotary
    group:
      - {function: lamp, mark: g, contact: green, terminal: g}
      - {function: lamp, mark: r, contact: red, terminal: r}
      - {function: feed, contact: F, chain: feed}
    chain: [{function: return, terminal: c, supply: return}]
  points-with-marks:
    terminals: {n: , r: }
    supply: dc
    group:
      - {function: normal, mark: x, terminal: n}
      - {function: reverse, mark: y, terminal: r}
"""


def test_a_kind_of_the_builders_own() -> None:
    assert wires_of(OWN_KINDS + "devices: {S7: {kind: signal, lever: 7}}") == lines("""
        1 7Lg L7.green > A1.1/panel      ; the mark ends the head, so that the lamps are not all 7L
        2 7Lg A1.1/layout > S7.g
        3 7Lr L7.red > A1.2/panel
        4 7Lr A1.2/layout > S7.r
        5 7F L7.F > A1.3/panel
        6 F D.feed > A1.3/layout
        7 C D.return > S7.c
    """)


def test_a_swapped_motor_changes_its_drive_wires() -> None:
    wires = wires_of(OWN_KINDS + "devices: {M1: {kind: motor, lever: 1, swapped: yes}}")
    assert wires == lines("""
        1 1A L1.A > A1.1/panel
        2 1A A1.1/layout > M1.b
        3 1B L1.B > A1.2/panel
        4 1B A1.2/layout > M1.a
    """)


def test_rows_of_different_marks_are_no_pair() -> None:
    assert problems_of(OWN_KINDS + "devices: {X: {kind: points-with-marks, swapped: yes}}") == [
        ("cannot-swap", "devices.X.swapped")
    ]


def test_a_kind_of_the_builders_own_goes_over_the_built_in_one() -> None:
    railway = "supplies: {D: {kind: dc}}\nstrips: {A1: }\npoints: {P1: }\n"
    assert wires_of(railway + "kinds: {twin-coil: {terminals: {T: }, supply: dc, group: [{function: lamp}]}}") == []
    assert wires_of(
        railway + "kinds: {twin-coil: {terminals: {T: }, supply: dc, group: [{function: lamp, terminal: T}]}}"
    ) == ["1 1L A1.1/layout > P1.T"]


def test_a_kind_without_ways_needs_no_strip() -> None:
    """Only a chain: the clock hangs on its supply, with two terminals on two chains."""
    assert wires_of("""
        supplies: {D: {kind: dc}}
        kinds:
          clock:
            terminals: {p: , m: }
            supply: dc
            chain: [{function: feed, terminal: p, supply: feed}, {function: return, terminal: m, supply: return}]
        devices: {K2: {kind: clock}, K1: {kind: clock}}
    """) == lines("""
        1 F D.feed > K1.p
        2 F K1.p > K2.p
        3 C D.return > K1.m
        4 C K1.m > K2.m
    """)


def test_a_chained_row_with_a_terminal_feeds_every_device_of_its_circuit() -> None:
    """Only the first group carries the chain's row, so its way also feeds the device on the other board."""
    railway = """
        boards: {West: {}, East: {}}
        supplies: {D: {kind: dc}}
        strips: {A1: {board: West}, B1: {board: East}}
        kinds:
          barrier:
            terminals: {p: , s: }
            supply: dc
            lever_type: on-off
            group:
              - {function: feed, contact: 1, terminal: p, chain: feed}
              - {function: lamp, contact: 2, terminal: s}
        devices: {X: {kind: barrier, lever: 1, board: West}, Y: {kind: barrier, lever: 1, board: East}}
    """
    assert wires_of(railway) == lines("""
        1 1F L1.1 > A1.1/panel
        2 1F A1.1/layout > X.p
        3 1F A1.1/layout > Y.p
        4 1L L1.2 > A1.2/panel
        5 1L A1.2/layout > X.s
        6 1L A1.2/panel > B1.1/panel
        7 1L B1.1/layout > Y.s
        8 F D.feed > A1.1/layout
    """)
    # fed at the panel too: the row has a device's terminal, so it keeps its way
    assert wires_of(railway.replace("kind: dc}}", "kind: dc, feed_at: panel}}", 1)) == wires_of(railway)


def test_a_row_without_a_contact_is_carried_on_from_group_to_group() -> None:
    """5.1: each further group's rows are wired from the same rows of the group before."""
    assert wires_of("""
        supplies: {D: {kind: dc}}
        strips: {A1: , A2: }
        kinds: {bell: {terminals: {T: }, supply: dc, group: [{function: lamp, terminal: T}]}}
        devices: {X: {kind: bell, lever: 1, strip: A1}, Y: {kind: bell, lever: 1, strip: A2}}
    """) == lines("""
        1 1L A1.1/layout > X.T
        2 1L A1.1/panel > A2.1/panel
        3 1L A2.1/layout > Y.T
    """)


def test_a_kind_with_an_unknown_function_is_left_to_the_reading_stage() -> None:
    netlist, problems = wired("""
        supplies: {D: {kind: dc}}
        strips: {A1: }
        kinds: {bell: {terminals: {T: }, supply: dc, group: [{function: ring, terminal: T}]}}
        devices: {X: {kind: bell}}
    """)
    assert (netlist.circuits, problems) == ((), [])


def test_a_circuit_without_a_place_breaks_nothing_else() -> None:
    """The crossover's first group has no room: its second is placed and stands alone."""
    netlist, problems = wired("""
        boards: {West: {}, East: {}}
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: {board: West, ways: 2}, B1: {board: East}}
        points: {P6A: {board: West}, P6B: {board: East}, P7: {board: West}}
    """)
    assert [problem.code for problem in problems] == ["strip-full", "strip-full"]
    assert {wire.head for wire in netlist.wires} == {"6N", "6R", "C"}


def test_functions_of_the_builders_own() -> None:
    netlist = netlist_of("""
        supplies: {D: {kind: dc}}
        strips: {A1: }
        functions:
          return: red/blue
          lamp: {colour: orange, size: 0.5 mm2}
          bell: {}
          ringer: {code: Q, colour: pink, pattern: dots, size: AWG 20}
        kinds:
          doorbell:
            terminals: {T: , U: }
            supply: dc
            group: [{function: bell, terminal: T}, {function: ringer, terminal: U}]
        devices: {X: {kind: doorbell}, H: {kind: lamps}}
    """)
    wires = {wire.head: wire for wire in netlist.wires}
    assert (wires["HL"].colour, wires["HL"].size) == ("OG", "0.5 mm²")
    assert (wires["C"].colour, wires["C"].size) == ("RDBU", "32/0.2")  # IEC 60757: in the standard's order
    assert (wires["XB"].colour, wires["XB"].size) == ("", "")
    assert (wires["XQ"].colour, wires["XQ"].size) == ("PK", "20 AWG")
    assert netlist.functions["ringer"].pattern == "dots"
    assert netlist.functions["normal"].code == "N"
