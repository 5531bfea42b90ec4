"""Colours that the builder chose: by which two functions cannot be told apart, or one looks like two."""

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from labelgen.model.description import Description
from labelgen.model.netlist import Function, Netlist
from labelgen.problems import Problem
from labelgen.standards.colour_letters import COLOURS, letters_of
from labelgen.standards.colour_vision import LEAST_APART, SEEN_BY, least_difference


def colours_alike(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports colours-alike for each two functions in use, one of them in a colour of the builder's own.

    For a black-and-white printer their patterns are compared instead.
    """
    used = {wire.function for wire in netlist.wires}
    functions = [function for name, function in netlist.functions.items() if name in used]
    chosen = "pattern" if description.printing.mono else "colour"
    problems = []
    for one, other in combinations(functions, 2):
        own = [f for f in (other, one) if getattr(description.functions.get(f.name), chosen, None) is not None]
        found = _patterns(one, other) if description.printing.mono else _colours(one, other)
        problems += [_problem(description, own[0], why, _what_to_do(one, other, chosen)) for why in found if own]
    return problems


def _patterns(one: Function, other: Function) -> Iterator[str]:
    if one.pattern == other.pattern:
        yield f"{one.name} and {other.name} have one and the same pattern, {one.pattern}"


def _colours(one: Function, other: Function) -> Iterator[str]:
    ones, others = (letters_of(function.colour) or () for function in (one, other))
    if not ones or not others:
        return
    if ones == others:
        yield f"{one.name} and {other.name} are both {_words(ones)}"
        return
    apart, vision = least_difference(_paints(ones), _paints(others))
    if apart < LEAST_APART:
        yield f"{one.name} ({_words(ones)}) and {other.name} ({_words(others)}) look alike to {SEEN_BY[vision]}"


def _paints(letters: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(COLOURS[letter].paint for letter in letters)


def _words(letters: tuple[str, ...]) -> str:
    return "/".join(COLOURS[letter].word for letter in letters)


def _what_to_do(one: Function, other: Function, chosen: str) -> str:
    alike = chosen == "pattern" or one.pattern == other.pattern
    left = "only the code letter tells" if alike else "the code letter and the pattern still tell"
    return f"Give one of them another {chosen}; {left} them apart."


def _problem(description: Description, function: Function, why: str, hint: str) -> Problem:
    key = "pattern" if description.printing.mono else "colour"
    place = description.place_of("functions", function.name, key)
    return Problem(code="colours-alike", message=why, hint=hint, place=place)


def several_colours(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports several-colours once: wires that are listed in another colour than most of their function have."""
    usual = {} if description.printing.mono else _usual_colours(netlist)
    odd = [
        wire
        for wire in netlist.wires
        if wire.listed is not None and usual.get(wire.function, wire.colour) != wire.colour
    ]
    if not odd:
        return []
    first, *rest = odd
    more = f"; {len(rest)} more wires likewise" if len(rest) > 1 else "; 1 more wire likewise" if rest else ""
    other = next((f", as {name} is" for name, colour in usual.items() if colour == first.colour), "")
    return [
        Problem(
            code="several-colours",
            message=f"wire {first.number} ({first.head}) is {_called(first.colour)}{other},"
            f" and most others of {first.function} are {_called(usual[first.function])}{more}",
            hint="If you wire it anew, take the colour of the others; if not, flags and lists say what is there.",
            place=description.place_of("wires", first.listed or 0, "colour"),
        )
    ]


def _usual_colours(netlist: Netlist) -> dict[str, str]:
    """Function: the colour that most of its wires have; of equals its own."""
    counts = Counter((wire.function, wire.colour) for wire in netlist.wires if wire.colour)
    own = {name: function.colour for name, function in netlist.functions.items()}
    rising = sorted(counts.items(), key=lambda one: (one[1], one[0][1] == own[one[0][0]]))
    return dict(used for used, _ in rising)


def _called(colour: str) -> str:
    return _words(letters_of(colour) or ())
