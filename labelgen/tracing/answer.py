"""One answer to what is known: suspects, likeliest first, and what to measure next; for people and for programs."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from labelgen.model.copper_tree import name_of
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.tracing.evidence import Doing, Known, Measure, doing
from labelgen.tracing.finder import Finder, Found
from labelgen.tracing.in_words import NO_MORE, NOT_THAT, TO_BE_SURE, Words
from labelgen.tracing.symptoms import Symptoms
from labelgen.tracing.tasks import Task
from labelgen.tracing.working import Working

BEGINNINGS = {
    0: "No one or two faults explain all of that. The likeliest that explains most of it:",
    1: "Where the fault may be, likeliest first:",
    2: "It takes two faults to explain that. Where they may be, likeliest first:",
}
MOST_SAID = 8
"""Places that are written out; the rest is counted."""


@dataclass(frozen=True, slots=True)
class Unknown:
    """A word that stands for nothing."""

    word: str
    near: tuple[str, ...]


class Tracing:
    """A hunt for one fault: what works, what does not, and what the meter read so far."""

    def __init__(self, description: Description, netlist: Netlist) -> None:
        self._working = Working(description, netlist)
        self._symptoms = Symptoms(netlist, self._working)
        self._finder = Finder(netlist, self._working)
        self._words = Words(description, netlist)
        self._doings: dict[Task, Doing] = {}
        self._known: list[Known] = []
        self._skipped: set[tuple[object, ...]] = set()
        self._clash = ""
        """What was said both to work and not to."""

    def start_again(self) -> None:
        """Forgets all that was said and read: another hunt on the same railway, which is known by now."""
        self._known.clear()
        self._skipped.clear()
        self._clash = ""

    def told(self, dead: Sequence[str], good: Sequence[str]) -> list[Unknown]:
        """Takes in what does not work and what does; the words that stand for nothing."""
        unknown: list[Unknown] = []
        said_dead: dict[Task, str] = {}
        for words, spoiled in ((dead, True), (good, False)):
            for word in words:
                tasks = self._symptoms.tasks(word)
                if not tasks:
                    unknown.append(Unknown(word, self._near(word)))
                for task in tasks:
                    if spoiled:
                        said_dead.setdefault(task, word)
                    elif task in said_dead:
                        self._clash = self._clash or _clash(said_dead[task], word)
                    if task not in self._doings:
                        self._doings[task] = doing(self._working, task)
                    self._known.append(Known(self._doings[task], spoiled))
        return unknown

    def _near(self, word: str) -> tuple[str, ...]:
        from difflib import get_close_matches

        words = {known.casefold(): known for known in self._symptoms.words}
        return tuple(words[near] for near in get_close_matches(word.casefold(), words, n=3, cutoff=0.4))

    def read(self, measure: Measure, *, as_it_should: bool) -> None:
        """Takes in a reading of the meter."""
        self._known.append(Known(measure, not as_it_should))

    def skip(self, measure: Measure) -> None:
        """That one cannot be measured."""
        self._skipped.add(measure.key)

    def look(self) -> Found:
        return self._finder.look(self._known, frozenset(self._skipped))

    def measure_between(self, one: str, other: str) -> Measure | None:
        """A measurement that was proposed before, by its two ends."""
        return self._finder.measure_between(one, other, self._known)

    def as_json(self, found: Found) -> dict[str, Any]:
        suspects = [
            {
                "fault": s.fault.kind,
                "where": s.fault.ends,
                "likelihood": s.likelihood,
                "words": self._words.place([s.fault]),
            }
            for s in found.suspects
        ]
        return {"suspects": suspects, "together": found.together, "measure": self._measure_json(found)}

    def _measure_json(self, found: Found) -> dict[str, Any] | None:
        measure = found.measure
        if measure is None:
            return None
        lifted = measure.lifted.wire.number if measure.lifted is not None and measure.lifted.wire is not None else None
        return {
            "from": name_of(measure.one),
            "to": name_of(measure.other),
            "expect": self._words.expected(measure),
            "power": "on" if measure.expected == "volts" else "off",
            "hold": measure.hold or None,
            "lift": lifted,
            "words": self._words.task(measure),
            "likelihood": found.if_so,
            "if_so": self._left(found, measure, as_it_should=True),
            "if_not": self._left(found, measure, as_it_should=False),
        }

    def _left(self, found: Found, measure: Measure, *, as_it_should: bool) -> list[str]:
        """The places that a reading leaves."""
        left = [
            faults
            for _, faults in found.places
            if any(measure.spoiled_by(fault) is not as_it_should for fault in faults)
        ]
        return [self._words.place(faults) for faults in left]

    def said(self, found: Found) -> list[str]:
        """The whole answer for a person, line by line."""
        if not found.suspects:
            return [self._clash or "Nothing on paper explains that: look for what the description does not know."]
        clash = [self._clash, ""] if self._clash else []
        return [*clash, BEGINNINGS[found.together], *self._places(found), "", *self._measurement(found)]

    def _places(self, found: Found) -> list[str]:
        """What may be wrong, a line each, with how likely it is."""
        lines = [f"{likelihood:4.0%}  {self._words.place(faults)}" for likelihood, faults in found.places[:MOST_SAID]]
        more = len(found.places) - MOST_SAID
        return [*lines, *([f"      and {more} more places"] if more > 0 else [])]

    def _measurement(self, found: Found) -> list[str]:
        """What to measure, what should be read, and what each reading would mean."""
        measure = found.measure
        if measure is None:
            if len(found.places) == 1:
                return [self._words.look_there(found.places[0][1]), NO_MORE]
            return ["No measurement tells these apart: look at each of them."]
        lines = [TO_BE_SURE] if len(found.places) == 1 else []
        lines += [self._words.task(measure), f"It should read {self._words.expected(measure)}."]
        for as_it_should, begin in ((True, "If it does"), (False, "If it does not")):
            left = self._left(found, measure, as_it_should=as_it_should)
            one = left[0] if len(left) == 1 else f"one of {len(left)} places"
            nothing = NOT_THAT if len(found.places) == 1 else "something else is wrong as well"
            lines.append(f"  {begin}: {one if left else nothing}.")
        return lines


def _clash(dead: str, good: str) -> str:
    if dead.casefold() == good.casefold():
        return f"{dead} cannot both work and not work: say of it what it does now."
    return (
        f"{dead} cannot be dead while {good} works, for they stand for some of the same. A supply stands for all that"
        " is on it, a lever for both its lies, a device for all that it does: say one by one which of them work."
    )
