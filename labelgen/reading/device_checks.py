"""Whether what is said of one device agrees with itself."""

from labelgen.problems import Problem
from labelgen.reading.known_things import Known


def device_ways(known: Known) -> list[Problem]:
    """Reports bad-ways for a device that has both `way` and `ways`.

    A list in a spreadsheet may have a column for each, and labelgen fills both: there they only have to agree.
    """
    description = known.description
    problems: list[Problem] = []
    for table in ("points", "devices"):
        for id_, device in getattr(description, table).items():
            if device.way is None or not device.ways:
                continue
            place = description.place_of(table, id_, "way")
            if place.cell and device.way == device.ways[0]:
                continue
            message = f"{id_} has both `way` and `ways`"
            hint = "Keep one of the two: `way` for the first of ways side by side, `ways` to name each."
            problems.append(Problem(code="bad-ways", message=message, hint=hint, place=place))
    return problems
