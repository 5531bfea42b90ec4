"""Mains: never on the layout, on a strip, or on a plug that fits it."""

import re
from collections.abc import Iterator

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.places import Path
from labelgen.problems import Problem

MAINS = re.compile(r"\bmains\b|\b(?:1[012]\d|2[0-4]\d)\s?(?:v\b|volts?\b|v\s?ac\b|vac\b)", re.IGNORECASE)
"""Words by which a builder calls what comes out of the wall: `mains`, `230 V`, `120VAC`."""


def mains_on_layout(description: Description, _: Netlist) -> list[Problem]:
    """Reports mains-on-layout at a supply whose mains side is there, a way or a function that is called so."""
    hint = "Keep mains in a closed case off the layout, with a plug of its own, and bring only its low voltage here."
    return [
        Problem(code="mains-on-layout", message=message, hint=hint, place=description.place_of(*path))
        for message, path in (*_supplies(description), *_words(description))
    ]


def _supplies(description: Description) -> Iterator[tuple[str, Path]]:
    for id_, supply in description.supplies.items():
        if supply.mains == "layout":
            yield f"{id_} is joined to mains wiring on the layout", ("supplies", id_, "mains")


def _words(description: Description) -> Iterator[tuple[str, Path]]:
    for id_, strip in description.strips.items():
        for way, what in strip.taken.items():
            if MAINS.search(what):
                yield f"way {way} of strip {id_} is taken for {what!r}: that is mains", ("strips", id_, "taken", way)
    for id_ in description.functions:
        if MAINS.search(id_):
            yield f"the function {id_} is for mains wires", ("functions", id_)


def mains_plugs(description: Description, _: Netlist) -> list[Problem]:
    """Reports mains-plug at each plug that fits mains."""
    return [
        Problem(
            code="mains-plug",
            message=f"plug {id_} is of a kind that fits mains: one day somebody plugs it in there",
            hint="Take plugs and sockets that no mains lead or outlet fits.",
            place=description.place_of("plugs", id_, "fits_mains"),
        )
        for id_, plug in description.plugs.items()
        if plug.fits_mains
    ]
