"""Chains run outward from their supply: board by board, strip by strip, way by way. Section 5.3 of the format."""

from wiring.wiring_builder import lines, netlist_of, wire_texts, wires_of


def chain(railway: str, function: str) -> list[str]:
    """The wires of one function, without their numbers, in order."""
    netlist = netlist_of(railway)
    texts = [text.partition(" ")[2] for text in wire_texts(netlist)]
    return [text for text, wire in zip(texts, netlist.wires, strict=True) if wire.function == function and wire.circuit]


def test_the_supplys_own_board_comes_first_then_the_others_by_id() -> None:
    railway = """
        boards: {A: {}, B: {}, C: {}}
        supplies: {PULSE: {kind: pulse, board: B}}
        strips: {S1: {board: A}, S3: {board: C}, S20: {board: B}, S5: {board: B}}
        points: {P1: {board: A}, P2: {board: B, strip: S20}, P3: {board: B, strip: S5}, P4: {board: C}}
    """
    feeds = [wire for wire in chain(railway, "feed") if not wire.split()[1].startswith("L")]
    assert feeds == lines("""
        F PULSE.feed > S5.2/layout       ; board B: S5 before S20
        F S5.2/layout > S20.2/layout     ; from a strip's last member to the next strip's first: no link
        F S20.2/layout > S1.2/layout     ; then board A
        F S1.2/layout > S3.2/layout      ; then board C
    """)
    assert chain(railway, "return") == lines("""
        C PULSE.return > P3.C            ; in the same order of the devices' first ways
        C P3.C > P2.C
        C P2.C > P1.C
        C P1.C > P4.C
    """)


def test_the_board_of_a_way_is_that_of_its_strip() -> None:
    """P1 stands on West and names a strip of East: its way comes after those of West."""
    railway = """
        boards: {West: {}, East: {}}
        supplies: {PULSE: {kind: pulse, board: West}}
        strips: {A1: {board: East}, B1: {board: West}}
        points: {P1: {board: West, strip: A1}, P2: {board: West, strip: B1}}
    """
    assert chain(railway, "return") == ["C PULSE.return > P2.C", "C P2.C > P1.C"]
    assert "F PULSE.feed > B1.2/layout" in chain(railway, "feed")


def test_a_supply_without_a_board_starts_at_the_first_board() -> None:
    railway = """
        boards: {B: {}, A: {}}
        supplies: {PULSE: {kind: pulse}}
        strips: {B1: {board: B}, A1: {board: A}}
        points: {P1: {board: B}, P2: {board: A}}
    """
    assert chain(railway, "return") == ["C PULSE.return > P2.C", "C P2.C > P1.C"]


def test_on_one_strip_way_by_way_whatever_the_levers() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: }
        points: {P1: {way: 10}, P2: {way: 1}, P3: {ways: [6, 5, 4]}}
    """
    feeds = [wire for wire in chain(railway, "feed") if wire.startswith("F ")]
    assert feeds == lines("""
        F PULSE.feed > A1.2/layout
        F A1.2/layout > A1.5/layout link
        F A1.5/layout > A1.11/layout link
    """)
    # P3's first way is 4, although its rows run backwards
    assert chain(railway, "return") == ["C PULSE.return > P2.C", "C P2.C > P3.C", "C P3.C > P1.C"]


def test_devices_without_a_way_come_last() -> None:
    railway = """
        boards: {West: {}, East: {}}
        supplies: {D: {kind: dc, board: West}}
        strips: {B1: {board: East}}
        kinds: {clock: {terminals: {m: }, supply: dc, chain: [{function: return, terminal: m, supply: return}]}}
        devices: {K1: {kind: clock, board: West}, K0: {kind: clock, board: East}, H1: {kind: lamps, board: East}}
    """
    assert chain(railway, "return") == ["C D.return > H1.C", "C H1.C > K1.m", "C K1.m > K0.m"]


def test_a_bridge_carries_the_feed_and_needs_no_link() -> None:
    """A comb joins 2, 5 and 8: a wire beside it would make a ring."""
    railway = """
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: {bridges: [[2, 5, 8]]}}
        points: {P1: , P2: , P3: , P4: }
    """
    feeds = [wire for wire in chain(railway, "feed") if wire.startswith("F ")]
    assert feeds == ["F PULSE.feed > A1.2/layout", "F A1.8/layout > A1.11/layout link"]


def test_bridges_that_share_a_way_are_one_piece_of_metal() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: {bridges: [[2, 5], [8, 11], [5, 8]]}}
        points: {P1: , P2: , P3: , P4: }
    """
    assert [wire for wire in chain(railway, "feed") if wire.startswith("F ")] == ["F PULSE.feed > A1.2/layout"]


def test_several_supplies_put_their_id_before_a_shared_terminals_code() -> None:
    assert wires_of("""
        supplies: {PULSE: {kind: pulse}, LIGHTS: {kind: dc}, CAB: {kind: track}}
        strips: {A1: }
        points: {P5: }
        devices: {H1: {kind: lamps}, S1: {kind: section, lever: 6}}
    """)[9:] == lines("""
        10 T CAB.A > A1.4/layout         ; only CAB has A and B
        11 U CAB.B > S1.B
        12 LIGHTSL LIGHTS.feed > A1.6/layout
        13 LIGHTSC LIGHTS.return > H1.C
        14 PULSEF PULSE.feed > A1.2/layout
        15 PULSEC PULSE.return > P5.C
    """)


def test_a_supply_that_feeds_nothing_still_makes_its_terminals_shared() -> None:
    """Section 6: where several supplies have that terminal."""
    wires = wires_of("supplies: {PULSE: {kind: pulse}, D: {kind: dc}}\nstrips: {A1: }\npoints: {P5: }")
    assert wires[5:] == ["6 PULSEF PULSE.feed > A1.2/layout", "7 PULSEC PULSE.return > P5.C"]


def test_a_supply_that_is_fed_by_another() -> None:
    railway = """
        supplies: {PULSE: {kind: pulse, fed_by: D}, D: {kind: dc}, CAB: {kind: track, fed_by: D}}
        strips: {A1: }
        points: {P5: }
    """
    netlist = netlist_of(railway)
    assert wire_texts(netlist)[5:] == lines("""
        6 DF D.feed > CAB.in-A           ; supplies by id: D feeds CAB, then PULSE
        7 DC D.return > CAB.in-B
        8 DF D.feed > PULSE.in-feed
        9 DC D.return > PULSE.in-return
        10 PULSEF PULSE.feed > A1.2/layout
        11 PULSEC PULSE.return > P5.C
    """)
    assert netlist.wires[5].circuit == "D"


def test_a_track_supply_feeds_another_with_track_wires() -> None:
    wires = wires_of("supplies: {CAB: {kind: track}, P: {kind: pulse, fed_by: CAB}}")
    assert wires == ["1 T CAB.A > P.in-feed", "2 U CAB.B > P.in-return"]


def test_behind_the_panels_the_feed_runs_panel_by_panel() -> None:
    railway = """
        panels: {Q2: {levers: {1: [1, 1]}}, Q1: {levers: {2: [1, 1], 10: [2, 1]}}}
        supplies: {PULSE: {kind: pulse, feed_at: panel}}
        strips: {A1: }
        points: {P1: , P10: , P2: }
    """
    feeds = [wire for wire in chain(railway, "feed") if wire.startswith("F ")]
    assert feeds == ["F PULSE.feed > L2.F", "F L2.F > L10.F", "F L10.F > L1.F"]


def test_a_feed_behind_the_panel_goes_on_to_ways_that_have_no_lever() -> None:
    railway = """
        supplies: {D: {kind: dc, feed_at: panel}}
        strips: {A1: }
        kinds:
          signal: {terminals: {g: }, supply: dc, lever_type: on-off,
                   group: [{function: feed, contact: 1, chain: feed}, {function: lamp, contact: 2, terminal: g}]}
        devices: {S1: {kind: signal, lever: 1}, H1: {kind: lamps}}
    """
    assert wires_of(railway) == lines("""
        1 1L L1.2 > A1.1/panel
        2 1L A1.1/layout > S1.g
        3 H1L A1.2/layout > H1.L
        4 F D.feed > L1.1
        5 F L1.1 > A1.2/layout ; a lamp on the feed: the chain stays what it is
        6 C D.return > H1.C
    """)
