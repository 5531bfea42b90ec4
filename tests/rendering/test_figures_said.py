"""Figures on a terminal and for other programs: every one of them, unrounded where a program reads."""

import json

import pytest

from labelgen.figuring.figures import figures_of
from labelgen.model.figures import Figures
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.rendering.figure_tables import print_figures
from labelgen.rendering.figures_json import figures_as_json
from labelgen.wiring.expansion import expand

TEXT = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}, A3: {at: [2500, 500]}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
supplies:
  PULSE: {kind: pulse, at: [100, 100], volts: 24, microfarads: 1000, charge_ohms: 220}
  LIGHT: {kind: dc, at: [100, 200], volts: 12}
  DIM: {kind: dc, at: [100, 300], volts: 2}
  CAB: {kind: track, at: [100, 400], volts: 12, amps: 1}
points:
  P5A: {at: [900, 300]}
  P5B: {at: [2200, 300]}
  P8: {kind: stall-motor, at: [1500, 300], lamp_volts: 2, supplies: {drive: LIGHT, rails: CAB}}
devices:
  H1: {kind: lamps, at: [2000, 200], lamp_volts: 2, lamp_milliamps: 20, supply: LIGHT}
  H2: {kind: lamps, at: [2000, 300], lamp_volts: 3, lamp_milliamps: 20, supply: DIM}
  N1: {kind: rail-feed, at: [2000, 300]}
"""


@pytest.fixture(scope="module")
def figures() -> Figures:
    description, problems = read_description_text(TEXT)
    assert description is not None, problems
    return figures_of(description, expand(description, built_in_kinds())[0])


def test_on_a_terminal(figures: Figures, capsys: pytest.CaptureFixture[str]) -> None:
    print_figures(figures)
    out = " ".join(capsys.readouterr().out.split())
    assert "lever 5 normal PULSE 0.29" in out
    # Five time constants of 1000 µF through 220 ohms: 1.1 s, and 60 / 1.1 = 54.5 a minute: 54 find the bank full.
    assert "PULSE 0.29 1.1 54 lever 5" in out
    assert "PULSE a bank of 2200 µF P5B" in out
    assert "H1.L LIGHT 0.020 11.99" in out
    assert "N1.A CAB 1.000" in out
    assert "a train that takes all" in out
    assert "H1 L LIGHT 510 Ω L 19.61 0.196 1/2" in out
    assert "H2 L DIM not enough volts" in out
    assert "P8 LIGHT none: in series with the motor" in out


def test_nothing_of_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    print_figures(Figures())
    assert capsys.readouterr().out == ""


def test_for_programs(figures: Figures) -> None:
    told = json.loads(json.dumps(figures_as_json(figures)))
    (bank,) = told["banks"]
    assert bank["seconds_to_full"] == pytest.approx(1.1)
    assert bank["throws_a_minute"] == pytest.approx(60 / 1.1)
    assert (bank["weakest"]["lever"], bank["weakest"]["device"]) == ("5", "P5B")
    assert bank["weakest"]["joules"] == figures.banks[0].weakest.weakest.joules
    assert bank["mends"][0]["words"] == "a bank of 2200 µF"
    by_device = {one["device"]: one for one in told["resistors"]}
    assert by_device["H1"]["ohms"] == 510
    assert by_device["H1"]["rating_watts"] == 0.5
    assert by_device["H2"]["ohms"] is None
    assert by_device["P8"]["in_series"] is True
    assert {load["device"]: load["train"] for load in told["loads"]} == {"H1": False, "N1": True, "P8": False}
