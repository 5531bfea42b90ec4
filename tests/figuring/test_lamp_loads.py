"""Lamps with their resistors as steady loads, and steady networks against networkx and a dense solution by numpy."""

from math import isclose

import networkx as nx
import numpy as np
import pytest
from test_steady_loads import HEAD, load
from test_throws_figures import figured

from labelgen.model.copper import wire_ohms

LAMPS = HEAD + (
    "devices:\n"
    "  H1: {kind: lamps, at: [1500, 300], milliamps: 500}\n"
    "  H2: {kind: lamps, at: [2500, 300], milliamps: 300}\n"
    "  H3: {kind: lamps, at: [2900, 800], milliamps: 700}\n"
)


def whole_network() -> tuple[nx.Graph, dict[str, float]]:
    """All wires, and the lamps as resistances; ohms of the lamps by device."""
    _, netlist, _ = figured(LAMPS)
    lamps = {"H1": 24.0, "H2": 40.0, "H3": 12 / 0.7}
    graph = nx.Graph()
    for wire in netlist.wires:
        graph.add_edge(wire.start.name, wire.finish.name, ohms=wire_ohms(wire))
    for device, ohms in lamps.items():
        graph.add_edge(f"{device}.L", f"{device}.C", ohms=ohms)
    return graph, lamps


def test_three_lamps_by_a_dense_solution() -> None:
    graph, lamps = whole_network()
    names = list(graph)
    laplacian = np.zeros((len(names), len(names)))
    for one, other, data in graph.edges(data=True):
        a, b, siemens = names.index(one), names.index(other), 1 / data["ohms"]
        laplacian[[a, b], [a, b]] += siemens
        laplacian[[a, b], [b, a]] -= siemens
    known = {names.index("LIGHT.feed"): 12.0, names.index("LIGHT.return"): 0.0}
    right = np.zeros(len(names))
    for row, volts in known.items():
        laplacian[row] = 0
        laplacian[row, row], right[row] = 1, volts
    volts = dict(zip(names, np.linalg.solve(laplacian, right), strict=True))
    figures = figured(LAMPS)[2]
    for device, ohms in lamps.items():
        across = volts[f"{device}.L"] - volts[f"{device}.C"]
        assert isclose(load(figures, device).volts, across, rel_tol=1e-9)
        assert isclose(load(figures, device).amps, across / ohms, rel_tol=1e-9)


def test_the_whole_by_resistance_distance() -> None:
    graph, _ = whole_network()
    ohms = nx.resistance_distance(graph, "LIGHT.feed", "LIGHT.return", weight="ohms", invert_weight=True)
    assert isclose(figured(LAMPS)[2].supplies[0].amps, 12 / ohms, rel_tol=1e-7)


def test_a_supply_that_resists_itself() -> None:
    graph, _ = whole_network()
    ohms = nx.resistance_distance(graph, "LIGHT.feed", "LIGHT.return", weight="ohms", invert_weight=True)
    weak = figured(LAMPS.replace("amps: 1", "amps: 1, esr_ohms: 2"))[2]
    assert isclose(weak.supplies[0].amps, 12 / (ohms + 2), rel_tol=1e-7)


def test_energy_is_conserved_in_steady_networks() -> None:
    _, netlist, figures = figured(LAMPS)
    wires = {wire.number: wire for wire in netlist.wires}
    lost = sum(figure.amps**2 * wire_ohms(wires[figure.number]) for figure in figures.wires)
    used = sum(one.amps * one.volts for one in figures.loads)
    assert isclose(lost + used, 12 * figures.supplies[0].amps, rel_tol=1e-9)


def test_a_lamp_draws_what_its_resistor_gives() -> None:
    # 12 V, 2 V, 20 mA wanted: 510 ohms of E24 give 19.61 mA.
    text = HEAD + "devices: {H1: {kind: lamps, at: [120, 120], lamp_volts: 2, lamp_milliamps: 20}}\n"
    found = load(figured(text)[2], "H1")
    assert isclose(found.amps, 0.01961, rel_tol=1e-3)


def test_lamps_beside_the_lever_burn_by_the_motors_contacts() -> None:
    text = HEAD.replace("amps: 1}}", "amps: 1}, PULSE: {kind: pulse}}") + (
        "points: {P5: {kind: twin-coil-lamps, at: [1500, 300], lamp_volts: 2, lamp_milliamps: 10, "
        "supplies: {coils: PULSE, lamps: LIGHT}}}\n"
    )
    figures = figured(text)[2]
    assert [(one.device, one.terminal) for one in figures.loads] == [("P5", "lamp-N"), ("P5", "lamp-R")]
    # One burns at a time.
    assert isclose(figures.supplies[0].amps, 0.010, rel_tol=2e-3)


def test_a_lamp_in_series_leaves_the_motor_the_rest() -> None:
    text = HEAD.replace("amps: 1}}", "amps: 1}, CAB: {kind: track}}")
    motor = "points: {{P1: {{kind: stall-motor, at: [120, 120], supplies: {{drive: LIGHT, rails: CAB}}{}}}}}\n"
    plain = load(figured(text + motor.format(""))[2], "P1")
    lit = load(figured(text + motor.format(", lamp_volts: 2"))[2], "P1")
    assert isclose(lit.amps / plain.amps, 10 / 12, rel_tol=1e-3)


@pytest.mark.parametrize(("keys", "amps"), [("ohms: 120", 0.1), ("milliamps: 50", 0.05), ("lamp_milliamps: 30", 0.03)])
def test_what_a_lamp_may_say(keys: str, amps: float) -> None:
    found = load(figured(f"{HEAD}devices: {{H1: {{kind: lamps, at: [120, 120], {keys}}}}}\n")[2], "H1")
    assert isclose(found.amps, amps, rel_tol=1e-2)
