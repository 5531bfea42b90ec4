"""The report of `check`: problems by the things they are about, worst first, and what is accepted."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from labelgen.accepting import Acceptance, thing_at
from labelgen.places import Places
from labelgen.problem_text import as_text, harmless, rows_of, summary
from labelgen.problems import Problem, Severity

GRAVITY = [*Severity]
LINES_AROUND = 4
"""Of a screen: what is said below the problems, and the line on which the next command is typed."""
OF_THE_WHOLE = ("railway", "about", "words", "slack", "sheets", "printing", "schedule", "palette", "accepted")
"""What stands under these keys is about the railway as a whole, and told after what is about one thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """What a terminal can show."""

    rows: int
    columns: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A problem, and the thing it is about."""

    problem: Problem
    thing: str = ""


def report(
    file: str,
    problems: Sequence[Problem],
    acceptances: Sequence[Acceptance] = (),
    places: Places | None = None,
    screen: Screen | None = None,
) -> str:
    """All that `check` says of a file; on a screen, no more of it than fits.

    `places`: those of the description, by which problems are brought together; None where it could not be read.
    """
    told = in_order(problems, places)
    texts = (f"{as_text(one.problem, one.thing)}\n" for one in told)
    accepted = _accepted(acceptances)
    shown = [*texts] if screen is None else _that_fit(texts, screen)
    lines = list(shown)
    if accepted and len(shown) == len(told) and (screen is None or _rows([*shown, accepted], screen) <= _room(screen)):
        lines.append(accepted)
        accepted = ""
    if len(shown) < len(told) or accepted:
        lines.append(_more(file, len(told) - len(shown), acceptances if accepted else ()))
    count = sum(len(one.problems) for one in acceptances)
    lines.append(f"{harmless(file)}: {summary(problems)}{f'; {count} accepted' if count else ''}")
    return "\n".join(lines)


def in_order(problems: Iterable[Problem], places: Places | None = None) -> list[Told]:
    """Problems of one thing together, its worst first; the thing with the worst first, then in file order."""
    groups: dict[tuple[object, ...], list[Problem]] = {}
    for problem in problems:
        groups.setdefault(_key(problem, places), []).append(problem)
    for group in groups.values():
        group.sort(key=_gravity_and_place)
    ordered = sorted(groups.items(), key=lambda item: _rank(item[0], item[1][0]))
    return [Told(problem=problem, thing=_thing(key, problem)) for key, group in ordered for problem in group]


def _key(problem: Problem, places: Places | None) -> tuple[object, ...]:
    """What a problem is grouped by: its file with the path of its thing, or with its line where no thing is known."""
    path = places.path_at(problem.place) if places is not None else ()
    return (problem.place.file, path[:2]) if path else (problem.place.file, problem.place.line)


def _thing(key: tuple[object, ...], problem: Problem) -> str:
    """Of a row of a spreadsheet its number there, for that of the wire stands in it."""
    path = key[1]
    if isinstance(path, tuple) and path[0] == "wires" and problem.place.mark is not None:
        return f"row {problem.place.line}"
    return thing_at(path) if isinstance(path, tuple) and path[0] not in OF_THE_WHOLE else ""


def _rank(key: tuple[object, ...], worst: Problem) -> tuple[object, ...]:
    path = key[1]
    of_the_whole = isinstance(path, tuple) and path[0] in OF_THE_WHOLE
    gravity, *place = _gravity_and_place(worst)
    return gravity, of_the_whole, *place


def _gravity_and_place(problem: Problem) -> tuple[object, ...]:
    place = problem.place
    return GRAVITY.index(problem.severity), place.file, place.line, place.column, problem.code, problem.message


def _that_fit(texts: Iterable[str], screen: Screen) -> list[str]:
    """The first of them that a screen holds, one at least."""
    shown: list[str] = []
    for text in texts:
        if shown and _rows([*shown, text], screen) > _room(screen):
            break
        shown.append(text)
    return shown


def _room(screen: Screen) -> int:
    return screen.rows - LINES_AROUND


def _rows(texts: Iterable[str], screen: Screen) -> int:
    """How many rows of a screen they take, long lines turned over."""
    return sum(rows_of(line, screen.columns) for text in texts for line in text.split("\n"))


def _more(file: str, hidden: int, accepted: Sequence[Acceptance]) -> str:
    rest = [f"{hidden} more"] if hidden else []
    count = sum(len(one.problems) for one in accepted)
    rest += [f"{count} accepted"] if count else []
    return f"… and {' and '.join(rest)}:  labelgen check {harmless(file)} --all\n"


def _accepted(acceptances: Sequence[Acceptance]) -> str:
    """One line for each acceptance: what, beside which thing, and why."""
    lines = []
    for one in acceptances:
        times = f", {len(one.problems)} times" if len(one.problems) > 1 else ""
        lines.append(f"  {one.code}, {one.thing}{times}: {one.reason}")
    return "\n".join(["Accepted:", *map(harmless, lines), ""]) if lines else ""
