"""The diodes that device kinds put on strips: where each goes, how it is said, and what is bought for them.

The band marks the cathode, the side to which current flows (common practice, no source).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from labelgen.model.description import Description, Device
from labelgen.model.netlist import Circuit, Diode, End, EndKind, Netlist, WayPlan
from labelgen.standards.diodes import DiodeRating, diode_rating


@dataclass(frozen=True, slots=True, kw_only=True)
class DiodeEnd:
    """A diode as one of its ways sees it."""

    far: End
    band_here: bool

    @property
    def before(self) -> str:
        """What is said before the other way."""
        return "diode from" if self.band_here else "diode to"

    @property
    def behind(self) -> str:
        return "(band here)" if self.band_here else "(band there)"

    @property
    def said(self) -> str:
        """`diode to M2.6 (band there)`."""
        return f"{self.before} {self.far.shown} {self.behind}"


def ends_said(way: WayPlan) -> tuple[str, ...]:
    """All of a way: `diodes to M2.6, M2.8 (band there)`."""
    found: dict[bool, list[DiodeEnd]] = {}
    for each in diode_ends(way):
        found.setdefault(each.band_here, []).append(each)
    return tuple(
        all_[0].said
        if len(all_) == 1
        else f"{all_[0].before.replace('diode', 'diodes')} {', '.join(one.far.shown for one in all_)} {all_[0].behind}"
        for all_ in found.values()
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DiodesToBuy:
    rating: DiodeRating
    strips: tuple[str, ...]
    """As shown: on which they are."""
    count: int


def diode_ends(way: WayPlan) -> tuple[DiodeEnd, ...]:
    """Those that begin or end at a way, in order."""
    here = str(way.number)
    return tuple(
        DiodeEnd(far=diode.anode, band_here=True)
        if diode.cathode.terminal == here
        else DiodeEnd(far=diode.cathode, band_here=False)
        for diode in way.diodes
    )


def strip_diodes(netlist: Netlist) -> tuple[Diode, ...]:
    """All diodes on strips, without those of the routes' matrices; strip by strip and way by way."""
    return tuple(diode for diode in netlist.diodes if diode.anode.kind is EndKind.WAY)


def diodes_of(netlist: Netlist, circuit: Circuit) -> tuple[Diode, ...]:
    """Those of one circuit, way by way."""
    return tuple(
        end
        for group in circuit.groups
        for number in sorted(group.ways.values())
        for end in netlist.strip_by_id[group.strip].ways[number - 1].diodes
        if end.anode.point == (EndKind.WAY, group.strip, str(number))
    )


def diodes_said(diodes: Sequence[Diode]) -> str:
    """`2 diodes on the strip, band last: D1.2 to D1.3; D1.3 to D1.4.`; nothing of none."""
    if not diodes:
        return ""
    each = "; ".join(f"{one.anode.shown} to {one.cathode.shown}" for one in diodes)
    return f"{'A diode' if len(diodes) == 1 else f'{len(diodes)} diodes'} on the strip, band last: {each}."


def diodes_to_buy(description: Description, netlist: Netlist) -> tuple[DiodesToBuy, ...]:
    """Small ones first; without those of the matrices, of which the list of routes speaks."""
    found: dict[DiodeRating, list[Diode]] = {}
    for rating, diode in _rated(description, netlist):
        found.setdefault(rating, []).append(diode)
    return tuple(
        DiodesToBuy(rating=rating, strips=_strips(netlist, found[rating]), count=len(found[rating]))
        for rating in sorted(found, key=lambda one: (one.amps, one.reverse_volts or 0, one.surge))
    )


def _strips(netlist: Netlist, diodes: list[Diode]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(netlist.shown_id(diode.anode.thing) for diode in diodes))


def _rated(description: Description, netlist: Netlist) -> Iterator[tuple[DiodeRating, Diode]]:
    given = {**description.points, **description.devices}
    for circuit in netlist.circuits:
        supply = description.supplies.get(circuit.supply)
        own = given.get(circuit.devices[0], Device()) if circuit.devices else Device()
        kind, volts = (supply.kind, supply.volts) if supply is not None else ("", None)
        rating = diode_rating(kind, volts, own.milliamps or circuit.kind.milliamps)
        yield from ((rating, diode) for diode in diodes_of(netlist, circuit))
