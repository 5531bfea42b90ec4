"""How places on a panel are written in messages, and where in the file they were written."""

from collections.abc import Sequence

from labelgen.lengths import Point
from labelgen.model.description import Description
from labelgen.model.tracks.cutting import same_place
from labelgen.model.tracks.graph import track_corners
from labelgen.places import Place


def at_square(place: Point) -> str:
    """As the builder writes it: `[12, 5.33]`."""
    return f"[{round(place.x, 2):g}, {round(place.y, 2):g}]"


def corner_at(description: Description, id_: str, tracks: Sequence[str], at: Point) -> Place:
    """The last corner that a track has there, as the road that leaves the others has; else the last track."""
    path = ("panels", id_, "tracks")
    found = [
        description.place_of(*path, track, number)
        for track in tracks
        for number, corner in enumerate(track_corners(description.panels[id_], track))
        if corner and same_place(corner, at)
    ]
    return found[-1] if found else description.place_of_key(*path, tracks[-1])
