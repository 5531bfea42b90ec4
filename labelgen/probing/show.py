"""The ten-minute check at a show: plug by plug from the supplies outwards, the fewest throws that use every pin."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.copper_tree import CopperTree, Point
from labelgen.model.description import Description, Device
from labelgen.model.lever_lies import lies_of
from labelgen.model.netlist import Circuit, EndKind, Netlist, PlugPlan
from labelgen.model.test_plan import ShowAct, ShowStep
from labelgen.natural_order import natural
from labelgen.probing.places import Places

IN_TEN_MINUTES = 60
"""Throws: ten seconds each, with the walk and the bank's recharge. Common practice, no source."""
LIES = {("on-off", "reverse"): "on", ("button", "reverse"): "pressed"}
Pin = tuple[str, str]
"""A plug, and the number of a pin."""


@dataclass(frozen=True, slots=True, eq=False)
class _Throw:
    act: ShowAct
    pins: frozenset[Pin]


def show_steps(description: Description, netlist: Netlist, tree: CopperTree, places: Places) -> tuple[ShowStep, ...]:
    """First what needs no plug, as far as there is time for it; then plug by plug the throws that use its pins."""
    throws = list(_throws(description, netlist, tree, places))
    order = _outwards(netlist, description)
    chosen = _chosen([plug.id for plug in order], throws)
    total = max(sum(map(len, chosen)), IN_TEN_MINUTES)
    kept = [some[: max(2, IN_TEN_MINUTES * len(some) // total)] for some in chosen]
    steps = [_step(plug, some, throws, kept) for plug, some in zip(order, kept, strict=True)]
    near = [throw.act for throw in throws if not throw.pins]
    if len(near) > IN_TEN_MINUTES - sum(map(len, kept)):
        near = list({act.shown: act for act in reversed(near)}.values())[::-1]
    first = ShowStep(plug="", shown="", boards=tuple(dict.fromkeys(act.board for act in near)), acts=tuple(near))
    return (*([first] if near else []), *steps)


def _chosen(order: Sequence[str], throws: Sequence[_Throw]) -> list[list[_Throw]]:
    """Plug by plug the throws that use its pins with only those plugs in that come before it; most pins first."""
    unused = {pin for throw in throws for pin in throw.pins}
    found: list[list[_Throw]] = []
    for place, plug in enumerate(order):
        plugged = set(order[: place + 1])
        fitting = [t for t in throws if {p[0] for p in t.pins} <= plugged and any(p[0] == plug for p in t.pins)]
        found.append([])
        while fitting:
            best = max(fitting, key=lambda throw: len(throw.pins & unused))
            if not best.pins & unused:
                break
            unused -= best.pins
            found[-1].append(best)
    return found


def _step(
    plug: PlugPlan, kept: Sequence[_Throw], throws: Sequence[_Throw], all_kept: Iterable[Sequence[_Throw]]
) -> ShowStep:
    acts = sorted((throw.act for throw in kept), key=lambda act: natural(act.shown))
    return ShowStep(
        plug=plug.id,
        shown=plug.shown,
        boards=plug.boards,
        acts=tuple(acts),
        pins=_of(plug, [throw for some in all_kept for throw in some]),
        of_pins=_of(plug, throws),
    )


def _of(plug: PlugPlan, throws: Iterable[_Throw]) -> int:
    """How many pins of a plug some throws use."""
    return len({pin for throw in throws for pin in throw.pins if pin[0] == plug.id})


def _outwards(netlist: Netlist, description: Description) -> list[PlugPlan]:
    """Plugs in the order in which boards are joined, from those with supplies on."""
    joined = {supply.board for supply in description.supplies.values() if supply.board}
    left, order = list(netlist.plugs), list[PlugPlan]()
    while left:
        following = next((plug for plug in left if set(plug.boards) & joined), left[0])
        left.remove(following)
        joined |= set(following.boards)
        order.append(following)
    return order


def _throws(description: Description, netlist: Netlist, tree: CopperTree, places: Places) -> Iterator[_Throw]:
    given = {**description.points, **description.devices}
    for circuit in sorted(netlist.circuits, key=lambda one: natural(one.id)):
        working = [device for device in circuit.devices if not given.get(device, Device()).not_in_use]
        if not working:
            continue
        works = tuple(_called(netlist, given.get(device, Device()), device) for device in working)
        board = places.board((EndKind.DEVICE, working[0], _first_terminal(circuit, working[0], tree), ""))
        for shown, lie, ends in _ways(netlist, circuit):
            pins = frozenset(_pins(circuit, working, ends, tree))
            yield _Throw(ShowAct(shown=shown, lie=lie, works=works, board=board), pins)


def _called(netlist: Netlist, given: Device, device: str) -> str:
    return f"{netlist.shown_id(device)} {given.name}".strip()


def _first_terminal(circuit: Circuit, device: str, tree: CopperTree) -> str:
    wired = (one for one in circuit.kind.terminals if (EndKind.DEVICE, device, one, "") in tree.net)
    return next(wired, "")


def _ways(netlist: Netlist, circuit: Circuit) -> Iterator[tuple[str, str, list[Point]]]:
    """What is thrown, how, and at which points of the lever; of a device without a lever only that it works."""
    if circuit.lever is None:
        yield netlist.shown_id(circuit.id), "works", []
        return
    lever = netlist.lever_by_id[circuit.lever]
    contacts = [row.contact for row in circuit.kind.group if row.contact is not None]
    for lie, pairs in lies_of(lever.type, dict.fromkeys(contacts)).items():
        ends: list[Point] = [(EndKind.LEVER, lever.id, contact, "") for pair in pairs for contact in pair if contact]
        if ends:
            yield f"Lever {lever.shown}", LIES.get((lever.type, lie), lie), ends


def _pins(circuit: Circuit, devices: Iterable[str], ends: Iterable[Point], tree: CopperTree) -> Iterator[Pin]:
    """Pins between the lever, the devices, and the supplies."""
    terminals: list[Point] = [(EndKind.DEVICE, d, t, "") for d in devices for t in circuit.kind.terminals]
    wired = [point for point in (*ends, *terminals) if point in tree.net]
    thrown = {tree.net[point] for point in ends if point in tree.net}
    for point in wired:
        net = tree.net[point]
        root = tree.roots[net]
        if root[0] is EndKind.SUPPLY:
            goals = [root]
        else:
            goals = [other for other in wired if tree.net[other] == net] if net in thrown else []
        for goal in goals:
            yield from ((part.one[1], part.one[2]) for part in tree.between(point, goal) if part.kind == "pin")
