"""Bridges on a strip marker: a bar from the first to the last way of each, with a dot at every way that it joins."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.drawing import Circle, Line, Shape

LANE = 1.05
"""mm that one bar takes: the marker is that much higher, so that its heads stay as large as on others."""
BAR, DOT = 0.36, 0.92
"""Of a lane: the weight of its bar, and the diameter of its dots."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bridge:
    """Ways that are one piece of metal, and the lane in which their bar runs, from 0."""

    ways: tuple[int, ...]
    lane: int


def bridges(given: Sequence[Sequence[int]]) -> tuple[Bridge, ...]:
    """Those that share a way as one; two whose bars would meet get lanes of their own, as few as may be."""
    ends: list[int] = []
    found: list[Bridge] = []
    for ways in sorted(_joined(given)):
        lane = next((lane for lane, end in enumerate(ends) if end < ways[0]), len(ends))
        ends[lane : lane + 1] = [ways[-1]]
        found.append(Bridge(ways=ways, lane=lane))
    return tuple(found)


def _joined(given: Sequence[Sequence[int]]) -> list[tuple[int, ...]]:
    found: list[set[int]] = []
    for ways in given:
        touching = [each for each in found if each & set(ways)]
        found = [each for each in found if each not in touching] + [set(ways).union(*touching)]
    return [tuple(sorted(each)) for each in found]


def lanes_height(found: Sequence[Bridge]) -> float:
    """What all bars together take, in mm on a marker of the usual scale; 0 without bridges."""
    return LANE * (1 + max((bridge.lane for bridge in found), default=-1))


def bridge_shapes(
    found: Sequence[Bridge], middles: dict[int, float], edges: tuple[float, float], *, y: float, lane: float
) -> Iterator[Shape]:
    """Bars between the ways that are on this piece of the marker; one that goes on on the next runs to its edge.

    `middles`: way: the x of its middle. `edges`: x of the piece's end at its lowest way, and of that at its highest.
    `y`: the middle of the first lane; `lane`: from there to the next, negative upwards.
    """
    lowest, highest = min(middles), max(middles)
    for bridge in found:
        first, last = bridge.ways[0], bridge.ways[-1]
        if first > highest or last < lowest:
            continue
        start, end = (
            middles[first] if first >= lowest else edges[0],
            middles[last] if last <= highest else edges[1],
        )
        at = y + bridge.lane * lane
        if start != end:
            yield Line(x1=start, y1=at, x2=end, y2=at, width=BAR * abs(lane))
        for way in bridge.ways:
            if way in middles:
                yield Circle(x=middles[way], y=at, radius=DOT / 2 * abs(lane), fill="#000000")
