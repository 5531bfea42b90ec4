"""Groups that have found their ways, and what is still free on a strip."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from labelgen.model.description import Strip
from labelgen.wiring.circuits import WantedCircuit, WantedGroup


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedGroup:
    wanted: WantedGroup
    board: str | None
    """The board of the strip."""
    strip: str
    ways: Mapping[int, int]
    """Row of the kind: way."""

    def swap_with(self, row: int) -> int:
        """The way with which a row's may have to be exchanged when it shorts; 0: none."""
        rows = self.wanted.devices[0].kind.group
        pair = (way for n, way in self.ways.items() if n != row and rows[n].swap == rows[row].swap)
        return next(pair, 0) if rows[row].swap else 0


class FreeWays:
    """What is still free on one strip."""

    def __init__(self, strip: Strip) -> None:
        self.count = strip.ways
        self.held: dict[int, str] = {way: f"taken for {words}" for way, words in strip.taken.items()}
        self.held |= dict.fromkeys(strip.keep, "kept free by `keep`")
        self.reserved: set[int] = set()
        """Ways that the as-built record holds: free only for those who have them there, or who name them."""
        self._longest: int | None = None

    def first_run(self, length: int) -> int | None:
        """The first way of the first run of that many free consecutive ways."""
        if self._longest is not None and self._longest < length:
            return None
        run = longest = 0
        for way in range(1, self.count + 1):
            run = 0 if way in self.held or way in self.reserved else run + 1
            longest = max(longest, run)
            if run == length:
                return way - length + 1
        self._longest = longest
        return None

    def hold(self, ways: Iterable[int], what: str) -> None:
        self.held |= dict.fromkeys(ways, what)
        self._longest = None


def owner_of(circuit: WantedCircuit) -> str:
    """Whose ways they are, in words."""
    return f"lever {circuit.id}" if circuit.lever else circuit.id


def counted(number: int, what: str = "way") -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
