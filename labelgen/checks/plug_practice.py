"""How plugs are used: nothing live on bare pins, and none that goes in the wrong way round."""

from labelgen.checks.measures import named
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, PlugPlan
from labelgen.problems import Problem

FEWEST_PINS = 3
"""A plug of fewer has none to spare."""


def live_pins(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports live-pins where the side from which the current comes has the pins, and the other does not feed it."""
    return [
        Problem(
            code="live-pins",
            message=f"{plug.id} has bare pins on {board}, where the current comes from: pulled apart, they are live",
            hint=f"Put the socket on {board} and the plug on {plug.facing(board)}.",
            place=description.place_of("plugs", plug.id, "gender", board),
        )
        for plug in netlist.plugs
        if "plug" in (gender := description.plugs[plug.id].gender).values()
        if len(live := _live_sides(description, plug)) == 1
        for board in live
        if gender.get(board) == "plug"
    ]


def _live_sides(description: Description, plug: PlugPlan) -> set[str]:
    """The boards from which the chain of a supply comes to it: chains run outward from their supply."""
    return {
        board
        for pin in plug.pins
        for board in plug.boards
        for wire in pin.on(board)
        if wire.circuit in description.supplies and wire.finish.kind is EndKind.PIN and wire.finish.board == board
    }


def plugs_without_empty_pin(description: Description, netlist: Netlist) -> list[Problem]:
    """Reports no-empty-pin once for all plugs that are kept from being turned round by nothing."""
    open_ = [plug.id for plug in netlist.plugs if not plug.keep_empty and len(plug.pins) >= FEWEST_PINS]
    if not open_:
        return []
    return [
        Problem(
            code="no-empty-pin",
            message=f"no pin of {named(open_)} is kept empty",
            hint="Where such a plug also goes in the wrong way round, leave one pin out, fill its hole in the socket,"
            " and write `keep_empty: [N]`.",
            place=description.place_of_key("plugs", open_[0]),
        )
    ]
