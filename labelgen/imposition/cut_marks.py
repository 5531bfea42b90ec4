"""Marks that belong to a printed page: cut lines, the 100 mm check rule, small headings."""

from typing import Literal

from labelgen.model.drawing import Corner, Line, Shape, Text
from labelgen.typefaces import FACES, REGULAR, face_for, size_for_cap, text_width

CUT_COLOUR = "#000000"
"""Black: a thin grey line is broken into dots by a laser printer."""
CUT_WIDTH = 0.1
NOTE_CAP = 1.5
"""Height of a capital in notes on the page, in mm."""

RULE_LENGTH = 100.0
RULE_HEIGHT = 2.4
RULE_NOTE = "100 mm – print at actual size"
_GAP = 1.5


def cut_line(x1: float, y1: float, x2: float, y2: float) -> Line:
    return Line(x1=x1, y1=y1, x2=x2, y2=y2, width=CUT_WIDTH, colour=CUT_COLOUR)


def note(
    text: str,
    x: float,
    y: float,
    *,
    anchor: Literal["start", "middle", "end"] = "start",
    cap: float = NOTE_CAP,
    face: str = REGULAR,
) -> Text:
    """A small text on the page, its baseline at y."""
    chosen = face_for(text, face)
    size = size_for_cap(cap, chosen)
    return Text(x=x, y=y, text=text, face=chosen, size=size, anchor=anchor)


def rule_width() -> float:
    """How long the check rule is with its note, in mm."""
    return RULE_LENGTH + _GAP + text_width(RULE_NOTE, REGULAR, size_for_cap(NOTE_CAP, REGULAR))


def check_rule(x: float, y: float, *, upright: bool = False) -> tuple[Shape, ...]:
    """A 100 mm rule with a tick every 10 mm and its note, by its top left corner; `RULE_HEIGHT` high.

    Upright it runs down the page, and is `RULE_HEIGHT` wide. A printed rule is the only proof of the printed size.
    """
    ends: list[tuple[Corner, Corner]] = [
        ((along, RULE_HEIGHT - _tick(along)), (along, RULE_HEIGHT)) for along in range(0, 101, 10)
    ]
    ends.append(((0, RULE_HEIGHT), (RULE_LENGTH, RULE_HEIGHT)))
    lines = [_rule_line((x, y), start, end, upright=upright) for start, end in ends]
    size = size_for_cap(NOTE_CAP, REGULAR)
    along, down = RULE_LENGTH + _GAP, (RULE_HEIGHT + FACES[REGULAR].cap * size) / 2
    at_x, at_y = (x + RULE_HEIGHT - down, y + along) if upright else (x + along, y + down)
    words = Text(x=at_x, y=at_y, text=RULE_NOTE, face=REGULAR, size=size, turn=90 if upright else 0)
    return (*lines, words)


def _tick(along: int) -> float:
    if along % 100 == 0:
        return RULE_HEIGHT
    return 1.7 if along == 50 else 1.1


def _rule_line(corner: Corner, start: Corner, end: Corner, *, upright: bool) -> Line:
    """A line by how far along the rule, and how far below its top, its ends are."""
    (x, y), (a1, d1), (a2, d2) = corner, start, end
    if upright:  # turned clockwise: what was on top is on the right
        return Line(x1=x + RULE_HEIGHT - d1, y1=y + a1, x2=x + RULE_HEIGHT - d2, y2=y + a2, width=0.15)
    return Line(x1=x + a1, y1=y + d1, x2=x + a2, y2=y + d2, width=0.15)
