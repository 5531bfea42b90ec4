"""Trains that take all that their supply gives, against ohms added up by hand."""

from math import isclose

import networkx as nx
import pytest
from test_throws_figures import figured

from labelgen.model.copper import wire_ohms
from labelgen.model.figures import Figures, LoadFigure
from labelgen.model.netlist import Netlist

HEAD = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
strips: {A1: {at: [1000, 500], measured: 110}, A2: {at: [2000, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
"""
CAB = HEAD + "supplies: {CAB: {kind: track, at: [100, 100], volts: 12, amps: 2}}\n"


def train(figures: Figures, device: str) -> LoadFigure:
    (found,) = [load for load in figures.loads if load.device == device]
    assert found.train
    return found


def ohms_by_hand(netlist: Netlist, *ways: tuple[str, str]) -> float:
    graph = nx.Graph()
    for wire in netlist.wires:
        graph.add_edge(wire.start.name, wire.finish.name, ohms=wire_ohms(wire))
    return sum(nx.shortest_path_length(graph, one, other, weight="ohms") for one, other in ways)


def test_a_section_by_its_lever() -> None:
    _, netlist, figures = figured(CAB + "devices: {YARD: {kind: section, lever: 3, at: [2500, 200]}}\n")
    found = train(figures, "YARD")
    ohms = ohms_by_hand(netlist, ("CAB.A", "L3.1"), ("L3.2", "YARD.A"), ("YARD.B", "CAB.B"))
    assert isclose(found.drop_volts, 2 * ohms, rel_tol=1e-9)
    assert isclose(found.volts, 12 - 2 * ohms)
    assert found.amps == 2


def test_every_wire_of_a_loop_carries_the_train() -> None:
    _, netlist, figures = figured(CAB + "devices: {YARD: {kind: section, lever: 3, at: [2500, 200]}}\n")
    assert {wire.number: wire.amps for wire in figures.wires} == dict.fromkeys((w.number for w in netlist.wires), 2)


def test_only_the_way_to_it_does() -> None:
    text = CAB + "devices: {N1: {kind: rail-feed, at: [900, 200]}, N2: {kind: rail-feed, at: [2500, 200]}}\n"
    _, netlist, figures = figured(text)
    far = ohms_by_hand(netlist, ("CAB.A", "N2.A"), ("N2.B", "CAB.B"))
    near = ohms_by_hand(netlist, ("CAB.A", "N1.A"), ("N1.B", "CAB.B"))
    assert isclose(train(figures, "N1").drop_volts, 2 * near)
    assert isclose(train(figures, "N2").drop_volts, 2 * far)
    assert {wire.amps for wire in figures.wires} == {2}, "trains come one by one"


def test_a_fuse_lets_less_through() -> None:
    text = CAB.replace("amps: 2", "amps: 2, fuse: 1, esr_ohms: 0.5")
    _, netlist, figures = figured(text + "devices: {N1: {kind: rail-feed, at: [900, 200]}}\n")
    ohms = ohms_by_hand(netlist, ("CAB.A", "N1.A"), ("N1.B", "CAB.B"))
    assert isclose(train(figures, "N1").drop_volts, 1 * (ohms + 0.5))


def test_through_a_breaker_from_the_station() -> None:
    text = HEAD + (
        "supplies: {DCC: {kind: digital, at: [100, 100], volts: 15, amps: 3}}\n"
        "devices:\n"
        "  CUT: {kind: breaker, at: [200, 100]}\n"
        "  N1: {kind: dropper, at: [2500, 200], supply: CUT}\n"
    )
    _, netlist, figures = figured(text)
    ways = (("DCC.A", "CUT.inA"), ("CUT.A", "N1.A"), ("N1.B", "CUT.B"), ("CUT.inB", "DCC.B"))
    found = train(figures, "N1")
    assert found.supply == "DCC"
    assert isclose(found.drop_volts, 3 * ohms_by_hand(netlist, *ways))


@pytest.mark.parametrize("lacking", ["volts: 12, ", ", amps: 2"])
def test_what_the_supply_does_not_say(lacking: str) -> None:
    text = CAB.replace(lacking, "")
    assert text != CAB
    assert figured(text + "devices: {N1: {kind: rail-feed, at: [900, 200]}}\n")[2].loads == ()


def test_a_crossing_is_no_place_for_a_train() -> None:
    text = CAB + "devices: {X1: {kind: crossing-changer, at: [900, 200]}}\n"
    assert figured(text)[2].loads == ()


def test_a_changeover_puts_the_train_on_either_way() -> None:
    text = CAB + "devices: {LOOP: {kind: reversing-loop, lever: 4, at: [2500, 200]}}\n"
    _, netlist, figures = figured(text)
    ways = (("CAB.A", "L4.P"), ("L4.A", "LOOP.A"), ("LOOP.B", "L4.B"), ("L4.M", "CAB.B"))
    assert isclose(train(figures, "LOOP").drop_volts, 2 * ohms_by_hand(netlist, *ways))
