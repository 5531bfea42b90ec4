"""Resistors of lamps, worked out by hand from published examples and the rules of the trade."""

from fractions import Fraction

import pytest

from labelgen.model.lamp_resistors import LampResistor, lamp_resistors
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

HEAD = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}, A3: {at: [2500, 500]}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
supplies: {LIGHT: {kind: dc, at: [100, 100], volts: 9}, PULSE: {kind: pulse}, CAB: {kind: track}}
"""


def found(text: str, volts: str = "9") -> list[LampResistor]:
    description, problems = read_description_text(HEAD.replace("volts: 9", f"volts: {volts}") + text)
    assert description is not None, problems
    return list(lamp_resistors(description, expand(description, built_in_kinds())[0]))


def test_one_lamp() -> None:
    # An encyclopedia's article on such circuits: 9 V, 1.8 V, 5 mA: 1440 ohms, 1.5 k, 4.80 mA, 34.6 mW.
    (one,) = found("devices: {H1: {kind: lamps, at: [1500, 300], lamp_volts: 1.8, lamp_milliamps: 5}}\n")
    assert one.resistor is not None
    assert (one.device, one.lamps, one.at) == ("H1", ("L",), "L")
    assert (one.resistor.wanted_ohms, one.resistor.ohms) == (1440, 1500)
    assert float(one.resistor.amps) == pytest.approx(4.80e-3)
    assert float(one.resistor.watts) == pytest.approx(34.6e-3, rel=2e-3)
    assert one.resistor.rating_watts == Fraction(1, 8)


@pytest.mark.parametrize(
    ("volts", "lamp", "milliamps", "ohms"),
    [("5", "1.4", "15", 240), ("5", "2.3", "9", 300), ("5", "2.3", "15", 180), ("3", "2.4", "4", 150)],
)
def test_no_step_too_high(volts: str, lamp: str, milliamps: str, ohms: int) -> None:
    """Four cases in which floats that are divided plainly come out a step too high; these are decimals as typed."""
    text = f"devices: {{H1: {{kind: lamps, at: [1500, 300], lamp_volts: {lamp}, lamp_milliamps: {milliamps}}}}}\n"
    (one,) = found(text, volts)
    assert one.resistor is not None
    assert one.resistor.ohms == ohms


def test_a_pair_of_which_one_burns_shares_one() -> None:
    (one,) = found("devices: {S1: {kind: signal-2-aspect, lever: 4, at: [1500, 300], lamp_volts: 2}}\n")
    assert (one.lamps, one.at) == (("R", "G"), "C")
    assert one.resistor is not None
    assert one.resistor.wanted_ohms == 700, "the kind's 10 mA"


def test_a_pair_beside_the_lever_shares_one_however_many_motors_it_works() -> None:
    motor = "kind: twin-coil-lamps, lamp_volts: 2, lamp_milliamps: 10, supplies: {coils: PULSE, lamps: LIGHT}"
    (one,) = found(f"points: {{P5A: {{at: [1500, 300], {motor}}}, P5B: {{at: [1600, 300], {motor}}}}}\n")
    assert (one.device, one.lamps, one.at) == ("P5A", ("lamp-N", "lamp-R"), "lamp-C")


def test_of_three_lamps_each_has_its_own() -> None:
    signal = found("devices: {S1: {kind: signal-3-aspect, lever: 4, at: [1500, 300], lamp_volts: 2}}\n")
    assert [(one.lamps, one.at) for one in signal] == [(("R",), "R"), (("Y",), "Y"), (("G",), "G")]


def test_in_series_with_a_stall_motor_there_is_none() -> None:
    motor = "kind: stall-motor, lamp_volts: 2, supplies: {drive: LIGHT, rails: CAB}"
    (one,) = found(f"points: {{P5: {{at: [1500, 300], {motor}}}}}\n")
    assert one.in_series
    assert one.resistor is None


def test_the_lamp_of_a_signal_whose_motor_has_its_own_current() -> None:
    arm = "kind: semaphore, lever: 4, at: [1500, 300], milliamps: 100, lamp_volts: 2"
    assert found(f"devices: {{S1: {{{arm}}}}}\n") == [], "100 mA are the motor's"
    (one,) = found(f"devices: {{S1: {{{arm}, lamp_milliamps: 10}}}}\n")
    assert (one.lamps, one.at) == (("L",), "L")


def test_a_supply_without_enough() -> None:
    (one,) = found("devices: {H1: {kind: lamps, at: [1500, 300], lamp_volts: 9, lamp_milliamps: 5}}\n")
    assert one.resistor is None
    assert not one.in_series


@pytest.mark.parametrize("lamp", ["milliamps: 20", "lamp_volts: 2"])
def test_without_volts_or_current_there_is_nothing_to_work_out(lamp: str) -> None:
    assert found(f"devices: {{H1: {{kind: lamps, at: [1500, 300], {lamp}}}}}\n") == []


def test_of_alternating_current_nothing_is_said() -> None:
    text = "kinds: {bulb: {terminals: {L: lamp, C: return}, supply: ac, lamp_volts: 2, lamp_milliamps: 5, group: ["
    text += "{function: lamp, terminal: L, chain: feed}], chain: [{function: return, terminal: C, supply: return}]}}\n"
    head = HEAD.replace("kind: dc", "kind: ac")
    description, _ = read_description_text(f"{head}{text}devices: {{H1: {{kind: bulb, at: [1500, 300]}}}}\n")
    assert description is not None
    netlist, _ = expand(description, built_in_kinds())
    assert netlist.circuits
    assert lamp_resistors(description, netlist) == ()
