"""Pulses of whole railways against sums and networks made by hand from the wire list, networkx and an ODE solver."""

from itertools import pairwise
from math import isclose

import networkx as nx
import numpy as np
import pytest
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


def test_the_network_against_an_ode_with_inductance_in_the_coils() -> None:
    """Two coils of 5 mH side by side on shared wire: unlike branches keep their shares to within a few per cent.

    With like time constants of the coils (L in proportion to R) the shares are exact, and the peak is lower.
    """
    shared, own_a, own_b, coil_a, coil_b = 0.3, 0.05, 0.25, 4.5, 6.0
    henries = np.array([own_a + coil_a, own_b + coil_b]) * 1e-3
    farads, volts = 4700e-6, 24.0

    def change(_: float, state: np.ndarray) -> list[float]:
        bank, a, b = state[:3]
        across = bank - shared * (a + b)
        return [
            -(a + b) / farads,
            (across - a * (own_a + coil_a)) / henries[0],
            (across - b * (own_b + coil_b)) / henries[1],
            a * a * coil_a,
            b * b * coil_b,
            (a + b) ** 2 * shared + a * a * own_a + b * b * own_b,
        ]

    run = solve_ivp(change, (0, 1), [volts, 0, 0, 0, 0, 0], rtol=1e-10, atol=1e-12, method="LSODA")
    energies = run.y[3:, -1]
    stored = farads * volts**2 / 2
    parallel = 1 / (1 / (own_a + coil_a) + 1 / (own_b + coil_b))
    loop = shared + parallel
    amps_a, amps_b = parallel / loop / (own_a + coil_a), parallel / loop / (own_b + coil_b)
    expected = [amps_a**2 * coil_a * loop, amps_b**2 * coil_b * loop]
    assert isclose(sum(energies), stored, rel_tol=1e-6)
    assert np.allclose(energies[:2] / stored, expected, rtol=1e-6)
    assert max(run.y[1] + run.y[2]) < volts / loop


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


@pytest.mark.parametrize("thicker", ["return", "feed", "normal"])
def test_thicker_wire_never_lowers_a_share(thicker: str) -> None:
    thin = figured(CROSSOVER)[2]
    thick = figured(CROSSOVER + f"functions: {{{thicker}: {{size: 50/0.25}}}}\n")[2]
    pairs = list(zip(thin.throws, thick.throws, strict=True))
    assert pairs
    for one, other in pairs:
        assert sum(c.share for c in other.coils) >= sum(c.share for c in one.coils) - 1e-12
    assert any(b.loop_ohms < a.loop_ohms for a, b in pairs)


def test_more_motors_at_once_never_raise_any_share() -> None:
    alone = throw(figured(CROSSOVER.replace("P5B: {at: [2600, 700], ohms: 6}, ", ""))[2], "5", "normal")
    both = throw(figured(CROSSOVER)[2], "5", "normal")
    assert both.coils[0].device == alone.coils[0].device == "P5A"
    assert both.coils[0].share < alone.coils[0].share
