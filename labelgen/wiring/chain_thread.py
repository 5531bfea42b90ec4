"""One chain that is being threaded: what is there stays, and one wire joins each stop that has none."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from labelgen.model.netlist import End
from labelgen.wiring.chain_members import Member, Step
from labelgen.wiring.joined_stops import JoinedStops
from labelgen.wiring.nearest_stop import NearestStop

SOURCE = 0
"""The place of the supply's terminal among the stops."""


class ChainThread:
    """Stops are numbers, in the order of the chain."""

    def __init__(self, stops: Sequence[Member], joined: JoinedStops, room: Sequence[int], nearest: NearestStop) -> None:
        """`room`: how many more wires each stop takes."""
        self.steps: list[Step] = []
        self._stops = stops
        self._joined = joined
        self._room = [*room]
        self._nearest = nearest
        self._open: set[int] | None = None
        """Fed stops with room; None: to be looked for again."""

    def keep(self, one: tuple[int, End], other: tuple[int, End]) -> bool:
        """A wire that is there, from an end at one stop to an end at another: unless it closes a ring.

        A ring among recorded wires comes from a new bridge; one that the builder listed is reported by a check.
        """
        if not self._joined.join(one[0], other[0]):
            return False
        self._add(*((other, one) if other[0] == SOURCE else (one, other)))
        return True

    def close(self, before: int, number: int) -> None:
        """One wire to the first stop of a piece that is cut off: from `before` if that has room."""
        has_room = before == SOURCE or self._room[before] > 0
        self._lead(before if has_room and self._joined.is_fed(before) else self._nearest_to(number), number)

    def join_all(self) -> None:
        """One wire or link from the nearest stop with room to each newcomer, and to each piece that has no feed."""
        unfed: dict[int, list[int]] = {}
        for number in range(1, len(self._stops)):
            if not self._joined.is_fed(number):
                unfed.setdefault(self._joined.top(number), []).append(number)
        for piece in unfed.values():
            number = next((stop for stop in piece if self._room[stop] > 0), piece[0])
            self._lead(self._nearest_to(number), number)

    def _lead(self, start: int, number: int) -> None:
        alone = self._joined.is_alone(number)
        self._joined.join(start, number)
        self._add((start, self._stops[start].end), (number, self._stops[number].end))
        if self._open is not None and alone:
            self._open -= {stop for stop in (start,) if self._room[stop] <= 0}
            self._open |= {stop for stop in (number,) if self._room[stop] > 0}
        else:
            self._open = None

    def _add(self, *both: tuple[int, End]) -> None:
        before, after = (replace(self._stops[stop], end=end) for stop, end in both)
        self.steps.append((before, after))
        for stop, end in both:
            self._room[stop] -= end == self._stops[stop].end

    def _nearest_to(self, number: int) -> int:
        """By the plugs on the way, then by the length of the wire, then by the order of the chain.

        Where all are crowded, the nearest of all; and the supply's terminal, if only from there no plug, or fewer, is
        on the way.
        """
        if self._open is None:
            self._open = {stop for stop in self._fed() if self._room[stop] > 0}
        stops = sorted(self._open) or list(self._fed())
        if not stops:
            return SOURCE
        newcomer, source = self._stops[number].end, self._stops[SOURCE].end
        found = stops[self._nearest.among([self._stops[stop].end for stop in stops], newcomer)]
        from_source = self._nearest.plugs(source, newcomer) < self._nearest.plugs(self._stops[found].end, newcomer)
        return SOURCE if from_source and self._room[SOURCE] > 0 else found

    def _fed(self) -> Iterator[int]:
        return (stop for stop in range(1, len(self._stops)) if self._joined.is_fed(stop))
