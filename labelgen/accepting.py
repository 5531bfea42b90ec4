"""What the builder accepts: problems that are set aside because a reason is written beside the thing they are about."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.places import Path, Place
from labelgen.problems import CODES, ONLY_WHILE_MAKING, Problem, in_file_order, may_be_accepted

THINGS = (
    "boards",
    "panels",
    "supplies",
    "strips",
    "levers",
    "points",
    "devices",
    "plugs",
    "hardware",
    "routes",
    "kinds",
    "functions",
)
MOVED = "moved"
"""Accepted by the wiring itself, which then gives the device its new ways; so only beside a device."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Acceptance:
    """One line under `accepted`, and what it set aside."""

    code: str
    reason: str
    thing: str
    """Beside which it stands, as the builder calls it."""
    place: Place
    problems: tuple[Problem, ...]


class Accepting:
    """All that is accepted in one description."""

    def __init__(self, description: Description) -> None:
        self._places = description.places
        self._reasons: dict[tuple[Path, str], str] = {}
        self._set_aside: dict[tuple[Path, str], list[Problem]] = {}
        self.problems: list[Problem] = []
        """Reports bad-accepted: codes that are none, or that nobody may accept there."""
        for path, reasons in _accepted(description):
            for code, reason in reasons.items():
                if (fault := _fault(path, code)) is None:
                    self._reasons[path, code] = reason
                else:
                    self.problems.append(_bad(*fault, self._place(path, code)))

    def left(self, problems: Iterable[Problem]) -> list[Problem]:
        """The problems that are not accepted; the others are kept in mind."""
        return [problem for problem in problems if not self._is_accepted(problem)]

    def _is_accepted(self, problem: Problem) -> bool:
        if not any(code == problem.code for _, code in self._reasons):
            return False
        path = self._places.path_at(problem.place)
        for end in range(len(path), -1, -1):
            if (path[:end], problem.code) in self._reasons:
                self._set_aside.setdefault((path[:end], problem.code), []).append(problem)
                return True
        return False

    def acceptances(self) -> list[Acceptance]:
        """Those that set something aside, in the order of the description."""
        return [
            Acceptance(
                code=code,
                reason=reason,
                thing=thing_at(path) or "the railway",
                place=self._place(path, code),
                problems=tuple(in_file_order(self._set_aside.get((path, code)) or [self._moved(path)])),
            )
            for (path, code), reason in self._reasons.items()
            if code == MOVED or (path, code) in self._set_aside
        ]

    def _moved(self, path: Path) -> Problem:
        """What the wiring does not report, for it acts on it."""
        message = f"{path[-1]} may be wired to another place than the record says"
        return Problem(code=MOVED, message=message, hint="", place=self._place(path, MOVED))

    def idle(self) -> list[Problem]:
        """Reports accepted-idle for what never applies."""
        return [
            Problem(
                code="accepted-idle",
                message=f"nothing here is a case of `{code}`, which is accepted all the same",
                hint="Take it out, so that it hides nothing later; or write it beside the thing that is meant.",
                place=self._place(path, code),
            )
            for path, code in self._reasons
            if code not in {MOVED, *ONLY_WHILE_MAKING} and (path, code) not in self._set_aside
        ]

    def _place(self, path: Path, code: str) -> Place:
        return self._places.of_key((*path, "accepted", code))


def thing_at(path: Path) -> str:
    """What stands at a path, in words: `strip A1`, `entry 3 of wires`, `printing`; "" for the railway itself."""
    if not path:
        return ""
    table, *below = path
    if below[1:2] == ["holes"] and len(below) > 2:
        return f"hole {below[2]}"
    if table == "wires" and below:
        return f"entry {int(below[0]) + 1} of wires"
    if table not in THINGS or not below:
        return str(table)
    one = {"supplies": "supply", "hardware": "part"}.get(str(table), str(table).removesuffix("s"))
    return f"{one} {below[0]}"


def _accepted(description: Description) -> Iterator[tuple[Path, Mapping[str, str]]]:
    yield (), description.accepted
    for table in THINGS:
        for id_, thing in getattr(description, table).items():
            yield (table, id_), thing.accepted
    for id_, board in description.boards.items():
        for hole, given in board.holes.items():
            yield ("boards", id_, "holes", hole), given.accepted
    for number, wire in enumerate(description.wires):
        yield ("wires", number), wire.accepted


def _fault(path: Path, code: str) -> tuple[str, str] | None:
    """Why a code cannot be accepted there, and what to do."""
    if code not in CODES:
        return f"there is no problem called `{code}`", "Its name stands in brackets at the end of each problem."
    if code == MOVED and path[:1] not in {("points",), ("devices",)}:
        return "`moved` is not accepted here", "Write it beside the point or device that was wired anew."
    if not may_be_accepted(code):
        hint = "Mend what it says: nothing could be made of it, or it would be dangerous."
        return f"`{code}` cannot be accepted", hint
    return None


def _bad(message: str, hint: str, place: Place) -> Problem:
    return Problem(code="bad-accepted", message=message, hint=hint, place=place)
