"""What is one piece of copper before any chain is laid: by the wires of circuits, and by bridges."""

from collections.abc import Iterable, Mapping, Sequence

from labelgen.wiring.draft_wires import DraftWire


class CopperPieces:
    """The ends, by name, that hang together."""

    def __init__(self, drafts: Iterable[DraftWire], bridges: Mapping[str, Iterable[Iterable[int]]]) -> None:
        """`bridges`: of each strip, the ways of each."""
        self._pieces: dict[str, list[str]] = {}
        for wire in drafts:
            self._join(wire.start.name, wire.finish.name)
        for strip, pieces in bridges.items():
            for first, *others in (sorted(ways) for ways in pieces):
                for way in others:
                    self._join(f"{strip}.{first}", f"{strip}.{way}")

    def of(self, end: str) -> Sequence[str]:
        """All ends of its piece, itself among them."""
        return self._pieces.get(end, (end,))

    def _join(self, one: str, other: str) -> None:
        large, small = sorted((self._piece(one), self._piece(other)), key=len, reverse=True)
        if large is not small:
            large += small
            self._pieces |= dict.fromkeys(small, large)

    def _piece(self, end: str) -> list[str]:
        return self._pieces.setdefault(end, [end])
