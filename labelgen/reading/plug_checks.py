"""Whether a plug can be as it is described."""

from collections.abc import Iterator

from labelgen.model.description import Plug
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.reading.known_things import Known

Found = Iterator[tuple[Path, str, str]]


def plugs(known: Known) -> list[Problem]:
    """Reports bad-plug, and unknown-name for its boards."""
    description = known.description
    problems: list[Problem] = []
    for id_, plug in description.plugs.items():
        for number, board in enumerate(plug.boards):
            problems += known.unknown("boards", board, ("plugs", id_, "boards", number))
        for path, message, hint in (*_boards(plug), *_places(plug), *_pins(plug)):
            # What is said of a board is a key, by the board's name; everything else here is a value.
            find = description.place_of_key if path[0] in ("at", "gender") else description.place_of
            place = find("plugs", id_, *path)
            problems.append(Problem(code="bad-plug", message=message, hint=hint, place=place))
    return problems


def _boards(plug: Plug) -> Found:
    if len(plug.boards) != 2 or len(set(plug.boards)) != 2:
        here = ", ".join(dict.fromkeys(plug.boards)) or "none"
        yield ("boards",), f"a plug joins two boards, not {here}", "Name both: `boards: [West, East]`."


def _places(plug: Plug) -> Found:
    for board in plug.at:
        if board not in plug.boards:
            message = f"the plug is not on {board}, but on {' and '.join(plug.boards)}"
            yield ("at", board), message, "Write its place on each of its own two boards."
    for board in plug.gender:
        if board not in plug.boards:
            message = f"the plug is not on {board}, but on {' and '.join(plug.boards)}"
            yield ("gender", board), message, "Say `socket` or `plug` of each of its own two boards."


def _pins(plug: Plug) -> Found:
    for number, pin in enumerate(plug.keep_empty):
        if pin > plug.pins:
            message = f"there is no pin {pin} on a plug of {plug.pins}"
            yield ("keep_empty", number), message, "Write a pin that it has, or correct `pins:`."
