"""What goes into one screw entry: whether it fits its bore, and whether the screw holds all of it."""

from collections.abc import Iterator
from math import pi, sqrt

from labelgen.checks.measures import named
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Side, StripPlan, Wire
from labelgen.problems import Problem
from labelgen.standards.conductors import copper_area_mm2, is_size, size_notation
from labelgen.workshop.bundles import bundle_diameter

UNLIKE = 4.0
"""Times the copper: a screw that holds the thicker wire leaves the thinner one loose. Common practice, no source."""
_HAIR = 1e-9


def overfull_clamps(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports clamp-too-small once for each strip whose bore is known."""
    problems = []
    for strip in netlist.strips:
        bore = description.strips[strip.id].bore
        for way, wires in _entries(strip) if bore is not None else ():
            needed = bundle_diameter([_bare_mm(wire.size) for wire in wires])
            if bore is not None and needed > bore + _HAIR:
                sizes = ", ".join(size_notation(wire.size) for wire in wires)
                message = f"{strip.id}.{way} is to hold {sizes}, {needed:.2f} mm of copper, in a bore of {bore:g} mm"
                problems.append(
                    Problem(
                        code="clamp-too-small",
                        message=message,
                        hint="Use a larger strip, thinner wires, or another way joined to it by `bridges`.",
                        place=description.place_of("strips", strip.id, "bore"),
                    )
                )
                break
    return problems


def unlike_sizes(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports unlike-sizes once for each strip."""
    problems = []
    for strip in netlist.strips:
        ways = [(f"{strip.id}.{way}", wires) for way, wires in _entries(strip) if _unlike(wires)]
        if ways:
            sizes = " and ".join(dict.fromkeys(size_notation(wire.size) for wire in ways[0][1]))
            problems.append(
                Problem(
                    code="unlike-sizes",
                    message=f"{sizes} meet in one screw entry at {named([way for way, _ in ways])}: the screw grips one"
                    " and leaves the other loose",
                    hint="Crimp them into one ferrule, use a way each and bridge the two, or take like sizes.",
                    place=description.place_of_key("strips", strip.id),
                )
            )
    return problems


def _entries(strip: StripPlan) -> Iterator[tuple[int, list[Wire]]]:
    """(way, wires whose size is known) of each entry in which there is one."""
    for way in strip.ways:
        for side in Side:
            if wires := [wire for wire in way.entry(side) if is_size(wire.size)]:
                yield way.number, wires


def _unlike(wires: list[Wire]) -> bool:
    sizes = {wire.size for wire in wires}
    if len(sizes) < 2:
        return False
    areas = [copper_area_mm2(size) for size in sizes]
    stranded = {_strands(size)[0] > 1 for size in sizes if "/" in size_notation(size)}
    return max(areas) >= UNLIKE * min(areas) or len(stranded) > 1


def _bare_mm(size: str) -> float:
    """Diameter of the copper with the air between its strands."""
    strands, diameter = _strands(size)
    return bundle_diameter([diameter] * strands)


def _strands(size: str) -> tuple[int, float]:
    """(strands, mm); what is written in mm² or gauge is taken as if it were in one."""
    count, stroke, diameter = size_notation(size).partition("/")
    return (int(count), float(diameter)) if stroke else (1, sqrt(4 * copper_area_mm2(size) / pi))
