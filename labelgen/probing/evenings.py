"""The wiring in evenings: ten wires at a time in order of pulling, each evening with what proves them before bed."""

from collections.abc import Iterator

from labelgen.model.copper import wire_ohms
from labelgen.model.copper_tree import CopperTree, Point, point_of
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Wire
from labelgen.model.pulling_order import pulling_order
from labelgen.model.test_plan import EveningCard, Reading
from labelgen.probing.network import Network
from labelgen.probing.places import Places
from labelgen.probing.scenes import network_of
from labelgen.probing.touching import Touch, touches

WIRES_AN_EVENING = 10


def evening_cards(
    description: Description, netlist: Netlist, tree: CopperTree, places: Places
) -> tuple[EveningCard, ...]:
    """Board by board, ten wires each, the last of a board fewer."""
    network = network_of(description, netlist, tree, "normal")
    beside: dict[Point, list[Touch]] = {}
    for touch in touches(netlist, tree, places):
        beside.setdefault(touch.one, []).append(touch)
        beside.setdefault(touch.other, []).append(touch)
    wired: set[Point] = set()
    tested: set[Touch] = set()
    cards: list[EveningCard] = []
    for board, wires, where in _evenings(netlist):
        tonight = list(dict.fromkeys(point_of(end) for wire in wires for end in wire.ends))
        wired.update(tonight)
        fresh = [t for point in tonight for t in beside.get(point, ()) if {t.one, t.other} <= wired and t not in tested]
        tested.update(fresh)
        cards.append(
            EveningCard(
                number=len(cards) + 1,
                board=board,
                where=where,
                wires=wires,
                whole=tuple(_end_to_end(wire, places) for wire in wires),
                apart=tuple(_apart(fresh, tree, network, places)),
            )
        )
    return tuple(cards)


def _evenings(netlist: Netlist) -> Iterator[tuple[str, tuple[Wire, ...], str]]:
    """Board, wires, and the strips at which they are."""
    by_board: dict[str, list[tuple[Wire, str]]] = {}
    for pull in pulling_order(netlist):
        strip = f"strip {netlist.shown_id(pull.strip)}" if pull.strip else "no strip"
        by_board.setdefault(pull.board or "", []).extend((wire, strip) for wire in pull.wires)
    for board, wires in by_board.items():
        for first in range(0, len(wires), WIRES_AN_EVENING):
            some = wires[first : first + WIRES_AN_EVENING]
            yield board, tuple(wire for wire, _ in some), ", ".join(dict.fromkeys(strip for _, strip in some))


def _end_to_end(wire: Wire, places: Places) -> Reading:
    one, other = map(point_of, wire.ends)
    known = wire.length is not None and wire.size
    return Reading(
        one=one,
        other=other,
        shown=(wire.start.shown, wire.finish.shown),
        what=wire.head,
        band=places.band(one),
        expect="joined",
        ohms=wire_ohms(wire) if known else None,
    )


def _apart(fresh: list[Touch], tree: CopperTree, network: Network, places: Places) -> Iterator[Reading]:
    """Of every two nets the first touch. What is not wired yet can only make a reading higher than it will be."""
    seen: set[frozenset[int]] = set()
    for touch in sorted(fresh, key=lambda one: (places.rank(one.one), places.rank(one.other))):
        nets = (tree.net[touch.one], tree.net[touch.other])
        if frozenset(nets) in seen or network.region.first(nets[0]) == network.region.first(nets[1]):
            continue
        seen.add(frozenset(nets))
        expected = network.expected(*nets)
        one, other = (touch.other, touch.one) if expected.red_second else (touch.one, touch.other)
        yield Reading(
            one=one,
            other=other,
            shown=(places.shown(one), places.shown(other)),
            what=f"{places.heads(one)} and {places.heads(other)}",
            band=places.band(one),
            expect="nothing" if expected.expect == "nothing" else "no-short",
            ohms=expected.ohms,
            red_first=expected.red_first or expected.red_second,
            pairs=1,
        )
