"""Whether what is printed consists of characters that the typefaces have; whatever is not plain ASCII is looked up."""

from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.typefaces import REGULAR, named_missing

HINT = "Write it in letters that they have (Latin, Greek, Cyrillic)."


def missing_characters(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports character-missing: of the railway, its levers, strips and boards, and of what stands on flags."""
    found: dict[tuple[str, Place], str] = {}
    seen: set[str] = set()
    for text, place in _printed(description, netlist):
        if not text.isascii() and text not in seen and (named := named_missing(text, REGULAR)):
            found.setdefault((named, place), text)
        seen.add(text)
    return [
        Problem(
            code="character-missing",
            message=f"{text!r} cannot be printed: our typefaces have no {named}",
            hint=HINT,
            place=place,
        )
        for (named, place), text in found.items()
    ]


def _printed(description: Description, netlist: Netlist) -> Iterator[tuple[str, Place]]:
    yield description.railway, description.place_of("railway")
    for lever in netlist.levers:
        place = description.place_of_key(*lever.path)
        yield lever.shown, place
        yield lever.name, place
    for strip in netlist.strips:
        place = description.place_of_key("strips", strip.id)
        yield strip.shown, place
        yield from ((way.head, place) for way in strip.ways)
        if strip.board is not None:
            yield description.boards[strip.board].name, description.place_of("boards", strip.board, "name")
    for wire in netlist.wires:
        place = description.place_of_key(*wire.path)
        yield from ((text, place) for text in (wire.head, str(wire.number), *(end.shown for end in wire.ends)))
