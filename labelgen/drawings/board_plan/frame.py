"""What surrounds the plan of a board on its page: which board, seen from where, to which scale. Millimetres."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.board_plan.cells import INK, SOFT
from labelgen.drawings.board_plan.labels import SAID, SMALL_CAP, fixed
from labelgen.drawings.board_plan.marks import DASH, WIRES, thickness
from labelgen.drawings.board_plan.runs import Bundles
from labelgen.drawings.board_plan.view import View
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.text_fitting import fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Box, Circle, Corner, Line, Outline, Shape
from labelgen.typefaces import BOLD, REGULAR

BOARD_CAP, NAME_CAP, VIEW_CAP = 7.0, 3.6, 3.4
HEAD, FOOT = 14.0, 12.0
SAYS = {
    True: ("Seen from below", "on your back, head in from the front edge: left and right change places"),
    False: ("Seen from above", "standing at its front edge"),
}
EYE_WIDE = 11.0
EDGE_AIR = 2.8
"""Between the board and what its edge is called: a plug or a panel at the edge stands out over it."""
SERIES = (1, 2, 5)
LEAST_BAR, BAR_HIGH = 40.0, 2.0
SAMPLE_WIDE, KEY_GAP, KEY_UP = 9.4, 6.0, 5.0


def head(
    board: tuple[str, str], view: View, room: Rectangle, lettering: Lettering, *, note: str = ""
) -> Iterator[Shape]:
    """The board's id, as large as can be, and its name; from where it is seen, with an eye, an arrow and a board."""
    right = room.right
    yield from eye(right - EYE_WIDE, room.y, below=view.below)
    said, how = (lettering.says(text) for text in SAYS[view.below])
    lines = (fixed(note or said, VIEW_CAP, BOLD), fixed(f"{said}: {how}" if note else how, SMALL_CAP, REGULAR))
    yield lines[0].at(right - EYE_WIDE - 3, room.y + VIEW_CAP + 0.3, anchor="end", colour=INK)
    yield lines[1].at(right - EYE_WIDE - 3, room.y + VIEW_CAP + 5.2, anchor="end", colour=SAID)
    free = room.width - EYE_WIDE - 3 - max(line.width for line in lines) - 6
    id_ = fit(lettering.known(board[0], BOLD), width=max(free, 20), largest=BOARD_CAP, smallest=SMALL_CAP, face=BOLD)
    if id_ is not None:
        yield id_.at(room.x, room.y + BOARD_CAP + 0.5, colour=INK)
        left = free - id_.width - 4
        title = (
            fit(lettering.known(board[1], REGULAR), width=left, largest=NAME_CAP, smallest=SMALL_CAP)
            if left > 8
            else None
        )
        yield from (
            [title.at(room.x + id_.width + 4, room.y + BOARD_CAP + 0.5, colour=SAID)] if title and board[1] else []
        )
    yield Line(x1=room.x, y1=room.y + HEAD - 2.4, x2=right, y2=room.y + HEAD - 2.4, width=0.3, colour=INK)


def eye(x: float, y: float, *, below: bool) -> Iterator[Shape]:
    """A board from its end, an arrow, and the eye that looks along it."""
    middle = x + EYE_WIDE / 2
    board, look, tip = (y + 0.6, y + 8.0, y + 2.2) if below else (y + 10.0, y + 2.4, y + 8.6)
    toward = -1 if below else 1
    yield Line(x1=x, y1=board, x2=x + EYE_WIDE, y2=board, width=1.2, colour=INK)
    start = look + toward * 2.4
    yield Line(x1=middle, y1=start, x2=middle, y2=tip, width=0.4, colour=INK)
    barbs = ((middle - 1.1, tip - toward * 1.5), (middle, tip), (middle + 1.1, tip - toward * 1.5))
    yield Outline(runs=(barbs,), stroke=INK, stroke_width=0.4, round_ends=True)
    yield Outline(runs=(_lens(middle, look),), closed=True, fill="#ffffff", stroke=INK, stroke_width=0.4)
    yield Circle(x=middle, y=look, radius=0.95, fill=INK)


def _lens(x: float, y: float) -> tuple[Corner, ...]:
    """An almond: two arcs, by a parabola each."""
    steps = [step / 8 for step in range(-8, 9)]
    upper = [(x + 3.2 * t, y - 1.9 * (1 - t * t)) for t in steps]
    return (*upper, *[(a, 2 * y - b) for a, b in reversed(upper[1:-1])])


def foot(view: View, room: Rectangle, paper: str, bundles: Bundles, lettering: Lettering) -> Iterator[Shape]:
    """A scale bar with what it says, and what the lines mean."""
    y = room.bottom - FOOT + 4.5
    bar = bar_length(view.scale)
    for part in range(4):
        x = room.x + part * bar / view.scale / 4
        fill = INK if part % 2 == 0 else "#ffffff"
        yield Box(x=x, y=y, width=bar / view.scale / 4, height=BAR_HIGH, fill=fill, stroke=INK, stroke_width=0.2)
    end = room.x + bar / view.scale
    yield fixed(f"{bar:g} mm", SMALL_CAP, REGULAR).at(end + 1.6, y + BAR_HIGH + 0.1, colour=INK)
    said = fixed(scale_said(view.scale, paper), SMALL_CAP, REGULAR)
    yield said.at(room.x, y + BAR_HIGH + 4.2, colour=SAID)
    yield from _key(view, room, y, bundles, lettering)


def scale_said(scale: float, paper: str) -> str:
    return f"1:{scale:g} on {paper}: 1 mm here is {scale:g} mm on the board. Print at actual size."


def bar_length(scale: float) -> float:
    """How many mm on the board the bar stands for: the shortest round length that is 40 mm or more on paper."""
    power = 1.0
    while True:
        for step in SERIES:
            if step * power / scale >= LEAST_BAR:
                return step * power
        power *= 10


def _key(view: View, room: Rectangle, y: float, bundles: Bundles, lettering: Lettering) -> Iterator[Shape]:
    """From the right, as far as they are met: what is dashed, a bundle, one wire, the panel's side, way 1."""
    largest = max((run.wires for run in bundles.runs), default=1)
    grey, dashed = (WIRES, ()), (WIRES, DASH)
    samples = [
        *([(lettering.says("above the board"), 0.9, *dashed)] if any(run.above for run in bundles.runs) else []),
        *([(f"{largest} wires", thickness(largest), *grey)] if largest > 1 else []),
        ("1 wire", thickness(1), *grey),
        ("panel side", 0.9, INK, ()),
    ]
    texts = [fixed(text, SMALL_CAP, REGULAR) for text, *_ in samples]
    way_1 = fixed("way 1", SMALL_CAP, REGULAR)
    width = sum(text.width + SAMPLE_WIDE + KEY_GAP for text in texts) + way_1.width + 2.5
    bar_end = room.x + bar_length(view.scale) / view.scale + 24
    y -= KEY_UP if room.right - width < bar_end else 0
    x, middle = room.right, y + BAR_HIGH / 2 + 0.1
    for text, (_, wide, colour, dash) in zip(texts, samples, strict=True):
        x -= text.width
        yield text.at(x, y + BAR_HIGH + 0.1, colour=SAID)
        x -= SAMPLE_WIDE
        yield Line(x1=x, y1=middle, x2=x + SAMPLE_WIDE - 1.4, y2=middle, width=wide, colour=colour, dash=dash)
        x -= KEY_GAP
    yield way_1.at(x - way_1.width, y + BAR_HIGH + 0.1, colour=SAID)
    yield Circle(x=x - way_1.width - 1.8, y=middle, radius=0.6, fill=INK)


def edges(
    view: View, neighbours: Sequence[tuple[str, str]], lettering: Lettering, *, known_size: bool
) -> Iterator[Shape]:
    """Below the front edge what it is; at the others which boards are there. From the plan's upper left corner."""
    front = lettering.says("FRONT EDGE" if known_size else "towards the front")
    yield fixed(front, SMALL_CAP, BOLD).at(
        view.width / 2, view.height + EDGE_AIR + SMALL_CAP, anchor="middle", colour=INK
    )
    for side, said in neighbours:
        line = fixed(said, SMALL_CAP, BOLD)
        if side == "left":
            yield line.at(-EDGE_AIR, view.height / 2, anchor="middle", colour=SOFT, turn=-90)
        elif side == "right":
            yield line.at(view.width + EDGE_AIR, view.height / 2, anchor="middle", colour=SOFT, turn=90)
        else:
            y = -EDGE_AIR if side == "back" else view.height + EDGE_AIR + SMALL_CAP
            yield line.at(view.width * 0.2, y, anchor="middle", colour=SOFT)
