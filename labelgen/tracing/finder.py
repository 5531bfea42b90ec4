"""From what is known to the faults that explain it, likeliest first; and the one measurement that tells most."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from labelgen.model.copper_tree import Part, name_of
from labelgen.model.netlist import Netlist
from labelgen.tracing.evidence import Doing, Evidence, Known, Measure
from labelgen.tracing.faults import Fault, breaks, dead, joined_or_exchanged
from labelgen.tracing.measures import measures_for, trouble
from labelgen.tracing.working import Working

GOOD_ENOUGH = 0.9
"""A measurement that halves nearly as well as the best is taken instead when it is easier to make."""


@dataclass(frozen=True, slots=True)
class Suspect:
    fault: Fault
    likelihood: float
    """From 0 to 1: how likely it is that the fault is there."""


@dataclass(frozen=True, slots=True)
class Found:
    """The outcome of one look at all that is known."""

    suspects: tuple[Suspect, ...]
    """Likeliest first."""
    together: int
    """How many faults it takes to explain what is known; 0: it cannot be explained, and these explain part of it."""
    measure: Measure | None
    """What to measure next; None when nothing would tell more."""
    if_so: float = 0.0
    """How likely it is that the reading is as it should be."""

    @property
    def places(self) -> list[tuple[float, list[Fault]]]:
        """The suspects by place, with the likelihood that the fault is there: what a meter cannot tell apart is one."""
        grouped: dict[tuple[object, ...], list[Suspect]] = {}
        for suspect in self.suspects:
            grouped.setdefault(suspect.fault.place, []).append(suspect)
        rated = [(sum(s.likelihood for s in group), [s.fault for s in group]) for group in grouped.values()]
        return sorted(rated, key=lambda place: -place[0])


class Finder:
    """Looks for faults on one railway."""

    def __init__(self, netlist: Netlist, working: Working) -> None:
        self._netlist = netlist
        self._working = working
        self._breaks: dict[Part, list[Fault]] = {}
        self._spoiled: dict[tuple[Evidence, Fault], bool] = {}

    def spoils(self, fault: Fault, about: Evidence) -> bool:
        key = (about, fault)
        if key not in self._spoiled:
            self._spoiled[key] = about.spoiled_by(fault)
        return self._spoiled[key]

    @cached_property
    def _others(self) -> list[Fault]:
        return [*map(dead, self._working.sources), *joined_or_exchanged(self._netlist, self._working)]

    def look(self, known: Sequence[Known], skipped: frozenset[tuple[object, ...]] = frozenset()) -> Found:
        """`skipped`: measurements (both points and what is held) that cannot be made."""
        wrong = sum(1 << bit for bit, item in enumerate(known) if item.spoiled)
        if not wrong:
            return Found((), 0, None)
        masks = self._masks(known, wrong)
        guesses = _Guesses.explaining(masks, wrong)
        rated = guesses.likelihoods()
        suspects = sorted((Suspect(f, p) for f, p in rated.items()), key=lambda s: -s.likelihood)
        done = {item.about.key for item in known if isinstance(item.about, Measure)} | skipped
        measure, right = self._next(guesses, done)
        return Found(tuple(suspects), guesses.together, measure, right)

    def _masks(self, known: Sequence[Known], wrong: int) -> dict[Fault, int]:
        """Fault: what of the evidence it spoils, bit by bit; of those that spoil something, and nothing that works."""
        wanted = [item.about for item in known if item.spoiled]
        parts = dict.fromkeys(
            part
            for about in wanted
            if isinstance(about, (Doing, Measure))
            for part in sorted(about.parts, key=part_order)
        )
        faults = [fault for part in parts for fault in self._breaks_of(part)] + self._others
        found: dict[Fault, int] = {}
        for fault in faults:
            if any(self.spoils(fault, item.about) for item in known if not item.spoiled):
                continue
            mask = sum(1 << bit for bit, item in enumerate(known) if item.spoiled and self.spoils(fault, item.about))
            if mask & wrong:
                found[fault] = mask
        return found

    def measure_between(self, one: str, other: str, known: Sequence[Known]) -> Measure | None:
        """The measurement between two ends that could tell suspects apart; None where there is none."""
        faults = [suspect.fault for suspect in self.look(known).suspects]
        ends = {one.casefold(), other.casefold()}
        measures = measures_for(faults, self._working)
        return next((m for m in measures if {name_of(m.one).casefold(), name_of(m.other).casefold()} == ends), None)

    def _breaks_of(self, part: Part) -> list[Fault]:
        if part not in self._breaks:
            self._breaks[part] = [*breaks(part)]
        return self._breaks[part]

    def _next(self, guesses: "_Guesses", done: set[tuple[object, ...]]) -> tuple[Measure | None, float]:
        """The measurement whose outcome is least certain; nothing when all that is left is one place."""
        faults = list(guesses.likelihoods())
        best: tuple[float, float, Measure, float] | None = None
        rated = []
        for measure in measures_for(faults, self._working):
            if measure.key in done:
                continue
            right = guesses.chance_of_right(measure)
            rated.append((min(right, 1 - right), measure, right))
        top = max((split for split, _, _ in rated), default=0.0)
        for split, measure, right in rated:
            if split >= GOOD_ENOUGH * top and split > 1e-9:
                candidate = (-trouble(measure), split, measure, right)
                if best is None or candidate[:2] > best[:2]:
                    best = candidate
        return (best[2], best[3]) if best is not None else (None, 1.0)


def part_order(part: object) -> str:
    """By its two points, so that every look at it is the same."""
    return repr((getattr(part, "one", ""), getattr(part, "other", "")))


@dataclass(frozen=True, slots=True)
class _Guesses:
    """What may be wrong: one fault or two at once, each by what it spoils."""

    by_mask: dict[int, list[Fault]]
    pairs: tuple[tuple[int, ...], ...]
    """Masks of faults that together explain what is known: one, or two."""
    together: int

    @classmethod
    def explaining(cls, masks: dict[Fault, int], wrong: int) -> "_Guesses":
        by_mask: dict[int, list[Fault]] = defaultdict(list)
        for fault, mask in masks.items():
            by_mask[mask].append(fault)
        if wrong in by_mask:
            return cls({wrong: by_mask[wrong]}, ((wrong,),), 1)
        ordered = sorted(by_mask)
        pairs = tuple((a, b) for i, a in enumerate(ordered) for b in ordered[i + 1 :] if a | b == wrong)
        if pairs:
            return cls(by_mask, pairs, 2)
        most = max((mask.bit_count() for mask in ordered), default=0)
        return cls(by_mask, tuple((mask,) for mask in ordered if mask.bit_count() == most), 0)

    def likelihoods(self) -> dict[Fault, float]:
        weight = {mask: sum(fault.weight for fault in faults) for mask, faults in self.by_mask.items()}
        share: dict[int, float] = defaultdict(float)
        total = 0.0
        for pair in self.pairs:
            product = _product(weight[mask] for mask in pair)
            total += product
            for mask in pair:
                share[mask] += product
        return {
            fault: share[mask] / total * fault.weight / weight[mask] for mask in share for fault in self.by_mask[mask]
        }

    def chance_of_right(self, measure: Measure) -> float:
        """How likely a measurement reads as it should."""
        weight: dict[int, float] = {}
        right: dict[int, float] = {}
        for mask in {mask for pair in self.pairs for mask in pair}:
            weight[mask] = sum(fault.weight for fault in self.by_mask[mask])
            right[mask] = sum(fault.weight for fault in self.by_mask[mask] if not measure.spoiled_by(fault))
        total = sum(_product(weight[mask] for mask in pair) for pair in self.pairs)
        return sum(_product(right[mask] for mask in pair) for pair in self.pairs) / total if total else 1.0


def _product(numbers: Iterable[float]) -> float:
    result = 1.0
    for number in numbers:
        result *= number
    return result
