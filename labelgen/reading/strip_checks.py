"""Whether a strip can be as it is described."""

from collections.abc import Iterator

from labelgen.model.description import Strip
from labelgen.places import Path
from labelgen.problems import Problem
from labelgen.reading.known_things import Known

LARGEST_GUESSED_AMPS = 15
"""Up to here a pitch can be guessed from the rating: section 2 of the format."""
_ACROSS = {"left": ("front", "back"), "right": ("front", "back"), "front": ("left", "right"), "back": ("left", "right")}

Found = Iterator[tuple[Path, str, str]]


def strips(known: Known) -> list[Problem]:
    """Reports bad-strip."""
    description = known.description
    problems: list[Problem] = []
    for id_, strip in description.strips.items():
        for path, message, hint in (*_pitch(strip), *_tiers(strip), *_sides(strip), *_ways(strip)):
            # A way that is taken is a key; everything else here is a value.
            find = description.place_of_key if path[0] == "taken" else description.place_of
            place = find("strips", id_, *path)
            problems.append(Problem(code="bad-strip", message=message, hint=hint, place=place))
    return problems


def _pitch(strip: Strip) -> Found:
    if strip.pitch is not None and strip.measured is not None:
        hint = "Keep `measured:`, which is the surer of the two."
        yield ("pitch",), "the strip has both a pitch and a measured length", hint
    if strip.measured is not None and strip.row_ways == 1:
        one = "a strip of one way" if strip.tiers == 1 else "a row of one way"
        message = f"{one} has no distance from the first screw to the last"
        yield ("measured",), message, "Write `pitch:` instead: the width of its marker."
    if strip.pitch is None and strip.measured is None and strip.amps > LARGEST_GUESSED_AMPS:
        message = f"the pitch of a strip for {strip.amps:g} A cannot be guessed"
        hint = "Measure from the first screw's centre to the last one's, and write `measured:`."
        yield ("amps",), message, hint


def _tiers(strip: Strip) -> Found:
    if strip.ways % strip.tiers:
        message = f"{strip.ways} ways cannot stand in {strip.tiers} rows of the same length"
        hint = "`ways:` is how many there are in all rows together: two rows of 6 are 12."
        yield ("tiers",), message, hint


def _sides(strip: Strip) -> Found:
    fits = _ACROSS[strip.way_1]
    if strip.panel_side is not None and strip.panel_side not in fits:
        message = f"a strip whose way 1 is at the {strip.way_1} has no long side at the {strip.panel_side}"
        yield ("panel_side",), message, f"Write {fits[0]} or {fits[1]}, or change `way_1:`."


def _ways(strip: Strip) -> Found:
    named: list[tuple[Path, int]] = [(("taken", str(way)), way) for way in strip.taken]
    named += [(("keep", number), way) for number, way in enumerate(strip.keep)]
    named += [(("test_points", number), way) for number, way in enumerate(strip.test_points)]
    for number, bridge in enumerate(strip.bridges):
        named += [(("bridges", number, at), way) for at, way in enumerate(bridge)]
        if len(set(bridge)) < 2:
            yield ("bridges", number), "a bridge joins at least two ways", "Write the ways it joins: [1, 4]."
    for path, way in named:
        if way > strip.ways:
            message = f"there is no way {way} on a strip of {strip.ways}"
            yield path, message, "Write a way that it has, or correct `ways:`."
