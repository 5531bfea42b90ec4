"""The pins of plugs: which are free, and what carries on from which."""

from collections.abc import Iterable, Mapping

from labelgen.model.description import Plug

Pin = tuple[str, int]
"""Plug, number."""


class PlugPins:
    """What is still free on each plug, lowest first; and which pins carry one wire together."""

    def __init__(self, plugs: Mapping[str, Plug], reserved: Iterable[Pin]) -> None:
        """`reserved`: pins that are only taken by name."""
        self._named = named = set(reserved)
        self._free = {
            id_: [n for n in range(1, plug.pins + 1) if n not in plug.keep_empty and (id_, n) not in named]
            for id_, plug in plugs.items()
        }
        self._taken: set[Pin] = set()
        self.bridged: dict[Pin, int] = {}
        """A further pin of a wire that takes several: the one on which the wire lands."""

    def room(self, plug: str) -> int:
        """How many pins are free."""
        return len(self._free[plug])

    def freed(self, plug: str) -> list[int]:
        """Pins that hold nothing, but are only taken by name."""
        return sorted(n for id_, n in self._named if id_ == plug and (id_, n) not in self._taken)

    def is_taken(self, pin: Pin) -> bool:
        return pin in self._taken

    def take(self, plug: str, count: int, named: Iterable[int] = ()) -> tuple[int, ...]:
        """The named pins, and the lowest free ones to make up the count; the wire lands on the first."""
        pins = [*named]
        free = [pin for pin in self._free[plug] if pin not in pins]
        pins += free[: max(0, count - len(pins))]
        self._free[plug] = [pin for pin in self._free[plug] if pin not in pins]
        self._taken |= {(plug, pin) for pin in pins}
        self.bridged |= {(plug, pin): pins[0] for pin in pins[1:]}
        return tuple(pins)
