"""The label of a hole, for both faces of a cross-member: its id, and the heads of what goes through. Sizes are mm."""

from collections.abc import Iterator, Sequence

from labelgen.drawings.ambiguous_numbers import needs_underline
from labelgen.drawings.lettering import Lettering
from labelgen.drawings.places.hole_heads import forms
from labelgen.drawings.text_fitting import LINE_HEIGHT, Fitted, fit, underline
from labelgen.lengths import Rectangle
from labelgen.model.drawing import Line, Shape
from labelgen.model.netlist import Wire
from labelgen.model.threaded_holes import ThreadedHole
from labelgen.typefaces import BOLD

ID_SHARE, ID_CAP, NOTE_CAP, HEADS_CAP, GAP = 0.3, 4.4, 1.6, 2.4, 1.6
MOST_ID = 20.0
"""mm: the most that the id's column takes."""
GREY = "#444444"


FORMS = 4
"""In how many ways `forms` says what goes through, the fullest first."""


def hole_shapes(hole: ThreadedHole, board: str, face: Rectangle, lettering: Lettering, form: int = 0) -> list[Shape]:
    """The hole at the left, the heads of its wires at the right: in threading order, or in a briefer form."""
    width = min(MOST_ID, ID_SHARE * face.width)
    left = Rectangle(face.x, face.y, width, face.height)
    right = Rectangle(left.right + 2 * GAP, face.y, face.width - width - 2 * GAP, face.height)
    x = left.right + GAP
    rule = Line(x1=x, y1=face.y, x2=x, y2=face.bottom, width=0.25)
    return [*_hole(hole, board, left, lettering), rule, *_heads(hole.wires, right, lettering, form)]


def _hole(hole: ThreadedHole, board: str, box: Rectangle, lettering: Lettering) -> Iterator[Shape]:
    title = lettering.head(hole.shown, width=box.width, largest=ID_CAP)
    y = box.y + ID_CAP
    if title:
        yield title.at(box.x, y)
        if needs_underline(title.text):
            yield underline(title, box.x + title.width / 2, y, characters=len(title.text))
    count = "1 wire" if len(hole.wires) == 1 else f"{len(hole.wires)} wires"
    for said in (board, count):
        y += 1.3 + max(NOTE_CAP, lettering.smallest)
        line = lettering.line(said, width=box.width, largest=max(NOTE_CAP, lettering.smallest))
        if line:
            yield line.at(box.x, y, colour=GREY)


def _heads(wires: Sequence[Wire], box: Rectangle, lettering: Lettering, form: int) -> list[Shape]:
    """In lines of one size, as large as they fit, from the top left."""
    words = [lettering.known(head, BOLD) for head in list(forms(wires))[form]]
    cap = max(HEADS_CAP, lettering.smallest)
    while True:
        lines = _lines(words, box.width, cap)
        if lines is not None and cap + (len(lines) - 1) * LINE_HEIGHT * cap + 0.3 * cap <= box.height:
            return [line.at(box.x, box.y + cap + number * LINE_HEIGHT * cap) for number, line in enumerate(lines)]
        if cap <= lettering.smallest:
            lettering.too_long(" ".join(words))
            return []
        cap = max(lettering.smallest, 0.96 * cap)


def _lines(words: Sequence[str], width: float, cap: float) -> list[Fitted] | None:
    """The heads over as many lines as they take; None when one of them is wider than a line."""
    lines: list[Fitted] = []
    for word in words:
        longer = fit(f"{lines[-1].text}  {word}", width=width, largest=cap, smallest=cap, face=BOLD) if lines else None
        if longer is not None and longer.stretch == 1:
            lines[-1] = longer
            continue
        alone = fit(word, width=width, largest=cap, smallest=cap, face=BOLD)
        if alone is None:
            return None
        lines.append(alone)
    return lines
