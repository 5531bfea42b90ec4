"""A strip as the markers need it: how it hangs, its pitch, its ways."""

import pytest
from wiring.wiring_builder import netlist_of

from labelgen.model.netlist import Side


@pytest.mark.parametrize(
    ("strip", "way_1", "panel_side"),
    [
        ("{}", "left", "front"),
        ("{way_1: right}", "right", "front"),
        ("{way_1: front}", "front", "left"),  # it runs from front to back: its sides are left and right
        ("{way_1: back, panel_side: right}", "back", "right"),
        ("{panel_side: back}", "left", "back"),
    ],
)
def test_how_a_strip_hangs(strip: str, way_1: str, panel_side: str) -> None:
    plan = netlist_of(f"strips: {{A1: {strip}}}").strips[0]
    assert (plan.way_1, plan.panel_side) == (way_1, panel_side)


@pytest.mark.parametrize(
    ("strip", "pitch", "measured"),
    [
        ("{}", 10, False),  # 5 A
        ("{amps: 3}", 8, False),
        ("{amps: 4}", 10, False),
        ("{amps: 15}", 12, False),
        ("{pitch: 9.5}", 9.5, True),
        ("{measured: 104.5}", 9.5, True),  # eleven gaps between twelve screws
        ("{ways: 1, measured: 20}", 10, True),  # one screw has no pitch to measure
    ],
)
def test_the_pitch_of_a_strip(strip: str, pitch: float, measured: bool) -> None:
    plan = netlist_of(f"strips: {{A1: {strip}}}").strips[0]
    assert (plan.pitch, plan.measured) == (pitch, measured)


def test_strips_stand_in_natural_order() -> None:
    assert [strip.id for strip in netlist_of("strips: {A10: , B1: , A9: , 2: }").strips] == ["2", "A9", "A10", "B1"]


def test_each_wire_stands_in_its_entry() -> None:
    netlist = netlist_of("supplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P6A: , P6B: }")
    first = netlist.strip_by_id["A1"].ways[0]
    assert [wire.finish.name for wire in first.entry(Side.LAYOUT)] == ["P6A.N", "P6B.N"]
    assert [wire.start.name for wire in first.entry(Side.PANEL)] == ["L6.N"]
    assert (first.stem, first.code, first.mark, first.function) == ("6", "N", "", "normal")


def test_what_a_bridge_brings_to_bare_ways() -> None:
    """They are live: each says what the nearest way of its bridge says, a kept one too, and a builder's own words."""
    strip = "{ways: 12, bridges: [[1, 4, 8], [8, 9], [3, 12], [5, 6], [10, 11]], keep: [9], taken: {10: bell}}"
    text = f"supplies: {{PULSE: {{kind: pulse}}}}\nstrips: {{A1: {strip}}}\npoints: {{P6: {{way: 1}}}}"
    plan = netlist_of(text).strips[0]
    said = {way.number: (way.state, way.head, way.bridged_to) for way in plan.ways}
    assert [said[n] for n in (1, 2, 3)] == [("used", "6N", None), ("used", "F", None), ("used", "6R", None)]
    assert [said[n] for n in (4, 8, 9)] == [("used", "6N", 1)] * 3
    assert said[12] == ("used", "6R", 3)
    assert said[11] == ("taken", "bell", 10)
    assert [said[n] for n in (5, 6, 7)] == [("spare", "", None)] * 3, "nothing lands on their bridge, or they have none"
    assert (plan.ways[11].function, plan.ways[11].code, plan.ways[11].stem) == ("reverse", "R", "6")


def test_each_diode_stands_at_both_of_its_ways() -> None:
    text = "supplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P3: {kind: three-way}}"
    netlist = netlist_of(text)
    ways = netlist.strips[0].ways
    assert [len(way.diodes) for way in ways[:8]] == [0, 2, 2, 2, 1, 2, 2, 1]
    ends = {(diode.anode.name, diode.cathode.name) for way in ways for diode in way.diodes}
    # left is B and D, centre B and C, right A and C (the kind's own notes); A to D are ways 5 to 8.
    pairs = {("A1.2", "A1.6"), ("A1.2", "A1.8"), ("A1.3", "A1.6"), ("A1.3", "A1.7"), ("A1.4", "A1.5"), ("A1.4", "A1.7")}
    assert ends == pairs


def test_a_bare_strip() -> None:
    plan = netlist_of("strips: {A1: {ways: 4, bridges: [[1, 2]], taken: {3: bell}, keep: [3, 4]}}").strips[0]
    assert [way.state for way in plan.ways] == ["spare", "spare", "taken", "kept"]
    assert plan.bridges == ((1, 2),)
    assert plan.supplies == ()
