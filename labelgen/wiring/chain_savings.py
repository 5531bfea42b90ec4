"""How much wire `chain: shortest` saves, by the lengths of the wire list; and which chains it really makes shorter."""

from collections.abc import Callable, Container, Iterable, Mapping
from dataclasses import dataclass

from labelgen.model.description import Description
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.natural_order import natural
from labelgen.places import Place
from labelgen.problems import Problem
from labelgen.wiring.chain_order import ChainKey
from labelgen.wiring.draft_wires import DraftWire
from labelgen.wiring.wire_lengths import WireLengths


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainLength:
    """The wires of one chain together."""

    mm: int = 0
    wires: int = 0
    without: int = 0
    """Wires that have no length."""
    links: int = 0

    def with_wire(self, length: int | None, *, link: bool) -> "ChainLength":
        return ChainLength(
            mm=self.mm + (length or 0),
            wires=self.wires + 1,
            without=self.without + (length is None),
            links=self.links + link,
        )

    @property
    def measured(self) -> bool:
        """False where nothing is known but the links."""
        return self.without == 0 or self.without + self.links < self.wires


KEPT_HINTS = {
    "recorded": "What is recorded is not wired anew. "
    "Before it is printed and built, `make --afresh` lays it out again.",
    "listed": "What your list says is not wired anew. Where it is not built yet, take its wires out of the list.",
}
ChainLengths = Mapping[ChainKey, ChainLength]
NONE = ChainLength()


def lengths_of_chains(
    wires: Iterable[DraftWire], lengths: WireLengths, asked: Container[ChainKey]
) -> dict[ChainKey, ChainLength]:
    """Of each chain that is asked for and has a wire."""
    found: dict[ChainKey, ChainLength] = {}
    for wire in wires:
        if (key := (wire.circuit, wire.chain)) in asked:
            found[key] = found.get(key, NONE).with_wire(lengths.measure(wire)[0], link=wire.link)
    return found


def asked_chains(description: Description) -> list[ChainKey]:
    """The chains that the builder wants to take least wire, in natural order of supply."""
    supplies = description.supplies
    keys = [
        (id_, terminal) for id_ in sorted(supplies, key=natural) for terminal in SUPPLY_TERMINALS[supplies[id_].kind]
    ]
    return [(id_, terminal) for id_, terminal in keys if supplies[id_].chain_order(terminal) == "shortest"]


class ChainTrial:
    """Lays the chains that are asked for both ways, as if nothing were built yet.

    `shortest`: those that are shorter in the order of least wire. An order that turns out no shorter, as when its plugs
    are full, is not taken.
    """

    def __init__(self, asked: list[ChainKey], laid: Callable[[frozenset[ChainKey]], ChainLengths]) -> None:
        """`laid`: the lengths of all chains, when those that are named take least wire."""
        self._asked = asked
        self.shortest = frozenset(asked)
        if asked:
            self._by_strip = laid(frozenset())
            self._least = laid(self.shortest)
            while no_gain := {key for key in self.shortest if not self._is_shorter(key)}:
                self.shortest -= no_gain
                self._least = laid(self.shortest)

    def _is_shorter(self, key: ChainKey) -> bool:
        return self._least.get(key, NONE).mm < self._by_strip.get(key, NONE).mm

    def problems(self, description: Description, made: ChainLengths, *, built: bool) -> list[Problem]:
        """`made`: the chains as they are. `built`: there is a record. Reports chain-saves and chain-not-measured."""
        return [
            self._saves(description, key, made[key], "recorded" if built else "listed")
            if made[key].measured
            else _not_measured(description, key)
            for key in self._asked
            if key in made
        ]

    def _saves(self, description: Description, key: ChainKey, made: ChainLength, where: str) -> Problem:
        least, by_strip = metres(self._least[key].mm), metres(self._by_strip[key].mm)
        saved = metres(_centimetres(self._by_strip[key].mm) * 10 - _centimetres(self._least[key].mm) * 10)
        hint = "Look at it on the wire list: it is followed from device to device, no more from strip to strip."
        if made != self._least[key]:
            message = (
                f"stays as it is {where}, with {metres(made.mm)} of wire: in its shortest order it would take {least}"
            )
            message += f", strip by strip {by_strip}"
            hint = KEPT_HINTS[where]
        elif key in self.shortest:
            message = f"takes {least} of wire in this order, {by_strip} strip by strip: {saved} less"
        else:
            message = (
                f"takes {by_strip} of wire strip by strip, and no order that takes less was found: it saves nothing"
            )
            hint = "Leave `chain: shortest` away, or leave it for the devices to come."
        if made.without:
            message += f"; {made.without} of its {made.wires} wires have no length and are not counted"
        return Problem(
            code="chain-saves", message=f"{_called(key)} {message}", hint=hint, place=_place(description, key)
        )


def _not_measured(description: Description, key: ChainKey) -> Problem:
    return Problem(
        code="chain-not-measured",
        message=f"{_called(key)} runs strip by strip: it is not known how far its stops are apart",
        hint="Write `at: [x, y]` in mm at the supply and at the strips or devices that it reaches.",
        place=_place(description, key),
    )


def _called(key: ChainKey) -> str:
    supply, terminal = key
    return (
        f"the {terminal} of {supply}" if terminal in SUPPLY_TERMINALS["dc"] else f"the chain from {supply}.{terminal}"
    )


def _place(description: Description, key: ChainKey) -> Place:
    supply, terminal = key
    by_terminal = terminal in description.supplies[supply].chain
    return description.place_of_key("supplies", supply, "chain", *((terminal,) if by_terminal else ()))


def _centimetres(mm: int) -> int:
    return round(mm / 10)


def metres(mm: int) -> str:
    """4.2 m, to the centimetre."""
    return f"{_centimetres(mm) / 100:.2f}".rstrip("0").rstrip(".") + " m"
