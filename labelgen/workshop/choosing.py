"""Chooses one option for each of many things, so that no two clash and together they cost least.

Things are settled in clusters of those that clash, so that what is added in one place moves nothing elsewhere.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

T = TypeVar("T")

LEFT_OUT = 10_000.0
"""What it costs to leave a thing without an option: more than any way round."""
_TRIES = 300
"""Options that are tried in one cluster before the best choice so far is taken."""
_LARGEST = 9
"""Things in a cluster, beyond which it takes in no more neighbours."""


@dataclass(frozen=True, slots=True)
class Option(Generic[T]):
    cost: float
    value: T


Options = Mapping[str, Iterable[Option[T]]]
"""Thing: its options, the cheapest first; iterated over more than once."""
Clash = Callable[[T, T], bool]


def choose(options: Options[T], clash: Clash[T]) -> dict[str, Option[T]]:
    """Thing: its option, for as many as can have one.

    Exact in each cluster as long as that takes no more than a set number of tries; the same on every run.
    """
    return _Choosing(options, clash).chosen()


@dataclass(slots=True)
class _Choosing(Generic[T]):
    options: Options[T]
    clash: Clash[T]
    now: dict[str, Option[T]] = field(default_factory=dict)

    def chosen(self) -> dict[str, Option[T]]:
        self.now = {key: first for key, of in self.options.items() if (first := next(iter(of), None)) is not None}
        for cluster in self._clusters():
            self._settle(cluster)
        return {key: self.now[key] for key in self.options if key in self.now}

    def _clusters(self) -> list[list[str]]:
        """Those that clash at their first option, with all that they hang together with."""
        keys = list(self.now)
        near: dict[str, list[str]] = {key: [] for key in keys}
        for index, key in enumerate(keys):
            for other in keys[index + 1 :]:
                if self.clash(self.now[key].value, self.now[other].value):
                    near[key].append(other)
                    near[other].append(key)
        clusters, seen = [], set[str]()
        for key in keys:
            if key not in seen and near[key]:
                found = _reached(near, key)
                seen.update(found)
                clusters.append([one for one in keys if one in found])
        return clusters

    def _settle(self, cluster: Sequence[str]) -> None:
        """Settles a cluster among the others as they are; where that leaves one out, with those that are in its way."""
        before = dict(self.now)
        cost_before = float("inf")
        while True:
            found, cost = self._best(cluster)
            if cost < cost_before:
                before = {key: one for key, one in before.items() if key not in cluster} | found
            self.now = dict(before)
            if all(key in self.now for key in cluster):
                return
            wider = self._with_blockers(cluster)
            if len(wider) == len(cluster) or len(wider) > _LARGEST:
                return
            cost_before = sum(self.now[key].cost if key in self.now else LEFT_OUT for key in wider)
            cluster = wider

    def _with_blockers(self, cluster: Sequence[str]) -> list[str]:
        wanted = [option.value for key in cluster for option in self.options[key]]
        return [
            key
            for key in self.options
            if key in cluster or (key in self.now and any(self.clash(value, self.now[key].value) for value in wanted))
        ]

    def _best(self, cluster: Sequence[str]) -> tuple[dict[str, Option[T]], float]:
        outside = [one.value for key, one in self.now.items() if key not in cluster]
        lists = {
            key: [option for option in self.options[key] if not any(self.clash(option.value, o) for o in outside)]
            for key in cluster
        }
        search = _Search(self.clash)
        search.go(lists, {}, 0.0)
        return search.best, search.best_cost


@dataclass(slots=True)
class _Search(Generic[T]):
    """Branch and bound: goes on only where the rest, each taken by itself, could still cost less than the best."""

    clash: Clash[T]
    tries: int = 0
    best: dict[str, Option[T]] = field(default_factory=dict)
    best_cost: float = float("inf")

    def go(self, rest: Mapping[str, Sequence[Option[T]]], placed: dict[str, Option[T]], cost: float) -> None:
        """`rest`: what is still to be placed, and of each the options that what is placed leaves open."""
        if not rest:
            self.best, self.best_cost = placed, cost
            return
        key = min(rest, key=lambda one: len(rest[one]))
        others = {one: options for one, options in rest.items() if one != key}
        beyond = sum(options[0].cost if options else LEFT_OUT for options in others.values())
        for option in rest[key]:
            if not self._worth(cost + option.cost + beyond):
                return
            self.tries += 1
            open_to = {
                one: [o for o in options if not self.clash(o.value, option.value)] for one, options in others.items()
            }
            if self._worth(cost + option.cost + sum(o[0].cost if o else LEFT_OUT for o in open_to.values())):
                self.go(open_to, {**placed, key: option}, cost + option.cost)
        if self._worth(cost + LEFT_OUT + beyond):
            self.go(others, placed, cost + LEFT_OUT)

    def _worth(self, least: float) -> bool:
        """Whether it could beat the best so far; when enough was tried, nothing could. The first way is always gone."""
        return least < self.best_cost - 1e-9 and (self.tries < _TRIES or self.best_cost == float("inf"))


def _reached(near: Mapping[str, Sequence[str]], start: str) -> set[str]:
    found, waiting = {start}, [start]
    while waiting:
        for other in near[waiting.pop()]:
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found
