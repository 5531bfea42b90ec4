"""What the figures of one lever and of one strip are, told apart by hand."""

import pytest

from labelgen.figuring.figures import figures_of
from labelgen.model.figure_views import FigureView, FigureViews
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.wiring.expansion import expand

TEXT = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
supplies:
  PULSE: {kind: pulse, at: [100, 100], volts: 24, microfarads: 4700}
  LIGHT: {kind: dc, at: [100, 200], volts: 12}
points:
  P5A: {at: [900, 300], strip: A1}
  P5B: {at: [2200, 300], strip: A2}
  P6: {at: [1000, 300], strip: A1}
devices: {H1: {kind: lamps, at: [2000, 200], lamp_volts: 2, lamp_milliamps: 20, strip: A2}}
routes: {Quay: {6: reverse}}
"""


@pytest.fixture(scope="module")
def views() -> FigureViews:
    description, problems = read_description_text(TEXT)
    assert description is not None, problems
    netlist, _ = expand(description, built_in_kinds())
    return FigureViews(figures_of(description, netlist), netlist)


def told(view: FigureView) -> list[tuple[str, str]]:
    return [(throw.lever, throw.lie) for throw in view.throws]


def test_a_lever(views: FigureViews) -> None:
    view = views.of_lever("5")
    assert told(view) == [("5", "normal"), ("5", "reverse")]
    assert [bank.supply for bank in view.banks] == ["PULSE"]
    assert (view.loads, view.resistors, view.ways) == ((), (), {})


def test_a_lever_that_a_route_sets(views: FigureViews) -> None:
    assert told(views.of_lever("6")) == [("6", "normal"), ("6", "reverse"), ("Quay", "set")]


def test_a_strip(views: FigureViews) -> None:
    first, second = views.of_strip("A1"), views.of_strip("A2")
    assert told(first) == [("5", "normal"), ("5", "reverse"), ("6", "normal"), ("6", "reverse"), ("Quay", "set")]
    assert told(second) == [("5", "normal"), ("5", "reverse")]
    assert [load.device for load in second.loads] == ["H1"]
    assert [float(one.resistor.ohms) for one in second.resistors if one.resistor] == [510]
    assert first.ways == {}
    assert list(second.ways.values()) == pytest.approx([0.0196], rel=1e-2)


def test_what_is_not_there(views: FigureViews) -> None:
    assert views.of_lever("99") == views.of_strip("A9") == FigureView()
