"""Resistances joined in any way, and one source: what voltage each joint has, what current each branch."""

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from labelgen.disjoint_sets import DisjointSets

N = TypeVar("N", bound=Hashable)

LEAST_OHMS = 1e-9
"""Less is one piece of metal: its ends are taken as one joint."""
BY_HAND_AT_MOST = 14
"""Joints up to which plain elimination takes less time than it takes to ask a library."""


@dataclass(frozen=True, slots=True)
class Branch(Generic[N]):
    """A resistance between two joints."""

    start: N
    finish: N
    ohms: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved(Generic[N]):
    """A network with its source at work."""

    volts: Mapping[N, float]
    """Of each joint that the source reaches, against the source's minus."""
    amps: tuple[float, ...]
    """Of each branch, in the order given, from start to finish; 0 where no current reaches it."""
    total_amps: float
    """Out of the source."""

    def watts(self, branches: Sequence[Branch[N]]) -> list[float]:
        """What each branch turns into heat or work."""
        return [amps**2 * branch.ohms for amps, branch in zip(self.amps, branches, strict=True)]


def solve(branches: Sequence[Branch[N]], plus: N, minus: N, volts: float = 1.0) -> Solved[N]:
    """The network with a source of `volts` between two joints: by the method of nodes (Kirchhoff's current law).

    Branches of less than a millionth of a milliohm carry no current of their own: their ends are one joint.
    `ValueError` when metal joins plus and minus.
    """
    joint = _joints(branches, [plus, minus])
    if joint[plus] == joint[minus]:
        raise ValueError("plus and minus are one piece of metal")
    live = [branch for branch in branches if branch.ohms > LEAST_OHMS and joint[branch.start] != joint[branch.finish]]
    edges = [(joint[branch.start], joint[branch.finish], 1 / branch.ohms) for branch in live]
    reached = _reached(edges, joint[plus])
    edges = [edge for edge in edges if edge[0] in reached]
    level = _levels(edges, joint[plus], joint[minus], volts)
    at = {node: level[number] for node, number in joint.items() if number in level}
    amps = tuple(
        (at[b.start] - at[b.finish]) / b.ohms if b.ohms > LEAST_OHMS and b.start in at and b.finish in at else 0.0
        for b in branches
    )
    total = sum((level[a] - level[b]) * g for a, b, g in edges if a == joint[plus])
    total += sum((level[b] - level[a]) * g for a, b, g in edges if b == joint[plus])
    return Solved(volts=at, amps=amps, total_amps=total)


def _joints(branches: Iterable[Branch[N]], more: Iterable[N]) -> dict[N, int]:
    """A number for each joint; ends of plain metal share one."""
    metal: DisjointSets[N] = DisjointSets()
    nodes = dict.fromkeys(more)
    for branch in branches:
        nodes |= dict.fromkeys((branch.start, branch.finish))
        if branch.ohms <= LEAST_OHMS:
            metal.join(branch.finish, branch.start)
    numbers: dict[N, int] = {}
    return {node: numbers.setdefault(metal.first(node), len(numbers)) for node in nodes}


def _reached(edges: Sequence[tuple[int, int, float]], start: int) -> set[int]:
    beside: dict[int, list[int]] = {}
    for a, b, _ in edges:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    found, ahead = {start}, [start]
    while ahead:
        for node in beside.get(ahead.pop(), ()):
            if node not in found:
                found.add(node)
                ahead.append(node)
    return found


def _levels(edges: Sequence[tuple[int, int, float]], plus: int, minus: int, volts: float) -> dict[int, float]:
    """The voltage of each joint on the edges, plus and minus included."""
    level = {plus: volts, minus: 0.0}
    free = {node: i for i, node in enumerate(dict.fromkeys(n for a, b, _ in edges for n in (a, b) if n not in level))}
    if not free:
        return level
    if minus not in {node for a, b, _ in edges for node in (a, b)}:
        return level | dict.fromkeys(free, volts)
    rows: list[int] = []
    columns: list[int] = []
    values: list[float] = []
    right = [0.0] * len(free)
    for a, b, conductance in edges:
        for here, there in ((a, b), (b, a)):
            if here in free:
                rows.append(free[here])
                columns.append(free[here])
                values.append(conductance)
                if there in free:
                    rows.append(free[here])
                    columns.append(free[there])
                    values.append(-conductance)
                else:
                    right[free[here]] += conductance * level[there]
    found = (_by_hand if len(free) <= BY_HAND_AT_MOST else _sparse)(rows, columns, values, right)
    return level | {node: found[number] for node, number in free.items()}


def _by_hand(rows: list[int], columns: list[int], values: list[float], right: list[float]) -> list[float]:
    """A x = b, of entries that add up where they meet. No pivots are sought: on the diagonal stands the most."""
    size = len(right)
    matrix = [[0.0] * size + [value] for value in right]
    for row, column, value in zip(rows, columns, values, strict=True):
        matrix[row][column] += value
    for done in range(size):
        for below in range(done + 1, size):
            factor = matrix[below][done] / matrix[done][done]
            if factor:
                matrix[below] = [a - factor * b for a, b in zip(matrix[below], matrix[done], strict=True)]
    found = [0.0] * size
    for row in reversed(range(size)):
        known = sum(matrix[row][column] * found[column] for column in range(row + 1, size))
        found[row] = (matrix[row][size] - known) / matrix[row][row]
    return found


def _sparse(rows: list[int], columns: list[int], values: list[float], right: list[float]) -> list[float]:
    """The same for large networks."""
    import numpy as np
    from scipy.sparse import coo_matrix
    from scipy.sparse.linalg import spsolve

    size = len(right)
    sparse = coo_matrix((values, (rows, columns)), shape=(size, size)).tocsc()
    return [float(one) for one in spsolve(sparse, np.array(right))]
