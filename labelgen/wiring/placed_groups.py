"""Groups that have found their ways, and what is still free on a strip."""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

from labelgen.model.description import Strip
from labelgen.wiring.bridges import joined, meets_another
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
        self._bridges = joined(strip.bridges)
        self._nets: dict[int, Hashable] = {way: ("taken", way) for way in strip.taken}
        """Of each way that holds something: what it is joined with there."""
        self._here = set(self._nets.values())
        self._no_room_for: set[tuple[Hashable, ...]] = set()
        """What a bridge has kept from finding a run, so that the strip is not searched again for the like."""

    def first_run(self, nets: Sequence[Hashable]) -> int | None:
        """The first way of the first run of free consecutive ways, one for each net, that joins no two by a bridge."""
        length = len(nets)
        if self._longest is not None and self._longest < length:
            return None
        if self._bridges and self._pattern(nets) in self._no_room_for:
            return None
        run = longest = 0
        for way in range(1, self.count + 1):
            run = 0 if way in self.held or way in self.reserved else run + 1
            longest = max(longest, run)
            if run >= length and self._keeps_apart(first := way - length + 1, nets):
                return first
        self._longest = longest
        self._no_room_for.add(self._pattern(nets))
        return None

    def _pattern(self, nets: Sequence[Hashable]) -> tuple[Hashable, ...]:
        """Nets that are not here yet differ only in which of them are the same."""
        return tuple([net if net in self._here else nets.index(net) for net in nets])

    def _keeps_apart(self, first: int, nets: Sequence[Hashable]) -> bool:
        return not self._bridges or not meets_another(self._bridges, self._nets, dict(enumerate(nets, first)))

    @property
    def is_full(self) -> bool:
        """Whether nobody finds a place here who does not name it."""
        return all(way in self.held or way in self.reserved for way in range(1, self.count + 1))

    def freed(self) -> list[int]:
        """Ways that hold nothing, but are only taken by name."""
        return sorted(way for way in self.reserved if way <= self.count and way not in self.held)

    def hold(self, nets: Mapping[int, Hashable], what: str) -> None:
        """`nets`: way: the net that it then lies on."""
        self.held |= dict.fromkeys(nets, what)
        self._nets |= nets
        self._here.update(nets.values())
        self._longest = None
        self._no_room_for.clear()


def owner_of(circuit: WantedCircuit) -> str:
    """Whose ways they are, in words."""
    return f"lever {circuit.id}" if circuit.lever else circuit.id


def counted(number: int, what: str = "way") -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
