"""The order in which power is brought on: what feeds others first, steady supplies before the track, the pulse last."""

from collections.abc import Iterator
from dataclasses import dataclass

from labelgen.model.copper_tree import CopperTree, Point
from labelgen.model.description import Description, Supply
from labelgen.model.kinds import SUPPLY_TERMINALS
from labelgen.model.netlist import EndKind, Netlist
from labelgen.model.test_plan import Reading, SupplyStart
from labelgen.natural_order import natural
from labelgen.probing.network import Network
from labelgen.probing.places import Places
from labelgen.probing.scenes import network_of

KINDS = ("dc", "ac", "track", "digital", "pulse")
"""In this order: what stores least energy first (common practice, no source)."""
REACHED_BY = (EndKind.WAY, EndKind.DEVICE, EndKind.LEVER)
"""Where volts are best measured away from a supply, in this order; a pin is inside its plug."""


def supply_starts(
    description: Description, netlist: Netlist, tree: CopperTree, places: Places
) -> tuple[SupplyStart, ...]:
    """Of every supply that is wired."""
    starting = _Starting(netlist, tree, places, network_of(description, netlist, tree, "normal"))
    wired = {end.thing for wire in netlist.wires for end in wire.ends if end.kind is EndKind.SUPPLY}
    return tuple(starting.of(id_, description.supplies[id_]) for id_ in _order(description) if id_ in wired)


def _order(description: Description) -> Iterator[str]:
    """A supply behind the one that feeds it."""
    left = sorted(description.supplies, key=lambda id_: (KINDS.index(description.supplies[id_].kind), natural(id_)))
    while left:
        ready = [id_ for id_ in left if description.supplies[id_].fed_by not in left]
        first = (ready or left)[0]
        left.remove(first)
        yield first


@dataclass(frozen=True, slots=True)
class _Starting:
    netlist: Netlist
    tree: CopperTree
    places: Places
    network: Network

    def of(self, id_: str, given: Supply) -> SupplyStart:
        terminals: list[Point] = [(EndKind.SUPPLY, id_, terminal, "") for terminal in SUPPLY_TERMINALS[given.kind]]
        both = all(point in self.tree.net for point in terminals)
        away = [self._away(point) for point in terminals] if both else []
        shown = self.places.shown
        return SupplyStart(
            supply=id_,
            shown=self.netlist.shown_id(id_),
            name=given.name,
            board=given.board or self.places.board(terminals[0]),
            kind=given.kind,
            volts=given.volts,
            wires=tuple(w for w in self.netlist.wires if any(e.point[:2] == terminals[0][:2] for e in w.ends)),
            across=(shown(terminals[0]), shown(terminals[1])) if both else None,
            measured_at=(shown(away[0]), shown(away[1])) if both else None,
            fed_by=self.netlist.shown_id(given.fed_by) if given.fed_by else "",
            reading=self._reading(*terminals) if both else None,
        )

    def _away(self, point: Point) -> Point:
        """The nearest place on its net that can be reached with a probe; a test point, where there is one."""
        here = [one for one in self.tree.points[self.tree.net[point]] if one[0] in REACHED_BY]
        first = min(here, key=lambda one: (REACHED_BY.index(one[0]), self._distance(point, one)), default=point)
        return self.places.handy(first, self.tree)

    def _distance(self, one: Point, other: Point) -> int:
        return len(self.tree.between(one, other))

    def _reading(self, one: Point, other: Point) -> Reading | None:
        """Across its wires before they go back; none where contacts join them."""
        nets = self.tree.net[one], self.tree.net[other]
        if self.network.region.first(nets[0]) == self.network.region.first(nets[1]):
            return None
        expected = self.network.expected(*nets)
        if expected.red_second:
            one, other = other, one
        return Reading(
            one=one,
            other=other,
            shown=(self.places.shown(one), self.places.shown(other)),
            what=f"{self.places.heads(one)} and {self.places.heads(other)}",
            band="",
            expect=expected.expect,
            ohms=expected.ohms,
            red_first=expected.red_first or expected.red_second,
        )
