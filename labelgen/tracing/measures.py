"""The measurements that could tell suspects apart: a meter between two points that a person can reach."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeVar

from labelgen.model.copper_tree import Part, Point
from labelgen.model.netlist import EndKind
from labelgen.tracing.evidence import Expected, Measure
from labelgen.tracing.faults import Fault
from labelgen.tracing.working import Working

Thing = TypeVar("Thing")
METAL = ("wire", "pin", "bridge")
MOST = 64
"""Points or wires of a net that are thought of; of more, so many, evenly: the best is near."""
FEW = 60
"""Suspects that are few enough to think of a measurement for each by itself."""


def measures_for(faults: Iterable[Fault], working: Working) -> list[Measure]:
    """In the order of the suspects, each once."""
    faults = list(faults)
    parts = list(dict.fromkeys(fault.part for fault in faults if fault.part is not None))
    found: dict[tuple[object, ...], Measure] = {}
    kinds = (
        _along(parts, working),
        _across(parts, working),
        _of_changes(faults if len(faults) <= FEW else (), working),
        _volts(faults, working),
        _halves(faults, working),
    )
    for measure in (measure for kind in kinds for measure in kind):
        found.setdefault(measure.key, measure)
    return list(found.values())


def trouble(measure: Measure) -> float:
    """How much trouble it is: two things, something to hold, power on, a wire to take out."""
    apart = measure.one[:2] != measure.other[:2]
    return 1.0 * apart + 1.0 * bool(measure.hold) + 0.5 * (measure.expected == "volts") + 2.0 * bool(measure.lifted)


def _along(parts: Sequence[Part], working: Working) -> Iterator[Measure]:
    """Along the metal of a net: from its supply, or from the first point in question, to each other."""
    tree = working.tree
    by_net: dict[int, dict[Point, None]] = {}
    for part in parts:
        if part.kind in METAL:
            by_net.setdefault(tree.net[part.one], {}).update({part.one: None, part.other: None})
            if len(parts) <= FEW:
                yield _joined(part.one, part.other, working)
    for net, points in by_net.items():
        root = tree.roots[net]
        nearest = min(points, key=lambda point: len(tree.between(root, point)))
        for start in dict.fromkeys((root, nearest)):
            yield from (_joined(start, point, working) for point in _some(list(points)) if point != start)


def _joined(one: Point, other: Point, working: Working) -> Measure:
    return Measure(one, other, "joined", working, frozenset(working.tree.between(one, other)))


def _across(parts: Iterable[Part], working: Working) -> Iterator[Measure]:
    """Across contacts (held), diodes and loads; and from all that leads to a load, through it, to its supply."""
    tree = working.tree
    for part in parts:
        if part.kind in ("contact", "own-contact"):
            hold = next((act.shown for act in working.actions if part in act.made), "")
            yield Measure(part.one, part.other, "joined", working, frozenset({part}), hold=hold)
        elif part.kind in ("load", "diode"):
            yield _through(part, part.one, part.other, working)
    for load in (part for part in parts if part.kind == "load"):
        near, far = tree.net.get(load.one), tree.net.get(load.other)
        if near is None or far is None:
            continue
        goal = tree.roots[far]
        for point in tree.points[near] if len(tree.points[near]) <= 12 else ():
            if _only_load_between(near, far, load, working):
                yield _through(load, point, goal, working)


def _only_load_between(near: int, far: int, load: Part, working: Working) -> bool:
    """Whether nothing else would be read there."""
    loads = working.loads_in([near])
    return all(
        other is load or far not in (working.tree.net.get(other.one), working.tree.net.get(other.other))
        for other in loads
    )


def _through(load: Part, one: Point, other: Point, working: Working) -> Measure:
    tree = working.tree
    parts = (
        {load, *tree.between(one, load.one), *tree.between(load.other, other)}
        if load.one in tree.net and load.other in tree.net
        else {load}
    )
    return Measure(one, other, "load", working, frozenset(parts), load=load)


def _of_changes(faults: Iterable[Fault], working: Working) -> Iterator[Measure]:
    """Between what should not be joined."""
    for fault in faults:
        if fault.change.touching is not None:
            yield Measure(fault.where[0], fault.where[1], "apart", working)
        elif fault.change.moved:
            yield from _exchanged(fault, working)


def _exchanged(fault: Fault, working: Working) -> Iterator[Measure]:
    tree = working.tree
    for index, one in enumerate(fault.where):
        for other in fault.where[index + 1 :]:
            same = tree.net[one] == tree.net[other]
            if same:
                yield _joined(one, other, working)
            elif EndKind.DEVICE not in (one[0], other[0]):
                expected: Expected = "apart"
                yield Measure(one, other, expected, working)


def _volts(faults: Iterable[Fault], working: Working) -> Iterator[Measure]:
    for source in dict.fromkeys(fault.source for fault in faults if fault.source is not None):
        yield Measure(source.plus, source.minus, "volts", working, supply=source.id)


def _halves(faults: Iterable[Fault], working: Working) -> Iterator[Measure]:
    """With a wire of a supply's feed lifted: whether what drags the supply down lies beyond it."""
    tree = working.tree
    touching = [(fault, fault.change.touching) for fault in faults if fault.change.touching is not None]
    for source in working.sources:
        net = tree.net[source.plus]
        suspects = [fault for fault, nets in touching if net in nets and working.is_held(source, fault.change)]
        points = dict.fromkeys(point for fault in suspects for point in fault.where if tree.net[point] == net)
        ways = [tree.between(source.plus, point) for point in points] if len(suspects) > 1 else []
        parts = dict.fromkeys(part for way in ways for part in way if part.kind == "wire")
        for part in _some(list(parts)):
            far = max(part.one, part.other, key=lambda point: len(tree.between(source.plus, point)))
            beyond = frozenset(tree.beyond(far, part))
            yield Measure(far, source.minus, "clear", working, supply=source.id, lifted=part, beyond=beyond)


def _some(things: list[Thing]) -> list[Thing]:
    return things[:: max(1, len(things) // MOST)]
