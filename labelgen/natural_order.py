"""The order in which builders count: runs of digits by value, digits before letters, ties by text."""

import re
from functools import lru_cache

_RUNS = re.compile(r"(\d+)")

Key = tuple[tuple[tuple[int, int, str], ...], str]


@lru_cache(maxsize=65536)
def natural(text: str) -> Key:
    """A sort key: `P2` before `P10`, `5` before `A`; texts that only differ in case or zeros by text."""
    runs = (run for run in _RUNS.split(text.lower()) if run)
    return tuple(_by_value(run) if run.isdecimal() else (1, 0, run) for run in runs), text


def _by_value(digits: str) -> tuple[int, int, str]:
    """More digits are more, equally many compare as text: no number is too long for this."""
    bare = digits.lstrip("0")
    return (0, len(bare), bare)
