"""Which ways of which strip a group takes: section 5.2 of the format."""

import pytest
from wiring.wiring_builder import netlist_of, problems_of, way_heads, wired

PULSE = "supplies: {PULSE: {kind: pulse}}\n"


def heads(netlist: object, strip: str) -> str:
    return " ".join(head or "-" for head in way_heads(netlist, strip))  # type: ignore[arg-type]


def test_levers_come_in_natural_order_whatever_the_order_in_the_file() -> None:
    netlist = netlist_of(PULSE + "strips: {A1: {ways: 16}}\npoints: {P10: , PA: , P9: , P08: , P8: }")
    # 08 and 8 count the same, so by text; letters after digits. 15 of the 16 ways are used.
    assert heads(netlist, "A1") == "08N F 08R 8N F 8R 9N F 9R 10N F 10R AN F AR -"


def test_what_has_no_lever_comes_after_all_levers() -> None:
    netlist = netlist_of("""
        supplies: {PULSE: {kind: pulse}, LIGHTS: {kind: dc}}
        strips: {A1: }
        points: {P99: , P1: {lever: none}}
        devices: {H10: {kind: lamps}, H9: {kind: lamps}}
    """)
    # Without a lever: by device id H9, H10, P1. P1 refuses its lever, so its wires are called after it.
    assert heads(netlist, "A1") == "99N F 99R L L P1N F P1R - - - -"


def test_pinned_groups_come_first_then_those_that_name_a_strip_then_the_rest() -> None:
    netlist = netlist_of(
        PULSE
        + """
strips: {A1: , A2: }
points:
  P1: {}
  P2: {strip: A1}
  P3: {strip: A1, way: 2}
  P4: {strip: A1, ways: [12, 7, 8]}
"""
    )
    # P3 takes 2-4. P4 takes 12, 7, 8 in row order. P2's run of three: 1 is alone, 5-6 too short, so 9-11.
    # P1 has no room left on A1 (1, 5, 6 free) and goes to A2.
    assert heads(netlist, "A1") == "- 3N F 3R - - F 4R 2N F 2R 4N"
    assert heads(netlist, "A2").startswith("1N F 1R -")


def test_a_pinned_group_needs_no_strip_where_there_is_only_one() -> None:
    assert heads(netlist_of(PULSE + "strips: {A1: {ways: 6}}\npoints: {P1: {way: 4}}"), "A1") == "- - - 1N F 1R"
    assert problems_of(PULSE + "strips: {A1: , A2: }\npoints: {P1: {way: 4}}") == [("bad-ways", "points.P1.way")]
    assert problems_of(PULSE + "points: {P1: {ways: [1, 2, 3]}}") == [("bad-ways", "points.P1.ways")]


def test_taken_and_kept_ways_are_passed_over() -> None:
    netlist = netlist_of(PULSE + "strips: {A1: {taken: {2: doorbell}, keep: [6]}}\npoints: {P1: , P2: }")
    # Free are 1, 3-5, 7-12: the first run of three is 3-5, the next 7-9.
    strip = netlist.strip_by_id["A1"]
    assert heads(netlist, "A1") == "- doorbell 1N F 1R - 2N F 2R - - -"
    assert [way.state for way in strip.ways[:6]] == ["spare", "taken", "used", "used", "used", "kept"]
    assert strip.ways[1].code == strip.ways[1].stem == ""


def test_a_group_is_never_split_and_a_named_strip_never_spills() -> None:
    railway = PULSE + "strips: {A1: {ways: 5}, A2: }\npoints: {P1: {strip: A1}, P2: {strip: A1}}"
    netlist, problems = wired(railway)
    assert [(p.code, p.place.source) for p in problems] == [("strip-full", "points.P2.strip")]
    assert problems[0].message == "P2 needs 3 free ways side by side, and there is no room for them on strip A1"
    assert heads(netlist, "A1") == "1N F 1R - -"
    assert set(way_heads(netlist, "A2")) == {""}


def test_without_room_anywhere_the_device_is_told() -> None:
    assert problems_of(PULSE + "strips: {A1: {ways: 5}}\npoints: {P1: , P2: }") == [("strip-full", "points.P2")]
    assert problems_of(PULSE + "points: {P1: }") == [("no-strip", "points.P1")]
    _, problems = wired("supplies: {L: {kind: dc}}\nstrips: {A1: {ways: 1, keep: [1]}}\ndevices: {H1: {kind: lamps}}")
    assert problems[0].message == "H1 needs 1 free way, and there is no room for it on any strip of this railway"


def test_a_strip_of_another_board_is_no_room() -> None:
    railway = "boards: {West: {}, East: {}}\n" + PULSE + "strips: {A1: {board: West}}\npoints: {P1: {board: East}}"
    _, problems = wired(railway)
    assert [(p.code, p.place.source) for p in problems] == [("no-strip", "points.P1")]
    assert problems[0].message == "P1 needs 3 ways of a strip, and board East has no strip"
    full = railway.replace("A1: {board: West}", "A1: {board: East, ways: 2}")
    assert wired(full)[1][0].message.endswith("on any strip of board East")


@pytest.mark.parametrize(
    ("point", "expected"),
    [
        ("{at: [100, 100]}", "A2"),  # |100-120|+|100-100| = 20 to A2, 100 to A1
        ("{at: [60, 100]}", "A1"),  # 60 to each: natural order of strip id
        ("{at: [500, 100]}", "A10"),  # 0 to A10
        ("{}", "A1"),  # no position: natural order of strip id
    ],
)
def test_the_nearest_strip_by_the_frame(point: str, expected: str) -> None:
    netlist = netlist_of(
        PULSE
        + f"""
boards: {{West: {{}}}}
strips: {{A10: {{at: [500, 100]}}, A3: {{}}, A2: {{at: [120, 100]}}, A1: {{at: [0, 100]}}}}
points: {{P1: {point}}}
"""
    )
    assert netlist.circuits[0].groups[0].strip == expected


def test_a_hair_of_floating_point_breaks_no_tie() -> None:
    # 0.1 + 0.2 is a hair more than 0.3 to a computer: both strips are 0.3 mm away.
    strips = "strips: {A1: {at: [0.1, 0.2]}, A2: {at: [0.3, 0]}}\npoints: {P1: {at: [0, 0]}}"
    assert netlist_of(PULSE + strips).circuits[0].groups[0].strip == "A1"


def test_a_strip_without_a_place_is_the_last_resort() -> None:
    railway = PULSE + "strips: {A1: {}, A2: {at: [900, 900], ways: 3}}\npoints: {P1: {at: [0, 0]}, P2: {at: [0, 0]}}"
    netlist = netlist_of(railway)
    assert [circuit.groups[0].strip for circuit in netlist.circuits] == ["A2", "A1"]


def test_the_nearest_full_strip_gives_way_to_the_next() -> None:
    netlist = netlist_of(
        PULSE
        + """
strips: {A1: {at: [0, 0], ways: 4}, A2: {at: [100, 0], ways: 3}, A3: {at: [200, 0]}}
points: {P1: {at: [0, 0]}, P2: {at: [0, 0]}, P3: {at: [0, 0]}}
"""
    )
    assert [circuit.groups[0].strip for circuit in netlist.circuits] == ["A1", "A2", "A3"]


def test_a_device_on_a_panel_is_near_what_is_near_the_panel() -> None:
    netlist = netlist_of("""
        boards: {West: {}}
        panels: {QUAY: {at: [500, 0]}}
        supplies: {LIGHTS: {kind: dc}}
        strips: {A1: {at: [0, 0]}, A2: {at: [500, 0]}}
        devices: {H1: {kind: lamps, panel: QUAY, at: [10, 10]}}
    """)
    assert netlist.circuits[0].groups[0].strip == "A2"


@pytest.mark.parametrize(
    ("point", "code", "place", "words"),
    [
        ("{way: 11}", "bad-ways", "way", "asks for way 13 of A1, which has 12 ways"),  # 11, 12, 13 on 12 ways
        ("{ways: [1, 2]}", "bad-ways", "ways", "takes 3 ways on A1, but 2 ways are named"),
        ("{ways: [1, 2, 2]}", "bad-ways", "ways", "takes 3 ways on A1, but 2 ways are named"),
        ("{way: 6}", "way-taken", "way", "asks for A1.7, which is taken for doorbell"),
        ("{way: 10}", "way-taken", "way", "asks for A1.12, which is kept free by `keep`"),
    ],
)
def test_ways_that_cannot_be_had(point: str, code: str, place: str, words: str) -> None:
    _, problems = wired(PULSE + f"strips: {{A1: {{taken: {{7: doorbell}}, keep: [12]}}}}\npoints: {{P1: {point}}}")
    assert [(p.code, p.place.source) for p in problems] == [(code, f"points.P1.{place}")]
    assert words in problems[0].message


def test_two_circuits_cannot_have_one_way() -> None:
    railway = "supplies: {PULSE: {kind: pulse}, LIGHTS: {kind: dc}}\nstrips: {A1: }\n"
    _, problems = wired(railway + "points: {P1: {way: 1}, P2: {way: 3}}\ndevices: {H1: {kind: lamps, way: 3}}")
    assert [(p.code, p.place.source) for p in problems] == [
        ("way-taken", "points.P2.way"),
        ("way-taken", "devices.H1.way"),
    ]
    assert problems[0].message == "P2 asks for A1.3, which is taken by lever 1"
    _, problems = wired(railway + "devices: {H1: {kind: lamps, way: 3}, H2: {kind: lamps, way: 3}}")
    assert problems[0].message == "H2 asks for A1.3, which is taken by H1"


def test_devices_of_one_group_name_the_same_ways() -> None:
    same = PULSE + "strips: {A1: }\npoints: {P6A: {way: 4}, P6B: {ways: [4, 5, 6]}}"
    assert heads(netlist_of(same), "A1").startswith("- - - 6N F 6R -")
    one = PULSE + "strips: {A1: }\npoints: {P6A: {}, P6B: {way: 4}}"
    assert heads(netlist_of(one), "A1").startswith("- - - 6N F 6R -")
    other = PULSE + "strips: {A1: }\npoints: {P6A: {way: 4}, P6B: {way: 7}}"
    assert problems_of(other) == [("bad-ways", "points.P6A.way")]


def test_a_further_group_is_pinned_by_its_own_rows_alone() -> None:
    """The second group has no feed row: `way: 5` takes 5 and 6."""
    netlist = netlist_of(PULSE + "strips: {A1: , A2: }\npoints: {P6A: {strip: A1}, P6B: {strip: A2, way: 5}}")
    assert heads(netlist, "A2").startswith("- - - - 6N 6R -")


def test_devices_that_name_one_strip_share_its_group_even_from_two_boards() -> None:
    netlist = netlist_of(
        PULSE
        + """
boards: {West: {}, East: {}}
strips: {A1: {board: West}, B1: {board: East}}
points: {P6A: {board: West, strip: A1}, P6B: {board: East, strip: A1}}
"""
    )
    assert heads(netlist, "A1").startswith("6N F 6R -")
    (group,) = netlist.circuits[0].groups
    assert (group.board, group.strip, group.devices) == ("West", "A1", ("P6A", "P6B"))


def test_a_device_that_names_no_strip_joins_the_group_on_its_board() -> None:
    netlist = netlist_of(PULSE + "strips: {A1: , A2: }\npoints: {P6A: {}, P6B: {strip: A2}}")
    assert heads(netlist, "A2").startswith("6N F 6R -")
    assert set(way_heads(netlist, "A1")) == {""}


def test_an_unknown_strip_is_left_to_the_reading_stage() -> None:
    railway = PULSE + "strips: {A1: }\npoints: {P1: {strip: A9}, P2: {strip: A9, way: 1}}"
    netlist, problems = wired(railway)
    assert problems == []
    assert set(way_heads(netlist, "A1")) == {""}


def test_a_device_that_is_not_in_use_stays_wired() -> None:
    netlist = netlist_of(PULSE + "strips: {A1: }\npoints: {P1: {not_in_use: motor burnt out}, P2: }")
    assert heads(netlist, "A1").startswith("1N F 1R 2N F 2R -")


def test_adding_a_lever_of_a_later_order_moves_nothing() -> None:
    before = way_heads(netlist_of(PULSE + "strips: {A1: }\npoints: {P1: , P3: }"), "A1")
    after = way_heads(netlist_of(PULSE + "strips: {A1: }\npoints: {P1: , P3: , P20: }"), "A1")
    assert before[:6] == after[:6]
