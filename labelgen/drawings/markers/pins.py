"""Pin markers: a plug's pins one beside the other, each with the head of its wire, for both boards that it joins."""

from labelgen.drawings.markers.pieces import Piece
from labelgen.drawings.markers.reading import Reading
from labelgen.model.netlist import Netlist, PinPlan, PlugPlan, Side, StripPlan, WayPlan, WayState

PIN_PITCH = 8.0
"""mm a pin: what can be read. Pins themselves are far closer, so that the marker is stuck beside the plug."""
_STATES: dict[str, WayState] = {"used": "used", "spare": "spare", "empty": "kept"}


def pin_markers(netlist: Netlist, plug: PlugPlan) -> tuple[Piece, ...]:
    """One for each of its boards, from the lowest pin on, in one piece each."""
    return tuple(_marker(netlist, plug, board) for board in plug.boards)


def _marker(netlist: Netlist, plug: PlugPlan, board: str) -> Piece:
    row = tuple(_cell(pin, board) for pin in plug.pins)
    there = netlist.shown_id(plug.facing(board))
    return Piece(
        strip=_as_strip(plug, board, row),
        side=Side.LAYOUT,
        side_words=f"on {netlist.shown_id(board)}",
        reading=Reading(rising=True, front=None, wires_below=True),
        row=row,
        count=len(row),
        path=("plugs", plug.id),
        word="pin marker",
        extras=(f"to {there}",),
    )


def _as_strip(plug: PlugPlan, board: str, row: tuple[WayPlan, ...]) -> StripPlan:
    """Pins that carry one wire are joined by a bar, as bridged ways are."""
    joined: dict[int, list[int]] = {}
    for pin in plug.pins:
        if pin.bridged_to is not None:
            joined.setdefault(pin.bridged_to, [pin.bridged_to]).append(pin.number)
    return StripPlan(
        id=plug.id,
        shown=plug.shown,
        board=board,
        pitch=PIN_PITCH,
        measured=True,
        way_1="left",
        panel_side="front",
        ways=row,
        supplies=(),
        bridges=tuple(tuple(sorted(pins)) for pins in joined.values()),
    )


def _cell(pin: PinPlan, board: str) -> WayPlan:
    return WayPlan(
        number=pin.number,
        state=_STATES[pin.state],
        function=pin.function,
        head=pin.head,
        stem=pin.stem,
        code=pin.code,
        mark=pin.mark,
        was=pin.was,
        layout=pin.on(board),
    )
