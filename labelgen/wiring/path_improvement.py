"""Makes a path shorter, one step after the other, until no step helps: 2-opt and Or-opt."""

from collections import deque
from collections.abc import Callable, Iterator, Sequence

CARRIED_AT_MOST = 3
"""Stops in a row that are carried elsewhere in one step, as Or did."""
LEAST_GAIN = 1e-9


class PathImprovement:
    """One path that is being shortened. Its first and last stop stay where they are.

    Only a stop's near ones are tried, nearest first, and a stop is looked at again only when something beside it has
    changed (Bentley 1992), so that the time grows little faster than the number of stops.
    """

    def __init__(self, path: list[int], length: Callable[[int, int], float], near: Sequence[Sequence[int]]) -> None:
        self._path = path
        self._length = length
        self._near = near
        self._at = [0] * len(path)
        self._number(0, len(path))

    def shortened(self) -> list[int]:
        waiting = deque(self._path)
        is_waiting = [True] * len(self._path)
        while waiting:
            stop = waiting.popleft()
            is_waiting[stop] = False
            for touched in self._improve(stop):
                if not is_waiting[touched]:
                    is_waiting[touched] = True
                    waiting.append(touched)
        return self._path

    def _improve(self, stop: int) -> tuple[int, ...]:
        """Takes the first step that helps, and returns the stops that have another neighbour now."""
        for ahead in (1, -1):
            beside = self._beside(stop, ahead)
            if beside is None:
                continue
            gap = self._length(stop, beside)
            for other in self._near[stop]:
                gain = gap - self._length(stop, other)
                if gain < LEAST_GAIN:
                    break
                touched = self._turn(stop, beside, other, ahead, gain) or self._carry(stop, beside, other, ahead, gain)
                if touched:
                    return touched
        return ()

    def _turn(self, stop: int, beside: int, other: int, ahead: int, gain: float) -> tuple[int, ...]:
        """Instead of `stop`–`beside` and `other`–`beyond`: `stop`–`other` and `beside`–`beyond`."""
        beyond = self._beside(other, ahead)
        if beyond is None:
            return ()
        if gain + self._length(other, beyond) - self._length(beside, beyond) < LEAST_GAIN:
            return ()
        if self._at[stop] < self._at[other]:
            turned = (beside, other) if ahead > 0 else (stop, beyond)
        else:
            turned = (beyond, stop) if ahead > 0 else (other, beside)
        first, last = self._at[turned[0]], self._at[turned[1]]
        self._path[first : last + 1] = self._path[first : last + 1][::-1]
        self._number(first, last + 1)
        return stop, beside, other, beyond

    def _carry(self, stop: int, beside: int, other: int, ahead: int, gain: float) -> tuple[int, ...]:
        """Takes out `stop`, or it and up to two behind it, and puts them between `other` and one beside that."""
        for piece, behind in self._pieces(stop, ahead):
            if other in piece:
                return ()
            saved = gain + self._length(behind, piece[-1]) - self._length(behind, beside)
            for beyond in (self._beside(other, 1), self._beside(other, -1)):
                if beyond is None or beyond in piece:
                    continue
                if saved + self._length(other, beyond) - self._length(piece[-1], beyond) >= LEAST_GAIN:
                    self._put(piece, other, beyond)
                    return stop, beside, other, beyond, piece[-1], behind
        return ()

    def _pieces(self, stop: int, ahead: int) -> Iterator[tuple[list[int], int]]:
        """The stop, it and one behind it … without the ends of the path; and what is behind each piece."""
        piece = [stop]
        while len(piece) <= CARRIED_AT_MOST:
            behind = self._beside(piece[-1], -ahead)
            if behind is None:
                return
            yield piece, behind
            piece = [*piece, behind]

    def _put(self, piece: list[int], one: int, two: int) -> None:
        """Between two neighbours, with its first stop beside `one`."""
        in_order = piece if self._at[one] < self._at[two] else piece[::-1]
        first = min(self._at[piece[0]], self._at[piece[-1]])
        del self._path[first : first + len(piece)]
        behind = max(self._at[one], self._at[two])
        if behind > first:
            behind -= len(piece)
        self._path[behind:behind] = in_order
        self._number(min(first, behind), max(first, behind) + len(piece))

    def _beside(self, stop: int, ahead: int) -> int | None:
        at = self._at[stop] + ahead
        return self._path[at] if 0 <= at < len(self._path) else None

    def _number(self, first: int, end: int) -> None:
        for at in range(first, end):
            self._at[self._path[at]] = at
