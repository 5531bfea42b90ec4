"""What each label says, apart from how it looks: by this it is known whether one that is stuck on is still right.

Nothing here asks for a sheet, a printer or a typeface: other paper, or a later version that draws more finely, makes no
label out of date.
"""

from collections.abc import Iterable, Iterator

from labelgen.model.built.record_label import Key, Label, board_of_end, fields_said, flag_key, function_said, wire_said
from labelgen.model.description import Description
from labelgen.model.netlist import EndKind, Netlist, PinPlan, PlugPlan, Side, StripPlan, WayPlan, Wire
from labelgen.model.panel.hole_marks import hole_marks
from labelgen.model.panel.holes import panel_holes
from labelgen.model.panel.lever_looks import NO_STROKE, lever_look
from labelgen.model.threaded_holes import threaded_holes


def labels_of(description: Description, netlist: Netlist, kind: str) -> dict[Key, Label]:
    """Every label of one of the kinds that are stuck on, by its key."""
    makers = {
        "flags": lambda: _flags(netlist),
        "markers": lambda: _markers(description, netlist),
        "tags": lambda: _tags(description, netlist),
        "plates": lambda: _plates(description, netlist),
        "places": lambda: _places(description, netlist),
        "fascia": lambda: _fascias(description, netlist),
    }
    return {label.key: label for label in makers[kind]()} if kind in makers else {}


def _flags(netlist: Netlist) -> Iterator[Label]:
    for wire in netlist.wires:
        if wire.link:
            continue
        content = (*wire_said(netlist, wire), wire.flag_form, wire.size)
        for key, end in {flag_key(netlist, wire, end): end for end in wire.ends}.items():
            yield Label(
                kind="flags", label=key, says=wire.head, content=content, thing=str(wire.number),
                board=board_of_end(netlist, wire, end) or "",
            )  # fmt: skip


def _markers(description: Description, netlist: Netlist) -> Iterator[Label]:
    for strip in netlist.strips:
        content = [*fields_said(strip, "id", "board", "ways"), description.printing.markers, description.words]
        for way in strip.ways:
            colours = [sorted({wire.colour for wire in way.entry(side)}) for side in Side]
            content += [*_way(netlist, way), repr(colours)]
        yield _of_strip("markers", strip, content)
    for plug in netlist.plugs:
        for board in plug.boards:
            content = [plug.shown, *map(netlist.shown_id, (board, plug.facing(board))), description.words]
            content += [each for pin in plug.pins for each in _pin(netlist, pin)]
            yield Label(
                kind="markers", label=f"{plug.id} on {board}", says=plug.shown, content=tuple(content), thing=plug.id,
                board=board,
            )  # fmt: skip


def _tags(description: Description, netlist: Netlist) -> Iterator[Label]:
    for strip in netlist.strips:
        written, board = description.strips.get(strip.id), description.boards.get(strip.board or "")
        content = [
            netlist.railway, strip.shown, repr(strip.supplies), repr(strip.bridges), description.schedule,
            description.printing.tags or "", description.words, written.name if written else "",
            (board.name or board.shown or strip.board or "") if board else "",
        ]  # fmt: skip
        for way in strip.ways:
            content += fields_said(way, "panel", "layout", "code")
            content += [each for wire in (*way.panel, *way.layout) for each in _far(wire, way)]
        yield _of_strip("tags", strip, content)


def _far(wire: Wire, way: WayPlan) -> tuple[str, ...]:
    there = wire.finish if wire.start.terminal == str(way.number) and wire.start.kind is EndKind.WAY else wire.start
    return (wire.head, there.shown)


def _way(netlist: Netlist, way: WayPlan) -> list[str]:
    return [*fields_said(way, "panel", "layout"), *function_said(netlist, way.function)]


def _of_strip(kind: str, strip: StripPlan, content: Iterable[str]) -> Label:
    return Label(
        kind=kind, label=strip.id, says=strip.shown, content=tuple(content), thing=strip.id, board=strip.board or ""
    )


def _plates(description: Description, netlist: Netlist) -> Iterator[Label]:
    strokes = [*function_said(netlist, "normal"), *function_said(netlist, "reverse")]
    for lever in netlist.levers:
        said = fields_said(lever, "id", "path", "devices", "board", "panel")
        stroke = () if lever.spare or lever.type in NO_STROKE else strokes
        content = (*said, *fields_said(lever_look(description, netlist, lever)), *stroke, description.words)
        yield Label(
            kind="plates", label=lever.id, says=lever.shown, content=content, board=lever.board or "", thing=lever.id
        )


def _places(description: Description, netlist: Netlist) -> Iterator[Label]:
    for plug in netlist.plugs:
        for board in plug.boards:
            yield _of_plug(description, netlist, plug, board)
    for hole in threaded_holes(description, netlist):
        content = [hole.shown, netlist.shown_id(hole.board), *(f"{w.stem} {w.code} {w.mark}" for w in hole.wires)]
        yield Label(
            kind="places", label=hole.id, says=f"labels of hole {hole.shown}", content=tuple(content),
            board=hole.board, thing=hole.id,
        )  # fmt: skip


def _of_plug(description: Description, netlist: Netlist, plug: PlugPlan, board: str) -> Label:
    """Its plate and the end of its jumper."""
    content = [netlist.railway, *map(netlist.shown_id, (board, plug.facing(board))), *fields_said(plug, "pins")]
    for pin in plug.pins:
        content += [*_pin(netlist, pin), *(each for wire in pin.on(board) for each in wire_said(netlist, wire))]
    return Label(
        kind="places", label=f"{plug.id} on {board}", thing=plug.id, board=board,
        says=f"labels of plug {plug.shown}",
        content=(*content, description.words),
    )  # fmt: skip


def _pin(netlist: Netlist, pin: PinPlan) -> list[str]:
    return [*fields_said(pin, "wires"), *function_said(netlist, pin.function)]


def _fascias(description: Description, netlist: Netlist) -> Iterator[Label]:
    """Over-careful: whatever of a panel's description might be seen on its face."""
    unseen = ("board", "at", "exit", "paper", "bleed", "thickness", "matrix", "hardware", "accepted")
    for id_, panel in description.panels.items():
        if panel.size is None:
            continue
        holes = panel_holes(description, netlist, id_)
        marks = dict(zip(hole_marks(netlist, holes), holes, strict=True))
        placed = {mark: _hundredths(hole.at.x, hole.at.y, hole.diameter) for mark, hole in marks.items()}
        levers = [lever for lever in netlist.levers if lever.panel == id_]
        content = [
            netlist.shown_id(id_), description.words, description.printing.levers,
            *(f"{name}={value!r}" for name, value in panel if name not in unseen and value),
            *(f"{mark} {hole.called} {placed[mark]}" for mark, hole in marks.items()),
            *(each for lever in levers for each in fields_said(lever, "path", "board", "panel")),
            *(each for lever in levers for each in fields_said(lever_look(description, netlist, lever))),
            *(f"{row.number} {row.route}" for matrix in netlist.matrices if matrix.panel == id_ for row in matrix.rows),
            *(each for circuit in netlist.circuits if circuit.lever in {lever.id for lever in levers}
              for each in (circuit.id, circuit.kind_name, *circuit.devices)),
            *(repr(function_said(netlist, name)) for name in ("lamp", "normal", "reverse")),
        ]  # fmt: skip
        yield Label(
            kind="fascia", label=id_, says=netlist.shown_id(id_), content=tuple(content), thing=id_, holes=placed,
            board=description.board_of_panel(id_) or "",
        )  # fmt: skip


def _hundredths(*lengths: float) -> tuple[int, ...]:
    return tuple(round(100 * length) for length in lengths)
