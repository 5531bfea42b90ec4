"""Room to grow, and gaps in a frame."""

from collections import defaultdict

from labelgen.checks.measures import named
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.natural_order import natural
from labelgen.problems import Problem


def full_strips(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports no-spare-ways once for all strips without a single way left."""
    full = [strip.id for strip in netlist.strips if not any(way.state in ("spare", "kept") for way in strip.ways)]
    if not full:
        return []
    return [
        Problem(
            code="no-spare-ways",
            message=f"there is not one spare way on {named(full)}",
            hint="Aim for one in six: something is always added, and a screw that is worn out wants a neighbour.",
            place=description.place_of_key("strips", full[0]),
        )
    ]


def gaps_in_frames(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports gap-in-frame once for each panel whose levers stand in a row, and miss a number."""
    frames: dict[str, set[int]] = defaultdict(set)
    for lever in netlist.levers:
        if lever.panel is not None and lever.id.isascii() and lever.id.isdecimal():
            frames[lever.panel].add(int(lever.id))
    everywhere = set().union(*frames.values())
    problems = []
    for id_, panel in description.panels.items():
        numbers = frames[id_]
        lowest, highest = min(numbers, default=0), max(numbers, default=0)
        if panel.lever_row is None or highest - lowest >= 2 * len(numbers):
            continue  # no frame, or its levers are not numbered through
        gaps = [str(number) for number in range(lowest, highest) if number not in everywhere]
        if gaps:
            several = len(gaps) > 1
            problems.append(
                Problem(
                    code="gap-in-frame",
                    message=f"the levers of panel {id_} go from {lowest} to {highest} and leave out"
                    f" {named(sorted(gaps, key=natural))}",
                    hint=f"Show {'them as spares' if several else 'it as a spare'}, as a lever frame does: under"
                    f" `levers:` write `{gaps[0]}: {{spare: yes}}`.",
                    place=description.place_of_key("panels", id_),
                )
            )
    return problems
