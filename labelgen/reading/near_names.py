"""What the builder may have meant: the nearest known name, and a list of the known ones."""

from collections.abc import Collection, Iterable
from difflib import get_close_matches

from labelgen.natural_order import natural

SHOWN_AT_MOST = 8
COMPARED_AT_MOST = 2000
"""Comparing a name with every one of 20 000 others would take longer than anyone waits."""


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that looks most like this one, whatever the case; None when none does."""
    by_small: dict[str, str] = {}
    for one in known:
        by_small.setdefault(one.lower(), one)
    small = name.lower()
    if small in by_small:
        return by_small[small]
    rivals = [one for one in by_small if abs(len(one) - len(small)) <= 3][:COMPARED_AT_MOST]
    found = get_close_matches(small, rivals, n=1, cutoff=0.6)
    return by_small[found[0]] if found else None


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """`Did you mean X? `, with a blank behind it, or nothing."""
    near = nearest(name, known)
    return f"Did you mean {near}? " if near is not None else ""


def listed(known: Collection[str]) -> str:
    """The known names in natural order, shortened when they are many."""
    names = sorted(known, key=natural)
    if len(names) <= SHOWN_AT_MOST:
        return ", ".join(names)
    return f"{', '.join(names[:SHOWN_AT_MOST])} … ({len(names)} in all)"
