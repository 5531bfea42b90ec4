"""Whether functions, and the colours and sizes of single wires, can be printed."""

from labelgen.model.description import Description
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.reading.known_things import Known
from labelgen.reading.near_names import nearest
from labelgen.standards.colour_letters import (
    COLOURS,
    METALS,
    WORDS,
    is_like_protective,
    is_protective,
    known_words,
    letters_of,
)
from labelgen.standards.conductors import parse_size
from labelgen.standards.functions import DEFAULT_FUNCTIONS, PATTERNS


def functions(known: Known) -> list[Problem]:
    """Reports wrong-type, missing-key, bad-colour, safety-colour, unknown-choice and bad-size."""
    description = known.description
    problems: list[Problem] = []
    for id_, function in description.functions.items():
        path = ("functions", id_)
        problems += _code(description, id_)
        problems += colour_problems(description, function.colour, (*path, "colour"))
        problems += size_problems(description, function.size, (*path, "size"))
        if function.pattern is not None and function.pattern not in PATTERNS:
            place = description.place_of(*path, "pattern")
            near = nearest(function.pattern, PATTERNS)
            hint = f"{f'Did you mean {near}? ' if near else ''}The patterns: {', '.join(PATTERNS)}."
            message = f"there is no pattern `{function.pattern}`"
            problems.append(Problem(code="unknown-choice", message=message, hint=hint, place=place))
    return problems


def listed_wires(known: Known) -> list[Problem]:
    """Reports unknown-name, bad-colour, safety-colour and bad-size of the wires that the builder listed."""
    description = known.description
    problems: list[Problem] = []
    for number, wire in enumerate(description.wires):
        path: Path = ("wires", number)
        problems += known.unknown("functions", wire.function, (*path, "function"))
        problems += colour_problems(description, wire.colour, (*path, "colour"))
        problems += size_problems(description, wire.size, (*path, "size"))
    return problems


def _code(description: Description, id_: str) -> list[Problem]:
    code = description.functions[id_].code
    if code is None:
        if id_ in DEFAULT_FUNCTIONS:
            return []
        message = f"the function `{id_}` has no code letter"
        hint = f"Write it so: {id_}: {{code: {id_[0].upper()}, colour: …}}. The head of its wires ends in the code."
        return [
            Problem(code="missing-key", message=message, hint=hint, place=description.place_of_key("functions", id_))
        ]
    if 1 <= len(code) <= 2 and not any(c.isspace() or not c.isprintable() for c in code) and not code[0].isdecimal():
        return []
    message = f"{code!r} cannot be a code"
    hint = "A code is one or two letters or signs, and no digit comes first: 5 and 1N would read 51N."
    return [
        Problem(code="wrong-type", message=message, hint=hint, place=description.place_of("functions", id_, "code"))
    ]


def colour_problems(description: Description, colour: str | None, path: Path) -> list[Problem]:
    """Reports bad-colour; safety-colour for green with yellow (IEC 60445), or either in another mix (IEC 60757)."""
    if colour is None:
        return []
    letters = letters_of(colour)
    if letters is not None and not is_protective(letters) and not is_like_protective(letters):
        return []
    place = description.place_of(*path)
    if letters is None:
        near = nearest(colour, [*WORDS, *COLOURS])
        meant = f"Did you mean {near}? " if near else ""
        if not METALS.isdisjoint({colour.upper(), colour.lower()}):
            meant = "On a label, gold and silver are not told from yellow, orange and grey by all eyes. "
        hint = f"{meant}The colours: {known_words()}; two of them so: red/blue."
        return [Problem(code="bad-colour", message=f"{colour!r} is not a wire colour", hint=hint, place=place)]
    if is_like_protective(letters):
        message = f"{colour!r}: neither green nor yellow goes with another colour on one wire"
        hint = "Take one of them alone, or two other colours: half hidden, it would pass for a protective conductor."
        return [Problem(code="safety-colour", message=message, hint=hint, place=place)]
    message = "green and yellow together are kept for protective conductors"
    hint = "Take another colour: whoever meets a green and yellow wire must be able to trust it."
    return [Problem(code="safety-colour", message=message, hint=hint, place=place)]


def size_problems(description: Description, size: str | None, path: Path) -> list[Problem]:
    """Reports bad-size."""
    if size is None or parse_size(size) is not None:
        return []
    hint = "Write strands/strand diameter (16/0.2), copper (0.5 mm2) or gauge (20 AWG), up to 10 mm2."
    place = description.place_of(*path)
    return [Problem(code="bad-size", message=f"{size!r} is not a wire size", hint=hint, place=place)]
