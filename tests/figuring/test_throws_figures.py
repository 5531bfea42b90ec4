"""Pulses of whole railways against sums and networks made by hand from the wire list, networkx and an ODE solver."""

from itertools import pairwise
from math import isclose

import networkx as nx
import numpy as np
import pytest
import sympy
from scipy.integrate import solve_ivp

from labelgen.figuring.figures import figures_of
from labelgen.model.description import Description
from labelgen.model.figures import Figures, ThrowFigure
from labelgen.model.netlist import Netlist
from labelgen.reading.data_readers import built_in_kinds
from labelgen.reading.description_reader import read_description_text
from labelgen.standards.copper import ohms_per_metre
from labelgen.wiring.expansion import expand

HEAD = """\
railway: Samphire Point
boards: {B1: {size: [3000, 900], at: [0, 0]}}
slack: {strip: 0, device: 0, panel: 0, round: 1}
supplies: {PULSE: {kind: pulse, at: [100, 100], volts: 24, microfarads: 4700}}
strips: {A1: {at: [1000, 500], measured: 110}}
panels: {BOX: {at: [900, 900], size: [300, 100], levers: {row: 5}}}
"""


def figured(text: str) -> tuple[Description, Netlist, Figures]:
    description, problems = read_description_text(text)
    assert description is not None, problems
    netlist, problems = expand(description, built_in_kinds())
    assert not [p for p in problems if p.severity == "error"], problems
    return description, netlist, figures_of(description, netlist)


def throw(figures: Figures, lever: str, lie: str) -> ThrowFigure:
    return next(one for one in figures.throws if (one.lever, one.lie) == (lever, lie))


def loop_by_hand(netlist: Netlist, ends: list[str]) -> float:
    """Ohms of the wires along a list of ends."""
    between = {frozenset((wire.start.name, wire.finish.name)): wire for wire in netlist.wires}
    wires = [between[frozenset(pair)] for pair in pairwise(ends) if frozenset(pair) in between]
    return sum(ohms_per_metre(wire.size) * (wire.length or 0) / 1000 for wire in wires)


def test_one_coil_is_a_sum_along_the_loop() -> None:
    _, netlist, figures = figured(HEAD + "points: {P5: {at: [2400, 300], ohms: 5}}\n")
    loop = loop_by_hand(netlist, ["PULSE.feed", "A1.2", "L5.F"]) + loop_by_hand(netlist, ["L5.R", "A1.3", "P5.R"])
    loop += loop_by_hand(netlist, ["P5.C", "PULSE.return"])
    found = throw(figures, "5", "reverse")
    stored = 4700e-6 * 24**2 / 2
    assert loop > 0.1
    assert isclose(found.loop_ohms, 5 + loop)
    assert isclose(found.stored_joules, stored)
    assert isclose(found.peak_amps, 24 / (5 + loop))
    assert isclose(found.time_constant_ms, 4.7 * (5 + loop))
    (coil,) = found.coils
    assert (coil.device, coil.terminal) == ("P5", "R")
    assert isclose(coil.share, 5 / (5 + loop))
    assert isclose(coil.joules, coil.share * stored)
    assert found.unmeasured == 0


CROSSOVER = HEAD + "points: {P5A: {at: [300, 300]}, P5B: {at: [2600, 700], ohms: 6}, P6: {at: [2000, 200]}}\n"


def network(netlist: Netlist, closed: tuple[str, str], coils: dict[tuple[str, str], float]) -> nx.Graph:
    """All wires and some coils; the two ends of a closed contact are one joint."""
    graph = nx.Graph()
    for wire in netlist.wires:
        ohms = ohms_per_metre(wire.size) * (wire.length or 0) / 1000
        graph.add_edge(wire.start.name, wire.finish.name, ohms=ohms)
    for (one, other), ohms in coils.items():
        graph.add_edge(one, other, ohms=ohms)
    graph = nx.contracted_nodes(graph, *closed, self_loops=False)
    return graph.subgraph(nx.node_connected_component(graph, "PULSE.feed"))


def test_two_motors_that_share_wire_as_networkx_says() -> None:
    _, netlist, figures = figured(CROSSOVER)
    found = throw(figures, "5", "normal")
    graph = network(netlist, ("L5.F", "L5.N"), {("P5A.N", "P5A.C"): 4.5, ("P5B.N", "P5B.C"): 6.0})
    judged = nx.resistance_distance(graph, "PULSE.feed", "PULSE.return", weight="ohms", invert_weight=True)
    assert isclose(found.loop_ohms, judged, rel_tol=1e-6)
    assert [coil.device for coil in found.coils] == ["P5A", "P5B"]
    assert sum(coil.share for coil in found.coils) < 1


def test_energy_is_conserved() -> None:
    """What coils and wires get, each by its own current, is what was stored."""
    _, netlist, figures = figured(CROSSOVER)
    found = throw(figures, "5", "reverse")
    graph = network(netlist, ("L5.F", "L5.R"), {("P5A.R", "P5A.C"): 4.5, ("P5B.R", "P5B.C"): 6.0})
    names = list(graph)
    laplacian = nx.laplacian_matrix(_with_conductance(graph), nodelist=names, weight="siemens").toarray()
    current = np.zeros(len(names))
    current[names.index("PULSE.feed")], current[names.index("PULSE.return")] = 1, -1
    volts = dict(zip(names, np.linalg.pinv(laplacian) @ current, strict=True))
    spent = {frozenset(e): (volts[e[0]] - volts[e[1]]) ** 2 / graph.edges[e]["ohms"] for e in graph.edges}
    total = sum(spent.values())
    for coil in found.coils:
        assert isclose(coil.share, spent[frozenset((f"{coil.device}.R", f"{coil.device}.C"))] / total, rel_tol=1e-9)
    assert isclose(total, found.loop_ohms, rel_tol=1e-9)
    assert isclose(found.amps_squared_seconds * found.loop_ohms, found.stored_joules, rel_tol=1e-9)


def _with_conductance(graph: nx.Graph) -> nx.Graph:
    copy = nx.Graph(graph)
    for _, _, data in copy.edges(data=True):
        data["siemens"] = 1 / data["ohms"]
    return copy


def ways_through(
    netlist: Netlist, closed: tuple[str, str], coils: dict[tuple[str, str], float]
) -> list[dict[str, float]]:
    """Of each coil, the wires of its loop: number: ohms. By hand from the wire list, with networkx for the ways."""
    graph = nx.Graph()
    for wire in netlist.wires:
        ohms = ohms_per_metre(wire.size) * (wire.length or 0) / 1000
        graph.add_edge(wire.start.name, wire.finish.name, ohms=ohms, number=wire.number)
    graph.add_edge(*closed, ohms=0.0, number="contact")
    found = []
    for fed, back in coils:
        steps = [*pairwise(nx.shortest_path(graph, "PULSE.feed", fed))]
        steps += pairwise(nx.shortest_path(graph, back, "PULSE.return"))
        found.append({str(graph.edges[step]["number"]): graph.edges[step]["ohms"] for step in steps})
    return found


def test_the_network_against_an_ode_with_inductance_in_the_coils() -> None:
    """Two motors with a few millihenries each on shared wire, stepped through time by scipy: the shares are ours.

    The inductances are in proportion to what each branch resists, as those of like motors nearly are. The peak is
    lower than the one without them.
    """
    _, netlist, figures = figured(CROSSOVER)
    found = throw(figures, "5", "normal")
    coils = {("P5A.N", "P5A.C"): 4.5, ("P5B.N", "P5B.C"): 6.0}
    one, other = ways_through(netlist, ("L5.F", "L5.N"), coils)
    shared = sum(ohms for number, ohms in one.items() if number in other)
    own = np.array(
        [sum(ohms for n, ohms in way.items() if n not in them) for way, them in ((one, other), (other, one))]
    )
    branch = own + np.array([*coils.values()])
    henries, farads, volts = branch * 1e-3, 4700e-6, 24.0

    def change(_: float, state: np.ndarray) -> np.ndarray:
        bank, amps = state[0], state[1:3]
        across = bank - shared * amps.sum()
        heat = amps**2 * np.array([*coils.values()])
        return np.array([-amps.sum() / farads, *((across - amps * branch) / henries), *heat])

    run = solve_ivp(change, (0, 1), [volts, 0, 0, 0, 0], rtol=1e-10, atol=1e-12, method="LSODA")
    assert shared > 0.05
    assert own.min() > 0.01
    assert np.allclose(run.y[3:, -1], [coil.joules for coil in found.coils], rtol=1e-6)
    assert max(run.y[1] + run.y[2]) < found.peak_amps


def test_one_loop_as_its_closed_form_says() -> None:
    """By symbols: the integral of the coil's power over all time."""
    _, netlist, figures = figured(HEAD + "points: {P5: {at: [2400, 300], ohms: 5}}\n")
    (way,) = ways_through(netlist, ("L5.F", "L5.R"), {("P5.R", "P5.C"): 5.0})
    capacity, volts, wire, coil, time = sympy.symbols("C V w Rc t", positive=True)
    amps = volts / (wire + coil) * sympy.exp(-time / ((wire + coil) * capacity))
    closed = sympy.integrate(amps**2 * coil, (time, 0, sympy.oo))
    judged = closed.subs({capacity: 4700e-6, volts: 24, wire: sum(way.values()), coil: 5})
    assert isclose(throw(figures, "5", "reverse").coils[0].joules, float(judged), rel_tol=1e-9)


def test_a_route_drives_the_coils_it_names_at_once() -> None:
    text = CROSSOVER + "routes: {Harbour: {levers: {5: normal, 6: reverse}}}\n"
    _, _, figures = figured(text)
    found = throw(figures, "Harbour", "set")
    assert [(c.device, c.terminal) for c in found.coils] == [("P5A", "N"), ("P5B", "N"), ("P6", "R")]
    assert found.weakest.joules < throw(figures, "6", "reverse").weakest.joules


def test_a_three_way_drives_two_coils_a_button() -> None:
    _, _, figures = figured(HEAD + "points: {P9: {kind: three-way, at: [2000, 300]}}\n")
    driven = {one.lie: sorted(coil.terminal for coil in one.coils) for one in figures.throws}
    # Trade practice: left B and D, centre B and C, right A and C.
    assert driven == {"left": ["B", "D"], "centre": ["B", "C"], "right": ["A", "C"]}


def test_a_routes_stud_needs_its_probe_too() -> None:
    route = HEAD + "points: {P5: {at: [2400, 300]}}\nroutes: {Quay: {levers: {5: normal}, stud: Q1}}\n"
    assert [one.lever for one in figured(route)[2].throws] == ["5", "5"]
    _, _, figures = figured(route + "devices: {PROBE: {kind: probe, panel: BOX, at: [20, 20]}}\n")
    assert throw(figures, "Quay", "set").coils[0].terminal == "N"


def test_a_swapped_motor_is_driven_the_other_way() -> None:
    _, _, figures = figured(HEAD + "points: {P5: {at: [2400, 300], swapped: yes}}\n")
    assert throw(figures, "5", "normal").coils[0].terminal == "R"


@pytest.mark.parametrize("lacking", ["microfarads: 4700", "volts: 24"])
def test_no_bank_no_figures(lacking: str) -> None:
    text = HEAD.replace(f", {lacking}", "") + "points: {P5: {at: [2400, 300]}}\n"
    assert lacking not in text
    assert figured(text)[2].throws == ()


def test_wires_without_a_length_are_counted_and_taken_for_nothing() -> None:
    _, _, figures = figured(HEAD + "points: {P5: }\n")
    found = throw(figures, "5", "normal")
    assert found.unmeasured == 2
    assert found.loop_ohms > 4.5


def test_a_stud_needs_its_probe() -> None:
    stud = HEAD + "levers: {5: {type: stud}}\npoints: {P5: {at: [2400, 300]}}\n"
    assert figured(stud)[2].throws == ()
    _, _, figures = figured(stud + "devices: {PROBE: {kind: probe, panel: BOX, at: [20, 20]}}\n")
    assert [(one.lie, one.coils[0].terminal) for one in figures.throws] == [("normal", "N"), ("reverse", "R")]


@pytest.mark.parametrize(("key", "part"), [("esr_ohms: 0.4", 0.4), ("", 0.0)])
def test_the_bank_resists_where_that_is_said(key: str, part: float) -> None:
    text = HEAD.replace("microfarads: 4700", f"microfarads: 4700, {key}") + "points: {P5: {at: [2400, 300], ohms: 5}}\n"
    _, netlist, figures = figured(text)
    (way,) = ways_through(netlist, ("L5.F", "L5.N"), {("P5.N", "P5.C"): 5.0})
    found = throw(figures, "5", "normal")
    assert isclose(found.loop_ohms, 5 + sum(way.values()) + part)
    assert isclose(found.coils[0].share, 5 / (5 + sum(way.values()) + part))


TOGGLE = "use: lever, hole: 6.5, covers: 11.5, fingers: 19, body: [13, 13]"


def test_a_contact_resists_where_that_is_said() -> None:
    text = HEAD.replace("row: 5}", "row: 5}, hardware: {levers: worn}") + "points: {P5: {at: [2400, 300], ohms: 5}}\n"
    _, _, good = figured(f"{text}hardware: {{worn: {{about: an old toggle, {TOGGLE}}}}}\n")
    _, _, worn = figured(f"{text}hardware: {{worn: {{about: an old toggle, {TOGGLE}, contact_ohms: 0.3}}}}\n")
    assert isclose(throw(worn, "5", "normal").loop_ohms, throw(good, "5", "normal").loop_ohms + 0.3)


def test_a_button_of_a_route_resists_as_well() -> None:
    button = "use: button, hole: 7, covers: 9, fingers: 14, body: [10, 10], contact_ohms: 0.3"
    text = HEAD.replace("row: 5}", "row: 5}, hardware: {routes: worn}") + "routes: {Quay: {5: normal}}\n"
    text += "points: {P5: {at: [2400, 300], ohms: 5}}\n"
    _, _, worn = figured(f"{text}hardware: {{worn: {{about: a button, {button}}}}}\n")
    _, _, good = figured(text.replace(", hardware: {routes: worn}", ""))
    assert isclose(throw(worn, "Quay", "set").loop_ohms, throw(good, "Quay", "set").loop_ohms + 0.3)


def test_diodes_of_a_route_take_their_volts() -> None:
    """The reference's own case: one loop with a fixed drop, C (V − Vd)² / 2 shared by ohms; levers have no diodes."""
    text = HEAD.replace("microfarads: 4700", "microfarads: 4700, diode_volts: 1.4")
    _, _, figures = figured(text + "points: {P5: {at: [2400, 300], ohms: 5}}\nroutes: {Quay: {5: normal}}\n")
    by_route, by_lever = throw(figures, "Quay", "set"), throw(figures, "5", "normal")
    assert isclose(by_route.coils[0].joules, 5 / by_route.loop_ohms * 4700e-6 * (24 - 1.4) ** 2 / 2)
    assert isclose(by_route.peak_amps, (24 - 1.4) / by_route.loop_ohms)
    assert isclose(by_lever.coils[0].joules, 5 / by_lever.loop_ohms * 4700e-6 * 24**2 / 2)


def test_two_diodes_side_by_side_take_the_volts_of_one() -> None:
    text = HEAD.replace("microfarads: 4700", "microfarads: 4700, diode_volts: 1")
    _, _, figures = figured(text + "points: {P9: {kind: three-way, at: [2000, 300]}}\n")
    left = throw(figures, "9", "left")
    assert isclose(left.peak_amps, 23 / left.loop_ohms)


def test_coils_that_hang_on_one_metal_with_the_return_have_no_figures() -> None:
    """Wire without length on a lever of plain wire: a fault of the builder's kind, and not one for these figures."""
    kind = (
        "kinds: {short: {terminals: {N: coil, C: return}, supply: pulse, lever_type: sprung, ohms: 4.5, group: ["
        "{function: normal, contact: N, terminal: N}, {function: feed, contact: F, chain: feed}, "
        "{function: reverse, contact: R, terminal: C}], chain: [{function: return, terminal: C, supply: return}]}}\n"
    )
    _, _, figures = figured(f"{HEAD}{kind}points: {{P5: {{kind: short}}}}\n")
    assert [one.lie for one in figures.throws] == ["normal"]
