"""Chooses one option for each of many things, so that no two clash and together they cost least.

Things are settled in clusters of those that clash, so that what is added in one place moves nothing elsewhere.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field
from typing import Generic, TypeVar

T = TypeVar("T")

LEFT_OUT = 10_000.0
"""What it costs to leave a thing without an option: more than any way round."""
_TRIES = 300
"""Options that are tried in one cluster before the best choice so far is taken."""
_LARGEST = 9
"""Things in a cluster, beyond which it takes in no more neighbours."""
_DEEPEST = 500
"""Things that are settled at once: the search goes as deep as there are things."""


@dataclass(frozen=True, slots=True)
class Option(Generic[T]):
    cost: float
    value: T


Options = Mapping[str, Iterable[Option[T]]]
"""Thing: its options, the cheapest first; iterated over more than once."""
Clash = Callable[[T, T], bool]
Near = Mapping[str, Set[str]]
"""Thing: all others that could clash with it at any option of either."""


def choose(options: Options[T], clash: Clash[T], near: Near | None = None) -> dict[str, Option[T]]:
    """Thing: its option, for as many as can have one. Without `near`, any two could clash.

    Exact in each cluster as long as that takes no more than a set number of tries; the same on every run.
    """
    return _Choosing(options, clash, near or {key: options.keys() - {key} for key in options}).chosen()


@dataclass(slots=True)
class _Choosing(Generic[T]):
    options: Options[T]
    clash: Clash[T]
    near: Near
    now: dict[str, Option[T]] = field(default_factory=dict)

    def chosen(self) -> dict[str, Option[T]]:
        self.now = {key: first for key, of in self.options.items() if (first := next(iter(of), None)) is not None}
        for cluster in self._clusters():
            self._settle(cluster)
        return {key: self.now[key] for key in self.options if key in self.now}

    def _clusters(self) -> list[list[str]]:
        """Those that clash at their first option, with all that they hang together with."""
        number = {key: index for index, key in enumerate(self.now)}
        meeting: dict[str, list[str]] = {key: [] for key in number}
        for key, index in number.items():
            for other in self.near[key]:
                if number.get(other, -1) > index and self.clash(self.now[key].value, self.now[other].value):
                    meeting[key].append(other)
                    meeting[other].append(key)
        clusters: list[list[str]] = []
        seen: set[str] = set()
        for key in number:
            if key not in seen and meeting[key]:
                found = _reached(meeting, key)
                seen.update(found)
                cluster = sorted(found, key=number.__getitem__)
                clusters += (cluster[at : at + _DEEPEST] for at in range(0, len(cluster), _DEEPEST))
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
        near = {other for key in cluster for other in self.near[key] if other in self.now}
        wanted = [option.value for key in cluster for option in self.options[key]]
        blockers = {key for key in near if any(self.clash(value, self.now[key].value) for value in wanted)}
        return [key for key in self.options if key in blockers or key in cluster]

    def _best(self, cluster: Sequence[str]) -> tuple[dict[str, Option[T]], float]:
        within = set(cluster)
        lists = {}
        for key in cluster:
            outside = [self.now[other].value for other in self.near[key] - within if other in self.now]
            options = self.options[key]
            lists[key] = [option for option in options if not any(self.clash(option.value, o) for o in outside)]
        search = _Search(self.clash, self.near)
        search.go(lists, {}, 0.0)
        return search.best, search.best_cost


@dataclass(slots=True)
class _Search(Generic[T]):
    """Branch and bound: goes on only where the rest, each taken by itself, could still cost less than the best."""

    clash: Clash[T]
    near: Near
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
            open_to = {**others}
            for one in self.near[key] & others.keys():
                open_to[one] = [o for o in others[one] if not self.clash(o.value, option.value)]
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
