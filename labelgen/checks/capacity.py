"""How much goes where: wires in a screw entry."""

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist, Side
from labelgen.problems import Problem


def crowded_entries(description: Description, netlist: Netlist) -> list[Problem]:
    """More wires in one screw entry than the strip's limit."""
    problems = []
    for strip in netlist.strips:
        limit = description.strips[strip.id].entry_limit
        for way in strip.ways:
            for side in Side:
                wires = way.entry(side)
                if len(wires) > limit:
                    others = ", ".join(
                        _far_end(wire.start.name, wire.finish.name, strip.id, way.number) for wire in wires
                    )
                    problems.append(
                        Problem(
                            code="entry-crowded",
                            message=f"{len(wires)} wires meet in one screw entry: {strip.id}.{way.number}, "
                            f"{side} side (from {others})",
                            hint=f"The limit is {limit}. Join some elsewhere, or raise the strip's `entry_limit`.",
                            place=description.place_of_key("strips", strip.id),
                        )
                    )
    return problems


def _far_end(start: str, finish: str, strip: str, way: int) -> str:
    return finish if start == f"{strip}.{way}" else start
