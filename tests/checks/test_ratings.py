"""What steady current is too much for, at the very edge of each rating, and how it is said."""

from collections.abc import Callable

import pytest

from labelgen.checks import ratings
from labelgen.figuring.figures import figures_of
from labelgen.model.description import Description
from labelgen.model.figures import Figures
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

FigureCheck = Callable[[Description, Netlist, Figures], list[Problem]]
HEAD = """\
railway: Marram Quay
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1500, 500], measured: 110}, A2: {at: [2500, 500], measured: 110}}
panels: {QUAY: {at: [1500, 900], size: [200, 80], levers: {row: 5}}}
"""
LAMPS = HEAD + (
    "supplies: {LIGHT: {kind: dc, at: [1400, 100], volts: 12, amps: 3}}\n"
    "devices:\n"
    "  H1: {kind: lamps, at: [1600, 300], milliamps: 700, strip: A1}\n"
    "  H2: {kind: lamps, at: [2600, 300], milliamps: 700, strip: A2}\n"
)


def said(check: FigureCheck, text: str) -> list[Problem]:
    description, problems = read_description_text(text)
    assert description is not None, problems
    netlist, _ = expand(description, built_in_kinds())
    return check(description, netlist, figures_of(description, netlist))


def test_wires_of_one_kind_are_named_together() -> None:
    # The first feed carries 1.4 A (a lamp's wire 7/0.2 is for 6 × 0.22 = 1.32), the second lamp's own wires 0.7.
    (problem,) = said(ratings.overloaded_wires, LAMPS)
    assert problem.message.endswith("carries 1.4 A, and it is good for 1.3 A (7/0.2)")


def test_a_wires_maker_goes_before_our_rule() -> None:
    assert said(ratings.overloaded_wires, LAMPS + "functions: {lamp: {amps: 2}}\n") == []
    lower = said(ratings.overloaded_wires, LAMPS + "functions: {lamp: {amps: 0.5}}\n")
    assert len(lower) == 1
    assert lower[0].message.startswith("wires ")
    assert "each is good for 0.5 A" in lower[0].message


@pytest.mark.parametrize(("amps", "found"), [(1.5, 1), (1.2, 0)])
def test_a_fuse_by_its_thinnest_wire(amps: float, found: int) -> None:
    text = LAMPS.replace("amps: 3", f"amps: 3, fuse: {amps}")
    problems = said(ratings.large_fuses, text)
    assert len(problems) == found
    assert all(problem.message.startswith("the fuse of LIGHT lets 1.5 A through") for problem in problems)


def test_without_a_fuse_what_the_supply_gives() -> None:
    (problem,) = said(ratings.large_fuses, LAMPS)
    assert problem.message.startswith("LIGHT gives up to 3 A, and wire 1 (H1L, 7/0.2) is good for 1.3 A")


def test_a_supply_that_says_nothing_is_not_judged() -> None:
    text = LAMPS.replace(", amps: 3", "")
    assert said(ratings.large_fuses, text) == said(ratings.overloaded_supplies, text) == []


def test_a_fuse_protects_what_lies_behind_levers_too() -> None:
    text = HEAD + (
        "supplies: {LIGHT: {kind: dc, at: [1400, 100], volts: 12, fuse: 2}}\n"
        "devices: {S1: {kind: signal-2-aspect, lever: 4, at: [1600, 300]}}\n"
    )
    (problem,) = said(ratings.large_fuses, text)
    assert "(4Lr, 7/0.2)" in problem.message


def test_a_fuse_of_a_pulse_supply_by_routes_and_diodes() -> None:
    text = HEAD + (
        "supplies: {PULSE: {kind: pulse, at: [1400, 100], volts: 24, microfarads: 4700, fuse: 2}}\n"
        "points: {P5: {at: [1600, 300]}}\n"
        "routes: {Quay: {5: normal}}\n"
        "functions: {normal: {size: 7/0.2}}\n"
    )
    (problem,) = said(ratings.large_fuses, text)
    assert "7/0.2" in problem.message


@pytest.mark.parametrize(("amps", "found"), [(1.4, 0), (1.3, 1)])
def test_a_supply_at_its_edge(amps: float, found: int) -> None:
    problems = said(ratings.overloaded_supplies, LAMPS.replace("amps: 3", f"amps: {amps}"))
    assert len(problems) == found


@pytest.mark.parametrize(
    ("rating", "says"), [("0.5", "way 1 of A1 carries 1.4 A, and the strip is for 0.5 A"), ("1.5", "")]
)
def test_a_strip(rating: str, says: str) -> None:
    text = LAMPS.replace("A1: {at: [1500, 500],", f"A1: {{at: [1500, 500], amps: {rating},")
    assert [problem.message for problem in said(ratings.overloaded_strips, text)] == ([says] if says else [])


def test_several_ways_of_a_strip() -> None:
    text = LAMPS.replace("strip: A2", "strip: A1").replace("A1: {at: [1500, 500],", "A1: {at: [1500, 500], amps: 0.5,")
    (problem,) = said(ratings.overloaded_strips, text)
    assert problem.message.endswith(", and 1 more of its ways too much")


PLUGGED = """\
railway: Marram Quay
boards: {West: {size: [1200, 600], at: [0, 0]}, East: {size: [1200, 600], right_of: West}}
strips: {A1: {board: East, at: [300, 300], measured: 110}}
plugs: {J1: {boards: [West, East], pins: 15, at: {West: [1190, 300], East: [10, 300]}, pin_amps: 1}}
supplies: {LIGHT: {kind: dc, board: West, at: [1000, 100], volts: 12, amps: 5}}
devices: {H1: {kind: lamps, board: East, at: [300, 200], milliamps: 1600}}
"""


def test_pins_share_what_a_wire_carries() -> None:
    (one,) = said(ratings.overloaded_pins, PLUGGED)
    assert one.message == "pin 1 of J1 carries 1.6 A, and a pin is for 1 A"
    assert said(ratings.overloaded_pins, PLUGGED.replace("amps: 5", "amps: 5, pins: 2")) == []
    assert said(ratings.overloaded_pins, PLUGGED.replace(", pin_amps: 1", "")) == []


def test_a_train_at_the_end_of_thin_wire() -> None:
    text = HEAD + (
        "supplies: {CAB: {kind: track, at: [100, 100], volts: 12, amps: 2}}\n"
        "devices: {N1: {kind: rail-feed, at: [2900, 200]}, N2: {kind: rail-feed, at: [2800, 800]}}\n"
        "functions: {track: {size: 7/0.2}, track-return: {size: 7/0.2}}\n"
    )
    (problem,) = said(ratings.lost_volts, text)
    assert problem.message.startswith("a train at N2 that takes 2 A has 10.")
    assert problem.message.endswith("stay in the wires, and 1 more is as badly off")
    assert said(ratings.lost_volts, text.replace("7/0.2", "24/0.2")) == []


def test_a_changeover_contact() -> None:
    text = HEAD.replace("row: 5}", "row: 5}, hardware: {levers: weak}") + (
        "supplies: {DRIVE: {kind: dc, at: [1400, 100], volts: 12}, CAB: {kind: track}}\n"
        "points: {P1: {kind: stall-motor, at: [1600, 300], supplies: {drive: DRIVE, rails: CAB}}}\n"
        "hardware: {weak: {about: a weak toggle, use: lever, hole: 6, covers: 9, fingers: 19, body: [9, 9], "
        "contact_amps: 0.01}}\n"
    )
    (problem,) = said(ratings.overloaded_contacts, text)
    assert problem.message == "the contact of lever 1 carries 0.016 A, and it (a weak toggle) is for 0.01 A"
    assert said(ratings.overloaded_contacts, text.replace("contact_amps: 0.01", "contact_amps: 1")) == []
    assert said(ratings.overloaded_contacts, text.replace(", contact_amps: 0.01", "")) == []


def test_lamps_without_volts_left() -> None:
    text = HEAD + (
        "supplies: {LIGHT: {kind: dc, at: [1400, 100], volts: 3}}\n"
        "devices: {H1: {kind: lamps, at: [1600, 300], lamp_volts: 3.3, lamp_milliamps: 5}}\n"
    )
    (problem,) = said(ratings.dark_lamps, text)
    assert problem.message == "LIGHT's 3 V leave nothing for a resistor: the lamps of H1 take 3.3 V"
    assert said(ratings.dark_lamps, text.replace("volts: 3}", "volts: 5}")) == []


def test_a_fuse_by_the_wire_that_carries_least_however_thick_it_is() -> None:
    text = HEAD + (
        "supplies: {LIGHT: {kind: dc, at: [1400, 100], volts: 12, fuse: 2}}\n"
        "functions: {lamp: {size: 7/0.2, amps: 5}, feed: {size: 16/0.2, amps: 1}}\n"
        "devices: {H1: {kind: lamps, at: [1500, 300]}, U1: {kind: uncoupler, lever: 1, at: [1500, 300]}}\n"
    )
    (problem,) = said(ratings.large_fuses, text)
    assert "(1F, 16/0.2) is good for 1 A" in problem.message
    assert said(ratings.large_fuses, text.replace("amps: 1}", "amps: 2}")) == []


def test_a_fuse_by_the_wire_behind_a_motors_own_contact() -> None:
    text = HEAD + (
        "supplies: {BUS: {kind: digital, at: [100, 100], volts: 16, fuse: 4}, LIGHT: {kind: dc, at: [100, 200]}}\n"
        "functions: {frog: {size: 7/0.1}}\n"
        "points: {P5: {kind: stall-motor, at: [500, 100]}}\n"
    )
    (problem,) = said(ratings.large_fuses, text)
    assert problem.message.startswith("the fuse of BUS lets 4 A through")
    assert "(5X, 7/0.1)" in problem.message


def test_a_bank_lets_through_what_its_charging_resistor_does() -> None:
    text = HEAD + (
        "supplies: {PULSE: {kind: pulse, at: [100, 100], volts: 24, amps: 50, charge_ohms: 220}}\n"
        "points: {P5: {at: [500, 100]}}\n"
    )
    assert said(ratings.large_fuses, text) == [], "24 / 220 A"
    assert said(ratings.large_fuses, text.replace(", charge_ohms: 220", "")) != []
    assert said(ratings.large_fuses, text.replace("220", "0.5")) != []


@pytest.mark.parametrize("fuse", [0.8, 0.7])
def test_the_fuse_that_is_advised_is_small_enough(fuse: float) -> None:
    text = HEAD + (
        f"supplies: {{LIGHT: {{kind: dc, at: [100, 100], volts: 12, fuse: {fuse}}}}}\n"
        "functions: {lamp: {size: 26 AWG}}\n"
        "devices: {H1: {kind: lamps, at: [1500, 300]}}\n"
    )
    problems = said(ratings.large_fuses, text)
    assert [problem.hint[:25] for problem in problems] == ["Put a fuse of 0.7 A or le"] * (fuse > 0.77)


def test_a_short_behind_a_detector_meets_the_fuse_before_it_and_one_behind_a_breaker_does_not() -> None:
    text = HEAD + (
        "supplies: {BUS: {kind: digital, at: [100, 100], volts: 16, fuse: 5}}\n"
        "functions: {track: {size: 24/0.2, amps: 9}, track-return: {size: 24/0.2, amps: 9}, data: {amps: 9}}\n"
        "devices:\n"
        "  D1: {kind: KIND, at: [500, 100], supply: BUS}\n"
        "  T1: {kind: thin, at: [900, 100], supply: D1}\n"
        "kinds:\n"
        "  thin:\n"
        "    terminals: {A: , B: }\n"
        "    supply: digital\n"
        "    chain: [{function: lamp, terminal: A, supply: A}, {function: track-return, terminal: B, supply: B}]\n"
    )
    behind = said(ratings.large_fuses, text.replace("KIND", "block-detector"))
    assert [problem.message[:24] for problem in behind] == ["the fuse of BUS lets 5 A"]
    assert said(ratings.large_fuses, text.replace("KIND", "breaker")) == []


def test_a_contact_does_not_carry_what_a_chain_leads_past_it() -> None:
    """The feed goes from lever to lever behind the panel: lever 1 only hands it on."""
    text = HEAD.replace("row: 5}", "row: 5}, hardware: {levers: weak}") + (
        "supplies: {DRIVE: {kind: dc, at: [1400, 100], volts: 12, feed_at: panel}, CAB: {kind: track}}\n"
        "points: {P1: {kind: stall-motor, at: [1600, 300], supplies: {drive: DRIVE, rails: CAB}}}\n"
        "devices: {U2: {kind: uncoupler, lever: 2, at: [1600, 400]}}\n"
        "hardware: {weak: {about: a weak toggle, use: lever, hole: 6, covers: 9, fingers: 19, body: [9, 9], "
        "contact_amps: 0.5}}\n"
    )
    description, _ = read_description_text(text)
    assert description is not None
    netlist, _ = expand(description, built_in_kinds())
    figures = figures_of(description, netlist)
    amps = {figure.number: figure.amps for figure in figures.wires}
    passing = [wire for wire in netlist.wires if "L1.P" in (wire.start.name, wire.finish.name)]
    assert max(amps.get(wire.number, 0.0) for wire in passing) > 0.5
    found = ratings.overloaded_contacts(description, netlist, figures)
    assert not any("lever 1 " in problem.message for problem in found)
