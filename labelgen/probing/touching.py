"""Where two pieces of metal lie so close that a strand, a blob of solder or a slip of the hand may join them.

Neighbouring ways and pins, contacts of one lever, terminals of one device or supply, and on every board the feed and
the return of one supply.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from labelgen.model.copper_tree import CopperTree, Point, point_of
from labelgen.model.netlist import EndKind, Netlist
from labelgen.natural_order import natural
from labelgen.probing.places import Places

CLOSE_TOGETHER = 3
"""Terminals of one thing, of which each may touch any other; of more, each may touch the next."""
LATER = (EndKind.LEVER, EndKind.ROUTE, EndKind.MATRIX, EndKind.DEVICE, EndKind.SUPPLY)
"""What has terminals, in walking order behind strips and plugs."""


@dataclass(frozen=True, slots=True)
class Touch:
    """Two points that may touch."""

    one: Point
    other: Point


def touches(netlist: Netlist, tree: CopperTree, places: Places) -> Iterator[Touch]:
    """All of them, of which both have a net and not the same, in walking order.

    Strip by strip and way by way, plug by plug and pin by pin, then levers, routes, devices, supplies; at last the
    supplies on every board.
    """
    for row in (*_rows(netlist), *_terminals(netlist, tree), *_supplies_on_boards(netlist, tree, places)):
        for one, other in row:
            first, second = tree.net.get(one), tree.net.get(other)
            if first is not None and second is not None and first != second:
                yield Touch(one, other)


def _rows(netlist: Netlist) -> Iterator[Iterable[tuple[Point, Point]]]:
    for strip in netlist.strips:
        in_row = -(-len(strip.ways) // strip.tiers)
        for first in range(0, len(strip.ways), in_row):
            ways = strip.ways[first : first + in_row]
            yield pairwise([(EndKind.WAY, strip.id, str(way.number), "") for way in ways])
    for plug in netlist.plugs:
        for board in plug.boards:
            yield pairwise([(EndKind.PIN, plug.id, str(pin.number), board) for pin in plug.pins])


def _terminals(netlist: Netlist, tree: CopperTree) -> Iterator[Iterable[tuple[Point, Point]]]:
    orders = {
        (EndKind.DEVICE, device): list(circuit.kind.terminals)
        for circuit in netlist.circuits
        for device in circuit.devices
    }
    things: dict[tuple[EndKind, str], list[Point]] = {}
    for point in tree.net:
        if point[0] in LATER:
            things.setdefault(point[:2], []).append(point)
    for thing in sorted(things, key=lambda one: (LATER.index(one[0]), natural(one[1]))):
        yield _beside(_in_order(things[thing], orders.get(thing, ())))


def _in_order(points: Sequence[Point], order: Sequence[str]) -> list[Point]:
    known = {terminal: place for place, terminal in enumerate(order)}
    return sorted(points, key=lambda point: (known.get(point[2], len(known)), natural(point[2])))


def _beside(points: Sequence[Point]) -> Iterable[tuple[Point, Point]]:
    return combinations(points, 2) if len(points) <= CLOSE_TOGETHER else pairwise(points)


def _supplies_on_boards(netlist: Netlist, tree: CopperTree, places: Places) -> Iterator[Iterable[tuple[Point, Point]]]:
    """Of each supply, on each board, one point of each of its chains."""
    chains: dict[tuple[str, str], dict[int, Point]] = {}
    supplies = {end.thing for wire in netlist.wires for end in wire.ends if end.kind is EndKind.SUPPLY}
    for wire in netlist.wires:
        if wire.circuit in supplies:
            for point in map(point_of, wire.ends):
                points = chains.setdefault((wire.circuit, places.board(point)), {})
                net = tree.net[point]
                if net not in points or places.rank(point) < places.rank(points[net]):
                    points[net] = point
    for _, points in sorted(chains.items(), key=lambda one: natural("/".join(one[0]))):
        yield combinations(points.values(), 2)
