"""Fuses: a supply without one goes on feeding a short until something melts."""

from labelgen.checks.measures import named
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem


def unfused_supplies(description: Description, _: Netlist) -> list[Problem]:
    """Reports no-fuse at each supply that has none."""
    return [
        Problem(
            code="no-fuse",
            message=f"{id_} has no fuse: a short would go on until something melts",
            hint="Put a fuse or breaker at it, no larger than its thinnest wire carries: `fuse: 1` for 1 amp.",
            place=description.place_of("supplies", id_, "protection"),
        )
        for id_, supply in description.supplies.items()
        if supply.protection == "none" and supply.fuse is None
    ]


def unsaid_fuses(description: Description, _: Netlist) -> list[Problem]:
    """Reports fuse-not-said once; a pulse supply gives no more than its bank holds, and is charged through ohms."""
    unsaid = [
        id_
        for id_, supply in description.supplies.items()
        if supply.kind != "pulse" and supply.fuse is None and supply.protection is None
    ]
    if not unsaid:
        return []
    return [
        Problem(
            code="fuse-not-said",
            message=f"nothing is said of a fuse or breaker at {named(unsaid)}",
            hint="Write `fuse:` with its amps; or `protection: built-in`, where it switches itself off.",
            place=description.place_of_key("supplies", unsaid[0]),
        )
    ]
