"""How long `make` takes against a floor: `python tests/benchmarks/making.py [--other | --memory] [POINTS …]`.

The floor is a bare loop over reportlab that draws the very same shapes, symbols included, from memory: what no program
that prints them with it can do without. It draws each document as soon as `make` has made it. Each size runs in a
process of its own. `--other`: what is not a label, each kind by itself, checking left out. `--memory`: the peak of
memory, without a floor, which takes more of it. Not a test.
"""

import gc
import subprocess
import sys
from collections.abc import Callable, Iterable
from io import BytesIO
from pathlib import Path
from resource import RUSAGE_SELF, getrusage
from tempfile import TemporaryDirectory
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from generated_railways import railway
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from labelgen.lengths import POINTS_PER_MM as PT
from labelgen.making import Checked, Request
from labelgen.model.drawing import Box, Circle, Line, Outline, Shape, Symbol, Text
from labelgen.model.sheet import Document
from labelgen.pipeline import check_file, make
from labelgen.rendering import pdf
from labelgen.typefaces import font

SIZES, OTHER_SIZES = (50, 500, 5000), (50, 500)
KINDS = ("markers", "flags", "tags", "plates", "places")


def main() -> None:
    words = sys.argv[1:]
    if words[:1] == ["--one"]:
        for line in TABLES[words[1]][1](int(words[2])):
            print(line, flush=True)
        return
    table = next((word for word in words if word in TABLES), "")
    heading, _, usual = TABLES[table]
    print(heading, flush=True)
    for size in [int(word) for word in words if word.isdigit()] or usual:
        subprocess.run([sys.executable, __file__, "--one", table, str(size)], check=True)


class Clock:
    """Seconds of the processor while making, and while the floor draws what was made."""

    def __init__(self) -> None:
        self.floor, self.pages = 0.0, 0
        self.refused = ""
        """Why something could not be made."""
        real = pdf.pdf_bytes

        def both(document: Document) -> bytes:
            content = real(document)
            self.pages += len(document.pages)
            begun = process_time()
            floor(document)
            self.floor += process_time() - begun
            return content

        pdf.pdf_bytes = both

    def made(self, checked: Checked, kinds: Iterable[str]) -> float:
        self.floor, self.pages = 0.0, 0
        begun = process_time()
        result = make(checked, Request(only=frozenset(kinds)))
        took = process_time() - begun - self.floor
        self.refused = next((problem.code for problem in result.problems if problem.severity == "error"), "")
        return took


def checked_railway(points: int) -> tuple[Checked, float]:
    """And how long that took."""
    gc.set_threshold(100_000)  # as the command does
    with TemporaryDirectory() as folder:
        file = Path(folder) / "railway.yaml"
        file.write_text(railway(points), encoding="utf-8")
        begun = process_time()
        checked, problems = check_file(file)
    assert checked is not None, problems
    return checked, process_time() - begun


def labels(points: int) -> Iterable[str]:
    clock = Clock()
    checked, checking = checked_railway(points)
    making = clock.made(checked, KINDS)
    assert not clock.refused, clock.refused
    wires, took = len(checked.netlist.wires), checking + making
    yield (
        f"{points:6} {wires:7} {clock.pages:7} {checking:7.2f} {making:7.2f} {clock.floor:7.2f}"
        f" {took / clock.floor:14.2f} {took / wires * 1000:16.2f}"
    )


def memory(points: int) -> Iterable[str]:
    checked, _ = checked_railway(points)
    after_checking = peak_mb()
    make(checked, Request(only=frozenset(KINDS)))
    yield f"{points:6} {len(checked.netlist.wires):7} {after_checking:16.0f} {peak_mb():14.0f}"


def peak_mb() -> float:
    return getrusage(RUSAGE_SELF).ru_maxrss / 1024


def others(points: int) -> Iterable[str]:
    from labelgen.makers.maker_list import MAKERS

    clock = Clock()
    checked, _ = checked_railway(points)
    for kind in MAKERS:
        if kind not in KINDS:
            took = clock.made(checked, [kind])
            ratio = f"{took / clock.floor:14.2f}" if clock.floor else "    no PDF"
            refused = f"   not all made: {clock.refused}" if clock.refused else ""
            yield f"{points:6} {kind:12} {clock.pages:6} {took:7.2f} {clock.floor:7.2f} {ratio}{refused}"


def floor(document: Document) -> bytes:
    """The document by plain calls, each shape as it stands."""
    into = BytesIO()
    canvas = Canvas(into, pageCompression=1, invariant=1)
    for page in document.pages:
        canvas.setPageSize((page.width * PT, page.height * PT))
        for placed in page.placed:
            canvas.saveState()
            canvas.translate(placed.x * PT, (page.height - placed.y) * PT)
            if placed.turn == 90:
                canvas.translate(placed.drawing.height * PT, 0)
                canvas.rotate(-90)
            for shape in placed.drawing.shapes:
                draw(canvas, shape)
            canvas.restoreState()
        canvas.translate(0, page.height * PT)
        for shape in page.marks:
            draw(canvas, shape)
        canvas.showPage()
    canvas.save()
    return into.getvalue()


def draw(canvas: Canvas, shape: Shape) -> None:  # noqa: C901 -- one arm for each kind of shape
    match shape:
        case Line():
            canvas.setStrokeColor(HexColor(shape.colour))
            canvas.setLineWidth(shape.width * PT)
            canvas.line(shape.x1 * PT, -shape.y1 * PT, shape.x2 * PT, -shape.y2 * PT)
        case Box():
            stroke, fill = paint(canvas, shape)
            canvas.rect(shape.x * PT, -(shape.y + shape.height) * PT, shape.width * PT, shape.height * PT, stroke, fill)
        case Circle():
            stroke, fill = paint(canvas, shape)
            canvas.circle(shape.x * PT, -shape.y * PT, shape.radius * PT, stroke, fill)
        case Outline():
            stroke, fill = paint(canvas, shape)
            path = canvas.beginPath()
            for run in shape.runs:
                for number, (x, y) in enumerate(run):
                    (path.lineTo if number else path.moveTo)(x * PT, -y * PT)
                if shape.closed:
                    path.close()
            canvas.drawPath(path, stroke, fill)
        case Symbol():
            path = canvas.beginPath()
            for row, modules in enumerate(shape.rows):
                for column, dark in enumerate(modules):
                    if dark:
                        x, y = shape.x + column * shape.module, shape.y + (row + 1) * shape.module
                        path.rect(x * PT, -y * PT, shape.module * PT, shape.module * PT)
            canvas.drawPath(path, 0, 1)
        case Text():
            canvas.saveState()
            canvas.setFillColor(HexColor(shape.colour))
            canvas.translate(shape.x * PT, -shape.y * PT)
            canvas.rotate(-shape.turn)
            canvas.scale(shape.stretch, 1)
            font(shape.face)
            canvas.setFont(shape.face, shape.size * PT)
            draws = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}
            draws[shape.anchor](0, 0, shape.text)
            canvas.restoreState()


def paint(canvas: Canvas, shape: Box | Circle | Outline) -> tuple[int, int]:
    if shape.stroke:
        canvas.setStrokeColor(HexColor(shape.stroke))
        canvas.setLineWidth(shape.stroke_width * PT)
    if shape.fill:
        canvas.setFillColor(HexColor(shape.fill))
    return int(bool(shape.stroke)), int(bool(shape.fill))


TABLES: dict[str, tuple[str, Callable[[int], Iterable[str]], tuple[int, ...]]] = {
    "": ("points   wires   pages   check    make   floor   make ÷ floor   s a 1000 wires", labels, SIZES),
    "--other": ("points kind          pages    make   floor   make ÷ floor", others, OTHER_SIZES),
    "--memory": ("points   wires   MB after check   MB after make", memory, SIZES),
}
"""Heading, rows of one size, sizes."""


if __name__ == "__main__":
    main()
