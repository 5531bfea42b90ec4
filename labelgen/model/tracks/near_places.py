"""Corners of tracks that nearly meet another track: slips of the pen, and where they ought to be."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from labelgen.lengths import Point
from labelgen.model.panel.form import Panel
from labelgen.model.tracks.cutting import SAME_PLACE, apart, crossing_of, foot_on, same_place
from labelgen.model.tracks.graph import TrackGraph, track_corners
from labelgen.model.tracks.segment_cells import Cell, Cells, Segment

NEARLY = 0.5
"""Squares: what is closer than this and not in one place is a slip of the pen."""
_IN_A_CURVE = 2.0
"""Squares: a track that meets another so near by is drawn as a curve that leaves it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NearMiss:
    track: str
    corner: int
    """Its position in the track."""
    at: Point
    other: str
    """The track that it nearly meets."""
    meant: Point
    """Where on the other track it ought to be, rounded as one would write it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    track: str
    number: int
    ends: Segment


def near_misses(panel: Panel) -> list[NearMiss]:
    """Corners closer than half a square to another track, or to a corner of one, and not on it; each pair once.

    Of two corners, that of the later track is the slip.
    """
    stretches = {track: _stretches(panel, track) for track in panel.tracks}
    every = [stretch for of_track in stretches.values() for stretch in of_track]
    cells = Cells([stretch.ends for stretch in every], NEARLY)
    held: dict[Cell, list[_Stretch]] = {}
    for stretch in every:
        for cell in cells.along(stretch.ends):
            held.setdefault(cell, []).append(stretch)
    order = {track: position for position, track in enumerate(panel.tracks)}
    found = []
    for track in panel.tracks:
        for number, at in enumerate(track_corners(panel, track)):
            if at is None or isinstance(panel.tracks[track][number], str):
                continue
            near = {stretch for cell in cells.around(at) for stretch in held.get(cell, ()) if stretch.track != track}
            by_track: dict[str, list[_Stretch]] = {}
            for stretch in sorted(near, key=lambda one: (order[one.track], one.number)):
                by_track.setdefault(stretch.track, []).append(stretch)
            at_end = number in (0, len(panel.tracks[track]) - 1)
            for other, its in by_track.items():
                meant = _meant(at, stretches[track], its, at_end=at_end, earlier=order[other] < order[track])
                if meant is not None:
                    found.append(NearMiss(track=track, corner=number, at=at, other=other, meant=meant))
    return found


def nearest_on_track(graph: TrackGraph, place: Point) -> Point | None:
    """The nearest place on any track, rounded as one would write it; None when none is closer than half a square."""
    found = [foot_on((graph.nodes[edge.ends[0]], graph.nodes[edge.ends[1]]), place) for edge in graph.edges]
    near = min(found, key=lambda foot: apart(foot, place), default=None)
    return None if near is None or apart(near, place) >= NEARLY else _written(near)


def _stretches(panel: Panel, track: str) -> list[_Stretch]:
    return [
        _Stretch(track=track, number=number, ends=(a, b))
        for number, (a, b) in enumerate(pairwise(track_corners(panel, track)))
        if a is not None and b is not None and not same_place(a, b)
    ]


def _meant(at: Point, own: Sequence[_Stretch], its: Sequence[_Stretch], *, at_end: bool, earlier: bool) -> Point | None:
    """Where a corner should be to meet another track; None when it does meet it, is far, or leaves it in a curve."""
    foot = min((foot_on(stretch.ends, at) for stretch in its), key=lambda foot: apart(foot, at))
    if not SAME_PLACE < apart(foot, at) < NEARLY:
        return None
    meetings = (place for a in own for b in its for place in _meetings(a.ends, b.ends, crossing=not at_end))
    if any(apart(place, at) < _IN_A_CURVE for place in meetings):
        return None
    corner = min((end for stretch in its for end in stretch.ends), key=lambda end: apart(end, at))
    if apart(corner, at) >= NEARLY:
        return _written(foot)
    return _written(corner) if earlier else None


def _meetings(own: Segment, other: Segment, *, crossing: bool) -> Iterator[Point]:
    """Where one of two stretches ends on the other; and, if asked, where they cross."""
    yield from (end for end in own if apart(foot_on(other, end), end) <= SAME_PLACE)
    yield from (end for end in other if apart(foot_on(own, end), end) <= SAME_PLACE)
    crossed = crossing_of(own, other) if crossing else None
    if crossed is not None:
        yield crossed


def _written(place: Point) -> Point:
    return Point(round(place.x, 2), round(place.y, 2))
