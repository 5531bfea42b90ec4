"""Steady currents against Kirchhoff's laws, ratings by hand, and a bus that was worked out on paper."""

from math import isclose

import pytest
from test_throws_figures import figured

from labelgen.model.copper import wire_ohms
from labelgen.model.figures import Figures, LoadFigure

HEAD = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
supplies: {LIGHT: {kind: dc, at: [100, 100], volts: 12, amps: 1}}
"""


def load(figures: Figures, device: str) -> LoadFigure:
    return next(one for one in figures.loads if one.device == device)


def test_one_lamp_is_a_divider() -> None:
    _, netlist, figures = figured(HEAD + "devices: {H1: {kind: lamps, at: [2500, 300], milliamps: 500}}\n")
    wires = sum(wire_ohms(wire) for wire in netlist.wires)
    found = load(figures, "H1")
    assert isclose(found.amps, 12 / (24 + wires))
    assert isclose(found.volts, 12 - found.amps * wires)
    assert isclose(found.drop_volts, found.amps * wires, rel_tol=1e-9)
    assert [wire.amps for wire in figures.wires] == pytest.approx([found.amps] * len(figures.wires))
    assert len(figures.wires) == len(netlist.wires)
    assert figures.supplies[0].amps == pytest.approx(found.amps)


TWO = f"""{HEAD}devices:
  H1: {{kind: lamps, at: [1500, 300], milliamps: 500}}
  H2: {{kind: lamps, at: [2500, 300], milliamps: 500}}
"""


def test_current_adds_up_at_every_end() -> None:
    """Kirchhoff's current law: the first wire of each chain carries both lamps."""
    _, netlist, figures = figured(TWO)
    amps = {wire.number: wire.amps for wire in figures.wires}
    total = load(figures, "H1").amps + load(figures, "H2").amps
    for terminal in ("feed", "return"):
        (first,) = [w for w in netlist.wires if f"LIGHT.{terminal}" in (w.start.name, w.finish.name)]
        assert isclose(amps[first.number], total, rel_tol=1e-9)


def test_another_lamp_never_lowers_a_current_on_the_feed() -> None:
    one = figured(HEAD + "devices: {H1: {kind: lamps, at: [1500, 300], milliamps: 500}}\n")[2]
    two = figured(TWO)[2]
    assert two.supplies[0].amps > one.supplies[0].amps
    assert load(two, "H1").volts < load(one, "H1").volts


def test_a_stall_motor_draws_always_and_an_uncoupler_on_its_button() -> None:
    text = HEAD + (
        "points: {P1: {kind: stall-motor, at: [1500, 300], supplies: {drive: LIGHT, rails: CAB}}}\n"
        "devices: {U2: {kind: uncoupler, lever: 2, at: [1600, 300]}}\n"
    )
    text = text.replace("amps: 1}}", "amps: 1}, CAB: {kind: track}}")
    _, _, figures = figured(text)
    motor, magnet = load(figures, "P1"), load(figures, "U2")
    assert 0.0155 < motor.amps < 0.016
    assert 0.95 < magnet.amps < 1.1
    assert figures.supplies[0].amps == pytest.approx(motor.amps + magnet.amps, rel=1e-3)


def test_of_a_signal_one_lamp_burns() -> None:
    text = HEAD + "devices: {S1: {kind: signal-2-aspect, lever: 4, at: [1500, 300]}}\n"
    _, _, figures = figured(text)
    assert [(one.device, one.terminal) for one in figures.loads] == [("S1", "G"), ("S1", "R")]
    assert figures.supplies[0].amps < 0.011


def test_a_rotary_signal_is_taken_in_each_position() -> None:
    _, _, figures = figured(HEAD + "devices: {S1: {kind: signal-3-aspect, lever: 4, at: [1500, 300]}}\n")
    assert [one.terminal for one in figures.loads] == ["G", "R", "Y"]
    assert figures.supplies[0].amps < 0.011, "one at a time"


def test_a_button_is_pressed_while_all_else_is_on() -> None:
    """The wire to both carries both: solved anew by hand, as a ladder of two loads on one chain."""
    text = HEAD.replace("amps: 1", "amps: 5") + (
        "kinds:\n"
        "  heater:\n"
        "    terminals: {1: , 2: }\n"
        "    supply: dc\n"
        "    lever_type: on-off\n"
        "    milliamps: 2500\n"
        "    group: [{function: feed, contact: 1, chain: feed}, {function: feed, mark: s, contact: 2, terminal: 1}]\n"
        "    chain: [{function: return, terminal: 2, supply: return}]\n"
        "devices:\n"
        "  H1: {kind: heater, lever: 1, at: [2000, 300]}\n"
        "  U2: {kind: uncoupler, lever: 2, at: [1600, 300], ohms: 11}\n"
    )
    description, netlist, figures = figured(text)
    assert [lever.type for lever in netlist.levers] == ["on-off", "button"]
    amps = {wire.number: wire.amps for wire in figures.wires}
    (first,) = [wire for wire in netlist.wires if "LIGHT.return" in (wire.start.name, wire.finish.name)]
    both = load(figures, "H1").amps + load(figures, "U2").amps
    assert amps[first.number] == pytest.approx(both, rel=1e-9) == figures.supplies[0].amps
    assert description.supplies["LIGHT"].volts == 12
    ends = {"H1": 0.0, "U2": 0.0}
    for one in ends:
        found = load(figures, one)
        assert found.volts + found.drop_volts == pytest.approx(12)
    alone = figured(text[: text.index("  U2")])[2]
    assert load(figures, "H1").volts < load(alone, "H1").volts


def test_of_very_many_buttons_those_that_draw_most_are_pressed_beside_the_rest() -> None:
    lamp = "  H1: {kind: lamps, at: [1500, 300], milliamps: 500}\n"
    buttons = "".join(
        f"  U{n}: {{kind: uncoupler, lever: {n}, at: [{1000 + n}, 300], milliamps: {500 + n}}}\n" for n in range(1, 41)
    )
    strips = "strips: {A1: {at: [1000, 500], ways: 100}, A2: {at: [2000, 500], ways: 100}}"
    text = HEAD.replace("strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}}", strips)
    _, _, figures = figured(text.replace("size: [300, 100]", "size: [3000, 100]") + "devices:\n" + lamp + buttons)
    heaviest = max(load(figures, f"U{n}").amps for n in range(1, 41))
    assert figures.supplies[0].amps == pytest.approx(heaviest + load(figures, "H1").amps, rel=0.03)
    assert len(figures.loads) == 41


def test_a_load_of_unknown_current_has_no_figures() -> None:
    figures = figured(HEAD + "devices: {H1: {kind: lamps, at: [1500, 300]}}\n")[2]
    assert figures.loads == ()
    assert [(one.device, one.supply) for one in figures.silent] == [("H1", "LIGHT")]


def test_a_supply_of_unknown_voltage_has_none() -> None:
    text = TWO.replace("volts: 12, ", "")
    assert figured(text)[2].loads == ()
