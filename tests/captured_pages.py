"""What comes out of the printer: in place of the writer of PDFs, the pages themselves are kept and read."""

from dataclasses import dataclass, field

from labelgen.model.built.built_labels import STUCK_ON
from labelgen.model.drawing import Circle, Drawing, Text
from labelgen.model.sheet import Document
from labelgen.reading.data_readers import stocks
from labelgen.rendering.text_record import text_record

FLAGS = stocks()["a4-65-38x21"]
"""On which flags and plates are printed."""
Key = tuple[str, str]
"""Kind, and the label's name."""


@dataclass
class Paper:
    """What came out of the printer last."""

    stickers: dict[Key, list[Drawing]] = field(default_factory=dict)
    cells: dict[str, list[set[int]]] = field(default_factory=dict)
    """Kind: the cells of each sheet."""


def plain(drawing: Drawing) -> str:
    """All that is on it, but for the letter of its issue in its ring."""
    shapes = drawing.shapes
    if len(shapes) > 1 and isinstance(shapes[-2], Circle) and isinstance(shapes[-1], Text):
        shapes = shapes[:-2]
    return text_record(Drawing(width=drawing.width, height=drawing.height, shapes=shapes, name="", place=drawing.place))


def letter(drawing: Drawing) -> str:
    """ "" where none is printed."""
    last = drawing.shapes[-1]
    return last.text if isinstance(drawing.shapes[-2], Circle) and isinstance(last, Text) else ""


class Printer:
    """Takes the place of the writer of PDFs, and keeps what it was given."""

    def __init__(self) -> None:
        self.paper = Paper()

    def __call__(self, document: Document) -> bytes:
        kind = document.title.rpartition(": ")[2].split("-")[0]
        for page in document.pages if kind in STUCK_ON else ():
            cells = set()
            for placed in page.placed:
                self.paper.stickers.setdefault((kind, placed.drawing.label), []).append(placed.drawing)
                cells.add(
                    (int((placed.y + 1 - FLAGS.top) / FLAGS.pitch_y), int((placed.x + 1 - FLAGS.left) / FLAGS.pitch_x))
                )
            if kind in ("flags", "plates"):
                numbers = {row_and_column[0] * FLAGS.columns + row_and_column[1] for row_and_column in cells}
                self.paper.cells.setdefault(kind, []).append(numbers)
        return b"%PDF"
