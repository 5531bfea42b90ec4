"""The end of a strip marker: which strip, which side, from which supply, and where the board's front edge lies."""

from collections.abc import Sequence
from dataclasses import dataclass

from labelgen.drawings.lettering import Lettering
from labelgen.drawings.markers.reading import OnLabel
from labelgen.drawings.text_fitting import Fitted, break_lines, fit
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Corner, Line, Outline, Shape
from labelgen.typefaces import BOLD, REGULAR, size_for_cap

MARGIN = 0.8
GAP = 1.4
NARROWEST_COLUMN, WIDEST_COLUMN = 11.0, 26.0
ARROW_COLUMN = 6.4
ID_CAP, SIDE_CAP, EXTRA_CAP, FRONT_CAP = 3.3, 1.6, 1.4, 1.35
"""mm, on a marker 10 mm high."""
MOST_LINES = 4
"""Of what is said besides, one below the other in a column: closer, they run into each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    """A tab at its size, with its top left corner at the origin."""

    width: float
    shapes: tuple[Shape, ...]


def tab(
    lettering: Lettering,
    *,
    title: str,
    side: str,
    extras: Sequence[str],
    front: OnLabel | None,
    height: float,
    scale: float,
) -> Tab:
    """A tab just wide enough for its texts. `front` None: no arrow."""
    lines = _broken(lettering, extras, scale)
    beside = lines if len(lines) > 1 else []
    under = [] if beside else lines
    rows = [(title, ID_CAP, BOLD), (side, SIDE_CAP, REGULAR), *((text, EXTRA_CAP, REGULAR) for text in under)]
    narrowest = 0.0 if beside else NARROWEST_COLUMN * scale
    shapes, right = _column(lettering, rows, left=MARGIN, narrowest=narrowest, height=height, scale=scale)
    for first in range(0, len(beside), MOST_LINES):
        more = [(text, EXTRA_CAP, REGULAR) for text in beside[first : first + MOST_LINES]]
        found, right = _column(lettering, more, left=right + GAP, narrowest=0.0, height=height, scale=scale)
        shapes += found
    if front:
        cap = max(FRONT_CAP * scale, lettering.smallest)
        word = Fitted(text="FRONT", face=BOLD, size=size_for_cap(cap, BOLD), stretch=1.0)
        box = Rectangle(right + GAP, MARGIN, max(word.width, ARROW_COLUMN * scale), height - 2 * MARGIN)
        shapes += arrow_to_front(word, front, box, scale)
        right = box.right
    return Tab(width=right + MARGIN, shapes=tuple(shapes))


def _broken(lettering: Lettering, extras: Sequence[str], scale: float) -> list[str]:
    """What is too long for one line, as many supplies are, over several."""
    widest, cap, lines = WIDEST_COLUMN * scale, max(EXTRA_CAP * scale, lettering.smallest), []
    for text in extras:
        whole = fit(text, width=widest, largest=cap, smallest=lettering.smallest)
        lines += [text] if whole is not None else break_lines(text, width=widest, cap=cap)
    return lines


def _column(
    lettering: Lettering,
    rows: Sequence[tuple[str, float, str]],
    *,
    left: float,
    narrowest: float,
    height: float,
    scale: float,
) -> tuple[list[Shape], float]:
    """Rows of text below each other with even gaps, and where the column ends on the right."""
    widest = WIDEST_COLUMN * scale
    fitted = [line for text, cap, face in rows if (line := _fitted(lettering, text, widest, cap * scale, face))]
    free = height - 2 * MARGIN - sum(line.cap for line in fitted)
    gap = min(1.35 * scale, free / max(1, len(fitted) - 0.5))
    y = (height - sum(line.cap for line in fitted) - gap * (len(fitted) - 1)) / 2
    shapes: list[Shape] = []
    for line in fitted:
        y += line.cap
        shapes.append(line.at(left, y))
        y += gap
    width = max([narrowest, *(line.width for line in fitted)])
    return shapes, left + width


def _fitted(lettering: Lettering, text: str, width: float, cap: float, face: str) -> Fitted | None:
    largest = max(cap, lettering.smallest)
    if face == BOLD:
        return lettering.head(text, width=width, largest=largest)
    return lettering.line(text, width=width, largest=largest, face=face)


def arrow_to_front(word: Fitted, front: OnLabel, box: Rectangle, scale: float) -> list[Shape]:
    """FRONT, and an arrow that points to the board's front edge when the marker is stuck on."""
    middle = box.x + box.width / 2
    room = box.height - word.cap - 0.9 * scale
    if front == "up":
        arrow = _arrow((middle, box.y + room), (middle, box.y), scale)
        baseline = box.bottom
    elif front == "down":
        arrow = _arrow((middle, box.bottom - room), (middle, box.bottom), scale)
        baseline = box.y + word.cap
    else:
        y = box.y + (box.height + word.cap + 1.2 * scale) / 2 + 0.9 * scale
        ends = ((box.right, y), (box.x, y)) if front == "left" else ((box.x, y), (box.right, y))
        arrow = _arrow(*ends, scale)
        baseline = y - 2.2 * scale
    return [word.at(middle, baseline, anchor="middle"), *arrow]


def _arrow(tail: Corner, tip: Corner, scale: float) -> list[Shape]:
    """A shaft and a filled head."""
    (x1, y1), (x2, y2) = tail, tip
    length = max(abs(x2 - x1), abs(y2 - y1))
    along = ((x2 - x1) / length, (y2 - y1) / length)
    long, half = 2.0 * scale, 1.15 * scale
    neck = (x2 - long * along[0], y2 - long * along[1])
    sides = [(neck[0] + sign * half * along[1], neck[1] + sign * half * along[0]) for sign in (1, -1)]
    return [
        Line(x1=x1, y1=y1, x2=neck[0], y2=neck[1], width=0.55 * scale),
        Outline(runs=((tip, sides[0], sides[1]),), closed=True, fill="#000000"),
    ]
