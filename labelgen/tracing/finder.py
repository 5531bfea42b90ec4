"""From what is known to the faults that explain it, likeliest first; and the one measurement that tells most."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from labelgen.model.copper_tree import Part, name_of
from labelgen.model.netlist import Netlist
from labelgen.tracing.evidence import Doing, Known, Measure
from labelgen.tracing.faults import Fault, breaks, dead, joined_or_exchanged
from labelgen.tracing.guesses import Guesses
from labelgen.tracing.measures import measures_for, trouble
from labelgen.tracing.spoilers import Spoilers
from labelgen.tracing.working import Working

GOOD_ENOUGH = 0.9
"""A measurement that halves nearly as well as the best is taken instead when it is easier to make."""

LIFTED = 0.6
"""What a measurement is worth for which a wire must come out of its screw, against one with both leads just held on."""


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
    """What to measure next, or to be sure of the one place that is left; None when nothing would tell more."""
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
        self._causes: dict[Doing | Measure, frozenset[object]] = {}

    @cached_property
    def _dead(self) -> list[Fault]:
        return [dead(source) for source in self._working.sources]

    @cached_property
    def _changes(self) -> list[Fault]:
        return list(joined_or_exchanged(self._netlist, self._working))

    @cached_property
    def _spoilers(self) -> Spoilers:
        return Spoilers(self._working, self._changes)

    def _spoiling(self, about: Doing | Measure) -> frozenset[object]:
        """The causes of all faults that spoil something."""
        if about not in self._causes:
            if isinstance(about, Doing):
                causes = {*about.parts, *about.sources, *self._spoilers.of(about.task)}
            else:
                faults = (*self._dead, *self._changes)
                causes = {*about.parts, *(fault.cause for fault in faults if about.spoiled_by(fault))}
            self._causes[about] = frozenset(causes)
        return self._causes[about]

    def look(self, known: Sequence[Known], skipped: frozenset[tuple[object, ...]] = frozenset()) -> Found:
        """`skipped`: measurements (both points and what is held) that cannot be made."""
        wrong = sum(1 << bit for bit, item in enumerate(known) if item.spoiled)
        if not wrong:
            return Found((), 0, None)
        works = frozenset(c for item in known if not item.spoiled for c in self._spoiling(item.about))
        masks = self._masks(known, works)
        guesses = Guesses.explaining(masks, wrong)
        rated = guesses.likelihoods()
        suspects = sorted((Suspect(f, p) for f, p in rated.items()), key=lambda s: -s.likelihood)
        done = {item.about.key for item in known if isinstance(item.about, Measure)} | skipped
        measure, right = self._next(guesses, done)
        found = Found(tuple(suspects), guesses.together, measure, right)
        if measure is None and len(found.places) == 1:
            return replace(found, measure=self._proof([*rated], known, works, done), if_so=0.0)
        return found

    def _proof(
        self, faults: Sequence[Fault], known: Sequence[Known], works: frozenset[object], done: set[tuple[object, ...]]
    ) -> Measure | None:
        """Of the one place that is left, the measurement that it must spoil; None where something proves it already.

        Two faults at once may look like one elsewhere. It is proved by what no second fault could spoil in its place.
        """
        place = {fault.cause for fault in faults}

        def proves(about: Doing | Measure) -> bool:
            return self._spoiling(about) - works <= place

        if any(item.spoiled and proves(item.about) for item in known):
            return None
        measures = [m for m in measures_for(faults, self._working) if m.key not in done and m.lifted is None]
        sure = [m for m in measures if all(m.spoiled_by(fault) for fault in faults)]
        return min(sure, key=lambda m: (not proves(m), trouble(m), len(m.parts)), default=None)

    def _masks(self, known: Sequence[Known], works: frozenset[object]) -> dict[Fault, int]:
        """Fault: what of the evidence it spoils, bit by bit; of those that spoil something, and nothing that works."""
        masks: dict[object, int] = {}
        for bit, item in enumerate(known):
            for cause in self._spoiling(item.about) if item.spoiled else ():
                masks[cause] = masks.get(cause, 0) | 1 << bit
        faults = [*self._broken(item.about for item in known if item.spoiled), *self._dead, *self._changes]
        return {f: masks[f.cause] for f in faults if f.cause in masks and f.cause not in works}

    def _broken(self, wanted: Iterable[Doing | Measure]) -> Iterator[Fault]:
        """The faults of all parts on which something hangs that is not as it should be."""
        seen: set[Part] = set()
        for about in wanted:
            for part in sorted(about.parts - seen, key=part_order):
                yield from self._breaks_of(part)
            seen |= about.parts

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

    def _next(self, guesses: Guesses, done: set[tuple[object, ...]]) -> tuple[Measure | None, float]:
        """The measurement whose outcome is least certain; nothing when all that is left is one place."""
        faults = list(guesses.likelihoods())
        best: tuple[float, float, Measure, float] | None = None
        rated = []
        for measure in measures_for(faults, self._working):
            if measure.key in done:
                continue
            right = guesses.chance_of_right(measure)
            split = min(right, 1 - right) * (LIFTED if measure.lifted is not None else 1.0)
            rated.append((split, measure, right))
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
