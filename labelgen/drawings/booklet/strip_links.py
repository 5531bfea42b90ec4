"""The links of a strip, from way to way, each in a lane in which it meets no other."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from labelgen.model.netlist import Side, StripPlan, Wire

T = TypeVar("T")
Place = tuple[int, int]
"""A way, and which of its wires."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripLink:
    """A link on one side: from one slot of a way to one of another, in a lane."""

    wire: Wire
    ends: tuple[Place, Place]
    """Way and slot, the upper one first."""
    lane: int


def strip_links(strip: StripPlan, side: Side) -> list[StripLink]:
    """Those from way to way on that side, each in the first lane in which it meets no other."""
    slots: dict[int | str, list[Place]] = {}
    wires: dict[int | str, Wire] = {}
    for way in strip.ways:
        for slot, wire in enumerate(way.entry(side)):
            if wire.link:
                slots.setdefault(wire.number, []).append((way.number, slot))
                wires[wire.number] = wire
    ends = [(number, sorted(at)) for number, at in slots.items() if len(at) == 2]
    laned = in_lanes([(upper, lower) for _, (upper, lower) in ends], [number for number, _ in ends])
    found = {number: (upper, lower) for number, (upper, lower) in ends}
    return [StripLink(wire=wires[number], ends=found[number], lane=lane) for number, lane in laned]


def in_lanes(spans: Sequence[tuple[Place, Place]], things: Sequence[T]) -> list[tuple[T, int]]:
    """Things that reach from one place to another, each in the first lane in which it meets no other."""
    found: list[tuple[T, int]] = []
    lasts: list[Place] = []
    """Of each lane, where what is in it ends."""
    for (first, last), thing in sorted(zip(spans, things, strict=True), key=lambda one: one[0]):
        lane = next((lane for lane, end in enumerate(lasts) if end < first), len(lasts))
        lasts[lane:] = [last, *lasts[lane + 1 :]]
        found.append((thing, lane))
    return found
