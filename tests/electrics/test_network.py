"""Networks against hand calculation, networkx and a dense solution by numpy."""

from math import isclose

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from labelgen.electrics.network import Branch, solve


def ohms_between(branches: list[Branch[object]], a: object, b: object) -> float:
    return 1 / solve(branches, a, b).total_amps


def test_two_lamps_along_a_bus() -> None:
    # 12 V, every stretch 0.133 ohms there and back, 1 A at each tap: by hand 11.468 V and 11.202 V.
    first, second = 11.468, 11.202
    branches = [
        Branch("+", "a", 0.133),
        Branch("a", "b", 0.133),
        Branch("a", "a-", first / 1),
        Branch("b", "b-", second / 1),
        Branch("a-", "-", 0.133),
        Branch("b-", "a-", 0.133),
    ]
    found = solve(branches, "+", "-", 12)
    assert isclose(found.volts["a"] - found.volts["a-"], first, abs_tol=1e-9)
    assert isclose(found.volts["b"] - found.volts["b-"], second, abs_tol=1e-9)
    assert isclose(found.total_amps, 2, abs_tol=1e-9)


def test_the_textbook_cube() -> None:
    # Eight corners, twelve edges of 1 ohm: 5/6 ohm from corner to opposite corner.
    branches = [Branch(a, b, 1.0) for a, b in nx.hypercube_graph(3).edges]
    assert isclose(ohms_between(branches, (0, 0, 0), (1, 1, 1)), 5 / 6)


GRAPHS = st.integers(3, 9).flatmap(
    lambda size: st.tuples(
        st.just(size),
        st.lists(
            st.tuples(st.integers(0, size - 1), st.integers(0, size - 1), st.floats(0.01, 100)), min_size=2, max_size=20
        ),
    )
)


@given(GRAPHS)
@settings(deadline=None)
def test_resistance_as_networkx_says(case: tuple[int, list[tuple[int, int, float]]]) -> None:
    size, edges = case
    line = [(number, number + 1, 1.0) for number in range(size - 1)]
    branches = [Branch(a, b, r) for a, b, r in [*line, *edges] if a != b]
    conductance: dict[tuple[int, int], float] = {}
    for branch in branches:
        key = (min(branch.start, branch.finish), max(branch.start, branch.finish))
        conductance[key] = conductance.get(key, 0) + 1 / branch.ohms
    graph = nx.Graph()
    graph.add_edges_from((a, b, {"R": 1 / g}) for (a, b), g in conductance.items())
    judged = nx.resistance_distance(graph, 0, size - 1, weight="R", invert_weight=True)
    assert isclose(ohms_between(branches, 0, size - 1), judged, rel_tol=1e-7)


@given(GRAPHS)
@settings(deadline=None)
def test_what_goes_in_is_what_is_spent(case: tuple[int, list[tuple[int, int, float]]]) -> None:
    size, edges = case
    branches = [Branch(n, n + 1, 1.0) for n in range(size - 1)] + [Branch(a, b, r) for a, b, r in edges if a != b]
    found = solve(branches, 0, size - 1, 24)
    assert isclose(sum(found.watts(branches)), 24 * found.total_amps, rel_tol=1e-9)


def test_a_long_ladder_by_the_sparse_way_as_by_the_dense() -> None:
    count = 150
    branches = [Branch(n, n + 1, 0.1 + n % 7) for n in range(count)] + [Branch(n, n + 9, 2.0) for n in range(count - 9)]
    laplacian = np.zeros((count + 1, count + 1))
    for branch in branches:
        for here, there in ((branch.start, branch.finish), (branch.finish, branch.start)):
            laplacian[here, here] += 1 / branch.ohms
            laplacian[here, there] -= 1 / branch.ohms
    current = np.zeros(count)
    current[0] = 1.0
    dense = np.linalg.solve(laplacian[:count, :count], current)
    assert isclose(ohms_between(branches, 0, count), dense[0], rel_tol=1e-9)


def test_plain_metal_joins_its_ends() -> None:
    branches = [Branch("+", "a", 2.0), Branch("a", "b", 0.0), Branch("b", "-", 2.0)]
    found = solve(branches, "+", "-", 12)
    assert found.volts["a"] == found.volts["b"] == 6
    assert found.amps == (3.0, 0.0, 3.0)


def test_plus_and_minus_may_not_be_one_piece() -> None:
    with pytest.raises(ValueError, match="one piece of metal"):
        solve([Branch("+", "-", 0.0)], "+", "-")


def test_no_way_round_no_current() -> None:
    found = solve([Branch("+", "a", 1.0), Branch("b", "-", 1.0), Branch("c", "d", 1.0)], "+", "-", 12)
    assert found.amps == (0.0, 0.0, 0.0)
    assert found.total_amps == 0
    assert found.volts["a"] == 12
    assert "c" not in found.volts


def test_one_resistance_alone() -> None:
    found = solve([Branch("-", "+", 4.0)], "+", "-", 12)
    assert found.amps == (-3.0,)
    assert found.total_amps == 3
