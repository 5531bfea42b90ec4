"""How long each wire is cut, worked out by hand: section 5.8 of the format.

|dx| + |dy| between the ends, plus slack at each end (strip 100, device 150, panel 150), rounded up to 50.
"""

import pytest
from wiring.wiring_builder import length_of, netlist_of, wire_between

# 12 ways of 10 mm: way 1 lies 5.5 × 10 = 55 mm from the strip's middle, way 2 45 mm.
PLACED = """
boards: {{West: {{size: [1200, 600]}}}}
supplies: {{PULSE: {{kind: pulse, at: [100, 500]}}}}
strips: {{A1: {{at: [600, 500], ways: 12, measured: 110{strip}}}}}
points: {{P5: {{at: [400, 200]}}, P6: {{at: [500, 200]}}}}
"""


def railway(strip: str = "", more: str = "") -> str:
    return PLACED.format(strip=strip and f", {strip}") + more


@pytest.mark.parametrize(
    ("way_1", "normal"),
    [
        # P5 at [400, 200]; way 1 at the given place; 100 + 150 slack
        ("left", 700),  # [545, 500]: 145 + 300 + 250 = 695 -> 700
        ("right", 850),  # [655, 500]: 255 + 300 + 250 = 805 -> 850
        ("back", 700),  # [600, 445]: 200 + 245 + 250 = 695 -> 700
        ("front", 850),  # [600, 555]: 200 + 355 + 250 = 805 -> 850
    ],
)
def test_a_ways_own_place_by_how_the_strip_hangs(way_1: str, normal: int) -> None:
    assert length_of(netlist_of(railway(f"way_1: {way_1}")), "A1.1", "P5.N") == normal


def test_feed_and_returns() -> None:
    netlist = netlist_of(railway())
    # PULSE [100, 500] to way 2 [555, 500]: 455 + 150 + 100 = 705 -> 750
    assert length_of(netlist, "PULSE.feed", "A1.2") == 750
    # PULSE to P5: 300 + 300 + 150 + 150 = 900, a multiple already
    assert length_of(netlist, "PULSE.return", "P5.C") == 900
    assert length_of(netlist, "P5.C", "P6.C") == 400


@pytest.mark.parametrize(
    ("strip", "length"),
    [
        ("measured: 110", 70),  # 3 ways of 10 = 30, + 40
        ("measured: 88", 70),  # 24 + 40 = 64 -> 70
        ("pitch: 9", 70),  # 27 + 40 = 67 -> 70
        ("pitch: 9.5, measured: 200", 70),  # the pitch goes before: 28.5 + 40
        ("amps: 3", 70),  # 8 mm: 24 + 40 = 64
        ("amps: 5", 70),  # 10 mm
        ("amps: 15", 80),  # 12 mm: 36 + 40 = 76 -> 80
        ("amps: 30", 80),  # more than the table knows: as the largest
    ],
)
def test_a_link_needs_no_place(strip: str, length: int) -> None:
    """Distance + 40, rounded up to 10; the pitch as given, as measured over eleven gaps, else by amps."""
    text = f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {{ways: 12, {strip}}}}}\npoints: {{P5: , P6: }}"
    assert length_of(netlist_of(text), "A1.2", "A1.5") == length


def test_a_listed_wire_from_way_to_way_is_a_link() -> None:
    netlist = netlist_of("strips: {A1: {pitch: 10}}\nwires: [{from: A1.12, to: A1.2}]")
    # 10 × 10 + 40 = 140
    assert (netlist.wires[0].link, netlist.wires[0].length) == (True, 140)


def test_slack_and_rounding_are_the_builders() -> None:
    netlist = netlist_of(railway(more="slack: {strip: 10, device: 20, panel: 30, round: 1}"))
    assert length_of(netlist, "A1.1", "P5.N") == 475  # 145 + 300 + 30
    netlist = netlist_of(railway(more="slack: {round: 25, strip: 0}"))
    assert length_of(netlist, "A1.1", "P5.N") == 600  # 445 + 150 = 595 -> 600


@pytest.mark.parametrize(
    ("wire", "missing"),
    [
        (("A1.1", "P5.N"), ("P5: {at: [400, 200]}", "P5: {}")),
        (("A1.1", "P5.N"), ("at: [600, 500], ", "")),
        (("PULSE.return", "P5.C"), (", at: [100, 500]", "")),
        (("L5.N", "A1.1"), ("", "")),  # no panel
    ],
)
def test_what_has_no_place_has_no_length(wire: tuple[str, str], missing: tuple[str, str]) -> None:
    netlist = netlist_of(railway().replace(*missing))
    assert length_of(netlist, *wire) is None
    assert wire_between(netlist, *wire).holes == ()


PANEL = "panels: {QUAY: {at: [600, 560], size: [400, 180], points: {P5: [12, 10]}, levers: {6: [3, 5]}}}\n"


def test_a_wire_from_the_panel_starts_at_its_levers_hole_and_runs_by_the_exit() -> None:
    netlist = netlist_of(railway(more=PANEL))
    # hole of 5 at its point [120, 100] mm; exit: the middle of the lower edge [200, 180]; 80 + 80 = 160
    # down at [600, 560] to way 1 [545, 500]: 55 + 60 = 115; 160 + 115 + 150 + 100 = 525 -> 550
    assert length_of(netlist, "L5.N", "A1.1") == 550
    # lever 6 at its own place [30, 50]: 170 + 130 = 300; way 4 [575, 500]: 25 + 60 = 85; 300 + 85 + 250 = 635 -> 650
    assert length_of(netlist, "L6.N", "A1.4") == 650
    # exit: [0, 180]: 120 + 80 = 200; 200 + 115 + 250 = 565 -> 600
    assert length_of(netlist_of(railway(more=PANEL.replace("size:", "exit: [0, 180], size:"))), "L5.N", "A1.1") == 600


def test_the_levers_of_a_row_stand_side_by_side() -> None:
    panel = "panels: {QUAY: {at: [600, 560], size: [400, 180], levers: {row: 15}}}\n"
    netlist = netlist_of(railway(more=panel))
    # two levers over 400 mm: at 100 and 300, y 150; to [200, 180]: 100 + 30 = 130; 130 + 115 + 250 = 495 -> 500
    assert length_of(netlist, "L5.N", "A1.1") == 500


@pytest.mark.parametrize(
    "panel",
    [
        PANEL.replace("at: [600, 560], ", ""),  # where its wires go down is not known
        PANEL.replace("size: [400, 180], ", ""),  # nor where they leave it
        PANEL.replace("points: {P5: [12, 10]}, ", ""),  # nor where the hole is
    ],
)
def test_a_panel_that_does_not_say_enough(panel: str) -> None:
    assert length_of(netlist_of(railway(more=panel)), "L5.N", "A1.1") is None


def test_a_feed_behind_the_panel_is_measured_from_hole_to_hole() -> None:
    text = railway(more=PANEL).replace("kind: pulse", "kind: pulse, feed_at: panel")
    # [120, 100] to [30, 50]: 90 + 50 + 150 + 150 = 440 -> 450; it does not need to know where the panel stands
    assert length_of(netlist_of(text), "L5.F", "L6.F") == 450
    assert length_of(netlist_of(text.replace("at: [600, 560], ", "")), "L5.F", "L6.F") == 450


def test_from_panel_to_panel_by_both_exits() -> None:
    text = railway(
        more="panels:\n"
        "  Q1: {at: [100, 0], exit: [0, 0], levers: {5: [1, 1]}}\n"
        "  Q2: {at: [300, 50], exit: [10, 0], levers: {6: [1, 2]}}\n"
    ).replace("kind: pulse", "kind: pulse, feed_at: panel")
    # 5 at [10, 10] to its exit: 20; 200 + 50 between the panels; 6 at [10, 20] to its exit: 20; 290 + 300 -> 600
    assert length_of(netlist_of(text), "L5.F", "L6.F") == 600


# --- holes


def with_holes(holes: str, more: str = "") -> str:
    return railway(more=more).replace("size: [1200, 600]", f"size: [1200, 600], holes: {{{holes}}}")


def test_a_wire_from_the_panel_goes_by_the_hole_that_makes_it_shortest() -> None:
    netlist = netlist_of(with_holes("H1: {at: [700, 500]}, H2: {at: [600, 400]}, H10: {at: [545, 580]}", PANEL))
    wire = wire_between(netlist, "L5.N", "A1.1")
    # from [600, 560] to way 1 [545, 500], which is 115 straight:
    # by H1 100 + 60 + 155 = 315; by H2 160 + 55 + 100 = 315; by H10 55 + 20 + 80 = 155.  160 + 155 + 250 = 565 -> 600
    assert (wire.length, wire.holes) == (600, ("H10",))


def test_holes_that_are_equally_good_go_by_id() -> None:
    netlist = netlist_of(with_holes("H10: {at: [545, 580]}, H9: {at: [620, 500]}, H2: {at: [600, 400]}", PANEL))
    # by H9 20 + 60 + 75 = 155, as by H10
    assert wire_between(netlist, "L5.N", "A1.1").holes == ("H9",)


def test_a_wire_from_the_boards_upper_side_goes_by_a_hole_and_one_below_does_not() -> None:
    below = with_holes("H1: {at: [300, 200]}")
    assert wire_between(netlist_of(below), "A1.1", "P5.N").holes == ()
    netlist = netlist_of(below.replace("P5: {", "P5: {above: yes, ").replace("P6: {", "P6: {above: yes, "))
    wire = wire_between(netlist, "A1.1", "P5.N")
    # [545, 500] to [300, 200] 545, on to [400, 200] 100: 645 + 250 = 895 -> 900 (straight it would be 700)
    assert (wire.length, wire.holes) == (900, ("H1",))
    feed = wire_between(netlist, "PULSE.feed", "A1.2")
    assert (feed.length, feed.holes) == (750, ())
    # P5 by [300, 200] to P6, which is below the board: 100 + 200 + 300 = 600
    back = wire_between(netlist, "P5.C", "P6.C")
    assert (back.length, back.holes) == (600, ("H1",))


def test_a_kind_says_whether_it_stands_above_and_a_device_may_say_otherwise() -> None:
    netlist = netlist_of("""
        boards: {West: {holes: {H1: {at: [0, 300]}}}}
        supplies: {D: {kind: dc, at: [0, 0]}}
        strips: {A1: }
        kinds:
          post: {above: yes, terminals: {m: }, supply: dc, chain: [{function: return, terminal: m, supply: return}]}
        devices: {X1: {kind: post, at: [0, 100]}, X2: {kind: post, at: [0, 200], above: no}}
    """)
    # D [0, 0] by [0, 300] to [0, 100]: 300 + 200 + 300 = 800; X1 by the hole to X2 below: 200 + 100 + 300 = 600
    assert [(wire.length, wire.holes) for wire in netlist.wires] == [(800, ("H1",)), (600, ("H1",))]


def test_from_board_to_board_by_a_hole_of_each() -> None:
    netlist = netlist_of("""
        boards:
          West: {size: [1000, 600], at: [0, 0], holes: {W1: {at: [100, 300]}, W2: {at: [900, 300]}}}
          East: {size: [800, 600], right_of: West, holes: {E1: {at: [700, 300]}, E2: {at: [200, 300]}}}
        supplies: {PULSE: {kind: pulse, board: West, at: [0, 0]}}
        strips: {A1: {board: West, at: [500, 500]}}
        points:
          P6A: {board: West, at: [900, 250], strip: A1, above: yes}
          P6B: {board: East, at: [200, 200], strip: A1, above: yes}
    """)
    wire = wire_between(netlist, "P6A.C", "P6B.C")
    # [900, 250] to W2 50, to E2 (1200, 300) 300, to [1200, 200] 100: 450 + 300 = 750
    assert (wire.length, wire.holes) == (750, ("W2", "E2"))


# --- frames


TWO_BOARDS = """
boards: {{West: {west}, East: {east}}}
supplies: {{PULSE: {{kind: pulse, board: West, at: [0, 0]}}}}
strips: {{A1: {{board: West, at: [500, 500]}}}}
points: {{P6A: {{board: West, at: [100, 100], strip: A1}}, P6B: {{board: East, at: [100, 100], strip: A1}}}}
"""


@pytest.mark.parametrize(
    ("west", "east", "length"),
    [
        # P6A at [100, 100] of West to P6B at [100, 100] of East, + 300
        ("{at: [0, 0]}", "{at: [1200, 50]}", 1550),
        ("{size: [1200, 600]}", "{right_of: West}", 1500),  # West is nowhere in particular, but East is beside it
        ("{size: [1200, 600], at: [50, 70]}", "{right_of: West}", 1500),
        ("{size: [1200, 600]}", "{right_of: West, at: [1, 1]}", None),  # East says where it is, West does not
        ("{}", "{right_of: West}", None),  # how wide is West?
        ("{size: [1200, 600]}", "{}", None),
        ("{size: [1200, 600]}", "{right_of: North}", None),
        ("{right_of: East, size: [10, 10]}", "{size: [900, 600]}", 1200),
    ],
)
def test_boards_of_different_frames_cannot_be_compared(west: str, east: str, length: int | None) -> None:
    netlist = netlist_of(TWO_BOARDS.format(west=west, east=east))
    assert length_of(netlist, "P6A.C", "P6B.C") == length
    assert length_of(netlist, "PULSE.return", "P6A.C") == 500  # on one board there is always a length


def test_a_ring_of_boards_is_the_same_whatever_their_order_in_the_file() -> None:
    west, east = "West: {size: [1200, 600], right_of: East}", "East: {size: [900, 600], right_of: West}"
    rest = TWO_BOARDS.partition("\n")[2].partition("\n")[2].replace("{{", "{").replace("}}", "}")
    one = netlist_of(f"boards: {{{west}, {east}}}\n{rest}")
    other = netlist_of(f"boards: {{{east}, {west}}}\n{rest}")
    assert one.wires == other.wires


def test_a_very_long_row_of_boards() -> None:
    boards = {"B0": {"at": ["0", "0"], "size": ["100", "50"]}}
    boards |= {f"B{n}": {"right_of": f"B{n - 1}", "size": ["100", "50"]} for n in range(1, 3000)}  # type: ignore[dict-item]
    things = {"X": {"kind": "clock", "board": "B2999", "at": ["0", "0"]}}
    kind = {
        "terminals": {"m": ""},
        "supply": "dc",
        "chain": [{"function": "return", "terminal": "m", "supply": "return"}],
    }
    supplies = {"D": {"kind": "dc", "board": "B0", "at": ["0", "0"]}}
    described = {"boards": boards, "devices": things, "kinds": {"clock": kind}, "supplies": supplies}
    # at most 100 m may be written; the railway itself may be longer
    assert length_of(netlist_of(described), "D.return", "X.m") == 299_900 + 300


def test_things_of_no_board_have_no_place_where_there_are_boards() -> None:
    text = TWO_BOARDS.format(west="{at: [0, 0]}", east="{at: [1200, 0]}").replace(
        "board: West, at: [0, 0]", "at: [0, 0]"
    )
    assert length_of(netlist_of(text), "PULSE.return", "P6A.C") is None


def test_without_boards_all_places_are_of_one_frame() -> None:
    text = "supplies: {PULSE: {kind: pulse, at: [0, 0]}}\nstrips: {A1: }\npoints: {P5: {at: [10, 20]}}"
    assert length_of(netlist_of(text), "PULSE.return", "P5.C") == 350  # 30 + 300 -> 350


def test_a_device_on_a_panel() -> None:
    netlist = netlist_of("""
        boards: {West: {}}
        panels: {QUAY: {at: [500, 0], exit: [0, 0]}}
        supplies: {LIGHTS: {kind: dc, at: [500, 200]}}
        strips: {A1: }
        devices: {H1: {kind: lamps, panel: QUAY, at: [10, 20]}, H2: {kind: lamps, panel: QUAY}}
    """)
    # 30 on the panel, 200 on the board, slack of the panel 150 and of the supply 150: 530 -> 550
    assert length_of(netlist, "LIGHTS.return", "H1.C") == 550
    assert length_of(netlist, "H1.C", "H2.C") is None


@pytest.mark.parametrize(
    ("way", "normal"),
    [
        # Two rows of six, 22 mm apart as measured over five gaps: ways 1 and 7 lie 2.5 × 22 = 55 mm from the middle.
        (1, 700),  # [545, 500]: 145 + 300 + 250 = 695 -> 700
        (7, 700),  # above it
        (4, 800),  # [611, 500]: 211 + 300 + 250 = 761 -> 800
    ],
)
def test_ways_in_tiers_lie_above_each_other(way: int, normal: int) -> None:
    text = railway("tiers: 2").replace("P5: {at: [400, 200]}", f"P5: {{at: [400, 200], strip: A1, way: {way}}}")
    assert length_of(netlist_of(text), f"A1.{way}", "P5.N") == normal


def test_a_link_between_rows_is_as_long_as_its_columns_are_apart() -> None:
    netlist = netlist_of("strips: {A1: {pitch: 10, tiers: 2}}\nwires: [{from: A1.2, to: A1.9}, {from: A1.1, to: A1.7}]")
    # way 9 is above way 3: 10 + 40 = 50; way 7 above way 1: 40
    assert [wire.length for wire in netlist.wires] == [50, 40]
