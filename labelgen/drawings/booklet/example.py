"""One wire's way from its lever to what that works, drawn: how heads, numbers and ends are read. Sizes: mm."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from labelgen.drawings.booklet.index import Index
from labelgen.drawings.booklet.pages import SOFT
from labelgen.drawings.function_marks import mark
from labelgen.drawings.lists.pages import Piece
from labelgen.drawings.lists.writing import Writer
from labelgen.drawings.shortening import shortened
from labelgen.drawings.text_fitting import centred, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Line, Shape
from labelgen.model.netlist import Circuit, End, EndKind, Netlist, Wire
from labelgen.typefaces import BOLD, REGULAR

MOST_ENDS = 4
"""More do not fit side by side."""
WIRE, NAME_CAP = 26.0, 3.6
LABEL = 1.75
"""What stands above and below a wire, in cap heights."""
MARK_WIDTH, MARK_HEIGHT = 14.0, 4.4
WHAT = {
    EndKind.LEVER: "a lever’s contact",
    EndKind.WAY: "a way of a strip",
    EndKind.PIN: "a plug’s pin",
    EndKind.DEVICE: "a device’s terminal",
}
Walk = list[tuple[End, Wire | None]]
"""Each end on the way, and the wire by which one goes on from it."""


def example(netlist: Netlist) -> Walk:
    """The first that goes from a lever's contact over a strip to a device, by the fewest ends; nothing without one."""
    walks = (_walk(netlist, circuit) for circuit in netlist.circuits if circuit.lever is not None)
    found = [walk for walk in walks if 2 < len(walk) <= MOST_ENDS]
    return min(found, key=len, default=[])


def _walk(netlist: Netlist, circuit: Circuit) -> Walk:
    """Along the wires of the circuit's first head; nothing when they lead to no device."""
    own = [wire for wire in netlist.wires if wire.circuit == circuit.id and wire.stem]
    first = next((wire for wire in own if wire.start.kind is EndKind.LEVER), None)
    left = [wire for wire in own if first is not None and wire.head == first.head]
    walk: Walk = []
    here = first.start if first is not None else None
    while here is not None:
        wire = next((one for one in left if here.point in (one.start.point, one.finish.point)), None)
        walk.append((here, wire))
        if wire is None:
            break
        left.remove(wire)
        here = wire.finish if wire.start.point == here.point else wire.start
    return walk if walk and walk[-1][0].kind is EndKind.DEVICE else []


def example_piece(walk: Walk, netlist: Netlist, index: Index, writer: Writer) -> Piece:
    """Ends in boxes, and between them the wires with their marks, heads and numbers."""
    setting = writer.setting
    width = (setting.width - (len(walk) - 1) * WIRE) / len(walk)
    height = MARK_HEIGHT + 2 * LABEL * setting.cap

    def paint(y: float) -> list[Shape]:
        shapes: list[Shape] = []
        for place, (end, wire) in enumerate(walk):
            box = Rectangle(setting.left + place * (width + WIRE), y, width, height)
            shapes += _box(end, box, index.stop(end), writer)
            if wire is not None:
                shapes += _wire(wire, Rectangle(box.right, y, WIRE, height), netlist, writer)
        return shapes

    return Piece(height=height + 4, paint=paint)


def _box(end: End, box: Rectangle, stop: str, writer: Writer) -> Iterator[Shape]:
    yield Box(x=box.x, y=box.y, width=box.width, height=box.height, fill="#f2f2f2", stroke="#000000", radius=1.5)
    lettering, inside = writer.lettering, box.width - 4
    cap, smallest = max(NAME_CAP, writer.setting.cap), lettering.smallest
    known = writer.known(end.shown)
    name = shortened(known, width=inside, largest=cap, smallest=smallest, face=BOLD, tail=len(end.terminal) + 1)
    middle = box.x + box.width / 2
    if name is not None:
        yield replace(name.at(middle, box.y + 0.43 * box.height, anchor="middle"), leads_to=stop)
    what = fit(WHAT[end.kind], width=inside, largest=writer.setting.cap, smallest=smallest, face=REGULAR)
    if what is not None:
        yield what.at(middle, box.y + 0.8 * box.height, anchor="middle", colour=SOFT)


def _wire(wire: Wire, place: Rectangle, netlist: Netlist, writer: Writer) -> Iterator[Shape]:
    middle = place.y + place.height / 2
    yield Line(x1=place.x, y1=middle, x2=place.right, y2=middle, width=0.9, colour=SOFT)
    function = replace(netlist.functions[wire.function], colour=wire.colour)
    x = place.x + (place.width - MARK_WIDTH) / 2
    yield from mark(function, Rectangle(x, middle - MARK_HEIGHT / 2, MARK_WIDTH, MARK_HEIGHT), writer.look)
    cap, smallest = writer.setting.cap, writer.lettering.smallest
    above = Rectangle(place.x, place.y, place.width, (place.height - MARK_HEIGHT) / 2)
    below = Rectangle(place.x, middle + MARK_HEIGHT / 2, place.width, above.height)
    for text, box, face in ((wire.head, above, BOLD), (f"wire {wire.number}", below, REGULAR)):
        line = fit(writer.known(text), width=box.width - 2, largest=cap, smallest=smallest, face=face)
        yield from centred(line, box) if line is not None else ()


def said(walk: Sequence[tuple[End, Wire | None]], netlist: Netlist) -> str:
    """The example read aloud."""
    wire = walk[0][1]
    if wire is None:
        return ""
    lever = netlist.lever_by_id[walk[0][0].thing]
    return f"{wire.head} is lever {lever.shown}, {wire.code} for {wire.function}."
