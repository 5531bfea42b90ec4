"""Where a lever is, and what it is called: sections 5.6 and 2 of the format."""

import pytest
from wiring.wiring_builder import netlist_of, wire_between

from labelgen.model.netlist import LeverPlan

RAILWAY = """
boards: {{West: {{}}, East: {{{east}}}}}
panels: {panels}
supplies: {{PULSE: {{kind: pulse}}}}
strips: {{A1: {{board: West}}, B1: {{board: East}}}}
levers: {{{levers}}}
points: {{P5: {{board: East, name: harbour siding}}}}
"""


def lever_5(panels: str, levers: str = "", east: str = "") -> LeverPlan:
    return netlist_of(RAILWAY.format(panels=panels, levers=levers, east=east)).levers[0]


@pytest.mark.parametrize(
    ("panels", "levers", "east", "panel", "board"),
    [
        # the panel it names
        ("{Q1: {board: West, points: {P5: [1, 1]}}, Q2: {board: East}}", "5: {panel: Q2}", "", "Q2", "East"),
        # the panel that draws it
        ("{Q1: {board: West}, Q2: {board: East, levers: {5: [1, 1]}}}", "", "", "Q2", "East"),
        # the panel that draws its point
        ("{Q1: {board: West}, Q2: {board: East, points: {P5: [1, 1]}}}", "", "", "Q2", "East"),
        # its own place goes before its point's
        ("{Q1: {board: West, points: {P5: [1, 1]}}, Q2: {board: East, levers: {5: [1, 1]}}}", "", "", "Q2", "East"),
        # drawn on two: the first by id
        ("{Q10: {board: East, levers: {5: [1, 1]}}, Q9: {board: West, levers: {5: [1, 1]}}}", "", "", "Q9", "West"),
        # the board's default
        ("{Q1: {board: West}, Q2: {board: East}}", "", "panel: Q1", "Q1", "West"),
        # the only panel
        ("{Q1: {board: West}}", "", "", "Q1", "West"),
        # with no panel, on the board of its first group
        ("{}", "", "", None, "East"),
        # nobody says which of two, or it names one that is not there: as with no panel
        ("{Q1: {board: West}, Q2: {board: East}}", "", "", None, "East"),
        ("{Q1: {board: West}}", "5: {panel: Q9}", "", None, "East"),
    ],
)
def test_the_panel_and_board_of_a_lever(panels: str, levers: str, east: str, panel: str | None, board: str) -> None:
    lever = lever_5(panels, levers, east)
    assert (lever.panel, lever.board) == (panel, board)


def test_a_section_that_a_panel_draws_brings_its_lever_there() -> None:
    netlist = netlist_of("""
        panels: {Q1: {}, Q2: {sections: {S1: [3, 3]}}}
        supplies: {CAB: {kind: track}}
        strips: {A1: }
        devices: {S1: {kind: section, lever: 11}}
    """)
    assert netlist.levers[0].panel == "Q2"


def test_a_wire_is_on_the_board_where_it_starts() -> None:
    netlist = netlist_of(RAILWAY.format(panels="{Q1: {board: West}}", levers="", east=""))
    assert wire_between(netlist, "L5.N", "B1.1").board == "West"
    assert wire_between(netlist, "B1.1", "P5.N").board == "East"
    assert wire_between(netlist, "PULSE.feed", "B1.2").board == "East"  # nobody says where PULSE is


def test_levers_stand_in_natural_order_spares_included() -> None:
    netlist = netlist_of("""
        supplies: {PULSE: {kind: pulse}}
        strips: {A1: }
        levers: {20: {spare: yes, name: for the yard}, 5: {name: quay, normal: down, shown: 5a}}
        points: {P10: {name: fish dock}, P5: {name: no matter}, P6A: {name: a}, P6B: {name: b}}
    """)
    assert [lever.id for lever in netlist.levers] == ["5", "6", "10", "20"]
    five, six, ten, twenty = netlist.levers
    assert (five.name, five.shown, five.normal, five.type, five.devices) == ("quay", "5a", "down", "sprung", ("P5",))
    assert (six.name, six.devices, six.shown) == ("", ("P6A", "P6B"), "6")  # two names: neither
    assert (ten.name, ten.path) == ("fish dock", ("points", "P10"))
    assert (twenty.spare, twenty.devices, twenty.type, twenty.path) == (True, (), "", ("levers", "20"))


def test_what_is_painted_is_printed() -> None:
    netlist = netlist_of("""
        supplies: {PULSE: {kind: pulse, shown: CDU}, LIGHTS: {kind: dc}}
        strips: {A1: {shown: TB1}}
        levers: {5: {shown: V}}
        points: {P5: }
        devices: {H1: {kind: lamps, shown: quay lamps}}
    """)
    strip = netlist.strip_by_id["A1"]
    assert (strip.shown, strip.supplies) == ("TB1", ("LIGHTS", "CDU"))
    stems = {wire.head: wire.stem for wire in netlist.wires}
    assert stems == {
        "5N": "V", "5F": "V", "5R": "V", "H1L": "quay lamps",
        "LIGHTSL": "LIGHTS", "LIGHTSC": "LIGHTS", "PULSEF": "CDU", "PULSEC": "CDU",
    }  # fmt: skip
    assert netlist.shown_id("A1") == "TB1"
    assert netlist.shown_id("P5") == "P5"
