"""What would mend the weakest throw of a pulse supply, each change figured through the very network of that throw."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from labelgen.electrics.pulse import seconds_to_full
from labelgen.figuring.loops import Loop
from labelgen.figuring.throws import Thrown, figure_of
from labelgen.model.copper import Copper
from labelgen.model.description import Description, Supply
from labelgen.model.figures import WEAK_JOULES, BankFigure, Mend, ThrowFigure
from labelgen.model.netlist import Netlist, Wire
from labelgen.natural_order import natural
from labelgen.standards.conductors import copper_area_mm2
from labelgen.standards.preferred_values import next_value_up

USUAL_SIZES = ("7/0.2", "16/0.2", "24/0.2", "32/0.2", "30/0.25", "50/0.25")
"""Sold everywhere, from thin to thick. Common practice, no source."""
STAR = "a return wire of its own for each motor (a star, no chain)"
WORTH_SAYING = 1.01
"""A change that gives a hundredth more is no mend."""


def bank_figures(description: Description, netlist: Netlist, thrown: Iterable[Thrown]) -> tuple[BankFigure, ...]:
    """Of each pulse supply that throws something, in natural order of id."""
    by_supply: dict[str, list[Thrown]] = {}
    for one in thrown:
        by_supply.setdefault(one.figure.supply, []).append(one)
    return tuple(_bank(description.supplies[id_], netlist, by_supply[id_]) for id_ in sorted(by_supply, key=natural))


def _bank(supply: Supply, netlist: Netlist, thrown: Sequence[Thrown]) -> BankFigure:
    weakest = min(thrown, key=lambda one: one.figure.weakest.joules)
    farads, volts = (supply.microfarads or 0.0) * 1e-6, supply.volts or 0.0
    mends = sorted(
        _mends(supply, netlist, weakest), key=lambda mend: (not mend.enough, 0 if mend.enough else -mend.joules)
    )
    return BankFigure(
        supply=weakest.figure.supply,
        stored_joules=weakest.figure.stored_joules,
        seconds_to_full=seconds_to_full(farads, volts, supply.charge_ohms, supply.amps),
        throws=len(thrown),
        weak_throws=sum(one.figure.weak for one in thrown),
        weakest=weakest.figure,
        mends=tuple(mend for mend in mends if mend.joules > weakest.figure.weakest.joules * WORTH_SAYING),
    )


def _mends(supply: Supply, netlist: Netlist, thrown: Thrown) -> Iterator[Mend]:
    """In order of the work that they make."""
    yield _larger_bank(supply, thrown.figure)
    loop = thrown.loop
    on_way = {number for number, _, _ in loop.wires()}
    wires = [wire for wire in netlist.wires if wire.number in on_way]
    on_return = loop.copper.net(loop.ends[1])
    back = [wire for wire in wires if loop.copper.net(wire.start.point) == on_return]
    out = [wire for wire in wires if loop.copper.net(wire.start.point) != on_return]
    if (size := _thicker(back)) is not None:
        changed = [*out, *(replace(wire, size=size) for wire in back)]
        yield from _tried(f"return wire of {size}", thrown, supply, _rewired(netlist, loop, changed))
    yield from _tried(STAR, thrown, supply, _star(netlist, loop, out, back))
    yield from _second_unit(supply, netlist, thrown, wires)


def _thicker(wires: Sequence[Wire]) -> str | None:
    """The usual size above the thickest of some wires; None beyond the last."""
    most = max((copper_area_mm2(wire.size) for wire in wires if wire.size), default=None)
    return None if most is None else next((s for s in USUAL_SIZES if copper_area_mm2(s) > most * 1.02), None)


def _rewired(netlist: Netlist, loop: Loop, wires: Sequence[Wire]) -> Loop:
    return Loop(loop.ends, loop.passed, loop.resists, Copper(replace(netlist, wires=tuple(wires))))


def _star(netlist: Netlist, loop: Loop, out: Sequence[Wire], back: Sequence[Wire]) -> Loop | None:
    """Each end on the return by one wire from the supply, as long as the chain's way to it; of the chain's own size."""
    minus = loop.ends[1]
    ends = {joint: end for wire in back for end in wire.ends if (joint := end.point) != minus}
    supply_end = next((end for wire in back for end in wire.ends if end.point == minus), None)
    landed = dict.fromkeys(j for e in loop.passed for j in (e.start, e.finish) if j in ends)
    if supply_end is None or len(landed) < 2:
        return None
    own = []
    for joint in landed:
        way = loop.copper.wires_between(minus, joint)
        length = sum(wire.length or 0 for wire in way)
        own.append(replace(way[0], number=f"own {joint[1]}", start=supply_end, finish=ends[joint], length=length))
    return _rewired(netlist, loop, [*out, *own])


def _second_unit(supply: Supply, netlist: Netlist, thrown: Thrown, wires: Sequence[Wire]) -> Iterator[Mend]:
    """Of several motors it takes half; for a single one it stands beside it, so that no chain lies between."""
    devices = list(dict.fromkeys(coil.device for coil in thrown.figure.coils))
    if len(devices) > 1:
        halves = [_only(thrown.loop, devices[start::2]) for start in (0, 1)]
        figures = [figure for half in halves if (figure := figure_of(thrown.throw, half, supply)) is not None]
        weakest = min((figure.weakest for figure in figures), key=lambda coil: coil.joules)
        words = "a second unit of the same kind for half of the motors"
        yield Mend(words=words, device=weakest.device, joules=weakest.joules, share=weakest.share)
        return
    near = [replace(wire, length=0) if wire.circuit == thrown.figure.supply else wire for wire in wires]
    words = f"a second unit of the same kind right beside {devices[0]}"
    yield from _tried(words, thrown, supply, _rewired(netlist, thrown.loop, near))


def _only(loop: Loop, devices: Sequence[str]) -> Loop:
    kept = [(e, ohms) for e, ohms in zip(loop.passed, loop.resists, strict=True) if not e.device or e.device in devices]
    return Loop(loop.ends, [e for e, _ in kept], [ohms for _, ohms in kept], loop.copper)


def _larger_bank(supply: Supply, figure: ThrowFigure) -> Mend:
    """The next usual value that gives every coil enough; at least the next one up."""
    weakest, now = figure.weakest, Fraction(str(supply.microfarads or 0))
    wanted = max(now * Fraction(101, 100), now * Fraction(WEAK_JOULES / max(weakest.joules, 1e-9)))
    microfarads = next_value_up(wanted, "E3")
    more = float(microfarads / now)
    words = f"a bank of {float(microfarads):g} µF"
    return Mend(words=words, device=weakest.device, joules=weakest.joules * more, share=weakest.share)


def _tried(words: str, thrown: Thrown, supply: Supply, loop: Loop | None) -> Iterator[Mend]:
    figure = None if loop is None else figure_of(thrown.throw, loop, supply)
    if figure is not None:
        weakest = figure.weakest
        yield Mend(words=words, device=weakest.device, joules=weakest.joules, share=weakest.share)
