"""What was not measured, said once."""

from collections.abc import Mapping

from labelgen.model.description import Description, Strip
from labelgen.model.netlist import PANEL_KINDS, End, EndKind, Netlist
from labelgen.model.panel.places import places_of_routes
from labelgen.model.strip_geometry import pitch_by_amps
from labelgen.natural_order import natural
from labelgen.problems import Problem

MOST_NAMED = 6
SMALLEST_PITCH_MM = 2.5
"""The smallest screw terminals have 2.54 mm from screw to screw. Common practice, no source."""

LARGEST_PITCH_MM = 16.0
"""Strips of 15 A have about 12 mm from screw to screw, those of 30 A a little more. Common practice, no source."""
LARGEST_PITCH_AMPS = 30.0
"""Strips that carry more may have any pitch."""


def guessed_pitches(description: Description, netlist: Netlist) -> list[Problem]:
    """Strips whose markers are as long as their amps suggest, because nobody measured them."""
    guessed = [strip.id for strip in netlist.strips if not strip.measured]
    if not guessed:
        return []
    return [
        Problem(
            code="pitch-not-measured",
            message=f"the pitch of {named(guessed)} is guessed from its amps, so the markers may not meet the screws",
            hint="Measure from the first screw's centre to the last one's and write `measured:` with the mm.",
            place=description.place_of_key("strips", guessed[0]),
        )
    ]


def tiny_pitches(description: Description, netlist: Netlist) -> list[Problem]:
    """Strips that seem to have been measured in centimetres or inches."""
    return [
        Problem(
            code="tiny-pitch",
            message=f"the ways of strip {strip.id} would be {strip.pitch:.2g} mm apart",
            hint="Lengths are mm here: write 110 for 11 cm. `measured` is from the first screw's centre to the last's.",
            place=description.place_of("strips", strip.id, _written(description, strip.id)),
        )
        for strip in netlist.strips
        if strip.measured and strip.pitch < SMALLEST_PITCH_MM
    ]


def wide_pitches(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports wide-pitch for strips whose screws would be further apart than those of any such strip."""
    return [
        Problem(
            code="wide-pitch",
            message=f"the ways of strip {strip.id} would be {strip.pitch:.3g} mm apart",
            hint=_likely_ways(description.strips[strip.id]),
            place=description.place_of("strips", strip.id, _written(description, strip.id)),
        )
        for strip in netlist.strips
        if strip.measured and strip.pitch > LARGEST_PITCH_MM and description.strips[strip.id].amps <= LARGEST_PITCH_AMPS
    ]


def _likely_ways(strip: Strip) -> str:
    """How many ways are usual over such a length."""
    if strip.pitch is not None:
        return "`pitch` is the mm from one screw's centre to the next one's."
    usual = round((strip.measured or 0) / pitch_by_amps(strip.amps)) + 1
    meant = f"{strip.row_ways} are meant here" + ("" if "ways" in strip.model_fields_set else ", as nothing is said")
    return (
        f"Over {strip.measured:g} mm, about {usual} screws in a row are usual, and {meant}. Count them and correct"
        " `ways`, or measure again."
    )


def _written(description: Description, strip: str) -> str:
    return "pitch" if description.strips[strip].pitch is not None else "measured"


def unknown_lengths(description: Description, netlist: Netlist) -> list[Problem]:
    """Wires that have no length, because an end of theirs has no place."""
    without = [wire for wire in netlist.wires if wire.length is None]
    if not without:
        return []
    ends = {end.name.rpartition(".")[0]: end for wire in without for end in wire.ends}
    panels: dict[tuple[EndKind, str], str | None] = {
        **{(EndKind.LEVER, lever.id): lever.panel for lever in netlist.levers},
        **{thing: panel for thing, (panel, _) in places_of_routes(description.panels, netlist.matrices).items()},
    }
    things = [name for name, end in ends.items() if not _has_place(description, panels, end)] or list(ends)
    return [
        Problem(
            code="no-lengths",
            message=f"{len(without)} of {len(netlist.wires)} wires have no length: "
            f"it is not known where {named(sorted(things, key=natural))} {'is' if len(things) == 1 else 'are'}",
            hint="Write `at: [x, y]` in mm at each; for a lever, at its panel. Several boards need their places too.",
            place=description.place_of_key("railway"),
        )
    ]


def _has_place(description: Description, panels: Mapping[tuple[EndKind, str], str | None], end: End) -> bool:
    """Whether it was written where the thing at an end stands, on its board or panel."""
    if end.kind in PANEL_KINDS:
        panel = panels.get(end.point[:2])
        return panel is not None and description.panels[panel].at is not None
    if end.kind is EndKind.PIN:
        return end.board in description.plugs[end.thing].at
    tables = (description.strips, description.supplies, description.points, description.devices)
    return any(table[end.thing].at is not None for table in tables if end.thing in table)


def named(ids: list[str]) -> str:
    """The first few of a list of ids, and how many more there are."""
    if len(ids) <= MOST_NAMED:
        return ", ".join(ids)
    return f"{', '.join(ids[:MOST_NAMED])} and {len(ids) - MOST_NAMED} more"
