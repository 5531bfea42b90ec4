"""Plugs: what must never be joined from board to board."""

from collections.abc import Iterable
from dataclasses import dataclass

from labelgen.disjoint_sets import DisjointSets
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, Wire
from labelgen.natural_order import natural
from labelgen.problems import Problem

Metal = tuple[EndKind, str, str]


@dataclass(frozen=True, slots=True)
class Found:
    """What a net holds: its supplies of alternating current, and whether it goes through a plug."""

    supplies: frozenset[str] = frozenset()
    plug: bool = False

    def __or__(self, other: "Found") -> "Found":
        return Found(self.supplies | other.supplies, self.plug or other.plug)


def alternating_supplies_joined(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports ac-joined at the wire that joins two supplies of alternating current across boards.

    With one of them unplugged, the other feeds it backwards, and the pins of its mains plug are live. Common practice
    of module standards, no source. One supply whose current merely passes a plug is no fault.
    """
    nets = _Nets(description)
    of_rules = [wire for wire in netlist.wires if wire.circuit]
    problems = [problem for wire in of_rules for problem in _joined(description, nets, wire)]
    for strip in netlist.strips:
        for number, ways in enumerate(strip.bridges):
            problems += _bridged(description, nets, strip.id, number, ways)
    own = [wire for wire in netlist.wires if not wire.circuit]
    return problems + [problem for wire in own for problem in _joined(description, nets, wire)]


class _Nets:
    """Which pieces of metal wires have joined so far, and what each net holds."""

    def __init__(self, description: Description) -> None:
        self._ac = {id_ for id_, supply in description.supplies.items() if supply.kind == "ac"}
        self._sets: DisjointSets[Metal] = DisjointSets()
        self._found: dict[Metal, Found] = {}

    def found(self, metal: Metal) -> Found:
        return self._found.get(self._sets.first(metal)) or self._alone(metal)

    def _alone(self, metal: Metal) -> Found:
        kind, thing, terminal = metal
        feeds = kind is EndKind.SUPPLY and thing in self._ac and not terminal.startswith("in-")
        return Found(frozenset({thing}) if feeds else frozenset(), kind is EndKind.PIN)

    def join(self, wire: Wire) -> Found:
        return self.join_metals(wire.start.point, wire.finish.point)

    def join_metals(self, one: Metal, other: Metal) -> Found:
        both = self.found(one) | self.found(other)
        self._sets.join(one, other)
        self._found[self._sets.first(one)] = both
        return both


def _across(description: Description, net: Found) -> bool:
    """Whether it goes from board to board: by a plug, or because its supplies are on different boards."""
    boards = {description.supplies[id_].board for id_ in net.supplies}
    return net.plug or len(boards) > 1


def _bridged(description: Description, nets: _Nets, strip: str, number: int, ways: Iterable[int]) -> Iterable[Problem]:
    metals = [(EndKind.WAY, strip, str(way)) for way in ways]
    for metal in metals[1:]:
        one, other = nets.found(metals[0]), nets.found(metal)
        both = nets.join_metals(metals[0], metal)
        if one.supplies != other.supplies and one.supplies and other.supplies and _across(description, both):
            yield _problem(description, f"a bridge of strip {strip}", both, ("strips", strip, "bridges", number))


def _joined(description: Description, nets: _Nets, wire: Wire) -> Iterable[Problem]:
    one, other = (nets.found(end.point) for end in wire.ends)
    both = nets.join(wire)
    if one.supplies != other.supplies and one.supplies and other.supplies and _across(description, both):
        yield _problem(description, f"the wire from {wire.start.name} to {wire.finish.name}", both, wire.path)


def _problem(description: Description, what: str, net: Found, path: tuple[str | int, ...]) -> Problem:
    names = " and ".join(sorted(net.supplies, key=natural))
    return Problem(
        code="ac-joined",
        message=f"{what} joins the alternating current of {names} from board to board",
        hint="Keep them apart, each with its own wires: with one of them unplugged, the other feeds it backwards, and "
        "the pins of its mains plug are live.",
        place=description.place_of(*path),
    )
