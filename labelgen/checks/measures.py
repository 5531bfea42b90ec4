"""What was not measured, said once."""

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural
from labelgen.problems import Problem

MOST_NAMED = 6


def guessed_pitches(description: Description, netlist: Netlist) -> list[Problem]:
    """Strips whose markers are as long as their amps suggest, because nobody measured them."""
    guessed = [strip.id for strip in netlist.strips if not strip.measured]
    if not guessed:
        return []
    return [
        Problem(
            code="pitch-not-measured",
            message=f"the pitch of {named(guessed)} is a guess by amps, so the markers may not meet the screws",
            hint="Measure from the first screw's centre to the last one's and write `measured:` with the mm.",
            place=description.place_of_key("strips", guessed[0]),
        )
    ]


def unknown_lengths(description: Description, netlist: Netlist) -> list[Problem]:
    """Wires that have no length, because an end of theirs has no place."""
    without = [wire for wire in netlist.wires if wire.length is None]
    if not without:
        return []
    things = sorted({end.name.rpartition(".")[0] for wire in without for end in wire.ends}, key=natural)
    return [
        Problem(
            code="no-lengths",
            message=f"{len(without)} of {len(netlist.wires)} wires have no length; they end at {named(things)}",
            hint="Write `at: [x, y]` in mm for both ends (and where panel and boards stand) to have them measured.",
            place=description.place_of_key("railway"),
        )
    ]


def named(ids: list[str]) -> str:
    """The first few of a list of ids, and how many more there are."""
    if len(ids) <= MOST_NAMED:
        return ", ".join(ids)
    return f"{', '.join(ids[:MOST_NAMED])} and {len(ids) - MOST_NAMED} more"
