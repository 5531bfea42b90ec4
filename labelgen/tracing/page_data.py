"""What the fault finder works on, for the pages: copper, acts, tasks, changes, as numbers that refer to lists.

The pages' script grows the trees from the parts in their order, as `CopperTree` does, and looks for faults as `Finder`
does; a test holds the two together.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from labelgen.model.copper_tree import Part, Point, name_of
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist
from labelgen.standards.trade_words import said
from labelgen.tracing.faults import WEIGHTS, joined_or_exchanged
from labelgen.tracing.finder import part_order
from labelgen.tracing.in_words import LOOK_THERE, NAMES, NO_MORE, NOT_THAT, TO_BE_SURE, Words
from labelgen.tracing.symptoms import Symptoms
from labelgen.tracing.tasks import Task
from labelgen.tracing.working import Working


class _Numbered:
    """Things by their number, in the order in which they are met."""

    def __init__(self) -> None:
        self.points: dict[Point, int] = {}
        self.parts: dict[Part, int] = {}

    def point(self, point: Point) -> int:
        return self.points.setdefault(point, len(self.points))

    def part(self, part: Part) -> int:
        return self.parts.setdefault(part, len(self.parts))

    def many(self, parts: Iterable[Part]) -> list[int]:
        return [self.part(part) for part in parts]


def page_data(description: Description, netlist: Netlist) -> dict[str, Any]:
    """Fit for JSON. Parts: kind, two points, number of the wire's words; points: name, and words where they differ."""
    working = Working(description, netlist)
    words = Words(description, netlist)
    numbered = _Numbered()
    metal = len(numbered.many(working.tree.parts))
    actions = list(working.actions)
    acts = [[act.shown, numbered.many(act.made)] for act in actions]
    loads, diodes = numbered.many(working.actions.loads), numbered.many(working.actions.diodes)
    always = numbered.many(working.actions.always)
    symptoms = Symptoms(netlist, working)
    tasks: dict[Task, int] = {}
    groups = [group for group in _groups(description, netlist, symptoms, tasks) if group[1]]
    sources = [
        [s.id, numbered.point(s.plus), numbered.point(s.minus), int(s.pulse), s.fed_by or ""] for s in working.sources
    ]
    data = {
        "metal": metal,
        "acts": acts,
        "loads": loads,
        "diodes": diodes,
        "always": always,
        "sources": sources,
        "tasks": [_task(task, actions.index(task.action), working, numbered) for task in tasks],
        "words": groups,
        "changes": list(_changes(netlist, working, numbered)),
        "weights": WEIGHTS,
        "names": {kind: said(name, description.words) for kind, name in NAMES.items()},
        "lookThere": {kind: said(text, description.words) for kind, text in LOOK_THERE.items()},
        "noMore": NO_MORE,
        "toBeSure": TO_BE_SURE,
        "notThat": NOT_THAT,
        "isolate": words.isolate,
        "volts": {source.id: words.volts.get(source.id) for source in working.sources},
        "shown": {source.id: netlist.shown_id(source.id) for source in working.sources},
    }
    order = {part: rank for rank, part in enumerate(sorted(numbered.parts, key=part_order))}
    parts = [_part(part, order[part], words, numbered) for part in list(numbered.parts)]
    points = [_point(point, words) for point in numbered.points]
    return {**data, "parts": parts, "points": points}


def _part(part: Part, rank: int, words: Words, numbered: _Numbered) -> list[Any]:
    """Kind, its two points, its rank; of a wire its number, head and whether it is a link; of a load its ohms."""
    found: list[Any] = [part.kind, numbered.point(part.one), numbered.point(part.other), rank]
    if part.wire is not None:
        return [*found, str(part.wire.number), part.wire.head, int(part.wire.link)]
    return [*found, words.ohms.get(part.one[1])] if part.kind == "load" else found


def _point(point: Point, words: Words) -> list[Any]:
    """Its name, how it is called, what thing it belongs to, whether that is a way (1) or a device (2)."""
    kind = {EndKind.WAY: 1, EndKind.DEVICE: 2}.get(point[0], 0)
    return [name_of(point), words.point(point), f"{point[0].value}:{point[1]}", kind]


def _task(task: Task, act: int, working: Working, numbered: _Numbered) -> list[Any]:
    source = working.sources.index(task.source)
    if task.load is not None and task.ends is not None:
        return [act, source, numbered.part(task.load), [numbered.point(end) for end in task.ends]]
    return [act, source, -1, [[numbered.point(point), int(first)] for point, first in task.rails]]


def _changes(netlist: Netlist, working: Working, numbered: _Numbered) -> Iterator[list[Any]]:
    """Kind, its points; of two that touch nothing more, of a pair its numbers and what moves to which net's point."""
    heads = {wire.number: wire.head for wire in netlist.wires}
    for fault in joined_or_exchanged(netlist, working):
        found: list[Any] = [fault.kind, [numbered.point(point) for point in fault.where]]
        if fault.change.moved:
            moved: dict[int, list[int]] = {}
            for point, net in sorted(fault.change.moved.items(), key=lambda item: (item[0][0].value, *item[0][1:])):
                moved.setdefault(net, []).append(numbered.point(point))
            to = [[numbered.point(working.tree.roots[net]), points] for net, points in moved.items()]
            wires = [f"{number} ({heads[number]})" for number in fault.place[1:] if isinstance(number, (int, str))]
            found += [" and ".join(wires), to]
        yield found


def _groups(
    description: Description, netlist: Netlist, symptoms: Symptoms, tasks: dict[Task, int]
) -> Iterator[tuple[str, list[Any]]]:
    """What can be said to work or not, as a person looks for it: each word with the numbers of its tasks."""
    by_circuit: dict[str, list[str]] = {circuit.id: [] for circuit in netlist.circuits}
    for wire in netlist.wires:
        if wire.circuit in by_circuit:
            by_circuit[wire.circuit].append(wire.head)
    by_lever: dict[str | None, list[str]] = {None: []}
    for circuit in netlist.circuits:
        by_lever.setdefault(circuit.lever, []).extend((*by_circuit[circuit.id], *circuit.devices))
    groups = {f"Lever {one.shown} {one.name}".strip(): by_lever.get(one.id, []) for one in netlist.levers}
    groups["Without a lever"] = by_lever[None]
    routes = [row.route for matrix in netlist.matrices for row in matrix.rows]
    groups["Routes"] = [word for route in routes for word in symptoms.words_of_route(route)]
    groups["Supplies, with all that is on them"] = list(description.supplies)
    for name, words in groups.items():
        yield name, list(_words(dict.fromkeys(words), symptoms, tasks))


def _words(words: Iterable[str], symptoms: Symptoms, tasks: dict[Task, int]) -> Iterator[list[Any]]:
    for word in words:
        found: Sequence[Task] = symptoms.tasks(word)
        if found:
            yield [word, [tasks.setdefault(task, len(tasks)) for task in found]]
