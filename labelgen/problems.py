"""What a problem is, and the one table of codes.

A mistake of the builder is a `Problem`, never an exception. Every stage returns its problems beside
its value. Each code has a section in `labelgen/manual/problems.md`, and a good and a bad case file
in `tests/checks/cases/`.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from labelgen.places import Place


class Severity(StrEnum):
    """ERROR: nothing is made. CAUTION: made, and marked. NOTE: worth knowing."""

    ERROR = "error"
    CAUTION = "caution"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What is wrong, in the builder's words; where; and what to do about it."""

    code: str
    message: str
    hint: str
    place: Place

    @property
    def severity(self) -> Severity:
        return CODES[self.code]


E_, C_, N_ = Severity.ERROR, Severity.CAUTION, Severity.NOTE

CODES: dict[str, Severity] = {
    # the file and its form
    "file-missing": E_,
    "file-is-folder": E_,
    "file-unreadable": E_,
    "file-too-large": E_,
    "file-empty": E_,
    "not-utf8": E_,
    "odd-character": E_,
    "bad-yaml": E_,
    "tab": E_,
    "bad-indentation": E_,
    "nested-too-deep": E_,
    "repeated-key": E_,
    "alias": E_,
    "yaml-tag": E_,
    "merge-key": E_,
    "hash-swallows": E_,
    "missing-space": E_,
    "needs-quotes": E_,
    # lists in spreadsheets
    "bad-spreadsheet": E_,
    "bad-cell": E_,
    "windows-1252": C_,
    "wire-without-end": C_,
    "paper-and-rules": N_,
    # keys and values
    "unknown-key": E_,
    "missing-key": E_,
    "wrong-type": E_,
    "bad-number": E_,
    "out-of-range": E_,
    "unknown-choice": E_,
    "bad-id": E_,
    "repeated-id": E_,
    "unknown-name": E_,
    "bad-size": E_,
    "bad-colour": E_,
    "bad-kind": E_,
    "bad-strip": E_,
    "bad-plug": E_,
    "bad-accepted": E_,
    "accepted-idle": N_,
    "too-many-devices": E_,
    # the wiring
    "no-supply-fits": E_,
    "several-supplies-fit": E_,
    "wrong-supply": E_,
    "no-board": E_,
    "lever-works-two-kinds": E_,
    "lever-lacks-contact": E_,
    "no-strip": E_,
    "strip-full": E_,
    "way-taken": E_,
    "bad-ways": E_,
    "cannot-swap": E_,
    "plug-full": E_,
    "no-way-by-plugs": E_,
    "moved": E_,
    "equal-heads": E_,
    "route-contradicts": E_,
    "route-stud-taken": E_,
    "route-cannot-drive": E_,
    "bad-end": E_,
    "same-ends": E_,
    "repeated-number": E_,
    "ring": E_,
    "nets-joined": E_,
    "ac-joined": E_,
    "safety-colour": E_,
    "entry-crowded": C_,
    "hole-too-small": C_,
    "lever-works-nothing": C_,
    "stud-without-probe": C_,
    "spare-lever-works": C_,
    "heads-alike": C_,
    "colours-alike": C_,
    "several-colours": N_,
    "other-function": C_,
    "function-not-said": C_,
    "outside-board": C_,
    "strips-overlap": C_,
    "tiny-pitch": C_,
    "wide-pitch": C_,
    "pitch-not-measured": N_,
    "no-lengths": N_,
    "chain-not-measured": C_,
    "chain-saves": N_,
    # safety
    "voltage-too-high": E_,
    "mains-on-layout": E_,
    "mains-plug": E_,
    "above-touch-limit": C_,
    "above-toy-limit": N_,
    "no-fuse": C_,
    "fuse-not-said": N_,
    # motors
    "coil-steady": E_,
    "motor-not-held": E_,
    "no-discharge-unit": C_,
    "one-way-motor": C_,
    "no-lever": C_,
    "bank-small": C_,
    "return-thin": C_,
    # track
    "crossing-shorted": E_,
    "no-swap-pair": C_,
    "feed-at-crossing": E_,
    "stretch-unfed": C_,
    "feeds-differ": C_,
    "detector-passed-by": C_,
    "loop-not-isolated": C_,
    "gaps-in-both-rails": C_,
    "digital-and-dc": E_,
    "winding-shared": E_,
    "long-dropper": C_,
    "addresses-overlap": C_,
    # clamps, plugs and bundles
    "clamp-too-small": E_,
    "unlike-sizes": C_,
    "live-pins": C_,
    "no-empty-pin": N_,
    "booster-with-others": C_,
    "no-spare-ways": N_,
    "gap-in-frame": C_,
    # electrical figures
    "supply-overloaded": C_,
    "fuse-too-large": C_,
    "wire-overloaded": C_,
    "strip-overloaded": C_,
    "pin-overloaded": C_,
    "contact-overloaded": C_,
    "volts-lost": C_,
    "lamp-stays-dark": C_,
    "weak-throw": C_,
    "pulse-heats-wire": C_,
    "pulse-wears-contact": C_,
    # the panel
    "bad-track": E_,
    "point-off-track": C_,
    "roads-without-point": C_,
    "near-miss": C_,
    "third-road": C_,
    "crossing-not-named": C_,
    "track-island": C_,
    "roads-not-said": C_,
    "section-twice": C_,
    "idle-break": C_,
    "lever-without-hole": C_,
    "lamps-without-hole": N_,
    "lever-on-another-panel": C_,
    "route-without-stud": C_,
    "too-close": C_,
    "panel-too-thick": C_,
    "no-such-drill": C_,
    "off-panel": C_,
    # the as-built record
    "record-unreadable": E_,
    "record-edited": E_,
    "record-of-another-railway": E_,
    "record-under-another-name": E_,
    "nothing-made": E_,
    "labels-out-of-date": C_,
    "labels-changed": N_,
    # what is printed
    "no-plan": N_,
    "unknown-sheet": E_,
    "sheet-does-not-add-up": E_,
    "label-too-large": E_,
    "flag-unsuited": E_,
    "text-does-not-fit": E_,
    "text-in-the-way": C_,
    "text-condensed": N_,
    "character-missing": E_,
    "near-paper-edge": C_,
    "printers-unreadable": E_,
    "not-our-file": E_,
    "cannot-write": E_,
}


OVERRIDABLE = frozenset(
    {
        "moved",
        "coil-steady",
        "motor-not-held",
        "crossing-shorted",
        "feed-at-crossing",
        "digital-and-dc",
        "winding-shared",
        "clamp-too-small",
    }
)
"""Errors that are rules of the trade, which the builder may have a reason to break; never what could hurt somebody."""
ONLY_WHILE_MAKING = frozenset({"near-paper-edge", "text-condensed", "labels-out-of-date", "labels-changed"})
"""What checking the wiring alone never comes to."""


def may_be_accepted(code: str) -> bool:
    """Whether a builder may accept a problem, by a reason written beside the thing it is about."""
    return CODES[code] is not Severity.ERROR or code in OVERRIDABLE


def has_errors(problems: Iterable[Problem]) -> bool:
    """True when one of the problems forbids making anything."""
    return any(problem.severity is Severity.ERROR for problem in problems)


def in_file_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sorted by file, line and column; what is said twice of one place is said once."""
    once = dict.fromkeys(problems)
    return sorted(once, key=lambda p: (p.place.file, p.place.line, p.place.column, p.code, p.message))
