"""Covering a tree by paths between its ends: against every small tree, by networkx and by trying everything."""

from collections.abc import Iterator
from itertools import combinations, pairwise

import networkx as nx
import pytest

from labelgen.probing.leaf_pairs import fewest, leaf_pairs, leaves_of

Edge = frozenset[int]


def small_trees(most: int) -> Iterator[nx.Graph]:
    for size in range(2, most + 1):
        yield from nx.nonisomorphic_trees(size)


def passed(tree: nx.Graph, pairs: list[tuple[int, int]]) -> set[Edge]:
    paths = [nx.shortest_path(tree, one, other) for one, other in pairs]
    return {frozenset(edge) for path in paths for edge in pairwise(path)}


def beside(tree: nx.Graph) -> dict[int, list[int]]:
    return {point: list(tree[point]) for point in tree}


def test_every_edge_of_every_small_tree_is_passed() -> None:
    trees = list(small_trees(10))
    assert len(trees) == 1 + 1 + 2 + 3 + 6 + 11 + 23 + 47 + 106  # OEIS A000055
    for tree in trees:
        pairs = leaf_pairs(beside(tree))
        assert passed(tree, pairs) == {frozenset(edge) for edge in tree.edges}
        assert all(one != other for one, other in pairs)


def test_no_smaller_number_would_do() -> None:
    """Any paths at all, tried one by one: with one path fewer some edge stays out."""
    for tree in small_trees(7):
        edges = {frozenset(edge) for edge in tree.edges}
        pairs = leaf_pairs(beside(tree))
        assert len(pairs) == fewest(len(leaves_of(beside(tree))))
        every = list(combinations(tree, 2))
        assert not any(passed(tree, list(some)) == edges for some in combinations(every, len(pairs) - 1))


@pytest.mark.parametrize("seed", range(40))
def test_larger_trees(seed: int) -> None:
    tree = nx.random_labeled_tree(20 + 7 * seed, seed=seed)
    pairs = leaf_pairs(beside(tree))
    assert passed(tree, pairs) == {frozenset(edge) for edge in tree.edges}
    assert len(pairs) == fewest(sum(degree == 1 for _, degree in tree.degree))


def test_a_point_alone_needs_nothing() -> None:
    assert leaf_pairs({1: []}) == []
    assert leaf_pairs({}) == []
