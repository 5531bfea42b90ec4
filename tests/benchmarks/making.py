"""How long `make` takes against a floor: `python tests/benchmarks/making.py [POINTS …]`.

The floor is a bare loop over reportlab that draws the very same shapes, symbols included, from memory: what no program
that prints them with it can do without. Each size runs in a process of its own, so that the peak of its memory is its
own. Not a test.
"""

import gc
import subprocess
import sys
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
from labelgen.model.drawing import Box, Circle, Line, Outline, Shape, Symbol, Text
from labelgen.model.sheet import Document
from labelgen.typefaces import font

SIZES = (50, 500, 5000)
KINDS = ("markers", "flags", "tags", "plates", "places")


def main() -> None:
    if len(sys.argv) == 3 and sys.argv[1] == "--one":
        print(one(int(sys.argv[2])), flush=True)
        return
    sizes = [int(size) for size in sys.argv[1:]] or SIZES
    print("points   wires   pages   check    make   floor   make ÷ floor   s a 1000 wires   peak MB")
    for size in sizes:
        subprocess.run([sys.executable, __file__, "--one", str(size)], check=True)


def one(points: int) -> str:
    from labelgen.making import Request
    from labelgen.pipeline import check_file, make
    from labelgen.rendering import pdf

    gc.set_threshold(100_000)
    documents: list[Document] = []
    real = pdf.pdf_bytes

    def kept(document: Document) -> bytes:
        documents.append(document)
        return real(document)

    pdf.pdf_bytes = kept
    with TemporaryDirectory() as folder:
        file = Path(folder) / "railway.yaml"
        file.write_text(railway(points), encoding="utf-8")
        begun = process_time()
        checked, problems = check_file(file)
        assert checked is not None, problems
        read = process_time()
        result = make(checked, Request(only=frozenset(KINDS)))
    made = process_time()
    peak = getrusage(RUSAGE_SELF).ru_maxrss / 1024
    assert not [problem for problem in result.problems if problem.severity == "error"], result.problems[:3]
    wires, pages = len(checked.netlist.wires), sum(len(document.pages) for document in documents)
    begun_floor = process_time()
    for document in documents:
        floor(document)
    least = process_time() - begun_floor
    took = made - begun
    return (
        f"{points:6} {wires:7} {pages:7} {read - begun:7.2f} {made - read:7.2f} {least:7.2f} {took / least:14.2f}"
        f" {took / wires * 1000:16.2f} {peak:9.0f}"
    )


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


if __name__ == "__main__":
    main()
