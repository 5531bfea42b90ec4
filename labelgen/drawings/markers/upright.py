"""Markers of narrow pitches, whose heads run upwards: as much higher as the heads need to be read from further away."""

from collections.abc import Sequence

from labelgen.drawings.markers.rows import SAFE, are_many, narrowed, row_of
from labelgen.drawings.text_fitting import NARROWEST
from labelgen.lengths import Rectangle
from labelgen.model.look import Look
from labelgen.typefaces import BOLD, face_for, size_for_cap, text_width


def higher_by(heads: Sequence[str], cell: Rectangle, look: Look, *, largest: float, most: float) -> float:
    """By how many mm that cell must be higher for the longest head upwards, condensed; 0 where heads stand level.

    A head that would need more than `most` mm is left as small as it is.
    """
    wanted, level = look.head_cap, narrowed(cell, SAFE).width
    widths = [NARROWEST * _width(head, wanted) for head in heads]
    longest = max((width for width in widths if width <= cell.height + most), default=0.0)
    if longest <= cell.height or not are_many(sum(width > level for width in widths), len(heads)):
        return 0.0
    tall = [(head, Rectangle(cell.x, cell.y, cell.width, longest)) for head in heads]
    row = row_of(tall, face=BOLD, largest=largest, smallest=look.smallest_cap, wanted=wanted)
    return longest - cell.height if row.turn else 0.0


def _width(text: str, cap: float) -> float:
    face = face_for(text, BOLD)
    return text_width(text, face, size_for_cap(cap, face))
