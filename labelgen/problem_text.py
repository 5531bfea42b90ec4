"""How a problem looks, to a person and to a program."""

import unicodedata
from collections import Counter
from collections.abc import Iterable
from pathlib import PurePath
from typing import Any

from labelgen.accepting import Acceptance
from labelgen.problems import Problem, Severity

WIDEST = 100
"""Cells of a source line that are shown; of a longer one, the stretch around the mark."""
LEAD = 30
"""Cells that are shown before the mark of a line that is cut."""
TAB = "    "


def as_text(problem: Problem, thing: str = "") -> str:
    """One problem as plain lines: what is wrong, where, the source line with the place marked, and what to do.

    `thing`: what it is about, if that is known.
    """
    place = problem.place
    at = f"cell {place.cell}" if place.cell else f"line {place.line}, column {place.column}"
    where = f"  {problem.severity} · {harmless(place.file)}, {at}{f' · {harmless(thing)}' if thing else ''}"
    lines = [_sentence(problem), where]
    if place.source.strip():
        lines += _marked(problem)
    lines.append(f"  {harmless(problem.hint)} [{problem.code}]" if problem.hint else f"  [{problem.code}]")
    return "\n".join(lines)


def as_json(problems: Iterable[Problem], acceptances: Iterable[Acceptance] = ()) -> dict[str, Any]:
    """All problems for another program: section 9 of the format; and those that are accepted, each with its reason.

    Line and column count from 1.
    """
    return {
        "problems": [_keys(problem) for problem in problems],
        "accepted": [{**_keys(problem), "reason": one.reason} for one in acceptances for problem in one.problems],
    }


def _keys(problem: Problem) -> dict[str, Any]:
    return {
        "code": problem.code,
        "severity": str(problem.severity),
        "message": problem.message,
        "hint": problem.hint,
        "file": problem.place.file,
        "line": problem.place.line,
        "column": problem.place.column,
    }


def summary(problems: Iterable[Problem]) -> str:
    """How many there are of each severity: `2 errors and 1 caution`."""
    counts = Counter(problem.severity for problem in problems)
    parts = [f"{counts[one]} {one}{'' if counts[one] == 1 else 's'}" for one in Severity if counts[one]]
    if not parts:
        return "no problems"
    return f"{', '.join(parts[:-1])} and {parts[-1]}" if len(parts) > 1 else parts[0]


def rows_of(line: str, columns: int) -> int:
    """How many rows of a screen a line takes, turned over where it is too long."""
    from rich.cells import cell_len

    return max(1, -(-cell_len(line) // max(1, columns)))


def harmless(text: str) -> str:
    """Text in which nothing can move the cursor, hide, or turn the order of letters round."""
    return "".join(character if character.isprintable() else _shown(character) for character in text)


def _shown(character: str) -> str:
    if character == "\t":
        return TAB
    if ord(character) < 0x20:
        return chr(0x2400 + ord(character))
    if character == "\x7f":
        return "\u2421"
    return " " if unicodedata.category(character) == "Zs" else f"<U+{ord(character):04X}>"


def _sentence(problem: Problem) -> str:
    text = harmless(problem.message)
    begun = text if _begins_with_a_name(problem) else f"{text[:1].upper()}{text[1:]}"
    return f"{begun}{'' if text.endswith(('.', '!', '?')) else '.'}"


def _begins_with_a_name(problem: Problem) -> bool:
    """A word with a digit in it is an id, one with a point or stroke in it a file: both stay as they are written."""
    file = PurePath(problem.place.file).name
    if file and problem.message.startswith(file):
        return True
    first = "".join(problem.message.split(maxsplit=1)[:1])
    return any(character.isdigit() for character in first) or not {*"./\\"}.isdisjoint(first.rstrip("."))


def _marked(problem: Problem) -> list[str]:
    """The source line with its number, and below it a mark under the place, cell for cell."""
    from rich.cells import cell_len

    place = problem.place
    start = (place.column if place.mark is None else place.mark) - 1
    before, marked, after = _around(place.source, start, start + place.length)
    number = f"  {place.line} | "
    mark = "^" * max(1, cell_len(marked))
    return [f"{number}{before}{marked}{after}".rstrip(), f"{' ' * (len(number) - 2)}| {' ' * cell_len(before)}{mark}"]


def _around(source: str, start: int, end: int) -> tuple[str, str, str]:
    """What stands before, in and behind the marked stretch, cut to what can be shown. Widths are in cells."""
    from rich.cells import cell_len

    # No character is narrower than a cell unless it is joined to another: look at no more than can be shown.
    far_left, far_right = source[max(0, start - WIDEST * 2) : start], source[end : end + WIDEST * 2]
    before, after = harmless(far_left), harmless(far_right)
    marked = harmless(source[start : min(end, start + WIDEST * 2)])
    cut_left, cut_right = start > WIDEST * 2, len(source) - end > WIDEST * 2
    if cut_left or cut_right or cell_len(before + marked + after) > WIDEST:
        lead = LEAD if cut_right else max(LEAD, WIDEST - 1 - cell_len(marked + after))
        if cut_left or cell_len(before) > lead:
            before = f"…{_last_cells(before, lead)}"
        room = WIDEST - cell_len(before)
        if cell_len(marked) > room:
            marked, after = f"{_first_cells(marked, room)}…", ""
        elif cut_right or cell_len(after) > room - cell_len(marked):
            after = f"{_first_cells(after, room - cell_len(marked))}…"
    return before, marked, after


def _first_cells(text: str, cells: int) -> str:
    from rich.cells import cell_len

    end = min(len(text), cells)
    while cell_len(text[:end]) > cells:
        end -= 1
    return text[:end]


def _last_cells(text: str, cells: int) -> str:
    from rich.cells import cell_len

    start = max(0, len(text) - cells)
    while cell_len(text[start:]) > cells:
        start += 1
    return text[start:]
