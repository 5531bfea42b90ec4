"""The holes of a panel as CSV, for a spreadsheet or a drilling machine."""

import csv
from collections.abc import Sequence
from io import StringIO

from labelgen.model.panel.holes import PanelHole

COLUMNS = ("hole", "x", "y", "diameter")


def drilling_csv(marks: Sequence[str], holes: Sequence[PanelHole]) -> bytes:
    """One hole a line; mm from the top left corner of the face, y down, to a thousandth; lines end in CR LF.

    `marks`: what the holes are called on the drilling template. No byte order mark and no quotes, for machines.
    """
    into = StringIO(newline="")
    writer = csv.writer(into, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for mark, hole in zip(marks, holes, strict=True):
        writer.writerow((mark, *map(written, (hole.at.x, hole.at.y, hole.diameter))))
    return into.getvalue().encode()


def written(length_mm: float) -> str:
    """A length to a thousandth of a millimetre, without zeros that say nothing."""
    text = f"{length_mm:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
